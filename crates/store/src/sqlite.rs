//! The SQLite store: one file, write-ahead log, every commit synced to the disk.

use crate::error::StoreError;
use crate::line::Line;
use crate::migrate::{migrate, version};
use crate::{Added, Arrival, Head, JobCount, Kept, Most, Page, Store, pull};
use record::{Held, Record};
use rusqlite::{Connection, OpenFlags, OptionalExtension, Transaction, TransactionBehavior, params};
use std::path::{Path, PathBuf};
use std::time::Duration;
use wire::Reader;

/// How long another program is waited for.
const PATIENCE: Duration = Duration::from_secs(5);

/// Entries in an SQLite file.
pub struct Sqlite {
    pub(crate) connection: Connection,
    /// Which file it was when it was opened.
    file: Identity,
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
        Ok(Sqlite { connection, file: identity(path) })
    }

    /// Opens a database that is there, to ask it beside a writer. Never makes one: where there is none, it
    /// was taken away, and an empty one in its place would hide that.
    ///
    /// # Errors
    /// When there is none, it is not ours, or is damaged.
    pub fn open_existing(path: &Path) -> Result<Self, StoreError> {
        if !path.is_file() {
            return Err(StoreError::Damaged(format!("{} is gone", path.display())));
        }
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let connection = Connection::open_with_flags(path, flags)?;
        connection.busy_timeout(PATIENCE)?;
        version(&connection)?;
        connection.pragma_update(None, "query_only", true)?;
        Ok(Sqlite { connection, file: identity(path) })
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
        Ok(Sqlite { connection, file: identity(path) })
    }

    /// Asks the database whether it is whole. `Ok(None)`: it is; else what it says.
    ///
    /// # Errors
    /// When it cannot even be asked.
    pub fn complaint(&self) -> Result<Option<String>, StoreError> {
        let said: String = self.connection.query_row("PRAGMA integrity_check", [], |row| row.get(0))?;
        Ok((said != "ok").then_some(said))
    }

    /// The same, without comparing indexes with their tables: quick enough for every start.
    ///
    /// # Errors
    /// When it cannot even be asked.
    pub fn quick_complaint(&self) -> Result<Option<String>, StoreError> {
        let said: String = self.connection.query_row("PRAGMA quick_check", [], |row| row.get(0))?;
        Ok((said != "ok").then_some(said))
    }

    /// Holds the database against every other writer until what is given is dropped.
    ///
    /// # Errors
    /// When another holds it.
    pub fn hold(&self) -> Result<impl Drop + '_, StoreError> {
        Ok(Transaction::new_unchecked(&self.connection, TransactionBehavior::Immediate)?)
    }

    /// The database is still the file that was opened. A file that was moved away or replaced would take
    /// entries to where nobody finds them.
    ///
    /// # Errors
    /// `Damaged` when it is not.
    pub(crate) fn still_there(&self) -> Result<(), StoreError> {
        let path = self.connection.path().map(PathBuf::from).unwrap_or_default();
        if identity(&path) == self.file {
            return Ok(());
        }
        Err(StoreError::Damaged(format!("{} was moved or replaced while it was in use", path.display())))
    }
}

/// What tells one file from another under the same name; `None` where the system does not.
type Identity = Option<(u64, u64)>;

#[cfg(unix)]
fn identity(path: &Path) -> Identity {
    use std::os::unix::fs::MetadataExt;
    std::fs::metadata(path).ok().map(|file| (file.dev(), file.ino()))
}

#[cfg(not(unix))]
fn identity(_: &Path) -> Identity {
    None
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
        self.still_there()?;
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let mut added = Added::default();
        for held in entries {
            match insert(&transaction, &Line::of(held))? {
                Kept::New(_) => added.new += 1,
                Kept::Known(_) => added.known += 1,
                Kept::Contradicts => return Err(StoreError::SameId(held.id())),
            }
        }
        transaction.commit()?;
        Ok(added)
    }

    fn add_lines(&mut self, lines: &[Line]) -> Result<Vec<Kept>, StoreError> {
        self.still_there()?;
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let kept = lines.iter().map(|line| insert(&transaction, line)).collect::<Result<_, _>>()?;
        transaction.commit()?;
        Ok(kept)
    }

    fn record(&self, job: &str) -> Result<Record, StoreError> {
        let question = "SELECT arrival, id, line FROM entry WHERE job = ?1 ORDER BY arrival";
        let mut statement = self.connection.prepare(question)?;
        let mut rows = statement.query([job])?;
        let (mut reader, mut held) = (Reader::default(), Vec::new());
        while let Some(row) = rows.next()? {
            let kept = Row { arrival: row.get(0)?, id: row.get(1)?, line: row.get(2)? };
            held.push(kept.proved(job, &mut reader)?);
        }
        Record::of(held).map_err(StoreError::Merge)
    }

    fn jobs(&self) -> Result<Vec<String>, StoreError> {
        let mut statement = self.connection.prepare("SELECT DISTINCT job FROM entry ORDER BY job")?;
        let jobs = statement.query_map([], |row| row.get(0))?;
        Ok(jobs.collect::<Result<_, _>>()?)
    }

    fn after(&self, job: &str, cursor: i64, most: Most) -> Result<Page, StoreError> {
        pull::after(&self.connection, job, cursor, most)
    }

    fn counts(&self) -> Result<Vec<JobCount>, StoreError> {
        pull::counts(&self.connection)
    }

    fn arrivals(&self, cursor: i64, most: usize) -> Result<Vec<Arrival>, StoreError> {
        pull::arrivals(&self.connection, cursor, most)
    }

    fn heads(&self, job: &str) -> Result<Vec<Head>, StoreError> {
        pull::heads(&self.connection, job)
    }
}

/// A row as it lies there.
pub(crate) struct Row {
    pub(crate) arrival: i64,
    pub(crate) id: String,
    pub(crate) line: String,
}

impl Row {
    /// The entry, its id and signature proved, filed under its own name.
    pub(crate) fn proved(self, job: &str, reader: &mut Reader) -> Result<Held, StoreError> {
        let altered = |fault| StoreError::Altered { arrival: self.arrival, fault };
        let held = reader.read(&self.line).map_err(|fault| altered(Some(fault)))?;
        let filed = held.id().to_string() == self.id && held.job() == job;
        if filed { Ok(held) } else { Err(altered(None)) }
    }
}

/// What becomes of a line. One that is here must be the same, byte for byte.
pub(crate) fn insert(transaction: &Transaction<'_>, line: &Line) -> Result<Kept, StoreError> {
    let mut here = transaction.prepare_cached("SELECT arrival, line FROM entry WHERE id = ?1")?;
    let kept: Option<(i64, String)> =
        here.query_row([&line.id], |row| Ok((row.get(0)?, row.get(1)?))).optional()?;
    if let Some((arrival, kept)) = kept {
        return Ok(if kept == line.text { Kept::Known(arrival) } else { Kept::Contradicts });
    }
    let mut insert = transaction.prepare_cached(
        "INSERT INTO entry (id, job, shaft, device, seq, line) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
    )?;
    insert.execute(params![line.id, line.job, line.shaft, line.device, line.seq, line.text])?;
    Ok(Kept::New(transaction.last_insert_rowid()))
}
