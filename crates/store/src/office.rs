//! What an office keeps beside the entries: paired devices, pairing codes, settings.
//!
//! Tokens and codes are kept as SHA-256 only, so that the file gives nobody the right to write.
//!
//! Words: *secret* = a token or a code as it was given out.
//! Never: draw a secret, read a clock.

use crate::error::StoreError;
use crate::sql::{Columns, Sql, Told, Value, one, rows, written};
use crate::tries::CODES;

/// A paired device.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Device {
    /// Its number here, from 1; never used twice.
    pub number: i64,
    /// Its public pairing key, 64 hexadecimal digits.
    pub device: String,
    /// What its holder called it.
    pub name: String,
    /// When it was paired, RFC 3339.
    pub paired_at: String,
    /// The number of the person it belongs to; `None`: of nobody, as before there were people.
    pub person: Option<i64>,
    /// When it was let go, seconds since 1970; `None`: it may come in.
    pub gone: Option<i64>,
}

/// A device that is to be paired.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pairing {
    /// Its public pairing key, 64 hexadecimal digits.
    pub device: String,
    /// What its holder calls it.
    pub name: String,
    /// The token it is given.
    pub token: String,
    /// When, RFC 3339.
    pub paired_at: String,
}

/// A place that knows devices, codes and settings.
pub trait Office {
    /// Keeps a code until a time, in seconds since 1970; codes whose time is over at `now` are dropped.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn add_code(&mut self, code: &str, until: i64, now: i64) -> Result<(), StoreError>;

    /// The same for a person: the device it pairs belongs to that person.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn add_code_of(&mut self, person: i64, code: &str, until: i64, now: i64) -> Result<(), StoreError>;

    /// Drops every code.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn drop_codes(&mut self) -> Result<(), StoreError>;

    /// Uses a code up and pairs a device, both or neither. `None`: there is no such code at `now`. A
    /// device paired before keeps its number; its old token no longer counts.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn pair(&mut self, code: &str, pairing: &Pairing, now: i64) -> Result<Option<Device>, StoreError>;

    /// The device with this token, unless it was let go.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn device(&self, token: &str) -> Result<Option<Device>, StoreError>;

    /// The device with this token, let go or not.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn bearer(&self, token: &str) -> Result<Option<Device>, StoreError>;

    /// Every paired device that was not let go, by number.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn devices(&self) -> Result<Vec<Device>, StoreError>;

    /// Every device that was let go, by number.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn devices_gone(&self) -> Result<Vec<Device>, StoreError>;

    /// Lets a device go at a time, seconds since 1970: what it brings from then on is set aside. What it wrote stays.
    /// Whether it was there.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn let_go(&mut self, number: i64, now: i64) -> Result<bool, StoreError>;

    /// A setting.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn setting(&self, name: &str) -> Result<Option<String>, StoreError>;

    /// Keeps a setting.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn set(&mut self, name: &str, value: &str) -> Result<(), StoreError>;
}

/// What is kept of a secret.
pub(crate) fn hidden(secret: &str) -> String {
    record::entry::FileHash(wire::sha256(secret.as_bytes())).to_string()
}

const DEVICE: &str = "number, device, name, paired_at, person, gone";

fn device(row: &dyn Columns) -> Result<Device, StoreError> {
    let (number, device, name) = (row.number(0)?, row.text(1)?, row.text(2)?);
    let (person, gone) = (row.maybe_number(4)?, row.maybe_number(5)?);
    Ok(Device { number, device, name, paired_at: row.text(3)?, person, gone })
}

/// A device paired again may come in again, also one that was let go.
const PAIR: &str = "INSERT INTO device (device, name, token, paired_at, person) VALUES (?1, ?2, ?3, ?4, ?5)
    ON CONFLICT (device) DO UPDATE SET
        name = excluded.name, token = excluded.token, paired_at = excluded.paired_at,
        person = excluded.person, gone = NULL
    RETURNING number, device, name, paired_at, person, gone";

/// Keeps a code; those whose time is over go.
fn keep_code(
    sql: &dyn Sql,
    code: &str,
    (person, until, now): (Option<i64>, i64, i64),
) -> Result<(), StoreError> {
    let code = hidden(code);
    written(sql, || {
        sql.run("DELETE FROM pairing_code WHERE until <= ?1", &[now.into()])?;
        // What was tried against other codes counts no longer.
        sql.run("DELETE FROM wrong_try WHERE who = ?1", &[CODES.into()])?;
        let keep = "INSERT INTO pairing_code (code, until, person) VALUES (?1, ?2, ?3)
            ON CONFLICT (code) DO UPDATE SET until = excluded.until, person = excluded.person";
        sql.run(keep, &[Value::from(&code), until.into(), person.into()]).map(drop)
    })
}

/// Uses a code up; the person it is of, if it is of one. `None`: there is no such code.
fn use_code(sql: &dyn Sql, code: &str, now: i64) -> Result<Option<Option<i64>>, StoreError> {
    let used = "DELETE FROM pairing_code WHERE code = ?1 AND until > ?2 RETURNING person";
    one(sql, used, &[Value::from(&hidden(code)), now.into()], |row| row.maybe_number(0))
}

impl<D: Sql> Office for D {
    fn add_code(&mut self, code: &str, until: i64, now: i64) -> Result<(), StoreError> {
        keep_code(self, code, (None, until, now))
    }

    fn add_code_of(&mut self, person: i64, code: &str, until: i64, now: i64) -> Result<(), StoreError> {
        keep_code(self, code, (Some(person), until, now))
    }

    fn drop_codes(&mut self) -> Result<(), StoreError> {
        self.run("DELETE FROM pairing_code", &[]).map(drop)
    }

    fn pair(&mut self, code: &str, pairing: &Pairing, now: i64) -> Result<Option<Device>, StoreError> {
        let Pairing { device: key, name, token, paired_at } = pairing;
        let token = hidden(token);
        written(self, || {
            let Some(person) = use_code(self, code, now)? else { return Ok(None) };
            let values = [key, name, &token, paired_at].map(Value::from);
            let paired = one(self, PAIR, &[&values[..], &[person.into()]].concat(), device)?;
            self.tell(Told::Rights)?;
            Ok(paired)
        })
    }

    fn device(&self, token: &str) -> Result<Option<Device>, StoreError> {
        Ok(self.bearer(token)?.filter(|device| device.gone.is_none()))
    }

    fn bearer(&self, token: &str) -> Result<Option<Device>, StoreError> {
        let question = format!("SELECT {DEVICE} FROM device WHERE token = ?1");
        one(self, &question, &[Value::from(&hidden(token))], device)
    }

    fn devices(&self) -> Result<Vec<Device>, StoreError> {
        let question = format!("SELECT {DEVICE} FROM device WHERE gone IS NULL ORDER BY number");
        rows(self, &question, &[], device)
    }

    fn devices_gone(&self) -> Result<Vec<Device>, StoreError> {
        let question = format!("SELECT {DEVICE} FROM device WHERE gone IS NOT NULL ORDER BY number");
        rows(self, &question, &[], device)
    }

    fn let_go(&mut self, number: i64, now: i64) -> Result<bool, StoreError> {
        let go = "UPDATE device SET gone = ?2 WHERE number = ?1 AND gone IS NULL";
        written(self, || {
            self.tell(Told::Rights)?;
            Ok(self.run(go, &[number.into(), now.into()])? > 0)
        })
    }

    fn setting(&self, name: &str) -> Result<Option<String>, StoreError> {
        setting(self, name)
    }

    fn set(&mut self, name: &str, value: &str) -> Result<(), StoreError> {
        set(self, name, value)
    }
}

pub(crate) fn setting(sql: &dyn Sql, name: &str) -> Result<Option<String>, StoreError> {
    one(sql, "SELECT value FROM setting WHERE name = ?1", &[name.into()], |row| row.text(0))
}

pub(crate) fn set(sql: &dyn Sql, name: &str, value: &str) -> Result<(), StoreError> {
    let keep = "INSERT INTO setting (name, value) VALUES (?1, ?2)
        ON CONFLICT (name) DO UPDATE SET value = excluded.value";
    sql.run(keep, &[name.into(), value.into()]).map(drop)
}
