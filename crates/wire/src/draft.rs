//! A draft becomes an entry: it gets its place in the chain, its id and its signature.

use crate::canonical::sha256;
use crate::key::Key;
use crate::v1;
use quantity::Moment;
use record::{Body, DeviceId, Entry, EntryId};

/// An entry before it has an id and a signature.
#[derive(Debug, Clone, PartialEq)]
pub struct Draft {
    /// The job it belongs to.
    pub job: String,
    /// The shaft it is about; `None`: the whole job.
    pub shaft: Option<String>,
    /// The device it is written on.
    pub device: DeviceId,
    /// Its number on that device, from 1.
    pub seq: u64,
    /// The entry before it on that device.
    pub prev: Option<EntryId>,
    /// Who writes it.
    pub author: String,
    /// When it was seen.
    pub observed_at: Moment,
    /// When it was written down, where it is taken over from paper.
    pub noted_at: Option<Moment>,
    /// When it is entered.
    pub entered_at: Moment,
    /// What it says.
    pub body: Body,
}

impl Draft {
    /// The draft an entry was made of.
    pub(crate) fn of(entry: &Entry) -> Self {
        Draft {
            job: entry.job.clone(),
            shaft: entry.shaft.clone(),
            device: entry.device,
            seq: entry.seq,
            prev: entry.prev,
            author: entry.author.clone(),
            observed_at: entry.observed_at,
            noted_at: entry.noted_at,
            entered_at: entry.entered_at,
            body: entry.body.clone(),
        }
    }

    /// The entry: hashed and signed. The key must be that of `device`.
    pub fn seal(self, key: &Key) -> Entry {
        assert_eq!(key.device(), self.device, "a device signs with its own key");
        let bytes = v1::signed_bytes(&self);
        Entry {
            id: EntryId(sha256(bytes.as_bytes())),
            seal: key.seal(bytes.as_bytes()),
            job: self.job,
            shaft: self.shaft,
            device: self.device,
            seq: self.seq,
            prev: self.prev,
            author: self.author,
            observed_at: self.observed_at,
            noted_at: self.noted_at,
            entered_at: self.entered_at,
            body: self.body,
        }
    }
}

/// The pen of a device: writes one entry after the other and keeps its chain.
pub struct Pen<'k> {
    key: &'k Key,
    job: String,
    author: String,
    seq: u64,
    prev: Option<EntryId>,
}

impl<'k> Pen<'k> {
    /// A pen that goes on after `head`, the number and id of the last entry of this device.
    pub fn new(key: &'k Key, job: &str, author: &str, head: Option<(u64, EntryId)>) -> Self {
        Pen {
            key,
            job: job.to_owned(),
            author: author.to_owned(),
            seq: head.map_or(0, |(seq, _)| seq),
            prev: head.map(|(_, id)| id),
        }
    }

    /// Another author takes the device over.
    pub fn author(&mut self, author: &str) {
        author.clone_into(&mut self.author);
    }

    /// Writes an entry.
    pub fn write(&mut self, shaft: Option<&str>, times: Times, body: Body) -> Entry {
        self.seq += 1;
        let draft = Draft {
            job: self.job.clone(),
            shaft: shaft.map(str::to_owned),
            device: self.key.device(),
            seq: self.seq,
            prev: self.prev,
            author: self.author.clone(),
            observed_at: times.observed_at,
            noted_at: times.noted_at,
            entered_at: times.entered_at,
            body,
        };
        let entry = draft.seal(self.key);
        self.prev = Some(entry.id);
        entry
    }
}

/// The three times of an entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Times {
    /// When it was seen.
    pub observed_at: Moment,
    /// When it was written down, where it is taken over from paper.
    pub noted_at: Option<Moment>,
    /// When it is entered.
    pub entered_at: Moment,
}
