//! Where entries are kept.
//!
//! One trait, so that a folder on a laptop and an office database hold the same record. An entry is
//! accepted whole or not at all, and is on the disk before `add` returns.
//!
//! Words: *arrival* = the order entries came in, for asking what is new.
//! Never: interpret what an entry says; alter or erase one.

mod error;
mod migrate;
mod sqlite;

pub use error::StoreError;
pub use sqlite::Sqlite;

use record::{Held, Record};

/// What adding did.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Added {
    /// Entries that were new.
    pub new: usize,
    /// Entries that were here already.
    pub known: usize,
}

/// A place that keeps entries.
pub trait Store {
    /// Keeps all of these entries or none, durably.
    ///
    /// # Errors
    /// When the store cannot be written, or an entry contradicts one that is kept.
    fn add(&mut self, entries: &[Held]) -> Result<Added, StoreError>;

    /// The record of a job. Every line is proved again as it is read.
    ///
    /// # Errors
    /// When the store cannot be read or a line in it was altered.
    fn record(&self, job: &str) -> Result<Record, StoreError>;

    /// The jobs that have entries, by name.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn jobs(&self) -> Result<Vec<String>, StoreError>;
}
