//! Files as they were read, and the drafts in them; or every mistake of every file.

use super::known::{self, Identity};
use crate::problem::{MISTAKES, Problem};
use formats::workbook::NotRead;
use notes::{Context, Criteria, Drafted, Found, Mistake, Notes, Place, Source, Surroundings, Wrong};
use record::entry::FileHash;
use record::kinds::{JobOpened, ShaftPlanned};
use record::{Body, Held, Log, Record};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// One file as it was read.
pub(crate) struct File {
    pub(super) name: String,
    pub(super) bytes: Vec<u8>,
    folder: PathBuf,
    /// The sheet of a workbook; the first when left out.
    sheet: Option<String>,
}

/// Reads files; of workbooks the sheet of a name, or the first.
pub(crate) fn read_files(paths: &[PathBuf], sheet: Option<&str>) -> Result<Vec<File>, Problem> {
    paths.iter().map(|path| read_file(path, sheet)).collect()
}

fn read_file(path: &Path, sheet: Option<&str>) -> Result<File, Problem> {
    let bytes = std::fs::read(path).map_err(|error| Problem::file("Reading", path, &error))?;
    let name = path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    if is_lines(&name, &bytes) {
        return Err(record_itself(path));
    }
    let folder = path.parent().map_or_else(PathBuf::new, Path::to_path_buf);
    Ok(File { name, folder, bytes, sheet: sheet.map(str::to_owned) })
}

/// The lines of a record, by the name of the file or by what stands in it.
fn is_lines(name: &str, bytes: &[u8]) -> bool {
    let first = bytes.split(|byte| *byte == b'\n').next().unwrap_or_default();
    let entry = std::str::from_utf8(first).ok().and_then(wire::Claim::of);
    name.to_lowercase().ends_with(".jsonl") || entry.is_some_and(|claim| claim.seq.is_some())
}

fn record_itself(path: &Path) -> Problem {
    let what = format!("{} is a record with its signatures, not field notes.", path.display());
    let next = format!("Take it in as it is: shaftbook merge {} --job FOLDER", path.display());
    Problem::new(what, NOTHING_READ, next).exit(MISTAKES)
}

/// What a person said about tables on the command line.
pub(crate) struct Ask<'a> {
    pub(crate) table: Option<&'a str>,
    pub(crate) shaft: Option<&'a str>,
    pub(crate) date: Option<&'a str>,
    pub(crate) author: Option<&'a str>,
}

/// Reads every file; all the mistakes of all of them, or all the drafts.
pub(crate) fn take(files: &[File], ask: &Ask<'_>, record: &Record) -> Result<Vec<Notes>, Problem> {
    take_or_say(files, ask, record)?.map_err(|mistakes| refused(&mistakes))
}

/// The same, with the mistakes one by one.
pub(super) fn take_or_say(
    files: &[File],
    ask: &Ask<'_>,
    record: &Record,
) -> Result<Result<Vec<Notes>, Vec<Mistake>>, Problem> {
    let mut context = context_of(record)?;
    let before = Before::of(record);
    let (mut all, mut mistakes) = (Vec::new(), Vec::new());
    for (index, file) in files.iter().enumerate() {
        let twice = files[..index].iter().any(|earlier| earlier.bytes == file.bytes);
        let again = twice || before.files.contains(file.name.as_str());
        context = context.map(|context| context.read_before(again));
        let around = Around { record, folder: &file.folder };
        let as_table = file.as_table(context.as_ref())?;
        let bytes = as_table.as_deref().unwrap_or(&file.bytes);
        let source = Source { name: &file.name, bytes };
        let read = if as_table.is_some() {
            table(source, ask, context.as_ref(), &around)?
        } else {
            notes::read(source, context.as_ref(), &around)
        };
        match read {
            Ok(notes) => {
                mistakes.extend(before.changed_plans(&notes));
                context = Some(notes.context.clone());
                all.push(notes);
            }
            Err(more) => mistakes.extend(more),
        }
    }
    Ok(if mistakes.is_empty() { Ok(all) } else { Err(mistakes) })
}

impl File {
    /// The file as a table: as it is, or a sheet of a workbook; `None` for notes.
    ///
    /// # Errors
    /// When a workbook cannot be read.
    pub(super) fn as_table(&self, context: Option<&Context>) -> Result<Option<Vec<u8>>, Problem> {
        let name = self.name.to_lowercase();
        if name.ends_with(".csv") {
            return Ok(Some(self.bytes.clone()));
        }
        if !self.is_workbook() {
            return Ok(None);
        }
        let comma = context.is_some_and(|context| context.defaults.comma);
        let read = formats::workbook::sheet_of(&self.bytes, self.sheet.as_deref(), comma);
        let read = read.map_err(|error| {
            let what = format!("{}: {error}.", self.name);
            let next = match error {
                NotRead::NoSuchSheet(_) => "Name one of these with --sheet.",
                _ => "Save it as .xlsx with the table on its first sheet, or as .csv, and enter that.",
            };
            Problem::new(what, NOTHING_READ, next).exit(MISTAKES)
        })?;
        Ok(Some(read.csv.into_bytes()))
    }

    fn is_workbook(&self) -> bool {
        let name = self.name.to_lowercase();
        [".xlsx", ".xlsm", ".xls", ".ods"].iter().any(|ending| name.ends_with(ending))
    }

    /// Which sheet was read and which were not, where there are several.
    pub(super) fn sheets_told(&self) -> Option<String> {
        let read = self
            .is_workbook()
            .then(|| formats::workbook::sheet_of(&self.bytes, self.sheet.as_deref(), false));
        let read = read?.ok().filter(|read| !read.others.is_empty())?;
        Some(format!(
            "{}: the sheet {} was read; not read: {} (--sheet NAME).",
            self.name,
            read.name,
            read.others.join(", ")
        ))
    }
}

/// What earlier readings left in the record.
struct Before<'r> {
    files: BTreeSet<&'r str>,
    /// What was planned: `None` is the job, which is opened once.
    planned: BTreeSet<Option<&'r str>>,
    plans: BTreeSet<Identity>,
}

impl<'r> Before<'r> {
    fn of(record: &'r Record) -> Self {
        let mut before = Before { files: BTreeSet::new(), planned: BTreeSet::new(), plans: BTreeSet::new() };
        for held in record.entries() {
            let Held::Known(entry) = held else { continue };
            match &entry.body {
                Body::NotesRead(read) => {
                    before.files.insert(&read.name);
                }
                Body::JobOpened(_) | Body::ShaftPlanned(_) => {
                    before.planned.insert(entry.shaft.as_deref());
                    before.plans.insert(known::of_entry(entry));
                }
                _ => {}
            }
        }
        before
    }

    /// Openings of the job and plans of shafts that are not what the record holds: those are corrections.
    fn changed_plans(&self, notes: &Notes) -> Vec<Mistake> {
        let plans = |draft: &&Drafted| matches!(draft.kind().word, "job_opened" | "shaft_planned");
        let old = |draft: &&Drafted| self.planned.contains(&draft.shaft.as_deref());
        let changed = |draft: &&Drafted| {
            let body = draft.body(&|_| None);
            body.is_ok_and(|body| !self.plans.contains(&known::of_draft(draft, &body)))
        };
        let found = notes.drafted.iter().filter(plans).filter(old).filter(changed);
        found.map(|draft| changed_plan(&notes.file, draft)).collect()
    }
}

fn changed_plan(file: &str, draft: &Drafted) -> Mistake {
    let wrong = match &draft.shaft {
        Some(shaft) => Wrong::ShaftTwice { id: shaft.clone(), first: None },
        None => Wrong::OpenAlready,
    };
    let place = Place::Text { line: draft.line, column: 1 };
    Mistake { file: file.to_owned(), place, path: String::new(), wrong }
}

/// What every refusal to read means.
const NOTHING_READ: &str = "Nothing was read in; the record is as it was.";

pub(super) fn refused(mistakes: &[Mistake]) -> Problem {
    let lines: Vec<String> = mistakes.iter().map(ToString::to_string).collect();
    let found = if lines.len() == 1 { "mistake was" } else { "mistakes were" };
    let what = format!("{}\n{} {found} found.", lines.join("\n"), lines.len());
    Problem::new(what, NOTHING_READ, "Mend the files and enter them again.").exit(MISTAKES)
}

fn table(
    source: Source<'_>,
    ask: &Ask<'_>,
    context: Option<&Context>,
    around: &Around<'_>,
) -> Result<Result<Notes, Vec<Mistake>>, Problem> {
    let Some(context) = context else {
        let what = format!("{} is a table, and no job is open yet.", source.name);
        return Err(
            Problem::new(what, NOTHING_READ, "Enter the notes that open the job first.").exit(MISTAKES)
        );
    };
    let chosen = ask.table.map(chosen).transpose()?;
    let request = notes::table::Request {
        context,
        table: chosen.as_ref(),
        shaft: ask.shaft,
        date: ask.date,
        author: ask.author,
        device: None,
    };
    Ok(notes::table::read(source, request, around))
}

fn chosen(word: &str) -> Result<notes::table::Table, Problem> {
    notes::table::Table::of(word).ok_or_else(|| {
        let words: Vec<&str> = notes::table::Table::named().iter().map(|table| table.word).collect();
        let next = format!("Tables: {}, or a kind of entry.", words.join(", "));
        Problem::new(format!("There is no table `{word}`."), NOTHING_READ, next)
    })
}

/// What the record supplies to a file: job, units, zone, planned shafts.
pub(super) fn context_of(record: &Record) -> Result<Option<Context>, Problem> {
    let log = Log::of(record, None, None);
    let (Some(key), Some((_, opened))) = (record.job(), log.last::<JobOpened>()) else { return Ok(None) };
    let context = Context::of(key, opened).map_err(|unknown| {
        let what = format!("The job names a time zone `{}` that is not in the table.", unknown.found);
        Problem::new(what, NOTHING_READ, "Correct the job's opening entry.")
    })?;
    let planned = |shaft: &&str| Log::of(record, Some(shaft), None).last::<ShaftPlanned>().is_some();
    Ok(Some(context.with_shafts(record.shafts().into_iter().filter(planned).map(str::to_owned))))
}

/// The record and the folder beside the notes.
struct Around<'a> {
    record: &'a Record,
    folder: &'a Path,
}

impl Surroundings for Around<'_> {
    fn entry(&self, digits: &str) -> Found {
        let mut found = self.record.entries().map(Held::id).filter(|id| id.to_string().starts_with(digits));
        match (found.next(), found.next()) {
            (None, _) => Found::None,
            (Some(id), None) => Found::One(id),
            (Some(_), Some(_)) => Found::Several,
        }
    }

    fn file(&self, name: &str) -> Option<FileHash> {
        std::fs::read(self.folder.join(name)).ok().map(|bytes| FileHash(wire::sha256(&bytes)))
    }

    fn criteria(&self, key: &str) -> Option<Criteria> {
        if let Some((_, text)) = criteria::SHIPPED.iter().find(|(id, _)| *id == key) {
            return Some(Criteria { file: FileHash(wire::sha256(text.as_bytes())), text: None });
        }
        let own =
            self.folder.join(if key.ends_with(".toml") { key.to_owned() } else { format!("{key}.toml") });
        let text = std::fs::read_to_string(own).ok()?;
        criteria::Set::parse(&text).ok()?;
        Some(Criteria { file: FileHash(wire::sha256(text.as_bytes())), text: Some(text) })
    }
}
