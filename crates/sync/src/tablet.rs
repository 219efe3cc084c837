//! One tablet and one job: what waits, how far the desk was seen, what to ask next.
//!
//! The carrier's loop: `ask`, carry it, then `heard` or `lost`; keep the effects together with `kept`; when
//! `ask` has nothing, wait until something is written, the desk tells of an arrival (`arrived`), or a minute
//! passed (`look`). Before each ask wait `wait_ms`: nothing, unless the desk failed.
//!
//! Own entries go before others come: what exists nowhere else is the first to be brought to safety. When
//! the desk takes nothing in but answers, the two take turns, so that a full disk in the office does not
//! keep the tablets from seeing each other.

mod hear;
mod meet;

use crate::kept::Kept;
use crate::known::Known;
use crate::talk::{Ask, Effect, What};
use crate::wait::wait_ms;
use record::{DeviceId, EntryId, Held, Record};
use std::collections::BTreeMap;
use wire::Reader;
use wire::http::{JobState, Refusal};

/// Greatest number of entries in one push.
const PUSH_ENTRIES: usize = 200;
/// Greatest size of one push, bytes; one entry alone may be larger.
const PUSH_BYTES: usize = 512 * 1024;
/// What a line is taken to be long whose length was not measured, bytes.
const LINE_BYTES_ASSUMED: usize = 1024;
/// Greatest number of lines asked for at once.
const PULL_LINES: usize = 2000;

/// One job on one device, as far as the desk is concerned.
#[derive(Debug, Clone)]
pub struct Tablet {
    job: String,
    own: DeviceId,
    reader: Reader,
    known: Known,
    missing: Vec<EntryId>,
    /// In the order they were written.
    waiting: Vec<EntryId>,
    /// Length of the lines that wait, where it was measured.
    bytes: BTreeMap<EntryId, usize>,
    refused: BTreeMap<EntryId, Refusal>,
    cursor: u64,
    /// The desk may have more than was seen.
    behind: bool,
    /// How many entries the next push may hold.
    batch: usize,
    /// The desk did not take in the last push.
    put_off: bool,
    open: Option<Ask>,
    /// The number of the last ask.
    asked: u64,
    /// Answers to asks before this one are of a desk that was set back since.
    valid_from: u64,
    failures: u32,
    /// The last exchange failed.
    resting: bool,
    link: Link,
    /// The cursor after which a line was doubted once; the second time it is passed over.
    doubted: Option<u64>,
    /// Lines passed over.
    passed_over: u64,
    /// Entries were acknowledged since the desk was last seen to its end.
    unseen: bool,
    /// What the desk said it holds when it was last found to lack something.
    compared: Option<JobState>,
}

/// What the desk last did.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Link {
    Answers,
    Silent,
    PutsOff(Refusal),
    NotPaired,
}

/// How this device stands with the desk.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Status {
    /// Nothing waits, and nothing is known to be there that was not seen.
    InStep,
    /// Something is on its way.
    Behind {
        /// Entries that wait to be sent.
        waiting: usize,
        /// The desk may have entries that are not here.
        fetching: bool,
    },
    /// The desk did not answer.
    NoAnswer {
        /// Entries that wait to be sent.
        waiting: usize,
        /// How often in a row.
        failures: u32,
    },
    /// The desk answers, but cannot do it.
    PutOff {
        /// Entries that wait to be sent.
        waiting: usize,
        /// How often in a row.
        failures: u32,
        /// What it said.
        refusal: Refusal,
    },
    /// The desk does not know this device; nothing is asked until `paired`.
    NotPaired {
        /// Entries that wait to be sent.
        waiting: usize,
    },
}

impl Tablet {
    /// Takes up from what was kept: the state, and every entry of the job.
    ///
    /// `own` is the public key this device signs with in this job.
    pub fn resume(job: &str, own: DeviceId, kept: Kept, record: &Record) -> Self {
        let mut known = Known::default();
        for held in record.entries() {
            known.add(held);
        }
        let (waiting, mut missing): (Vec<_>, Vec<_>) = kept.waiting.into_iter().partition(|id| known.has(id));
        let (refused, lost): (BTreeMap<_, _>, BTreeMap<_, _>) =
            kept.refused.into_iter().partition(|(id, _)| known.has(id));
        missing.extend(lost.into_keys());
        let mut bytes = BTreeMap::new();
        bytes.extend(waiting.iter().filter_map(|id| Some((*id, length(record.get(id)?)))));
        Tablet {
            job: job.to_owned(),
            own,
            reader: Reader::default(),
            bytes,
            known,
            missing,
            waiting,
            refused,
            cursor: kept.cursor,
            behind: true,
            batch: PUSH_ENTRIES,
            put_off: false,
            open: None,
            asked: 0,
            valid_from: 1,
            failures: 0,
            resting: false,
            link: Link::Answers,
            doubted: None,
            passed_over: 0,
            unseen: true,
            compared: None,
        }
    }

    /// Entries that are said to wait, or to be refused, but were not among those kept: the device's storage lost them. They
    /// cannot be sent; a person has to know.
    pub fn missing(&self) -> &[EntryId] {
        &self.missing
    }

    /// The job.
    pub fn job(&self) -> &str {
        &self.job
    }

    /// What has to survive a restart.
    pub fn kept(&self) -> Kept {
        Kept { cursor: self.cursor, waiting: self.waiting.clone(), refused: self.refused.clone() }
    }

    /// An entry was written on this device and is kept: it waits from now on.
    pub fn wrote(&mut self, held: &Held) -> Vec<Effect> {
        if self.known.has(&held.id()) {
            return Vec::new();
        }
        self.bytes.insert(held.id(), length(held));
        self.waiting.push(held.id());
        self.hold(held).into_iter().collect()
    }

    /// An entry is held from now on; the alarm when it does not stand alone at its place.
    fn hold(&mut self, held: &Held) -> Option<Effect> {
        let entries = self.known.add(held)?;
        let (device, seq) = held.place();
        Some(Effect::Cloned { device, seq, entries, own: device == self.own })
    }

    /// The next thing to ask; `None` while one is open, and when there is nothing to ask.
    pub fn ask(&mut self) -> Option<Ask> {
        if self.open.is_some() || self.link == Link::NotPaired {
            return None;
        }
        let what = self.next()?;
        self.asked += 1;
        self.open = Some(Ask { number: self.asked, what });
        self.open.clone()
    }

    /// The ask that was neither heard nor lost.
    pub fn open(&self) -> Option<&Ask> {
        self.open.as_ref()
    }

    fn next(&self) -> Option<What> {
        let pull = self.behind.then_some(What::Pull { after: self.cursor, limit: PULL_LINES });
        if self.waiting.is_empty() || (self.put_off && self.behind) {
            return pull;
        }
        Some(What::Push { ids: self.bundle() })
    }

    /// The first of what waits, as many as go into one push.
    fn bundle(&self) -> Vec<EntryId> {
        let mut room = PUSH_BYTES;
        let fits = |id: &&EntryId| {
            let length = self.bytes.get(*id).copied().unwrap_or(LINE_BYTES_ASSUMED);
            let fits = length <= room || room == PUSH_BYTES;
            room = room.saturating_sub(length);
            fits
        };
        self.waiting.iter().take(self.batch).take_while(fits).copied().collect()
    }

    /// Time passed, or a person asked: look whether the desk has something new.
    pub fn look(&mut self) {
        self.behind = true;
    }

    /// The desk told that its last entry of this job has this arrival number.
    pub fn arrived(&mut self, cursor: u64) {
        self.behind |= cursor > self.cursor;
    }

    /// The device was paired: ask again.
    pub fn paired(&mut self) {
        if self.link == Link::NotPaired {
            self.link = Link::Answers;
        }
        self.failures = 0;
        self.behind = true;
    }

    /// A person wants what was refused to be offered once more, as after an update of the desk.
    pub fn offer_refused(&mut self) {
        self.waiting.extend(std::mem::take(&mut self.refused).into_keys());
    }

    /// Milliseconds to wait before the next ask; `chance` is any number the caller drew.
    pub fn wait_ms(&self, chance: u64) -> u64 {
        let pushes = matches!(self.next(), Some(What::Push { .. }));
        if self.resting || pushes { wait_ms(self.failures, chance) } else { 0 }
    }

    /// How many entries wait to be sent.
    pub fn waiting(&self) -> usize {
        self.waiting.len()
    }

    /// What the desk refused, and why.
    pub fn refused(&self) -> &BTreeMap<EntryId, Refusal> {
        &self.refused
    }

    /// How this device stands with the desk.
    pub fn status(&self) -> Status {
        let (waiting, failures) = (self.waiting.len(), self.failures);
        match &self.link {
            Link::NotPaired => Status::NotPaired { waiting },
            Link::Silent => Status::NoAnswer { waiting, failures },
            Link::PutsOff(refusal) => Status::PutOff { waiting, failures, refusal: refusal.clone() },
            Link::Answers if waiting == 0 && !self.behind => Status::InStep,
            Link::Answers => Status::Behind { waiting, fetching: self.behind },
        }
    }
}

/// Length of an entry's line with its line feed, bytes.
fn length(held: &Held) -> usize {
    wire::write(held).len() + 1
}
