//! Field notes, tables and text pasted from a spreadsheet, taken over into signed entries.
//!
//! The same readers as on the command line. A line that is in the record already is not entered twice,
//! whichever device it was taken over with; a line that stands twice in a file is two entries.
//!
//! Never: give half of a file; enter what nobody has looked at.

use super::write::Under;
use super::{Device, NotesRead, NotesWanted};
use leptos::prelude::*;
use notes::{Context, Criteria, Drafted, Found, Mistake, Notes, Place, Source, Surroundings, Wrong};
use quantity::InOrder;
use record::entry::FileHash;
use record::kinds::{JobOpened, NotesRead as FileRead, ShaftPlanned};
use record::{Body, Entry, EntryId, Held, Log, Record};
use std::collections::BTreeMap;
use std::sync::Arc;
use wire::{Pen, Times};
use wording::Notice;

/// What makes two lines of notes the same: shaft, time, author, content.
type Identity = (Option<String>, i64, String, String);

impl Device {
    /// Reads field notes and tables into drafts, and says how many of them the record has already. Files that
    /// belong together are read together: what one opens or plans the others may name. Nothing is kept until
    /// `enter_notes`.
    ///
    /// # Errors
    /// Every mistake of every file, each with its place; then nothing of any of them is given.
    pub(crate) async fn read_notes(self, wanted: &NotesWanted) -> Result<Vec<NotesRead>, Vec<String>> {
        let record = match &wanted.job {
            None => Arc::default(),
            Some(job) => {
                let loaded = self.loaded(job).await;
                loaded.map_err(|trouble| vec![super::notices::of_trouble(&trouble).paragraph()])?
            }
        };
        let around = Around(&record);
        let context = context_of(&record, &wanted.files).map_err(|mistake| vec![mistake])?;
        let (tables, written): (Vec<_>, Vec<_>) = wanted.files.iter().partition(|file| is_table(&file.0));
        let written = opening_first(written, context.as_ref(), &around);
        let sources: Vec<Source<'_>> = written.iter().map(|file| source(file)).collect();
        let mut all = notes::read_all(&sources, context.as_ref(), &around).map_err(|wrong| told(&wrong))?;
        let open = all.last().map(|notes| notes.context.clone()).or(context);
        for file in &tables {
            all.push(self.table(source(file), wanted, (open.as_ref(), &around))?);
        }
        let mut known = Known::of(&record);
        for notes in &all {
            self.refuse_other_opening(wanted, notes)?;
            refuse_changed_plans(&record, &known, notes)?;
        }
        let files = written.into_iter().chain(tables);
        Ok(all.into_iter().zip(files).map(|(notes, file)| counted(notes, &file.1, &mut known)).collect())
    }

    fn table(
        self,
        source: Source<'_>,
        wanted: &NotesWanted,
        (context, around): (Option<&Context>, &Around<'_>),
    ) -> Result<Notes, Vec<String>> {
        let Some(context) = context else {
            let name = source.name;
            return Err(vec![format!(
                "{name} is a table, and no job is open yet. Choose the job above, or choose the notes that open \
                 it together with the table."
            )]);
        };
        let author = self.author.get_untracked();
        let request = notes::table::Request {
            context,
            table: None,
            shaft: wanted.shaft.as_deref(),
            date: wanted.date.as_deref(),
            author: Some(author.trim()).filter(|author| !author.is_empty()),
            device: None,
        };
        notes::table::read(source, request, around).map_err(|wrong| told(&wrong))
    }

    /// A file that opens a job which is here already has to be held against its record.
    fn refuse_other_opening(self, wanted: &NotesWanted, notes: &Notes) -> Result<(), Vec<String>> {
        let key = &notes.context.key;
        if wanted.job.is_some() || self.jobs.with_untracked(|jobs| jobs.iter().all(|card| card.name != *key))
        {
            return Ok(());
        }
        Err(vec![format!(
            "{} is of the job {key}, which is on this device already. Choose that job above, and read the file \
             again.",
            notes.file
        )])
    }

    /// Signs and keeps what notes gave: all files or none. What is in the record already is left out, also when
    /// it came there since the files were read. Each entry keeps the author who wrote it down.
    ///
    /// # Errors
    /// They could not be kept; none of them is.
    pub(crate) async fn enter_notes(self, read: Vec<NotesRead>) -> Result<usize, Notice> {
        let Some(job) = read.first().map(|read| read.notes.context.key.clone()) else { return Ok(0) };
        let record = self.loaded(&job).await.map_err(|trouble| super::notices::of_trouble(&trouble))?;
        read.iter().for_each(|read| self.learn_zone_of(read));
        let hand = self.author.get_untracked().trim().to_owned();
        let entered_at = self.now(&job);
        let mut entered = 0;
        let sign = |pen: &mut Pen<'_>| {
            let mut known = Known::of(&record);
            let mut all = Vec::new();
            for read in &read {
                let entries = sign(pen, read, (&mut known, entered_at));
                entered += entries.len();
                all.extend(end_of_file(pen, entries, (read, &hand), entered_at));
            }
            all
        };
        self.sign(&job, Under { author: "", form: None }, sign).await?;
        Ok(entered)
    }

    /// A file that opens a job says which zone its clocks are in.
    fn learn_zone_of(self, read: &NotesRead) {
        for draft in &read.notes.drafted {
            if let Ok(Body::JobOpened(opened)) = draft.body(&|_| None) {
                self.learn_zone(&read.notes.context.key, &opened.time_zone);
            }
        }
    }
}

/// A file with its name, as the reader takes it.
fn source(file: &(String, Vec<u8>)) -> Source<'_> {
    Source { name: &file.0, bytes: &file.1 }
}

fn is_table(name: &str) -> bool {
    name.to_lowercase().ends_with(".csv")
}

fn told(mistakes: &[Mistake]) -> Vec<String> {
    mistakes.iter().map(ToString::to_string).collect()
}

/// The file that opens the job first, then the others by their names: a browser gives files in any order.
fn opening_first<'f>(
    mut files: Vec<&'f (String, Vec<u8>)>,
    context: Option<&Context>,
    around: &Around<'_>,
) -> Vec<&'f (String, Vec<u8>)> {
    let opens =
        |file: &(String, Vec<u8>)| notes::read(source(file), context, around).is_ok_and(|one| one.opens);
    files.put_in_order_by(|a, b| a.0.cmp(&b.0));
    if let (true, Some(first)) = (files.len() > 1, files.iter().position(|file| opens(file))) {
        files[..=first].rotate_right(1);
    }
    files
}

/// How much of a file is new, and how much the record holds already.
fn counted(notes: Notes, bytes: &[u8], known: &mut Known) -> NotesRead {
    let (mut new, mut old) = (0, 0);
    notes.write(|draft, body| match known.find(&of_draft(draft, &body)) {
        Some(id) => {
            old += 1;
            id
        }
        None => {
            new += 1;
            placeholder(new)
        }
    });
    let rows = notes.passed_over.iter();
    let left_out = rows.map(|row| format!("Row {} is left out: it says it is {}.", row.row, row.standing));
    let left_out = left_out.collect();
    NotesRead { notes, file: FileHash(wire::sha256(bytes)), new, known: old, left_out }
}

/// An opening of the job or a plan of a shaft that is not what the record holds is a correction, never a second
/// one.
fn refuse_changed_plans(record: &Record, known: &Known, notes: &Notes) -> Result<(), Vec<String>> {
    let planned = |shaft: Option<&str>| {
        record.entries().any(|held| match held {
            Held::Known(Entry { body: Body::JobOpened(_) | Body::ShaftPlanned(_), shaft: of, .. }) => {
                of.as_deref() == shaft
            }
            _ => false,
        })
    };
    let changed = |draft: &&Drafted| {
        let is_plan = matches!(draft.kind().word, "job_opened" | "shaft_planned");
        let body = is_plan.then(|| draft.body(&|_| None).ok()).flatten();
        body.is_some_and(|body| {
            planned(draft.shaft.as_deref()) && !known.lines.contains_key(&of_draft(draft, &body))
        })
    };
    let told: Vec<String> = notes.drafted.iter().filter(changed).map(|draft| twice(notes, draft)).collect();
    if told.is_empty() { Ok(()) } else { Err(told) }
}

fn twice(notes: &Notes, draft: &Drafted) -> String {
    let wrong = match &draft.shaft {
        Some(shaft) => Wrong::ShaftTwice { id: shaft.clone(), first: None },
        None => Wrong::OpenAlready,
    };
    let place = Place::Text { line: draft.line, column: 1 };
    Mistake { file: notes.file.clone(), place, path: String::new(), wrong }.to_string()
}

/// The entries of the drafts that are not in the record.
fn sign(
    pen: &mut Pen<'_>,
    read: &NotesRead,
    (known, entered_at): (&mut Known, quantity::Moment),
) -> Vec<Entry> {
    let mut entries = Vec::new();
    read.notes.write(|draft, body| {
        if let Some(id) = known.find(&of_draft(draft, &body)) {
            return id;
        }
        let noted_at = Some(draft.noted_at.unwrap_or(draft.observed_at));
        pen.author(&draft.author);
        let times = Times { observed_at: draft.observed_at, noted_at, entered_at };
        let entry = pen.write(draft.shaft.as_deref(), times, body);
        let id = entry.id;
        entries.push(entry);
        id
    });
    entries
}

/// The entry that names the file, after those it gave; none after none.
fn end_of_file(
    pen: &mut Pen<'_>,
    mut entries: Vec<Entry>,
    (read, hand): (&NotesRead, &str),
    entered_at: quantity::Moment,
) -> Vec<Entry> {
    let Ok(count @ 1..) = u32::try_from(entries.len()) else { return entries };
    let body = Body::NotesRead(FileRead { name: read.notes.file.clone(), file: read.file, entries: count });
    pen.author(if hand.is_empty() { "tablet" } else { hand });
    entries.push(pen.write(None, Times { observed_at: entered_at, noted_at: None, entered_at }, body));
    entries
}

/// A number of its own stands in for the id that a signature would give.
fn placeholder(number: usize) -> EntryId {
    let mut id = [0; 32];
    id[..8].copy_from_slice(&(number as u64).to_be_bytes());
    EntryId(id)
}

fn of_draft(draft: &Drafted, body: &Body) -> Identity {
    (draft.shaft.clone(), draft.observed_at.seconds(), draft.author.clone(), said(body))
}

fn said(body: &Body) -> String {
    format!("{} {:?}", body.kind().word, body.to_group())
}

/// The lines that are in the record, each for one line of a file.
struct Known {
    lines: BTreeMap<Identity, Vec<EntryId>>,
}

impl Known {
    fn of(record: &Record) -> Self {
        let mut lines: BTreeMap<Identity, Vec<EntryId>> = BTreeMap::new();
        for held in record.entries() {
            if let Held::Known(entry) = held {
                let shaft = entry.shaft.clone();
                let line = (shaft, entry.observed_at.seconds(), entry.author.clone(), said(&entry.body));
                lines.entry(line).or_default().push(entry.id);
            }
        }
        Known { lines }
    }

    fn find(&mut self, line: &Identity) -> Option<EntryId> {
        self.lines.get_mut(line)?.pop()
    }
}

/// What the record supplies to files: units, zone, planned shafts; whether one of them was read before.
fn context_of(record: &Record, files: &[(String, Vec<u8>)]) -> Result<Option<Context>, String> {
    let log = Log::of(record, None, None);
    let (Some(key), Some((_, opened))) = (record.job(), log.last::<JobOpened>()) else { return Ok(None) };
    let context = Context::of(key, opened)
        .map_err(|unknown| format!("The job names a time zone “{}” that is not known.", unknown.found))?;
    let planned = |shaft: &&str| Log::of(record, Some(shaft), None).last::<ShaftPlanned>().is_some();
    let shafts: Vec<String> = record.shafts().into_iter().filter(planned).map(str::to_owned).collect();
    let is_one = |name: &str| files.iter().any(|file| file.0 == name);
    let named = |held: &Held| matches!(held, Held::Known(Entry { body: Body::NotesRead(read), .. }) if is_one(&read.name));
    Ok(Some(context.with_shafts(shafts).read_before(record.entries().any(named))))
}

/// The record, and the criteria sets that come with the program.
struct Around<'r>(&'r Record);

impl Surroundings for Around<'_> {
    fn entry(&self, digits: &str) -> Found {
        let mut found = self.0.entries().map(Held::id).filter(|id| id.to_string().starts_with(digits));
        match (found.next(), found.next()) {
            (None, _) => Found::None,
            (Some(id), None) => Found::One(id),
            (Some(_), Some(_)) => Found::Several,
        }
    }

    fn criteria(&self, key: &str) -> Option<Criteria> {
        let (_, text) = criteria::SHIPPED.iter().find(|(id, _)| *id == key)?;
        Some(Criteria { file: FileHash(wire::sha256(text.as_bytes())), text: None })
    }
}
