//! `enter`: field notes and tables into signed entries. All of it or nothing.

use crate::args::Command;
use crate::folder::{DESK, Folder};
use crate::problem::{MISTAKES, Problem};
use notes::{Context, Criteria, Drafted, Found, Notes, Source, Surroundings};
use quantity::Moment;
use record::entry::FileHash;
use record::kinds::{JobOpened, NotesRead, ShaftPlanned};
use record::{Body, Entry, EntryId, Held, Log, Record};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use wire::{Key, Pen, Times};

/// One file as it was read.
struct File {
    name: String,
    folder: PathBuf,
    bytes: Vec<u8>,
}

pub(crate) fn run(command: &Command, now: Moment) -> Result<(), Problem> {
    let Command::Enter { files, table, shaft, date, author, dry_run, job } = command else { return Ok(()) };
    let mut folder =
        if job.job.join("record.sqlite").exists() { Folder::open(&job.job)? } else { Folder::make(&job.job)? };
    let record = folder.record()?;
    let files = read_files(files)?;
    let ask = Ask { table: table.as_deref(), shaft: shaft.as_deref(), date: date.as_deref(), author: author.as_deref() };
    let all = take(&files, &ask, &record)?;
    let signed = sign(&folder, &record, &files, &all, now)?;
    tell(&files, &all, &signed);
    if *dry_run {
        println!("Nothing was written: --dry-run.");
        return Ok(());
    }
    let held: Vec<Held> = signed.entries.into_iter().map(Held::Known).collect();
    let added = folder.add(&held)?;
    println!("{} entries are signed and kept in {}.", added.new, folder.path().display());
    Ok(())
}

fn read_files(paths: &[PathBuf]) -> Result<Vec<File>, Problem> {
    paths.iter().map(|path| read_file(path)).collect()
}

fn read_file(path: &Path) -> Result<File, Problem> {
    let bytes = std::fs::read(path).map_err(|error| Problem::file("Reading", path, &error))?;
    let name = path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    let folder = path.parent().map_or_else(PathBuf::new, Path::to_path_buf);
    Ok(File { name, folder, bytes })
}

/// What a person said about tables on the command line.
struct Ask<'a> {
    table: Option<&'a str>,
    shaft: Option<&'a str>,
    date: Option<&'a str>,
    author: Option<&'a str>,
}

/// Reads every file; all the mistakes of all of them, or all the drafts.
fn take(files: &[File], ask: &Ask<'_>, record: &Record) -> Result<Vec<Notes>, Problem> {
    let mut context = context_of(record)?;
    let (mut all, mut mistakes) = (Vec::new(), Vec::new());
    for file in files {
        let around = Around { record, folder: &file.folder };
        let source = Source { name: &file.name, bytes: &file.bytes };
        let read = if file.name.to_lowercase().ends_with(".csv") {
            table(source, ask, context.as_ref(), &around)?
        } else {
            notes::read(source, context.as_ref(), &around)
        };
        match read {
            Ok(notes) => {
                context = Some(notes.context.clone());
                all.push(notes);
            }
            Err(more) => mistakes.extend(more),
        }
    }
    if mistakes.is_empty() {
        return Ok(all);
    }
    let lines: Vec<String> = mistakes.iter().map(ToString::to_string).collect();
    let count = lines.len();
    let what = format!("{}\n{count} {} found.", lines.join("\n"), if count == 1 { "mistake was" } else { "mistakes were" });
    let meaning = "Nothing was imported; the record is as it was.";
    Err(Problem::new(what, "Mend the files and enter them again.").meaning(meaning).exit(MISTAKES))
}

fn table(
    source: Source<'_>,
    ask: &Ask<'_>,
    context: Option<&Context>,
    around: &Around<'_>,
) -> Result<Result<Notes, Vec<notes::Mistake>>, Problem> {
    let Some(context) = context else {
        let what = format!("{} is a table, and no job is open yet.", source.name);
        return Err(Problem::new(what, "Enter the notes that open the job first."));
    };
    let chosen = match ask.table {
        None => None,
        Some(word) => Some(notes::table::Table::of(word).ok_or_else(|| {
            let words: Vec<&str> = notes::table::Table::named().iter().map(|table| table.word).collect();
            Problem::new(format!("There is no table `{word}`."), format!("Tables: {}, or a kind of entry.", words.join(", ")))
        })?),
    };
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

/// What the record supplies to a file: job, units, zone, planned shafts.
pub(crate) fn context_of(record: &Record) -> Result<Option<Context>, Problem> {
    let log = Log::of(record, None, None);
    let (Some(key), Some((_, opened))) = (record.job(), log.last::<JobOpened>()) else { return Ok(None) };
    let context = Context::of(key, opened).map_err(|unknown| {
        let what = format!("The job names a time zone `{}` that is not in the table.", unknown.found);
        Problem::new(what, "Correct the job's opening entry.")
    })?;
    let planned = record.shafts().into_iter().filter(|shaft| {
        Log::of(record, Some(shaft), None).last::<ShaftPlanned>().is_some()
    });
    Ok(Some(context.with_shafts(planned.map(str::to_owned))))
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
        let own = self.folder.join(if key.ends_with(".toml") { key.to_owned() } else { format!("{key}.toml") });
        let text = std::fs::read_to_string(own).ok()?;
        criteria::Set::parse(&text).ok()?;
        Some(Criteria { file: FileHash(wire::sha256(text.as_bytes())), text: Some(text) })
    }
}

/// What is ready to be kept.
struct Signed {
    entries: Vec<Entry>,
    known: usize,
}

/// Signs every draft with the key of its device, in order, one chain a device.
///
/// A line that is in the record already, word for word, is not entered twice: notes that grew by a day can
/// be read in again.
fn sign(folder: &Folder, record: &Record, files: &[File], all: &[Notes], now: Moment) -> Result<Signed, Problem> {
    let job = all.first().map_or_else(String::new, |notes| notes.context.key.clone());
    let keys = keys(folder, all)?;
    let mut pens: BTreeMap<&str, Pen<'_>> = BTreeMap::new();
    for (name, key) in &keys {
        pens.insert(name, Pen::new(key, &job, "", record.head(&key.device())));
    }
    let known = known_lines(record);
    let mut signed = Signed { entries: Vec::new(), known: 0 };
    for (file, notes) in files.iter().zip(all) {
        let before = signed.entries.len();
        notes.write(|draft, body| {
            let device = draft.device.as_deref().unwrap_or(DESK);
            if let Some(id) = known.get(&identity(draft, &keys[device], &body)) {
                signed.known += 1;
                return *id;
            }
            let pen = pens.get_mut(device).expect("every device of the drafts has a pen");
            pen.author(&draft.author);
            let times = Times {
                observed_at: draft.observed_at,
                noted_at: Some(draft.noted_at.unwrap_or(draft.observed_at)),
                entered_at: now,
            };
            let entry = pen.write(draft.shaft.as_deref(), times, body);
            let id = entry.id;
            signed.entries.push(entry);
            id
        });
        let count = u32::try_from(signed.entries.len() - before).unwrap_or(u32::MAX);
        if count > 0 {
            let desk = pens.get_mut(DESK).expect("the desk always has a pen");
            signed.entries.push(notes_read(desk, file, count, now));
        }
    }
    Ok(signed)
}

fn notes_read(desk: &mut Pen<'_>, file: &File, entries: u32, now: Moment) -> Entry {
    desk.author(DESK);
    let hash = FileHash(wire::sha256(&file.bytes));
    let body = Body::NotesRead(NotesRead { name: file.name.clone(), file: hash, entries });
    desk.write(None, Times { observed_at: now, noted_at: None, entered_at: now }, body)
}

/// The keys of every device the drafts name, and of the desk.
fn keys(folder: &Folder, all: &[Notes]) -> Result<BTreeMap<String, Key>, Problem> {
    let named = all.iter().flat_map(|notes| &notes.drafted).filter_map(|draft| draft.device.as_deref());
    let names: std::collections::BTreeSet<&str> = named.chain([DESK]).collect();
    names.into_iter().map(|name| Ok((name.to_owned(), folder.key(name)?))).collect()
}

/// What makes two lines of notes the same.
type Identity = (record::DeviceId, Option<String>, i64, String, String);

fn identity(draft: &Drafted, key: &Key, body: &Body) -> Identity {
    (key.device(), draft.shaft.clone(), draft.observed_at.seconds(), draft.author.clone(), said(body))
}

fn said(body: &Body) -> String {
    format!("{} {:?}", body.kind().word, body.to_group())
}

fn known_lines(record: &Record) -> BTreeMap<Identity, EntryId> {
    let known = record.entries().filter_map(|held| match held {
        Held::Known(entry) => Some(entry),
        Held::Newer(_) => None,
    });
    known
        .map(|entry| {
            let at = entry.observed_at.seconds();
            ((entry.device, entry.shaft.clone(), at, entry.author.clone(), said(&entry.body)), entry.id)
        })
        .collect()
}

fn tell(files: &[File], all: &[Notes], signed: &Signed) {
    for (file, notes) in files.iter().zip(all) {
        println!("{}: {} lines read.", file.name, notes.drafted.len());
        for row in &notes.passed_over {
            println!("{}, row {}: left out, because it says it is {}.", file.name, row.row, row.standing);
        }
    }
    if signed.known > 0 {
        println!("{} of them are in the record already and were not entered twice.", signed.known);
    }
}
