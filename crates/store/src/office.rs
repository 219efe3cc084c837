//! What an office keeps beside the entries: paired devices, pairing codes, settings.
//!
//! Tokens and codes are kept as SHA-256 only, so that the file gives nobody the right to write.
//!
//! Words: *secret* = a token or a code as it was given out.
//! Never: draw a secret, read a clock.

use crate::error::StoreError;
use crate::sqlite::Sqlite;
use rusqlite::{OptionalExtension, TransactionBehavior, params};

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

    /// The device with this token.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn device(&self, token: &str) -> Result<Option<Device>, StoreError>;

    /// Every paired device, by number.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn devices(&self) -> Result<Vec<Device>, StoreError>;

    /// Lets a device go: its token no longer counts. What it wrote stays. Whether it was there.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn let_go(&mut self, number: i64) -> Result<bool, StoreError>;

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
fn hidden(secret: &str) -> String {
    record::entry::FileHash(wire::sha256(secret.as_bytes())).to_string()
}

fn device(row: &rusqlite::Row<'_>) -> rusqlite::Result<Device> {
    Ok(Device { number: row.get(0)?, device: row.get(1)?, name: row.get(2)?, paired_at: row.get(3)? })
}

const PAIR: &str = "INSERT INTO device (device, name, token, paired_at) VALUES (?1, ?2, ?3, ?4)
    ON CONFLICT (device) DO UPDATE SET
        name = excluded.name, token = excluded.token, paired_at = excluded.paired_at
    RETURNING number, device, name, paired_at";

impl Office for Sqlite {
    fn add_code(&mut self, code: &str, until: i64, now: i64) -> Result<(), StoreError> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        transaction.execute("DELETE FROM pairing_code WHERE until <= ?1", [now])?;
        transaction
            .execute("INSERT OR REPLACE INTO pairing_code VALUES (?1, ?2)", params![hidden(code), until])?;
        Ok(transaction.commit()?)
    }

    fn drop_codes(&mut self) -> Result<(), StoreError> {
        self.connection.execute("DELETE FROM pairing_code", [])?;
        Ok(())
    }

    fn pair(&mut self, code: &str, pairing: &Pairing, now: i64) -> Result<Option<Device>, StoreError> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let used = transaction
            .execute("DELETE FROM pairing_code WHERE code = ?1 AND until > ?2", params![hidden(code), now])?;
        if used == 0 {
            return Ok(None);
        }
        let values = params![pairing.device, pairing.name, hidden(&pairing.token), pairing.paired_at];
        let paired = transaction.query_row(PAIR, values, device)?;
        transaction.commit()?;
        Ok(Some(paired))
    }

    fn device(&self, token: &str) -> Result<Option<Device>, StoreError> {
        let question = "SELECT number, device, name, paired_at FROM device WHERE token = ?1";
        let mut statement = self.connection.prepare_cached(question)?;
        Ok(statement.query_row([hidden(token)], device).optional()?)
    }

    fn devices(&self) -> Result<Vec<Device>, StoreError> {
        let question = "SELECT number, device, name, paired_at FROM device ORDER BY number";
        let mut statement = self.connection.prepare_cached(question)?;
        let devices = statement.query_map([], device)?;
        Ok(devices.collect::<Result<_, _>>()?)
    }

    fn let_go(&mut self, number: i64) -> Result<bool, StoreError> {
        Ok(self.connection.execute("DELETE FROM device WHERE number = ?1", [number])? > 0)
    }

    fn setting(&self, name: &str) -> Result<Option<String>, StoreError> {
        let mut statement = self.connection.prepare_cached("SELECT value FROM setting WHERE name = ?1")?;
        Ok(statement.query_row([name], |row| row.get(0)).optional()?)
    }

    fn set(&mut self, name: &str, value: &str) -> Result<(), StoreError> {
        self.connection.execute("INSERT OR REPLACE INTO setting VALUES (?1, ?2)", [name, value])?;
        Ok(())
    }
}
