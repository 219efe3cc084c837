//! The list of sign-ins and refusals: only ever added to.
//!
//! Never: hold a secret, or a name nobody has (people type passwords into the wrong field).

use crate::error::StoreError;
use crate::sqlite::Sqlite;
use rusqlite::params;

/// Something that happened at the door.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SignIn {
    /// When, seconds since 1970.
    pub at: i64,
    /// What, a stable word: `signed-in`, `refused`, …
    pub what: String,
    /// The name of the person it is about; `None` where nobody is known.
    pub person: Option<String>,
    /// The address it came from; empty for the console.
    pub address: String,
    /// Further about it.
    pub about: String,
}

/// A place that keeps what happened at the door.
pub trait SignIns {
    /// Adds to the list.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn note_sign_in(&mut self, happened: &SignIn) -> Result<(), StoreError>;

    /// The list, newest first, with the number of each: at most so many of those before a number.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn sign_ins(&self, before: i64, most: usize) -> Result<Vec<(i64, SignIn)>, StoreError>;
}

impl SignIns for Sqlite {
    fn note_sign_in(&mut self, happened: &SignIn) -> Result<(), StoreError> {
        let SignIn { at, what, person, address, about } = happened;
        let add = "INSERT INTO sign_in (at, what, person, address, about) VALUES (?1, ?2, ?3, ?4, ?5)";
        self.connection.execute(add, params![at, what, person, address, about])?;
        Ok(())
    }

    fn sign_ins(&self, before: i64, most: usize) -> Result<Vec<(i64, SignIn)>, StoreError> {
        let question = "SELECT number, at, what, person, address, about FROM sign_in WHERE number < ?1
             ORDER BY number DESC LIMIT ?2";
        let mut statement = self.connection.prepare_cached(question)?;
        let rows = statement.query_map(params![before, i64::try_from(most).unwrap_or(i64::MAX)], |row| {
            let (at, what, person) = (row.get(1)?, row.get(2)?, row.get(3)?);
            Ok((row.get(0)?, SignIn { at, what, person, address: row.get(4)?, about: row.get(5)? }))
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }
}
