//! What a tablet asks, what it hears, and what that changes.

use record::{DeviceId, EntryId, Held};
use wire::LineFault;
use wire::http::{Pushed, Refusal};

/// One question to the desk. It stays open until it is heard or lost.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ask {
    /// Its number, to be given back with the answer.
    pub number: u64,
    /// What is asked.
    pub what: What,
}

/// What is asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum What {
    /// Take these in: `POST /entries`, one line each, in this order. A carrier whose request would grow too
    /// large may leave out some at the end.
    Push {
        /// The entries, in the order they were written.
        ids: Vec<EntryId>,
    },
    /// What came after: `GET /entries`.
    Pull {
        /// The cursor.
        after: u64,
        /// Greatest number of lines.
        limit: usize,
    },
}

/// What the desk said.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// To a push.
    Pushed(Pushed),
    /// To a pull.
    Page {
        /// The lines, without line feeds.
        lines: Vec<String>,
        /// The cursor to ask after next.
        cursor: u64,
        /// There is more.
        more: bool,
    },
    /// To anything: the whole request was refused. An answer that is none of these is no answer: `lost`.
    Refused(Refusal),
}

/// An entry that came in, proved.
#[derive(Debug, Clone, PartialEq)]
pub struct Arrived {
    /// What it is.
    pub held: Held,
    /// Its line, to be kept byte for byte.
    pub line: String,
}

/// What an answer changes. All effects of one answer are kept together with `Tablet::kept`, in one
/// transaction; when that fails, the tablet is thrown away and resumed from what is kept.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// The desk has these on its disk.
    Acknowledged {
        /// Which, in the order they were written.
        ids: Vec<EntryId>,
    },
    /// These are new here: keep them.
    Keep {
        /// The entries.
        entries: Vec<Arrived>,
        /// How far the desk's entries were seen.
        cursor: u64,
    },
    /// The desk does not take this one in. It stays here, is shown, and is not sent again by itself.
    Refused {
        /// Which.
        id: EntryId,
        /// Why.
        refusal: Refusal,
    },
    /// Two entries under one number of one device: it was copied, or set back to an earlier state.
    Cloned {
        /// The device.
        device: DeviceId,
        /// The number.
        seq: u64,
        /// All entries under it, by id.
        entries: Vec<EntryId>,
        /// It is this device.
        own: bool,
    },
    /// The desk sent a line that is not taken in.
    Doubted {
        /// The line as it came.
        line: String,
        /// Why.
        doubt: Doubt,
    },
    /// The desk lacks what it had acknowledged: it was set back, as by a backup. Everything kept here is
    /// offered to it again.
    SetBack {
        /// How many entries are offered.
        offered: usize,
    },
}

/// Why a line of the desk is not taken in.
#[derive(Debug, Clone, PartialEq)]
pub enum Doubt {
    /// It is no entry, or not what its device signed.
    Fault(LineFault),
    /// It belongs to that other job.
    OtherJob(String),
}
