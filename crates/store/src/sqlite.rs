//! The SQLite store: one file, write-ahead log, every commit synced to the disk.

mod asked;

use crate::error::StoreError;
use crate::migrate::migrate;
use crate::moved;
use crate::sql::Sql;
use rusqlite::{Connection, OpenFlags, Transaction, TransactionBehavior};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// How long another program is waited for.
const PATIENCE: Duration = Duration::from_secs(5);

/// Statements kept ready.
const STATEMENTS: usize = 64;

/// Entries in an SQLite file.
pub struct Sqlite {
    pub(crate) connection: Connection,
    /// Which file it was when it was opened.
    file: Identity,
    /// The plan of each statement asked, for the test that none reads a whole table.
    #[cfg(test)]
    pub(crate) plans: crate::plans::Plans,
}

impl Sqlite {
    /// Opens a file, making it where there is none, and brings it to the newest version.
    ///
    /// # Errors
    /// When the file is no database of ours, is damaged, is newer than this program, or cannot be written; when what was
    /// in it was moved to another database.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        let connection = Connection::open(path)?;
        connection.busy_timeout(PATIENCE)?;
        let store = Sqlite::on(connection, path);
        // Looked at before anything is set, so that the file of another program stays as it is.
        store.version()?;
        store.connection.pragma_update(None, "journal_mode", "WAL")?;
        store.connection.pragma_update(None, "synchronous", "FULL")?;
        migrate(&store)?;
        moved::not_away(&store)?;
        Ok(store)
    }

    /// A database in memory, for tests of what is done to one.
    #[cfg(test)]
    pub(crate) fn in_memory() -> Self {
        Sqlite::on(Connection::open_in_memory().expect("a database"), Path::new(""))
    }

    fn on(connection: Connection, path: &Path) -> Self {
        connection.set_prepared_statement_cache_capacity(STATEMENTS);
        Sqlite {
            connection,
            file: identity(path),
            #[cfg(test)]
            plans: crate::plans::Plans::default(),
        }
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
        connection.pragma_update(None, "query_only", true)?;
        let store = Sqlite::on(connection, path);
        store.version()?;
        Ok(store)
    }

    /// Opens a file that is there, also where nothing may be written.
    ///
    /// # Errors
    /// As for `open`; also when another program left entries beside the file that only a writer may bring in.
    pub fn open_to_read(path: &Path) -> Result<Self, StoreError> {
        match Self::open(path) {
            Err(StoreError::ReadOnly) => Self::open_untouched(path),
            Err(StoreError::Moved(_)) => Self::open_existing(path),
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
        let store = Sqlite::on(connection, path);
        store.version()?;
        Ok(store)
    }

    /// Asks the database whether it is whole. `Ok(None)`: it is; else what it says.
    ///
    /// # Errors
    /// When it cannot even be asked.
    pub fn complaint(&self) -> Result<Option<String>, StoreError> {
        Sql::complaint(self, true)
    }

    /// Holds the database against every other writer until what is given is dropped.
    ///
    /// # Errors
    /// When another holds it.
    pub fn hold(&self) -> Result<impl Drop + '_, StoreError> {
        Ok(Transaction::new_unchecked(&self.connection, TransactionBehavior::Immediate)?)
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
