//! Seals of a shaft, what each covers, and what came after.
//!
//! A seal names the last entry of each device. Numbers on a device only grow, so those names and the shaft say which
//! entries are meant, whatever arrives later. What came later is kept and shown beside the sealed set; nothing takes an
//! entry out of it or puts one in, a correction of the seal itself neither.
//!
//! Words: *sealed set* = the entries a seal covers; *supplement* = entries of the shaft that came after its last seal.
//! Never: hash; whether a seal is right is proved in `seal`.

use crate::kinds::{Body, ShaftSealed};
use crate::{DeviceId, Entry, EntryId, Held, Record};
use std::collections::BTreeMap;

/// A seal as it stands in a record.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShaftSeal<'r> {
    /// The entry.
    pub entry: &'r Entry,
    /// What it says.
    pub said: &'r ShaftSealed,
}

/// What came after a seal, other seals left out.
#[derive(Debug, Clone, PartialEq)]
pub struct Supplement<'r> {
    /// The seal it came after.
    pub seal: ShaftSeal<'r>,
    /// Entries of the shaft, in the order they were entered.
    pub entries: Vec<&'r Held>,
    /// How many came about the whole job.
    pub of_job: usize,
}

impl Record {
    /// The seals of a shaft, oldest first.
    pub fn seals(&self, shaft: &str) -> Vec<ShaftSeal<'_>> {
        let of_shaft = |held: &&Held| held.shaft() == Some(shaft);
        let mut seals: Vec<_> = self.entries().filter(of_shaft).filter_map(seal_of).collect();
        seals.sort_by_key(|seal| (seal.entry.entered_at, seal.entry.seq, seal.entry.id));
        seals
    }

    /// Everything that concerns a shaft: its own entries and those about the whole job.
    pub fn of_shaft_and_job(&self, shaft: &str) -> Record {
        self.part(|held| self.home(held).is_none_or(|home| home == shaft))
    }

    /// The last entry of each device.
    pub fn heads(&self) -> Vec<EntryId> {
        let mut last: BTreeMap<DeviceId, (u64, EntryId)> = BTreeMap::new();
        for held in self.entries() {
            let (device, seq) = held.place();
            let best = last.entry(device).or_insert((seq, held.id()));
            *best = (*best).max((seq, held.id()));
        }
        last.into_values().map(|(_, id)| id).collect()
    }

    /// The entries a seal covers, as a record of their own.
    ///
    /// # Errors
    /// Entries the seal names that are not here.
    pub fn sealed_set(&self, shaft: &str, said: &ShaftSealed) -> Result<Record, Vec<EntryId>> {
        let gone = |id: &&EntryId| self.get(id).is_none();
        let missing: Vec<EntryId> = said.heads.iter().filter(gone).copied().collect();
        if !missing.is_empty() {
            return Err(missing);
        }
        let last: BTreeMap<DeviceId, u64> =
            said.heads.iter().filter_map(|id| self.get(id)).map(Held::place).collect();
        Ok(self.of_shaft_and_job(shaft).part(|held| is_within(held, &last)))
    }

    /// What came after the last seal; `None`: the shaft is not sealed.
    pub fn supplement(&self, shaft: &str) -> Option<Supplement<'_>> {
        self.seals(shaft).pop().map(|seal| self.supplement_of(shaft, seal))
    }

    /// What came after a seal.
    pub fn supplement_of<'r>(&'r self, shaft: &str, seal: ShaftSeal<'r>) -> Supplement<'r> {
        let heads = seal.said.heads.iter().filter_map(|id| self.get(id));
        let last: BTreeMap<DeviceId, u64> = heads.map(Held::place).collect();
        let later = |held: &&Held| !is_within(held, &last) && seal_of(held).is_none();
        let later: Vec<&Held> = self.entries().filter(later).collect();
        let of_job = later.iter().filter(|held| self.home(held).is_none()).count();
        let mut entries: Vec<&Held> =
            later.into_iter().filter(|held| self.home(held) == Some(shaft)).collect();
        entries.sort_by_key(|held| (entered(held), held.place().1, held.id()));
        Supplement { seal, entries, of_job }
    }
}

fn seal_of(held: &Held) -> Option<ShaftSeal<'_>> {
    match held {
        Held::Known(entry) => match &entry.body {
            Body::ShaftSealed(said) => Some(ShaftSeal { entry, said }),
            _ => None,
        },
        Held::Newer(_) => None,
    }
}

fn is_within(held: &Held, last: &BTreeMap<DeviceId, u64>) -> bool {
    let (device, seq) = held.place();
    last.get(&device).is_some_and(|last| seq <= *last)
}

/// When it was entered; what needs an update comes last.
fn entered(held: &Held) -> Option<quantity::Moment> {
    match held {
        Held::Known(entry) => Some(entry.entered_at),
        Held::Newer(_) => None,
    }
}
