//! Where entries are kept.
//!
//! One file on a laptop (SQLite) or a database that many programs share (PostgreSQL) hold the same record, asked in the
//! same words. An entry is accepted whole or not at all, and is on the disk before `add` returns.
//!
//! Words: *arrival* = the order entries came in, for asking what is new; *cursor* = the arrival up to which
//! somebody has read; *line* = an entry as its proved bytes; *office* = what a server needs beside entries; *people* =
//! who may come in.
//! Never: interpret what an entry says; alter or erase one; read a clock.

mod address;
mod aside;
mod backup;
mod carry;
mod check;
mod count;
mod database;
mod entries;
mod error;
mod line;
mod migrate;
mod moved;
mod named;
mod office;
mod passkeys;
mod password;
mod people;
mod photos;
#[cfg(test)]
mod plans;
mod postgres;
mod pull;
mod role;
mod sign_ins;
mod sql;
mod sqlite;
mod tries;

pub use address::{Address, AddressError};
pub use aside::{Aside, LettingIn, SetAside};
pub use backup::restore;
pub use check::{Checked, Proved};
pub use database::Database;
pub use error::StoreError;
pub use line::Line;
pub use moved::move_all;
pub use office::{Device, Office, Pairing};
pub use passkeys::{Ceremony, NewPasskey, Passkey, Passkeys};
pub use password::{SALT, hidden_password, is_password};
pub use people::{Known, Left, People, Person, Removal, Span, name_of_person, name_to_sign_with};
pub use photos::Photos;
pub use postgres::Listener;
pub use pull::{Arrival, Head, JobCount, Page};
pub use role::{EVERY_JOB, Role, Roles};
pub use sign_ins::{SignIn, SignIns};
pub use sql::Told;
pub use sqlite::Sqlite;
pub use tries::{CODES, Tally, Tries};

use record::{Held, Record};

/// The name of the database in a folder.
pub const DATABASE: &str = "record.sqlite";

/// The name of the folder of photos in a folder.
pub const PHOTOS: &str = "photos";

/// What adding did.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Added {
    /// Entries that were new.
    pub new: usize,
    /// Entries that were here already.
    pub known: usize,
}

/// What became of one line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kept {
    /// It was new; its arrival.
    New(i64),
    /// It was here already; its arrival.
    Known(i64),
    /// Another content is here under its id; it was not taken.
    Contradicts,
}

/// A place that keeps entries.
pub trait Store {
    /// Keeps all of these entries or none, durably.
    ///
    /// # Errors
    /// When the store cannot be written, or an entry contradicts one that is kept.
    fn add(&mut self, entries: &[Held]) -> Result<Added, StoreError>;

    /// Keeps these lines durably in one commit, and tells of each what became of it. A line that
    /// contradicts a kept one is left out; the others are kept all the same.
    ///
    /// # Errors
    /// When the store cannot be written; none is kept then.
    fn add_lines(&mut self, lines: &[Line]) -> Result<Vec<Kept>, StoreError>;

    /// The record of a job. Every line is proved again as it is read.
    ///
    /// # Errors
    /// When the store cannot be read or a line in it was altered.
    fn record(&self, job: &str) -> Result<Record, StoreError>;

    /// An entry by its id, also one that is set aside; `None`: it is not here.
    ///
    /// # Errors
    /// When the store cannot be read or the line was altered.
    fn entry(&self, id: &str) -> Result<Option<Held>, StoreError>;

    /// The jobs of which an entry names a file by its hash, 64 hexadecimal digits, by name.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn jobs_naming(&self, hash: &str) -> Result<Vec<String>, StoreError>;

    /// The jobs that have entries, by name.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn jobs(&self) -> Result<Vec<String>, StoreError>;

    /// The lines of a job that arrived after a cursor, in order of arrival. Each is compared with its id.
    ///
    /// # Errors
    /// When the store cannot be read or a line in it was altered.
    fn after(&self, job: &str, cursor: i64, most: Most) -> Result<Page, StoreError>;

    /// How much there is of each job, by name.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn counts(&self) -> Result<Vec<JobCount>, StoreError>;

    /// How much there is of one job; `None`: nothing.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn count(&self, job: &str) -> Result<Option<JobCount>, StoreError>;

    /// The last arrival of any job; 0: none.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn last_arrival(&self) -> Result<i64, StoreError>;

    /// What arrived after a cursor, of any job: at most so many, in order of arrival.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn arrivals(&self, cursor: i64, most: usize) -> Result<Vec<Arrival>, StoreError>;

    /// How much of a job each device wrote, by device.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn heads(&self, job: &str) -> Result<Vec<Head>, StoreError>;
}

/// How much a page may hold; it holds one line at least when there is one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Most {
    /// Lines.
    pub lines: usize,
    /// Bytes of all lines together.
    pub bytes: usize,
}
