//! The list of sign-ins and refusals: only ever added to.
//!
//! Never: hold a secret, or a name nobody has (people type passwords into the wrong field).

use crate::error::StoreError;
use crate::sql::{Columns, Sql, Value, most as most_rows, rows};

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

impl<D: Sql> SignIns for D {
    fn note_sign_in(&mut self, happened: &SignIn) -> Result<(), StoreError> {
        let SignIn { at, what, person, address, about } = happened;
        let add = "INSERT INTO sign_in (at, what, person, address, about) VALUES (?1, ?2, ?3, ?4, ?5)";
        let person = Value::from(person.as_ref());
        self.run(add, &[(*at).into(), what.into(), person, address.into(), about.into()]).map(drop)
    }

    fn sign_ins(&self, before: i64, most: usize) -> Result<Vec<(i64, SignIn)>, StoreError> {
        let question = "SELECT number, at, what, person, address, about FROM sign_in WHERE number < ?1
             ORDER BY number DESC LIMIT ?2";
        rows(self, question, &[before.into(), most_rows(most).into()], |row| Ok((row.number(0)?, read(row)?)))
    }
}

fn read(row: &dyn Columns) -> Result<SignIn, StoreError> {
    let (at, what, person) = (row.number(1)?, row.text(2)?, row.maybe_text(3)?);
    Ok(SignIn { at, what, person, address: row.text(4)?, about: row.text(5)? })
}
