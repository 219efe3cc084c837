//! A problem as a person is told it, and the exit code a script is told.
//!
//! | code | meaning |
//! |---|---|
//! | 0 | done |
//! | 1 | could not be done: a file, the folder, the database, no such shaft |
//! | 2 | the command was not understood |
//! | 3 | notes, tables or a criteria file have mistakes; nothing was imported |
//! | 4 | a record is not what it was: altered, forged, damaged, a gap in a chain |
//! | 5 | `check --strict`, `seal`: findings are open |

use crate::screen::shown;
use std::fmt;
use std::path::Path;
use store::StoreError;

/// Could not be done.
pub(crate) const FAILED: u8 = 1;
/// The command was not understood.
pub(crate) const MISUNDERSTOOD: u8 = 2;
/// Notes or tables have mistakes.
pub(crate) const MISTAKES: u8 = 3;
/// A record is not what it was.
pub(crate) const ALTERED: u8 = 4;
/// Findings are open.
pub(crate) const OPEN: u8 = 5;

/// What a refusal to start the office means.
pub(crate) const NOT_SERVED: &str = "Nothing is served, and no entry was written.";

/// What happened, what it means for the record, what to do now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Problem {
    /// What happened.
    pub(crate) what: String,
    /// What it means for the record.
    pub(crate) meaning: String,
    /// What to do now.
    pub(crate) next: String,
    /// The exit code.
    pub(crate) exit: u8,
}

impl Problem {
    /// What happened, what it means, what to do now: each is said where it happens, for no sentence is true of
    /// every failure.
    pub(crate) fn new(what: impl Into<String>, meaning: impl Into<String>, next: impl Into<String>) -> Self {
        Problem { what: what.into(), meaning: meaning.into(), next: next.into(), exit: FAILED }
    }

    /// The same for whoever asks over a network.
    pub(crate) fn notice(self, code: &'static str) -> wording::Notice {
        wording::Notice { code, what: self.what, meaning: self.meaning, next: self.next }
    }

    /// The same, with another meaning: the caller knows more of what was under way.
    pub(crate) fn meaning(mut self, meaning: impl Into<String>) -> Self {
        self.meaning = meaning.into();
        self
    }

    /// The same, with another exit code.
    pub(crate) fn exit(mut self, exit: u8) -> Self {
        self.exit = exit;
        self
    }

    /// A file that could not be read or written.
    pub(crate) fn file(doing: &str, path: &Path, error: &std::io::Error) -> Self {
        use std::io::ErrorKind;
        let next = match error.kind() {
            ErrorKind::NotFound => "Check the name.",
            ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
                "Choose a folder you may write to, or ask for the rights."
            }
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "Make room on the disk and try again.",
            ErrorKind::IsADirectory => "Name a file, not a folder.",
            _ => "Check the name, the rights and the disk.",
        };
        let meaning = match doing {
            "Reading" => "Nothing was read, and nothing was written.",
            _ => "The file is not there as it was asked for; no entry was changed.",
        };
        Problem::new(format!("{doing} {} did not work: {error}.", path.display()), meaning, next)
    }

    /// A store that did not do what it was asked.
    pub(crate) fn store(place: impl fmt::Display, error: &StoreError) -> Self {
        let (meaning, exit) = match error {
            StoreError::Altered { .. } | StoreError::SameId(_) => {
                ("A kept entry is not what it was when it was signed.", ALTERED)
            }
            StoreError::PhotoAltered(_) => {
                ("The entries are as they were; the photo is not what was taken.", ALTERED)
            }
            StoreError::Moved(_) => {
                ("The record is there, whole; here nothing is taken in any more.", FAILED)
            }
            StoreError::Damaged(_) => ("Entries in it may be unreadable; nothing was written.", ALTERED),
            _ => ("Nothing was written.", FAILED),
        };
        let what = format!("{place}: {}.", said(error));
        Problem::new(what, meaning, store_next(error)).exit(exit)
    }
}

/// What a store says. A damaged database complains of every place: the first is told and the rest counted.
fn said(error: &StoreError) -> String {
    let StoreError::Damaged(complaint) = error else { return error.to_string() };
    let mut places = complaint.lines().filter(|line| !line.starts_with("***"));
    let first = places.next().unwrap_or(complaint);
    match places.count() {
        0 => format!("the database is damaged: {first}"),
        more => format!("the database is damaged: {first}, and {more} complaints more"),
    }
}

fn store_next(error: &StoreError) -> &'static str {
    match error {
        StoreError::Altered { .. } | StoreError::SameId(_) | StoreError::Damaged(_) => {
            "Keep the folder as it is, work on a copy, and merge a record you exported or another device's \
             into a new folder."
        }
        StoreError::Busy => "Wait until the other program is done, then try again.",
        StoreError::ReadOnly => "Copy the folder to where you may write, or ask for the rights.",
        StoreError::Full => "Make room on the disk and try again.",
        StoreError::Version { .. } => "Update this program.",
        StoreError::Foreign => "Name the folder of a job: shaftbook begin FOLDER makes one.",
        StoreError::Unreachable(_) => {
            "Start the server of the database, or check address, name and password. Tablets keep what they write \
             until then."
        }
        StoreError::NotDurable(_) => {
            "Switch it on again in the settings of the database's server; it is on where nobody switched it off."
        }
        StoreError::Moved(_) => "Serve it and read it from there.",
        StoreError::Occupied => "Name a database that holds nothing yet; createdb makes one.",
        StoreError::Differs(_) => {
            "Go on with the old database, throw the new one away, and move again into an empty one."
        }
        StoreError::Database(_) => "Try again; if it stays, work on a copy of the folder.",
        StoreError::InTheWay(_) => "Name another place; nothing is ever written over.",
        StoreError::PhotoAltered(_) | StoreError::PhotoDiffers(_) => {
            "Take the file away and bring the photo again from the device that took it, or from a backup."
        }
        StoreError::File(_) => "Check the name, the rights and the disk.",
        StoreError::Merge(_) => "Check that everything belongs to the same job.",
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for part in [&self.what, &self.meaning, &self.next] {
            part.lines().try_for_each(|line| writeln!(f, "{}", shown(line)))?;
        }
        Ok(())
    }
}

/// Tells something that stops nothing, on standard error.
pub(crate) fn warn(text: &str) {
    tell_error(&format!("{}\n", shown(text)));
}

/// Writes to standard error. Where even that is closed there is nobody left to tell.
pub(crate) fn tell_error(text: &str) {
    use std::io::Write;
    let _ = std::io::stderr().write_all(text.as_bytes());
}
