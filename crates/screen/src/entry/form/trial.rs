//! The questions an entry would raise, asked before it is saved.
//!
//! A slip of the thumb is cheapest to mend while the tape still hangs in the hole. The entry is put into a
//! copy of the record as if it were there already, and what the log then asks and did not ask before is
//! what this entry raises.
//!
//! Never: refuse; leave the trial entry in a record that is kept.

use super::{Form, usual};
use quantity::Moment;
use record::entry::{DeviceId, Entry, EntryId, Held, Seal};
use record::{Body, Log, Question, Record, plausible};
use wording::question;

/// What the trial is made in.
#[derive(Debug, Clone, Copy)]
pub struct Trial<'r> {
    /// The record the entry would join.
    pub record: &'r Record,
    /// Now, on the clock of the job.
    pub now: Moment,
    /// The device it would be written on, where that is known.
    pub device: Option<DeviceId>,
}

/// Something that looks odd about an entry that is not saved yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Concern {
    /// The stable word of the question, to answer it by later.
    pub word: String,
    /// The field it is about, where it is one.
    pub field: Option<String>,
    /// What looks odd.
    pub what: String,
    /// What to do now.
    pub next: String,
}

impl Form {
    /// What looks odd about the entry as it stands; none while it cannot be read.
    pub fn questions(&self, trial: &Trial<'_>) -> Vec<Concern> {
        let Ok(body) = self.body() else { return Vec::new() };
        let mut concerns: Vec<Concern> = self.empty_handed().into_iter().collect();
        concerns.extend(self.concerns(body, trial));
        concerns
    }

    /// What looks odd about a body written in the place of this form: its own, or the correction of it.
    pub(in crate::entry) fn concerns(&self, body: Body, trial: &Trial<'_>) -> Vec<Concern> {
        raised(self.entry(body, trial), trial.record)
    }

    /// The entry as it would stand in the record, without a signature.
    fn entry(&self, body: Body, trial: &Trial<'_>) -> Entry {
        let device = trial.device.unwrap_or(DeviceId([0; 32]));
        let before = trial.record.entries().filter(|held| held.place().0 == device);
        let seq = before.map(|held| held.place().1).max().unwrap_or(0) + 1;
        Entry {
            // No hash is this one, and it sorts after every other.
            id: EntryId([0xff; 32]),
            job: trial.record.job().unwrap_or_default().to_owned(),
            shaft: self.shaft.clone(),
            device,
            seq,
            prev: None,
            author: String::new(),
            observed_at: self.at,
            noted_at: None,
            entered_at: trial.now,
            body,
            seal: Seal([0; 64]),
        }
    }

    /// A reading without a reading is a slip more often than not.
    fn empty_handed(&self) -> Option<Concern> {
        let readings = usual::readings(self.kind.word)?;
        let blank = readings.iter().all(|field| self.answers.is_blank_below(field));
        blank.then(|| Concern {
            word: "nothing_read".to_owned(),
            field: readings.first().map(|field| (*field).to_owned()),
            what: "Nothing was read off: only the time would be kept.".to_owned(),
            next: "Write what was read, or save it as it is and add the reading by a correction.".to_owned(),
        })
    }
}

/// The questions a record asks with an entry, and did not ask without it.
fn raised(entry: Entry, record: &Record) -> Vec<Concern> {
    let (shaft, id) = (entry.shaft.clone(), entry.id);
    let near = near(record, shaft.as_deref());
    let Ok(with) = Record::of([Held::Known(entry)]).and_then(|one| near.merge(&one)) else {
        return Vec::new();
    };
    let log = Log::of(&with, shaft.as_deref(), None);
    let mut open = plausible::questions(&log);
    open.retain(|found| found.answer.is_none());
    // This runs while somebody types: what was asked before is only looked up when it matters.
    if open.iter().any(|found| found.about != id) {
        let before = plausible::questions(&Log::of(record, shaft.as_deref(), None));
        let known = |found: &Question| {
            before.iter().any(|old| old.about == found.about && old.suspicion == found.suspicion)
        };
        open.retain(|found| !known(found));
    }
    let show = wording::Show::of_log(&log);
    let concern = |found: &Question| {
        let notice = question(found, &show, &log);
        let field = field_of(found, &log);
        Concern { word: notice.code.to_owned(), field, what: notice.what, next: notice.next }
    };
    open.iter().map(concern).collect()
}

/// The field a question stands beside: the one it names, or the first of the usual suspects that the kind has.
fn field_of(found: &Question, log: &Log<'_>) -> Option<String> {
    if let Some(field) = found.suspicion.field() {
        return Some(field.to_owned());
    }
    let suspects: &[&str] = match found.suspicion.word() {
        "deeper_than_hole" | "concrete_fell" => &["points", "depth", "tip", "level_after"],
        "load_volume" => &["volume"],
        "ticket_twice" | "ticket_unknown" => &["ticket", "after"],
        "batched_after_arrival" => &["batched"],
        "elevation_disagrees" => &["elevation"],
        "runs_do_not_meet" | "run_without_beginning" => &["from"],
        "ends_before_it_begins" => &["out", "until", "cleared", "mixed"],
        _ => &[],
    };
    let line = log.lines.iter().find(|line| line.entry.id == found.about)?;
    let fields = line.body.kind().fields;
    let has = |name: &&&str| fields.iter().any(|field| field.name == **name);
    suspects.iter().find(has).map(|name| (*name).to_owned())
}

/// The entries the log of a shaft is made of; a job may hold a thousand shafts, and this runs while
/// somebody types.
fn near(record: &Record, shaft: Option<&str>) -> Record {
    record.part(|held| match held {
        Held::Known(Entry { body: Body::Correction(_) | Body::DisputeClosed(_), .. }) => true,
        held => held.shaft().is_none() || held.shaft() == shaft,
    })
}
