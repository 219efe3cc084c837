//! Why a store could not do what it was asked.

use rusqlite::ErrorCode;
use std::fmt;

/// Why a store could not do what it was asked.
#[derive(Debug)]
pub enum StoreError {
    /// The database did not answer, for a reason not named below.
    Database(Box<dyn std::error::Error + Send + Sync>),
    /// The server of the database does not answer, or lets nobody in: what was said.
    Unreachable(String),
    /// The server of the database is set so that a commit may be lost with the power.
    NotDurable(&'static str),
    /// What was in this database was moved to another: where to.
    Moved(String),
    /// There is something in the database already, and nothing is ever written over.
    Occupied,
    /// Two databases that should hold the same do not: in what.
    Differs(String),
    /// The file is damaged, or was never a database: what the database says about it.
    Damaged(String),
    /// Another program holds the database.
    Busy,
    /// The file or its folder may not be written to, or not be opened.
    ReadOnly,
    /// The disk is full.
    Full,
    /// A database, but not one of ours.
    Foreign,
    /// A database of a newer program.
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
        /// What is wrong with it; `None`: the columns beside the line say something else.
        fault: Option<wire::LineFault>,
    },
    /// Entries that cannot be in one record.
    Merge(record::MergeError),
    /// Two contents under one id.
    SameId(record::EntryId),
    /// A file beside the database could not be read or written.
    File(std::io::Error),
    /// There is something at the place already, and nothing is ever written over.
    InTheWay(std::path::PathBuf),
    /// A kept photo is no longer what its name says: its name.
    PhotoAltered(String),
    /// The bytes are not those of the name they were sent under: the hash they have.
    PhotoDiffers(String),
}

impl fmt::Display for StoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            StoreError::Database(error) => write!(f, "the database did not answer as it should: {error}"),
            StoreError::Unreachable(said) => write!(f, "the database cannot be reached: {said}"),
            StoreError::NotDurable(how) => {
                write!(
                    f,
                    "the database does not wait for its disk ({how}), so that what is kept could be lost"
                )
            }
            StoreError::Moved(to) => write!(f, "the record was moved to {to}"),
            StoreError::Occupied => write!(f, "there is something in the database already"),
            StoreError::Differs(what) => write!(f, "the two databases do not hold the same: {what}"),
            StoreError::Damaged(said) => write!(f, "the database is damaged: {said}"),
            StoreError::Busy => write!(f, "another program holds the database"),
            StoreError::ReadOnly => write!(f, "the database may not be opened or written to here"),
            StoreError::Full => write!(f, "the disk is full"),
            StoreError::Foreign => write!(f, "this is a database of some other program"),
            StoreError::Version { found, known } => {
                write!(f, "the database has version {found}; this program knows up to {known}")
            }
            StoreError::Altered { arrival, fault: Some(fault) } => write!(f, "kept line {arrival}: {fault}"),
            StoreError::Altered { arrival, fault: None } => {
                write!(f, "kept line {arrival}: the columns beside it were touched")
            }
            StoreError::Merge(error) => error.fmt(f),
            StoreError::SameId(id) => write!(f, "two contents under the id {id}"),
            StoreError::File(error) => write!(f, "a file beside the database: {error}"),
            StoreError::InTheWay(path) => write!(f, "{} is there already", path.display()),
            StoreError::PhotoAltered(name) => write!(f, "the photo {name} is no longer what its name says"),
            StoreError::PhotoDiffers(hash) => write!(f, "the bytes have the hash {hash}"),
        }
    }
}

impl std::error::Error for StoreError {}

impl From<rusqlite::Error> for StoreError {
    fn from(error: rusqlite::Error) -> Self {
        let unreadable = matches!(
            error,
            rusqlite::Error::FromSqlConversionFailure(..)
                | rusqlite::Error::InvalidColumnType(..)
                | rusqlite::Error::Utf8Error(..)
        );
        match error.sqlite_error_code() {
            _ if unreadable => StoreError::Damaged(error.to_string()),
            Some(ErrorCode::NotADatabase | ErrorCode::DatabaseCorrupt) => {
                StoreError::Damaged(error.to_string())
            }
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => StoreError::Busy,
            Some(ErrorCode::ReadOnly | ErrorCode::CannotOpen | ErrorCode::PermissionDenied) => {
                StoreError::ReadOnly
            }
            Some(ErrorCode::DiskFull) => StoreError::Full,
            _ => StoreError::Database(error.into()),
        }
    }
}

impl From<postgres::Error> for StoreError {
    fn from(error: postgres::Error) -> Self {
        let Some(said) = error.as_db_error() else { return without_answer(&error) };
        let message = said.message().to_owned();
        match said.code().code() {
            "53100" => StoreError::Full,
            "25006" | "42501" => StoreError::ReadOnly,
            "55P03" | "40P01" | "40001" | "57014" => StoreError::Busy,
            "XX001" | "XX002" | "58030" => StoreError::Damaged(message),
            code if ["08", "25P03", "28", "3D", "53", "57"].iter().any(|class| code.starts_with(class)) => {
                StoreError::Unreachable(message)
            }
            _ => StoreError::Database(message.into()),
        }
    }
}

/// Something that is no answer of the database: the way there is broken, or what came is not understood.
fn without_answer(error: &postgres::Error) -> StoreError {
    use std::error::Error;
    let said = error.source().map_or_else(|| error.to_string(), |source| format!("{error}: {source}"));
    match error.source() {
        Some(source) if source.is::<std::io::Error>() => StoreError::Unreachable(said),
        _ if error.is_closed() => StoreError::Unreachable(said),
        _ => StoreError::Database(said.into()),
    }
}

impl From<std::io::Error> for StoreError {
    fn from(error: std::io::Error) -> Self {
        use std::io::ErrorKind;
        match error.kind() {
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => StoreError::Full,
            ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => StoreError::ReadOnly,
            _ => StoreError::File(error),
        }
    }
}
