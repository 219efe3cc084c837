//! Which entries a seal covers, found again from the record alone.
//!
//! A seal names the last entry of each device. Numbers on a device only grow, so those names and the shaft say which
//! entries are meant, whatever arrived since.

use crate::tree;
use record::entry::FileHash;
use record::kinds::{Body, ShaftSealed};
use record::{DeviceId, EntryId, Held, Record};
use std::collections::BTreeMap;

/// The entries of a shaft, and those about the whole job, that a seal covers.
#[derive(Debug, Clone)]
pub struct Covered {
    /// They, as a record of their own.
    pub record: Record,
    /// The last of each device.
    pub heads: Vec<EntryId>,
}

/// What came after a seal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Later {
    /// Entries of the shaft, by id: the supplement.
    pub of_shaft: Vec<EntryId>,
    /// Entries about the whole job.
    pub of_job: usize,
}

impl Covered {
    /// Everything there is now.
    pub fn now(record: &Record, shaft: &str) -> Self {
        let part = record.part(|held| concerns(record, held, shaft));
        let heads = last_of_each(&part).into_values().map(|(_, id)| id).collect();
        Covered { record: part, heads }
    }

    /// What a seal covered.
    ///
    /// # Errors
    /// The heads it names that are not here.
    pub fn by(record: &Record, shaft: &str, seal: &ShaftSealed) -> Result<Self, Vec<EntryId>> {
        let missing: Vec<EntryId> =
            seal.heads.iter().filter(|id| record.get(id).is_none()).copied().collect();
        if !missing.is_empty() {
            return Err(missing);
        }
        let up_to: BTreeMap<DeviceId, u64> =
            seal.heads.iter().filter_map(|id| record.get(id)).map(Held::place).collect();
        let within = |held: &Held| up_to.get(&held.place().0).is_some_and(|last| held.place().1 <= *last);
        let part = record.part(|held| within(held) && concerns(record, held, shaft));
        Ok(Covered { record: part, heads: seal.heads.clone() })
    }

    /// The root of the tree over the lines, in order of id.
    pub fn root(&self) -> FileHash {
        root_of(&self.record)
    }

    /// What is in the record and not covered, seals left out.
    pub fn later(&self, record: &Record, shaft: &str) -> Later {
        let mut later = Later { of_shaft: Vec::new(), of_job: 0 };
        for held in record.entries().filter(|held| self.record.get(&held.id()).is_none() && !is_seal(held)) {
            match record.home(held) {
                None => later.of_job += 1,
                Some(home) if home == shaft => later.of_shaft.push(held.id()),
                Some(_) => {}
            }
        }
        later
    }
}

/// The root of the tree over the lines of a record, in order of id.
pub(crate) fn root_of(record: &Record) -> FileHash {
    let lines: Vec<String> = record.entries().map(wire::write).collect();
    FileHash(tree::root(&lines.iter().map(String::as_bytes).collect::<Vec<_>>()))
}

/// It is about the shaft or the whole job.
fn concerns(record: &Record, held: &Held, shaft: &str) -> bool {
    record.home(held).is_none_or(|home| home == shaft)
}

fn is_seal(held: &Held) -> bool {
    matches!(held, Held::Known(entry) if matches!(entry.body, Body::ShaftSealed(_)))
}

fn last_of_each(record: &Record) -> BTreeMap<DeviceId, (u64, EntryId)> {
    let mut last: BTreeMap<DeviceId, (u64, EntryId)> = BTreeMap::new();
    for held in record.entries() {
        let (device, seq) = held.place();
        let best = last.entry(device).or_insert((seq, held.id()));
        *best = (*best).max((seq, held.id()));
    }
    last
}
