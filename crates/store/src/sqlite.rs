//! The SQLite store: one file, write-ahead log, every commit synced to the disk.

use crate::error::StoreError;
use crate::migrate::{migrate, version};
use crate::{Added, Store};
use record::{Held, Record};
use rusqlite::{Connection, OpenFlags, OptionalExtension, Transaction, TransactionBehavior, params};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// How long another program is waited for.
const PATIENCE: Duration = Duration::from_secs(5);

/// Entries in an SQLite file.
pub struct Sqlite {
    connection: Connection,
}

impl Sqlite {
    /// Opens a file, making it where there is none, and brings it to the newest version.
    ///
    /// # Errors
    /// When the file is no database of ours, is damaged, is newer than this program, or cannot be written.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        let mut connection = Connection::open(path)?;
        connection.busy_timeout(PATIENCE)?;
        // Looked at before anything is set, so that the file of another program stays as it is.
        version(&connection)?;
        connection.pragma_update(None, "journal_mode", "WAL")?;
        connection.pragma_update(None, "synchronous", "FULL")?;
        migrate(&mut connection)?;
        Ok(Sqlite { connection })
    }

    /// Opens a file that is there, also where nothing may be written.
    ///
    /// # Errors
    /// As for `open`; also when another program left entries beside the file that only a writer may bring in.
    pub fn open_to_read(path: &Path) -> Result<Self, StoreError> {
        match Self::open(path) {
            Err(StoreError::ReadOnly) => Self::open_untouched(path),
            other => other,
        }
    }

    /// Opens a file of which nobody may write a byte: no log and no lock is made beside it.
    ///
    /// # Errors
    /// As for `open_to_read`.
    pub fn open_untouched(path: &Path) -> Result<Self, StoreError> {
        let log = PathBuf::from(format!("{}-wal", path.display()));
        if std::fs::metadata(log).is_ok_and(|log| log.len() > 0) {
            return Err(StoreError::ReadOnly);
        }
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI;
        let connection = Connection::open_with_flags(address(path), flags)?;
        version(&connection)?;
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

/// A path as an address that says nobody changes the file.
fn address(path: &Path) -> String {
    let plain = |c: char| match c {
        '%' => "%25".to_owned(),
        '?' => "%3f".to_owned(),
        '#' => "%23".to_owned(),
        c => c.to_string(),
    };
    let path: String = path.to_string_lossy().chars().map(plain).collect();
    format!("file:{path}?immutable=1")
}

impl Store for Sqlite {
    fn add(&mut self, entries: &[Held]) -> Result<Added, StoreError> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let mut added = Added::default();
        for held in entries {
            if insert(&transaction, held)? { added.new += 1 } else { added.known += 1 }
        }
        transaction.commit()?;
        Ok(added)
    }

    fn record(&self, job: &str) -> Result<Record, StoreError> {
        let question = "SELECT arrival, id, line FROM entry WHERE job = ?1 ORDER BY arrival";
        let mut statement = self.connection.prepare(question)?;
        let mut rows = statement.query([job])?;
        let mut held = Vec::new();
        while let Some(row) = rows.next()? {
            let kept = Kept { arrival: row.get(0)?, id: row.get(1)?, line: row.get(2)? };
            held.push(kept.proved(job)?);
        }
        Record::of(held).map_err(StoreError::Merge)
    }

    fn jobs(&self) -> Result<Vec<String>, StoreError> {
        let mut statement = self.connection.prepare("SELECT DISTINCT job FROM entry ORDER BY job")?;
        let jobs = statement.query_map([], |row| row.get(0))?;
        Ok(jobs.collect::<Result<_, _>>()?)
    }
}

/// A row as it lies there.
struct Kept {
    arrival: i64,
    id: String,
    line: String,
}

impl Kept {
    /// The entry, its id and signature proved, filed under its own name.
    fn proved(self, job: &str) -> Result<Held, StoreError> {
        let altered = |fault| StoreError::Altered { arrival: self.arrival, fault };
        let held = wire::read(&self.line).map_err(|fault| altered(Some(fault)))?;
        let filed = held.id().to_string() == self.id && held.job() == job;
        if filed { Ok(held) } else { Err(altered(None)) }
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
