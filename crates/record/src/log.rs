//! The log: what the entries of a shaft add up to.
//!
//! A replay of the record up to a moment. A corrected entry stays, struck through, with the one that took
//! its place after it; two corrections of one entry are a dispute and every candidate is shown until a
//! person closes it. Lines stand in the order things were seen, never in the order entries arrived.
//!
//! Words: *line* = one place in the log; *origin* = the entry a line began as; *late* = written down well
//! after it was seen.
//! Never: pick the winner of a dispute.

use crate::entry::{Entry, EntryId, Held, Newer};
use crate::kinds::{Body, EntryKind};
use crate::merge::Record;
use quantity::Moment;

mod fold;
mod open;

use fold::Fold;
pub use open::ASKED;

/// An entry written down more than this many minutes after it was seen is late. Common practice, no source.
pub const LATE_AFTER_MINUTES: f64 = 30.0;

/// How a line stands.
#[derive(Debug, Clone, PartialEq)]
pub enum Standing {
    /// It counts.
    Stands,
    /// It was struck through by that entry.
    Struck {
        /// The correction.
        by: EntryId,
    },
    /// It is one of the candidates of a dispute about that entry.
    Disputed {
        /// The entry in dispute.
        about: EntryId,
    },
}

/// One place in the log.
#[derive(Debug, Clone)]
pub struct Line<'r> {
    /// The entry that wrote this line: a correction when it replaces another.
    pub entry: &'r Entry,
    /// What it says: the entry's own body, or the one inside a correction.
    pub body: &'r Body,
    /// When it was seen.
    pub at: Moment,
    /// The entry this place began as.
    pub origin: EntryId,
    /// How it stands.
    pub standing: Standing,
    /// Why the origin was replaced, when this line is a correction.
    pub reason: Option<&'r str>,
    order: (i64, u64, EntryId, u8),
}

impl Line<'_> {
    /// Minutes between seeing and writing down, when that makes the entry late.
    pub fn late_minutes(&self) -> Option<f64> {
        let written = self.entry.noted_at.unwrap_or(self.entry.entered_at);
        let minutes = written.minutes_since(self.entry.observed_at);
        (minutes > LATE_AFTER_MINUTES).then_some(minutes)
    }

    /// It counts.
    pub fn stands(&self) -> bool {
        self.standing == Standing::Stands
    }
}

/// Two or more corrections of one entry that nobody has decided between.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Dispute {
    /// The entry in dispute.
    pub about: EntryId,
    /// Every candidate, by id: corrections, or the entry itself.
    pub candidates: Vec<EntryId>,
}

/// What the entries of a shaft add up to.
#[derive(Debug, Clone, Default)]
pub struct Log<'r> {
    /// Every line, in the order things were seen.
    pub lines: Vec<Line<'r>>,
    /// Disputes nobody has closed.
    pub disputes: Vec<Dispute>,
    /// Every correction, in the order they were entered: the ones that strike without replacing stand
    /// nowhere else.
    pub corrections: Vec<&'r Entry>,
    /// Corrections of entries that are not here.
    pub loose: Vec<EntryId>,
    /// Entries of a newer version: they need an update of this program.
    pub newer: Vec<&'r Newer>,
}

impl<'r> Log<'r> {
    /// The log of a shaft, with the entries about the whole job, as far as they were seen by `until`.
    ///
    /// `shaft: None` gives the entries about the whole job alone. A correction and the closing of a dispute
    /// stand where the entry they speak of stands, whatever shaft they were filed under.
    pub fn of(record: &'r Record, shaft: Option<&str>, until: Option<Moment>) -> Self {
        let belongs = |held: &&Held| {
            let home = record.home(held);
            home.is_none() || home == shaft
        };
        let mut entries = Vec::new();
        let mut newer = Vec::new();
        for held in record.entries().filter(belongs) {
            match held {
                Held::Known(entry) if until.is_none_or(|until| entry.observed_at <= until) => {
                    entries.push(entry)
                }
                Held::Known(_) => {}
                Held::Newer(entry) => newer.push(entry),
            }
        }
        Fold::of(entries).log(newer)
    }

    /// Every line of a kind that counts.
    pub fn each<K: EntryKind + 'r>(&self) -> impl DoubleEndedIterator<Item = (&Line<'r>, &'r K)> {
        self.lines.iter().filter(|line| line.stands()).filter_map(|line| Some((line, K::of(line.body)?)))
    }

    /// The line of a kind seen last.
    pub fn last<K: EntryKind + 'r>(&self) -> Option<(&Line<'r>, &'r K)> {
        self.each::<K>().next_back()
    }

    /// The lines of a kind that are in dispute.
    pub fn disputed<K: EntryKind + 'r>(&self) -> impl Iterator<Item = (&Line<'r>, &'r K)> {
        let open = |line: &&Line<'r>| matches!(line.standing, Standing::Disputed { .. });
        self.lines.iter().filter(open).filter_map(|line| Some((line, K::of(line.body)?)))
    }

    /// The moment the last thing was seen.
    pub fn end(&self) -> Option<Moment> {
        self.lines.iter().map(|line| line.at).max()
    }
}

/// How far a correction of a correction of a correction is followed to find its shaft.
const STEPS_MAX: usize = 64;

impl Record {
    /// The shaft an entry is shown under; `None`: the whole job. A correction stands where the entry it speaks of stands.
    pub fn home<'r>(&'r self, held: &'r Held) -> Option<&'r str> {
        let mut here = held;
        for _ in 0..STEPS_MAX {
            match speaks_of(here).and_then(|id| self.get(&id)) {
                Some(there) => here = there,
                None => break,
            }
        }
        here.shaft()
    }
}

/// The entry a correction or the closing of a dispute speaks of.
fn speaks_of(held: &Held) -> Option<EntryId> {
    match held {
        Held::Known(Entry { body: Body::Correction(correction), .. }) => Some(correction.replaces),
        Held::Known(Entry { body: Body::DisputeClosed(closing), .. }) => Some(closing.about),
        _ => None,
    }
}
