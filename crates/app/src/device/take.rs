//! Field notes, tables and text pasted from a spreadsheet, taken over into signed entries.
//!
//! The same readers as on the command line. A line that is in the record already is not entered twice,
//! whichever device it was taken over with; a line that stands twice in a file is two entries.
//!
//! Never: give half of a file; enter what nobody has looked at.

use super::write::Under;
use super::{Device, NotesFile, NotesRead};
use leptos::prelude::*;
use notes::{Context, Criteria, Drafted, Found, Mistake, Notes, Place, Source, Surroundings, Wrong};
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
    /// Reads field notes or a table into drafts, and says how many of them the record has already. Nothing is
    /// kept until `enter_notes`. The record of the job has to be read (`record`) before.
    ///
    /// # Errors
    /// Every mistake of the file, each with its place.
    pub(crate) fn read_notes(self, file: &NotesFile<'_>) -> Result<NotesRead, Vec<String>> {
        let record = match file.job.map(|job| self.record(job).get_untracked()) {
            None => Arc::default(),
            Some(Some(record)) => record,
            Some(None) => {
                let job = file.job.unwrap_or_default();
                return Err(vec![format!("The record of {job} is still being read. Choose the file again.")]);
            }
        };
        let context = context_of(&record, file.name).map_err(|mistake| vec![mistake])?;
        let around = Around(&record);
        let source = Source { name: file.name, bytes: file.bytes };
        let read = if file.table.is_some() || file.name.to_lowercase().ends_with(".csv") {
            self.table(source, file, (context.as_ref(), &around))?
        } else {
            notes::read(source, context.as_ref(), &around)
        };
        let notes = read.map_err(|mistakes| mistakes.iter().map(ToString::to_string).collect::<Vec<_>>())?;
        self.refuse_other_opening(file, &notes)?;
        let mut known = Known::of(&record);
        refuse_changed_plans(&record, &known, &notes)?;
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
        let left_out = notes.passed_over.iter();
        let left_out = left_out
            .map(|row| format!("Row {} is left out: it says it is {}.", row.row, row.standing))
            .collect();
        Ok(NotesRead { notes, file: FileHash(wire::sha256(file.bytes)), new, known: old, left_out })
    }

    fn table(
        self,
        source: Source<'_>,
        file: &NotesFile<'_>,
        (context, around): (Option<&Context>, &Around<'_>),
    ) -> Result<Result<Notes, Vec<Mistake>>, Vec<String>> {
        let Some(context) = context else {
            return Err(vec![format!(
                "{} is a table, and no job is open yet. Open the job first.",
                file.name
            )]);
        };
        let table = file.table.map(|word| {
            notes::table::Table::of(word).ok_or_else(|| vec![format!("There is no table “{word}”.")])
        });
        let table = table.transpose()?;
        let author = self.author.get_untracked();
        let request = notes::table::Request {
            context,
            table: table.as_ref(),
            shaft: file.shaft,
            date: file.date,
            author: Some(author.trim()).filter(|author| !author.is_empty()),
            device: None,
        };
        Ok(notes::table::read(source, request, around))
    }

    /// A file that opens a job which is here already has to be held against its record.
    fn refuse_other_opening(self, file: &NotesFile<'_>, notes: &Notes) -> Result<(), Vec<String>> {
        let key = &notes.context.key;
        if file.job.is_some() || self.jobs.with_untracked(|jobs| jobs.iter().all(|card| card.name != *key)) {
            return Ok(());
        }
        Err(vec![format!(
            "{} opens the job {key}, which is on this device already. Choose that job above, and read the file \
             again.",
            file.name
        )])
    }

    /// Signs and keeps what notes gave: all or none. What is in the record already is left out, also when it
    /// came there since the file was read. Each entry keeps the author who wrote it down.
    ///
    /// # Errors
    /// They could not be kept; none of them is.
    pub(crate) async fn enter_notes(self, read: NotesRead) -> Result<usize, Notice> {
        let job = read.notes.context.key.clone();
        let record = self.loaded(&job).await.map_err(|trouble| super::notices::of_trouble(&trouble))?;
        self.learn_zone_of(&read);
        let hand = self.author.get_untracked().trim().to_owned();
        let entered_at = self.now(&job);
        let mut entered = 0;
        let sign = |pen: &mut Pen<'_>| {
            let entries = sign(pen, &read, (&record, entered_at));
            entered = entries.len();
            end_of_file(pen, entries, (&read, &hand), entered_at)
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
    (record, entered_at): (&Arc<Record>, quantity::Moment),
) -> Vec<Entry> {
    let mut known = Known::of(record);
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

/// What the record supplies to a file: units, zone, planned shafts; whether the file was read before.
fn context_of(record: &Record, file: &str) -> Result<Option<Context>, String> {
    let log = Log::of(record, None, None);
    let (Some(key), Some((_, opened))) = (record.job(), log.last::<JobOpened>()) else { return Ok(None) };
    let context = Context::of(key, opened)
        .map_err(|unknown| format!("The job names a time zone “{}” that is not known.", unknown.found))?;
    let planned = |shaft: &&str| Log::of(record, Some(shaft), None).last::<ShaftPlanned>().is_some();
    let shafts: Vec<String> = record.shafts().into_iter().filter(planned).map(str::to_owned).collect();
    let named = |held: &Held| matches!(held, Held::Known(Entry { body: Body::NotesRead(read), .. }) if read.name == file);
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
