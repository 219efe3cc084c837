//! Why a store could not do what it was asked.

use std::fmt;

/// Why a store could not do what it was asked.
#[derive(Debug)]
pub enum StoreError {
    /// The database itself: missing, locked, full, damaged.
    Database(rusqlite::Error),
    /// The file is no database of ours, or one of a newer program.
    Version {
        /// Its version.
        found: i64,
        /// The newest version we know.
        known: i64,
    },
    /// A kept line is not what it was: damaged or altered behind our back.
    Altered {
        /// Which, in order of arrival.
        arrival: i64,
        /// What is wrong with it.
        fault: wire::LineFault,
    },
    /// Entries that cannot be in one record.
    Merge(record::MergeError),
    /// Two contents under one id.
    SameId(record::EntryId),
}

impl fmt::Display for StoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            StoreError::Database(error) => write!(f, "the database did not answer as it should: {error}"),
            StoreError::Version { found, known } => {
                write!(f, "the database has version {found}; this program knows up to {known}")
            }
            StoreError::Altered { arrival, fault } => write!(f, "kept line {arrival}: {fault}"),
            StoreError::Merge(error) => error.fmt(f),
            StoreError::SameId(id) => write!(f, "two contents under the id {id}"),
        }
    }
}

impl std::error::Error for StoreError {}

impl From<rusqlite::Error> for StoreError {
    fn from(error: rusqlite::Error) -> Self {
        StoreError::Database(error)
    }
}
