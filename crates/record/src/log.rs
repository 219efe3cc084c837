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
use crate::kinds::{Body, Correction, DisputeClosed, EntryKind};
use crate::merge::Record;
use quantity::Moment;
use std::collections::BTreeMap;

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
    /// `shaft: None` gives the entries about the whole job alone.
    pub fn of(record: &'r Record, shaft: Option<&str>, until: Option<Moment>) -> Self {
        let belongs = |held: &&Held| held.shaft().is_none() || held.shaft() == shaft;
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

/// The entries of a log and what refers to them, while it is made.
struct Fold<'r> {
    entries: BTreeMap<EntryId, &'r Entry>,
    corrections: BTreeMap<EntryId, Vec<(&'r Entry, &'r Correction)>>,
    closings: BTreeMap<EntryId, Vec<(EntryId, &'r DisputeClosed)>>,
}

impl<'r> Fold<'r> {
    fn of(entries: Vec<&'r Entry>) -> Self {
        let mut fold =
            Fold { entries: BTreeMap::new(), corrections: BTreeMap::new(), closings: BTreeMap::new() };
        for entry in entries {
            fold.entries.insert(entry.id, entry);
            match &entry.body {
                Body::Correction(correction) => {
                    fold.corrections.entry(correction.replaces).or_default().push((entry, correction));
                }
                Body::DisputeClosed(closing) => {
                    fold.closings.entry(closing.about).or_default().push((entry.id, closing));
                }
                _ => {}
            }
        }
        fold
    }

    fn log(self, newer: Vec<&'r Newer>) -> Log<'r> {
        let mut log = Log { newer, ..Log::default() };
        log.loose = self.loose();
        log.corrections = self.corrections();
        for entry in self.entries.values().filter(|entry| !matches!(entry.body, Body::Correction(_))) {
            self.place(entry, &mut log);
        }
        log.lines.sort_by_key(|line| line.order);
        log
    }

    fn corrections(&self) -> Vec<&'r Entry> {
        let mut all: Vec<&'r Entry> = self.corrections.values().flatten().map(|(entry, _)| *entry).collect();
        all.sort_by_key(|entry| (entry.entered_at.seconds(), entry.seq, entry.id));
        all
    }

    fn loose(&self) -> Vec<EntryId> {
        let missing = self.corrections.iter().filter(|(about, _)| !self.entries.contains_key(about));
        missing.flat_map(|(_, corrections)| corrections.iter().map(|(entry, _)| entry.id)).collect()
    }

    /// The corrections of an entry that still hold: a correction may itself be corrected, and one that is
    /// struck out without a replacement is withdrawn.
    fn holding(&self, about: EntryId) -> Vec<(&'r Entry, &'r Correction)> {
        let mut holding = Vec::new();
        for (entry, correction) in self.corrections.get(&about).into_iter().flatten() {
            match self.corrections.get(&entry.id) {
                None => holding.push((*entry, *correction)),
                Some(_) => {
                    let later = self.holding(entry.id);
                    if later.is_empty() {
                        holding.push((*entry, *correction));
                    }
                    holding.extend(later.into_iter().filter(|(_, correction)| correction.body.is_some()));
                }
            }
        }
        holding.sort_by_key(|(entry, _)| entry.id);
        holding
    }

    /// The candidate people have agreed to keep.
    fn kept(&self, about: EntryId) -> Option<EntryId> {
        let struck = |id: &EntryId| self.holding(*id).iter().any(|(_, correction)| correction.body.is_none());
        let mut kept = self.closings.get(&about)?.iter().filter(|(id, _)| !struck(id)).map(|(_, c)| c.keeps);
        let first = kept.next()?;
        kept.all(|other| other == first).then_some(first)
    }

    /// Puts an entry and what became of it into the log.
    fn place(&self, entry: &'r Entry, log: &mut Log<'r>) {
        let mut candidates = self.holding(entry.id);
        let settled = self.kept(entry.id).filter(|kept| {
            *kept == entry.id || candidates.iter().any(|(candidate, _)| candidate.id == *kept)
        });
        if let Some(kept) = settled {
            candidates.retain(|(candidate, _)| candidate.id == kept);
        }
        let standing = match candidates.as_slice() {
            [] => Standing::Stands,
            [(only, _)] => Standing::Struck { by: only.id },
            _ => {
                let candidates = candidates.iter().map(|(candidate, _)| candidate.id).collect();
                log.disputes.push(Dispute { about: entry.id, candidates });
                Standing::Disputed { about: entry.id }
            }
        };
        let replaced = match &standing {
            Standing::Disputed { about } => Standing::Disputed { about: *about },
            _ => Standing::Stands,
        };
        log.lines.push(origin_line(entry, standing));
        let bodies = candidates
            .iter()
            .filter_map(|(by, correction)| Some((*by, *correction, correction.body.as_deref()?)));
        log.lines.extend(bodies.map(|(by, correction, body)| Line {
            entry: by,
            body,
            at: correction.observed.unwrap_or(entry.observed_at),
            origin: entry.id,
            standing: replaced.clone(),
            reason: Some(&correction.reason),
            order: (correction.observed.unwrap_or(entry.observed_at).seconds(), entry.seq, entry.id, 1),
        }));
    }
}

fn origin_line(entry: &Entry, standing: Standing) -> Line<'_> {
    Line {
        entry,
        body: &entry.body,
        at: entry.observed_at,
        origin: entry.id,
        standing,
        reason: None,
        order: (entry.observed_at.seconds(), entry.seq, entry.id, 0),
    }
}
