//! What is said over HTTP between a device and the desk: the bodies, the headers, the limits.
//!
//! An entry travels as the line it is kept as, one a row; everything around it is the JSON of these types.
//! A refusal has one shape everywhere (`Refusal`), and its word stands in one table (`CODES`).
//!
//! Words: *desk* = the program the devices meet at; *cursor* = the arrival number at the desk of the last
//! entry of a job that was seen; 0 = none.
//! Never: hold a number of the record; decide anything.

mod codes;
mod refusal;
mod site_clock;
mod sum;
mod text;

pub use codes::{Again, CODES, Code};
pub use refusal::Refusal;
pub use site_clock::SiteClock;
pub use sum::IdSum;

use quantity::Moment;
use record::EntryId;
use serde::{Deserialize, Serialize};

/// What every path of the interface begins with.
pub const PREFIX: &str = "/api/v1";
/// The cookie that carries a device's token.
pub const COOKIE: &str = "shaftbook_device";
/// Header of a push: the key that signs what this device itself writes in the job, 64 hexadecimal digits. A device that
/// is let go is known by it, whoever carries its entries.
pub const OWN_KEY_HEADER: &str = "shaftbook-own-key";
/// Header of a page of entries: the cursor to ask after next.
pub const CURSOR_HEADER: &str = "shaftbook-cursor";
/// Header of a page of entries: `true` when there is more after it.
pub const MORE_HEADER: &str = "shaftbook-more";
/// Greatest number of lines in one push.
pub const PUSH_LINES_MAX: usize = 500;
/// Greatest size of one push, bytes.
pub const PUSH_BYTES_MAX: usize = 2 * 1024 * 1024;
/// Greatest size of one line, bytes.
pub const LINE_BYTES_MAX: usize = 512 * 1024;
/// Greatest number of lines in one page of a pull; a greater limit asked for is brought down to it.
pub const PULL_LINES_MAX: usize = 5000;

/// Body of `POST /pair`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Pair {
    /// The code shown on the desk.
    pub code: String,
    /// What the device is to be called.
    pub name: String,
    /// Its public pairing key, 64 hexadecimal digits.
    pub device: String,
}

/// Answer to `POST /pair`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Paired {
    /// What the device shows from now on, as a bearer token or the cookie.
    pub token: String,
    /// What the office is called.
    pub office: String,
    /// The desk's clock.
    #[serde(with = "text::moment")]
    pub server_time: Moment,
    /// The name the person signs with to whom the code belonged; none where the office has no people.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub signs_as: Option<String>,
}

/// Answer to `GET /hello`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Hello {
    /// What the office is called.
    pub office: String,
    /// The program's version.
    pub version: String,
    /// The desk's clock.
    #[serde(with = "text::moment")]
    pub server_time: Moment,
    /// Whether whoever asks is paired.
    pub paired: bool,
    /// Only in a demonstration: the clock of its job, which everybody follows there.
    pub clock: Option<SiteClock>,
}

/// Answer to `GET /jobs`.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Jobs {
    /// The jobs that have entries, by name.
    pub jobs: Vec<JobState>,
}

/// What the desk holds of a job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct JobState {
    /// The job.
    pub job: String,
    /// How many entries it has.
    pub entries: u64,
    /// The arrival number of its last entry.
    pub cursor: u64,
    /// The sum of the ids of all of them, by which a tablet notices that the desk was set back and then
    /// went on; `None`: not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sum: Option<IdSum>,
}

/// Answer to `POST /entries`: one answer a line that is not blank, in their order.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Pushed {
    /// What became of each line.
    pub answers: Vec<LineAnswer>,
    /// The greatest arrival number at the desk, of any job.
    pub cursor: u64,
}

/// What became of one line of a push.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LineAnswer {
    /// The entry's id; `None` where the line names none.
    #[serde(with = "text::id")]
    pub id: Option<EntryId>,
    /// Line number in the push, from 1.
    pub line: usize,
    /// What became of it.
    pub state: State,
    /// Why it was refused.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub refusal: Option<Refusal>,
    /// What a person should know of an entry that was kept all the same.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub notice: Option<Refusal>,
}

/// What became of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum State {
    /// It is on the disk now.
    Stored,
    /// It was on the disk already.
    Known,
    /// It is not kept.
    Refused,
}

/// Body of `POST /photos/missing`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Hashes {
    /// SHA-256 of each file, 64 hexadecimal digits.
    pub hashes: Vec<String>,
}

/// Answer to `POST /photos/missing`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Missing {
    /// Those the desk does not hold.
    pub missing: Vec<String>,
}

/// Body of `POST /jobs/{job}/shafts/{shaft}/seal`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SealAsked {
    /// Who seals; where there are people, the name of the one who asks stands beside it.
    #[serde(default)]
    pub by: String,
    /// Although findings fail that nobody decided about.
    #[serde(default)]
    pub with_open_findings: bool,
}

/// Answer to `POST /jobs/{job}/shafts/{shaft}/seal`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ShaftIsSealed {
    /// The entry that seals it; the one that stands, where nothing came after it.
    #[serde(with = "text::id")]
    pub entry: Option<EntryId>,
}

/// Data of the event `arrived` of `GET /live`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Arrived {
    /// The job that has a new entry.
    pub job: String,
    /// The arrival number of its last entry.
    pub cursor: u64,
}
