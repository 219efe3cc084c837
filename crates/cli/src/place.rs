//! Where the record of a folder lies: in a file in it, or in the database it names.
//!
//! ```text
//! office/
//!     record.sqlite       the record, where it is a file
//!     database.address    where it is, in place of the file: postgres://…; readable by its owner only
//! ```
//!
//! `--database` says it for one command, where no folder says it. A folder says it once it was served so or moved, and
//! every command finds the record from then on.
//!
//! Never: choose between a file and a database where both are there.

use crate::problem::Problem;
use std::fs::OpenOptions;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;
use store::Address;

/// What `--database` said.
static TOLD: OnceLock<String> = OnceLock::new();

/// A password that shall not stand in an address.
const PASSWORD: &str = "SHAFTBOOK_DATABASE_PASSWORD";

const NOTHING: &str = "Nothing was read, and nothing was written.";

/// Keeps what `--database` said for this run.
///
/// # Errors
/// When it is no address.
pub(crate) fn tell(address: Option<&str>) -> Result<(), Problem> {
    let Some(address) = address else { return Ok(()) };
    read(address)?;
    TOLD.get_or_init(|| address.to_owned());
    Ok(())
}

/// An address as somebody typed it, with the password where it stands apart.
pub(crate) fn read(text: &str) -> Result<Address, Problem> {
    let address = Address::read(text.trim()).map_err(|error| {
        let what = format!("What was given as the address of the database is none: {error}.");
        let next = "Write it so: postgres://USER@HOST/NAME, or postgres:///NAME for this machine.";
        Problem::new(what, NOTHING, next)
    })?;
    Ok(std::env::var(PASSWORD).map_or(address.clone(), |password| address.with_password(&password)))
}

/// The file of a record in a folder.
pub(crate) fn file(folder: &Path) -> PathBuf {
    folder.join(store::DATABASE)
}

/// The file that says where the record is.
fn pointer(folder: &Path) -> PathBuf {
    folder.join("database.address")
}

/// What `--database` said.
pub(crate) fn told() -> Option<&'static str> {
    TOLD.get().map(String::as_str)
}

/// Whether a folder holds a record, or says where one is.
pub(crate) fn holds_one(folder: &Path) -> bool {
    file(folder).exists() || pointer(folder).exists()
}

/// Whether there is, or may be, a record.
pub(crate) fn is_one(folder: &Path) -> bool {
    holds_one(folder) || (TOLD.get().is_some() && !folder.is_file())
}

/// Where the record of a folder lies.
pub(crate) fn of(folder: &Path) -> Result<Address, Problem> {
    let path = pointer(folder);
    let named = match std::fs::read_to_string(&path) {
        Ok(text) => Some(text.trim().to_owned()),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => None,
        Err(error) => return Err(Problem::file("Reading", &path, &error)),
    };
    match (named, TOLD.get()) {
        (Some(named), Some(told)) if named != *told => Err(another(folder, &named)),
        (None, None) => Ok(Address::of_file(&file(folder))),
        (named, told) => {
            if file(folder).exists() {
                return Err(both(folder));
            }
            read(&named.or_else(|| told.cloned()).unwrap_or_default())
        }
    }
}

fn another(folder: &Path, named: &str) -> Problem {
    let shown = Address::read(named).map_or_else(|error| error.to_string(), |address| address.to_string());
    let what =
        format!("{} says that its record is at {shown}, and --database says another.", folder.display());
    Problem::new(what, NOTHING, "Leave --database out, or name another folder.")
}

fn both(folder: &Path) -> Problem {
    let what = format!("{} holds a record in a file, and a database is named beside it.", folder.display());
    let next = format!(
        "To bring the file's record into the database: shaftbook move {} --to ADDRESS. If that was under way and was \
         broken off, type the same again.",
        folder.display()
    );
    Problem::new(what, "Which of the two is meant cannot be told, so nothing was done.", next)
}

/// From here on the folder says that its record is in a database.
pub(crate) fn keep(folder: &Path, address: &str) -> Result<(), Problem> {
    let path = pointer(folder);
    let part = folder.join("database.address.part");
    let wrong = |error: std::io::Error| Problem::file("Writing", &path, &error);
    let mut options = OpenOptions::new();
    options.write(true).create(true).truncate(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let mut file = options.open(&part).map_err(wrong)?;
    writeln!(file, "{}", address.trim()).and_then(|()| file.sync_all()).map_err(wrong)?;
    std::fs::rename(&part, &path).map_err(wrong)
}

/// What `--database` said is kept in the folder.
pub(crate) fn keep_told(folder: &Path) -> Result<(), Problem> {
    TOLD.get().filter(|_| !pointer(folder).exists()).map_or(Ok(()), |told| keep(folder, told))
}

/// From here on the record of the folder is the file in it.
pub(crate) fn forget(folder: &Path) -> Result<(), Problem> {
    let path = pointer(folder);
    std::fs::remove_file(&path).map_err(|error| Problem::file("Taking away", &path, &error))
}
