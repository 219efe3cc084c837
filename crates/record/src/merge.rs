//! The record as a set of entries, and the union of two of them.
//!
//! Union is commutative, associative and idempotent, so tablets may meet in any order. It is all or
//! nothing: on an error neither side has changed. What a union reveals (a cloned tablet, a hole in a chain)
//! is shown as an alarm and never resolved silently.
//!
//! Never: pick a winner, drop an entry.

use crate::entry::{DeviceId, EntryId, Held};
use crate::rehearsal::is_rehearsal_key;
use quantity::{Gather, InOrder};
use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

/// The entries of one job.
///
/// An entry never changes, so records that hold the same one share it: a record with one entry more costs
/// no copy of those that were there.
#[derive(Debug, Clone, Default)]
pub struct Record {
    entries: BTreeMap<EntryId, Arc<Held>>,
    /// What the chains reveal, once somebody asked: every shaft of a job asks, and the entries never change.
    alarms: OnceLock<Vec<Alarm>>,
}

impl PartialEq for Record {
    fn eq(&self, other: &Self) -> bool {
        self.entries == other.entries
    }
}

/// Why two records cannot be one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MergeError {
    /// They belong to two jobs.
    OtherJob {
        /// The job here.
        here: String,
        /// The job there.
        there: String,
    },
    /// One id, two contents: one of them is not what its id says.
    SameId(EntryId),
}

impl std::fmt::Display for MergeError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            MergeError::OtherJob { here, there } if is_rehearsal_key(here) != is_rehearsal_key(there) => {
                write!(f, "a rehearsal never becomes part of a record: `{there}` and `{here}`")
            }
            MergeError::OtherJob { here, there } => {
                write!(f, "entries of job `{there}` in a record of `{here}`")
            }
            MergeError::SameId(id) => write!(f, "two contents under the id {id}"),
        }
    }
}

impl std::error::Error for MergeError {}

/// What the entries of a device reveal about it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Alarm {
    /// Two entries under one number: the device was cloned or set back.
    Cloned {
        /// The device.
        device: DeviceId,
        /// The number.
        seq: u64,
        /// All entries under it, by id.
        entries: Vec<EntryId>,
    },
    /// Numbers are missing: entries have not arrived, or were taken away.
    Gap {
        /// The device.
        device: DeviceId,
        /// First missing number.
        from: u64,
        /// Last missing number.
        to: u64,
    },
    /// An entry does not name the one before it.
    Broken {
        /// The device.
        device: DeviceId,
        /// The entry.
        entry: EntryId,
    },
}

impl Record {
    /// An empty record.
    pub fn new() -> Self {
        Self::default()
    }

    fn holding(entries: BTreeMap<EntryId, Arc<Held>>) -> Self {
        Record { entries, alarms: OnceLock::new() }
    }

    /// A record of the given entries.
    ///
    /// # Errors
    /// As for `merge`.
    pub fn of(entries: impl IntoIterator<Item = Held>) -> Result<Self, MergeError> {
        let mut record = Record::new();
        for held in entries {
            record.admit(&held)?;
            record.entries.insert(held.id(), Arc::new(held));
        }
        Ok(record)
    }

    /// Both records in one. All or nothing.
    ///
    /// # Errors
    /// Two jobs, or two contents under one id.
    pub fn merge(&self, other: &Record) -> Result<Record, MergeError> {
        other.entries.values().try_for_each(|held| self.admit(held))?;
        let mut entries = self.entries.clone();
        entries.extend(other.entries.iter().map(|(id, held)| (*id, Arc::clone(held))));
        Ok(Record::holding(entries))
    }

    /// The wanted entries as a record of their own, shared with this one.
    pub fn part(&self, wanted: impl Fn(&Held) -> bool) -> Record {
        let held = self.entries.iter().filter(|(_, held)| wanted(held));
        Record::holding(held.map(|(id, held)| (*id, Arc::clone(held))).collect())
    }

    /// Whether an entry fits in here.
    fn admit(&self, held: &Held) -> Result<(), MergeError> {
        if let Some(job) = self.job().filter(|job| *job != held.job()) {
            return Err(MergeError::OtherJob { here: job.to_owned(), there: held.job().to_owned() });
        }
        match self.entries.get(&held.id()) {
            Some(mine) if **mine != *held => Err(MergeError::SameId(held.id())),
            _ => Ok(()),
        }
    }

    /// The job, once there is an entry.
    pub fn job(&self) -> Option<&str> {
        self.entries().next().map(Held::job)
    }

    /// Every entry, by id.
    pub fn entries(&self) -> impl Iterator<Item = &Held> {
        self.entries.values().map(Arc::as_ref)
    }

    /// One entry.
    pub fn get(&self, id: &EntryId) -> Option<&Held> {
        self.entries.get(id).map(Arc::as_ref)
    }

    /// How many entries.
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// No entries at all.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// The names of the shafts, in order of name.
    pub fn shafts(&self) -> Vec<&str> {
        let names: std::collections::BTreeSet<&str> = self.entries().filter_map(Held::shaft).into_set();
        names.into_iter().collect()
    }

    /// The number and id of the last entry of a device; `None` when it wrote nothing.
    pub fn head(&self, device: &DeviceId) -> Option<(u64, EntryId)> {
        self.entries().filter(|held| held.place().0 == *device).map(|held| (held.place().1, held.id())).max()
    }

    /// What the chains of the devices reveal, in order of device and number.
    pub fn alarms(&self) -> &[Alarm] {
        self.alarms.get_or_init(|| self.look_at_chains())
    }

    fn look_at_chains(&self) -> Vec<Alarm> {
        let mut places: BTreeMap<(DeviceId, u64), Vec<&Held>> = BTreeMap::new();
        for held in self.entries() {
            places.entry(held.place()).or_default().push(held);
        }
        let mut alarms = Vec::new();
        let mut before: Option<(DeviceId, u64, Vec<EntryId>)> = None;
        for ((device, seq), held) in places {
            let expected = before.take().filter(|(last, ..)| *last == device);
            alarms.extend(link_alarms(device, seq, &held, expected.as_ref()));
            before = Some((device, seq, held.iter().map(|held| held.id()).collect()));
        }
        alarms.put_in_order();
        alarms
    }
}

/// What one place in a device's chain reveals; `before` is the place before it on the same device.
fn link_alarms(
    device: DeviceId,
    seq: u64,
    held: &[&Held],
    before: Option<&(DeviceId, u64, Vec<EntryId>)>,
) -> Vec<Alarm> {
    let mut alarms = Vec::new();
    let last = before.map_or(0, |(_, last, _)| *last);
    if held.len() > 1 {
        alarms.push(Alarm::Cloned { device, seq, entries: held.iter().map(|held| held.id()).collect() });
    }
    let gap = seq > last + 1;
    if gap {
        alarms.push(Alarm::Gap { device, from: last + 1, to: seq - 1 });
    }
    for entry in held {
        let follows = match (entry.prev(), before) {
            (None, _) => seq == 1,
            (Some(_), _) if gap => true,
            (Some(prev), Some((_, _, ids))) => ids.contains(&prev),
            (Some(_), None) => false,
        };
        if !follows {
            alarms.push(Alarm::Broken { device, entry: entry.id() });
        }
    }
    alarms
}
