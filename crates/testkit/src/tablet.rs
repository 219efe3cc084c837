//! Tablets: devices with a published key that write one entry after the other.

use crate::moment::at;
use quantity::Moment;
use record::{Body, DeviceId, Entry, EntryId, Held, Record};
use wire::{Draft, Key};

/// The job every tablet writes in, unless it is told otherwise.
pub const JOB: &str = "J-1";

/// A key everybody knows: of the secret that is the same byte 32 times.
pub fn key(number: u8) -> Key {
    Key::of_secret([number; 32])
}

/// A device that writes. Copying one makes what a cloned tablet is.
#[derive(Debug, Clone)]
pub struct Tablet {
    number: u8,
    author: String,
    job: String,
    shaft: Option<String>,
    seq: u64,
    prev: Option<EntryId>,
}

impl Tablet {
    /// A tablet with the key of a number, writing about shaft S-1.
    pub fn new(number: u8) -> Self {
        Tablet {
            number,
            author: "A. Inspector".to_owned(),
            job: JOB.to_owned(),
            shaft: Some("S-1".to_owned()),
            seq: 0,
            prev: None,
        }
    }

    /// From here on it writes about another shaft, or with `None` about the whole job.
    #[must_use]
    pub fn about(mut self, shaft: Option<&str>) -> Self {
        self.shaft = shaft.map(str::to_owned);
        self
    }

    /// From here on somebody else writes on it.
    #[must_use]
    pub fn by(mut self, author: &str) -> Self {
        author.clone_into(&mut self.author);
        self
    }

    /// From here on it writes in another job.
    #[must_use]
    pub fn of_job(mut self, job: &str) -> Self {
        job.clone_into(&mut self.job);
        self
    }

    /// Its public key.
    pub fn device(&self) -> DeviceId {
        key(self.number).device()
    }

    /// Writes what was seen at a clock time, entered a minute later.
    #[track_caller]
    pub fn write(&mut self, clock: &str, body: Body) -> Entry {
        let seen = at(clock);
        self.enter(seen, None, seen.plus_seconds(60), body)
    }

    /// Writes down later what was seen earlier.
    #[track_caller]
    pub fn write_late(&mut self, seen: &str, entered: &str, body: Body) -> Entry {
        self.enter(at(seen), None, at(entered), body)
    }

    /// Takes over from paper: seen and noted by the clock, entered when somebody typed it in.
    #[track_caller]
    pub fn take_over(&mut self, seen: &str, noted: &str, entered: &str, body: Body) -> Entry {
        self.enter(at(seen), Some(at(noted)), at(entered), body)
    }

    /// Passes over a number, as a device does whose entry was lost.
    pub fn lose(&mut self) {
        self.seq += 1;
    }

    /// Writes an entry with the three times given.
    pub fn enter(&mut self, seen: Moment, noted: Option<Moment>, entered: Moment, body: Body) -> Entry {
        self.seq += 1;
        let key = key(self.number);
        let draft = Draft {
            job: self.job.clone(),
            shaft: self.shaft.clone(),
            device: key.device(),
            seq: self.seq,
            prev: self.prev,
            author: self.author.clone(),
            observed_at: seen,
            noted_at: noted,
            entered_at: entered,
            body,
        };
        let entry = draft.seal(&key);
        self.prev = Some(entry.id);
        entry
    }
}

/// A record of some entries.
///
/// Panics when they cannot stand in one.
#[track_caller]
pub fn record<'e>(entries: impl IntoIterator<Item = &'e Entry>) -> Record {
    Record::of(entries.into_iter().cloned().map(Held::Known)).expect("the entries stand in one record")
}
