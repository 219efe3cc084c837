//! Passkeys of people, and ceremonies: what was begun with one and waits for its answer.
//!
//! Words: *passkey* = a key pair on a device of its holder, of which the public half is here; *handle* = what devices call a
//! person by; *ceremony* = one question with its challenge, answered once.
//! Never: read what the library keeps of a key; answer for a ceremony twice.

use crate::error::StoreError;
use crate::office::hidden;
use crate::sql::{Columns, Sql, Value, one, rows, written};

/// Ceremonies one address may have open.
const OPEN_OF_ADDRESS: i64 = 20;

/// Ceremonies open at once, of everybody.
const OPEN: i64 = 5000;

/// A passkey.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Passkey {
    /// Its number here, from 1; never used twice.
    pub number: i64,
    /// Whose it is.
    pub person: i64,
    /// What a device calls the person by, 32 hexadecimal digits.
    pub handle: String,
    /// What its holder calls it.
    pub name: String,
    /// As the library keeps it.
    pub key: String,
    /// When it was added, seconds since 1970.
    pub since: i64,
    /// When it was last used, seconds since 1970.
    pub used: Option<i64>,
}

/// A passkey that is to be added.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewPasskey {
    /// Whose it is.
    pub person: i64,
    /// The id its device gave it, in hexadecimal digits.
    pub id: String,
    /// See `Passkey`.
    pub handle: String,
    /// See `Passkey`.
    pub name: String,
    /// See `Passkey`.
    pub key: String,
    /// See `Passkey`.
    pub since: i64,
}

/// A ceremony that begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ceremony<'a> {
    /// What the answer has to show.
    pub token: &'a str,
    /// Who alone may answer; `None`: whoever signs in by it.
    pub person: Option<i64>,
    /// Where it was begun.
    pub address: &'a str,
    /// What the library has to know again.
    pub state: &'a str,
    /// Now, and when it lapses, seconds since 1970.
    pub span: (i64, i64),
}

/// A place that keeps passkeys.
pub trait Passkeys {
    /// Adds a passkey, and says its number. `None`: one with this id is here, of whomever.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn add_passkey(&mut self, new: &NewPasskey) -> Result<Option<i64>, StoreError>;

    /// The passkeys of a person, by number.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn passkeys_of(&self, person: i64) -> Result<Vec<Passkey>, StoreError>;

    /// The passkey with an id, in hexadecimal digits.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn passkey(&self, id: &str) -> Result<Option<Passkey>, StoreError>;

    /// A passkey was used; what the library keeps of it from now on.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn use_passkey(&mut self, number: i64, key: &str, now: i64) -> Result<(), StoreError>;

    /// Removes a passkey of a person. Whether there was one.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn remove_passkey(&mut self, person: i64, number: i64) -> Result<bool, StoreError>;

    /// Begins a ceremony; those that lapsed are dropped. Whether it was begun: so many may be open, and no more.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn begin_ceremony(&mut self, ceremony: &Ceremony<'_>) -> Result<bool, StoreError>;

    /// Ends a ceremony of a person, or of nobody yet: what the library has to know again. `None`: there is none at `now`, or
    /// it is somebody else's.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn end_ceremony(
        &mut self,
        token: &str,
        person: Option<i64>,
        now: i64,
    ) -> Result<Option<String>, StoreError>;
}

const PASSKEY: &str = "number, person, handle, name, key, since, used";

fn passkey(row: &dyn Columns) -> Result<Passkey, StoreError> {
    let (number, person, handle) = (row.number(0)?, row.number(1)?, row.text(2)?);
    let (name, key, since) = (row.text(3)?, row.text(4)?, row.number(5)?);
    Ok(Passkey { number, person, handle, name, key, since, used: row.maybe_number(6)? })
}

impl<D: Sql> Passkeys for D {
    fn add_passkey(&mut self, new: &NewPasskey) -> Result<Option<i64>, StoreError> {
        let NewPasskey { person, id, handle, name, key, since } = new;
        let add = "INSERT INTO passkey (person, id, handle, name, key, since) VALUES (?1, ?2, ?3, ?4, ?5, ?6)
            ON CONFLICT (id) DO NOTHING RETURNING number";
        let [id, handle, name, key] = [id, handle, name, key].map(Value::from);
        one(self, add, &[(*person).into(), id, handle, name, key, (*since).into()], |row| row.number(0))
    }

    fn passkeys_of(&self, person: i64) -> Result<Vec<Passkey>, StoreError> {
        let question = format!("SELECT {PASSKEY} FROM passkey WHERE person = ?1 ORDER BY number");
        rows(self, &question, &[person.into()], passkey)
    }

    fn passkey(&self, id: &str) -> Result<Option<Passkey>, StoreError> {
        one(self, &format!("SELECT {PASSKEY} FROM passkey WHERE id = ?1"), &[id.into()], passkey)
    }

    fn use_passkey(&mut self, number: i64, key: &str, now: i64) -> Result<(), StoreError> {
        let keep = "UPDATE passkey SET key = ?2, used = ?3 WHERE number = ?1";
        self.run(keep, &[number.into(), key.into(), now.into()]).map(drop)
    }

    fn remove_passkey(&mut self, person: i64, number: i64) -> Result<bool, StoreError> {
        let remove = "DELETE FROM passkey WHERE person = ?1 AND number = ?2";
        Ok(self.run(remove, &[person.into(), number.into()])? > 0)
    }

    fn begin_ceremony(&mut self, ceremony: &Ceremony<'_>) -> Result<bool, StoreError> {
        let Ceremony { token, person, address, state, span: (now, until) } = *ceremony;
        let token = hidden(token);
        let keep = "INSERT INTO ceremony (token, person, address, state, until) VALUES (?1, ?2, ?3, ?4, ?5)";
        written(self, || {
            self.run("DELETE FROM ceremony WHERE until <= ?1", &[now.into()])?;
            let here = "SELECT count(*) FROM ceremony WHERE address = ?1";
            let here = one(self, here, &[address.into()], |row| row.number(0))?.unwrap_or(0);
            let all = one(self, "SELECT count(*) FROM ceremony", &[], |row| row.number(0))?.unwrap_or(0);
            if here >= OPEN_OF_ADDRESS || all >= OPEN {
                return Ok(false);
            }
            let values = [Value::from(&token), person.into(), address.into(), state.into(), until.into()];
            self.run(keep, &values).map(|_| true)
        })
    }

    fn end_ceremony(
        &mut self,
        token: &str,
        person: Option<i64>,
        now: i64,
    ) -> Result<Option<String>, StoreError> {
        let end = "DELETE FROM ceremony WHERE token = ?1 RETURNING person, state, until";
        let read = |row: &dyn Columns| Ok((row.maybe_number(0)?, row.text(1)?, row.number(2)?));
        let found = one(self, end, &[Value::from(&hidden(token))], read)?;
        Ok(found.filter(|(of, _, until)| *of == person && *until > now).map(|(_, state, _)| state))
    }
}
