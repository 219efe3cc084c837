//! What the device tells the screens: plain values that can be compared and copied.
//!
//! A person has to see at any time whether what was entered is kept, whether it has travelled, and whether
//! the browser may throw it away.
//!
//! Words: *outbox* = entries kept here that the office has not acknowledged; *pairing* = the office knows
//! this device.
//! Never: hold a handle of the browser.

use quantity::Moment;
use record::Body;
use serde::{Deserialize, Serialize};
use wording::Notice;

/// A job on this device, as a list shows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct JobCard {
    /// The key of the job.
    pub(crate) name: String,
    /// The name people gave it, once it is opened.
    pub(crate) title: Option<String>,
    /// How many entries are kept here.
    pub(crate) entries: usize,
    /// Made up for practice.
    pub(crate) rehearsal: bool,
}

/// Which colors the screens have.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub(crate) enum Theme {
    /// Ink on paper.
    Sun,
    /// Dim on dark.
    Night,
    /// As the device is set.
    #[default]
    System,
}

/// The hand that taps.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub(crate) enum Hand {
    /// Keys stand on the right.
    #[default]
    Right,
    /// Keys stand on the left.
    Left,
}

/// How the device shows and sounds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Settings {
    /// Colors.
    pub(crate) theme: Theme,
    /// The hand that taps.
    pub(crate) hand: Hand,
    /// A sound calls attention.
    pub(crate) sound: bool,
    /// A vibration calls attention.
    pub(crate) vibrate: bool,
}

impl Default for Settings {
    fn default() -> Self {
        Settings { theme: Theme::System, hand: Hand::Right, sound: false, vibrate: true }
    }
}

/// How it stands between this device and the office.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Link {
    /// Nobody has looked yet, since the page was opened.
    NotLooked,
    /// No office knows this device.
    NeverPaired,
    /// The office cannot be reached.
    NoConnection {
        /// Since the first try that failed.
        since: Moment,
    },
    /// Entries are on their way.
    Sending,
    /// Both had the same.
    InStep {
        /// When that was last seen.
        at: Moment,
    },
    /// The office answered and refused.
    Refused(Notice),
}

/// What waits for the office.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Outbox {
    /// Whether what is kept was counted; until then every number here is none.
    pub(crate) counted: bool,
    /// Entries kept here that the office has not acknowledged.
    pub(crate) waiting: usize,
    /// When the oldest of them was entered.
    pub(crate) since: Option<Moment>,
    /// Photos kept here that the office has not acknowledged.
    pub(crate) photos: usize,
    /// Entries the office refused: kept here, marked, not sent again.
    pub(crate) refused: usize,
    /// The way to the office.
    pub(crate) link: Link,
}

impl Outbox {
    /// Before anything was counted, and before anybody looked for the office.
    pub(super) fn new() -> Self {
        Outbox { counted: false, waiting: 0, since: None, photos: 0, refused: 0, link: Link::NotLooked }
    }
}

/// How the browser keeps what is entered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Storage {
    /// Not known yet: the storage is being opened.
    Opening,
    /// The browser promised to keep it until a person removes it.
    Persistent,
    /// Kept, and the browser may clear it when the device runs full.
    MayBeCleared,
    /// Nothing can be kept here: private browsing, storage switched off, a database of a newer program.
    NotKept(Notice),
    /// The room is nearly used up, or used up.
    Full(Notice),
}

/// The office that knows this device.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Pairing {
    /// What the office calls itself.
    pub(crate) office: String,
    /// What the office calls this device.
    pub(crate) name: String,
}

/// An entry as a screen hands it over: everything but the key, the place in the chain and the clock.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Pending {
    /// The job.
    pub(crate) job: String,
    /// The shaft; `None`: the whole job.
    pub(crate) shaft: Option<String>,
    /// When it was seen.
    pub(crate) observed_at: Moment,
    /// When it was written down, where it is taken over from paper.
    pub(crate) noted_at: Option<Moment>,
    /// What it says.
    pub(crate) body: Body,
}

/// What reading a file of entries brought.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Added {
    /// Entries that were not here.
    pub(crate) new: usize,
    /// Entries that were here already.
    pub(crate) known: usize,
}

/// An entry the office refused.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct RefusedEntry {
    /// Its id, in hexadecimal.
    pub(crate) id: String,
    /// Its job.
    pub(crate) job: String,
    /// What the office said: what happened, what it means, what to do.
    pub(crate) what: String,
    /// What it means for the record.
    pub(crate) meaning: String,
    /// What to do now.
    pub(crate) next: String,
}

/// Files of field notes and tables that are read together.
#[derive(Debug, Clone, Default)]
pub(crate) struct NotesWanted {
    /// The job they are for; `None`: one of them opens it.
    pub(crate) job: Option<String>,
    /// The name people know each by, and its bytes; what ends in `.csv` is a table.
    pub(crate) files: Vec<(String, Vec<u8>)>,
    /// The shaft a table is about, where its rows do not say it.
    pub(crate) shaft: Option<String>,
    /// The day its times belong to, such as `2026-05-04`, where its rows do not say it.
    pub(crate) date: Option<String>,
}

/// What a file of notes gave: drafts that wait for `enter_notes`.
#[derive(Debug, Clone)]
pub(crate) struct NotesRead {
    /// The drafts.
    pub(crate) notes: notes::Notes,
    /// SHA-256 of the file.
    pub(crate) file: record::entry::FileHash,
    /// Drafts that are not in the record.
    pub(crate) new: usize,
    /// Drafts that are in the record already and will not be entered twice.
    pub(crate) known: usize,
    /// Rows left out because they say themselves that they do not stand, as sentences.
    pub(crate) left_out: Vec<String>,
}
