//! The SQLite store: one file, write-ahead log, every commit synced to the disk.

use crate::error::StoreError;
use crate::migrate::migrate;
use crate::{Added, Store};
use record::{Held, Record};
use rusqlite::{Connection, OptionalExtension, Transaction, params};
use std::path::Path;

/// Entries in an SQLite file.
pub struct Sqlite {
    connection: Connection,
}

impl Sqlite {
    /// Opens a file, making it where there is none, and brings it to the newest version.
    ///
    /// # Errors
    /// When the file is no database, is damaged, or is newer than this program.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        let mut connection = Connection::open(path)?;
        connection.busy_timeout(std::time::Duration::from_secs(5))?;
        connection.pragma_update(None, "journal_mode", "WAL")?;
        connection.pragma_update(None, "synchronous", "FULL")?;
        migrate(&mut connection)?;
        Ok(Sqlite { connection })
    }

    /// Asks the database whether it is whole. `Ok(None)`: it is; else what it says.
    ///
    /// # Errors
    /// When it cannot even be asked.
    pub fn complaint(&self) -> Result<Option<String>, StoreError> {
        let said: String = self.connection.query_row("PRAGMA integrity_check", [], |row| row.get(0))?;
        Ok((said != "ok").then_some(said))
    }
}

impl Store for Sqlite {
    fn add(&mut self, entries: &[Held]) -> Result<Added, StoreError> {
        let transaction = self.connection.transaction()?;
        let mut added = Added::default();
        for held in entries {
            if insert(&transaction, held)? { added.new += 1 } else { added.known += 1 }
        }
        transaction.commit()?;
        Ok(added)
    }

    fn record(&self, job: &str) -> Result<Record, StoreError> {
        let mut statement = self.connection.prepare("SELECT arrival, line FROM entry WHERE job = ?1 ORDER BY arrival")?;
        let rows = statement.query_map([job], |row| Ok((row.get::<_, i64>(0)?, row.get::<_, String>(1)?)))?;
        let mut held = Vec::new();
        for row in rows {
            let (arrival, line) = row?;
            held.push(wire::read(&line).map_err(|fault| StoreError::Altered { arrival, fault })?);
        }
        Record::of(held).map_err(StoreError::Merge)
    }

    fn jobs(&self) -> Result<Vec<String>, StoreError> {
        let mut statement = self.connection.prepare("SELECT DISTINCT job FROM entry ORDER BY job")?;
        let jobs = statement.query_map([], |row| row.get(0))?;
        Ok(jobs.collect::<Result<_, _>>()?)
    }
}

/// Whether the entry was new. One that is here must be the same, byte for byte.
fn insert(transaction: &Transaction<'_>, held: &Held) -> Result<bool, StoreError> {
    let (line, id) = (wire::write(held), held.id().to_string());
    let kept: Option<String> =
        transaction.query_row("SELECT line FROM entry WHERE id = ?1", [&id], |row| row.get(0)).optional()?;
    if let Some(kept) = kept {
        return if kept == line { Ok(false) } else { Err(StoreError::SameId(held.id())) };
    }
    let (device, seq) = held.place();
    transaction.execute(
        "INSERT INTO entry (id, job, shaft, device, seq, line) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
        params![id, held.job(), held.shaft(), device.to_string(), seq as i64, line],
    )?;
    Ok(true)
}
