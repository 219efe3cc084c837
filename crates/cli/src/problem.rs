//! A problem as a person is told it, and the exit code a script is told.
//!
//! | code | meaning |
//! |---|---|
//! | 0 | done |
//! | 1 | could not be done: a file, the folder, the database |
//! | 2 | the command was not understood |
//! | 3 | notes or tables have mistakes; nothing was imported |
//! | 4 | a record is not what it was: altered, forged, a gap in a chain |
//! | 5 | `check --strict`: findings are open |

use std::fmt;

/// Could not be done.
pub(crate) const FAILED: u8 = 1;
/// Notes or tables have mistakes.
pub(crate) const MISTAKES: u8 = 3;
/// A record is not what it was.
pub(crate) const ALTERED: u8 = 4;
/// Findings are open.
pub(crate) const OPEN: u8 = 5;

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
    /// A problem that leaves the record as it was.
    pub(crate) fn new(what: impl Into<String>, next: impl Into<String>) -> Self {
        let meaning = "The record is as it was.".to_owned();
        Problem { what: what.into(), meaning, next: next.into(), exit: FAILED }
    }

    /// The same, with another meaning for the record.
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
    pub(crate) fn file(doing: &str, path: &std::path::Path, error: &std::io::Error) -> Self {
        Problem::new(format!("{doing} {} did not work: {error}.", path.display()), "Check the name and the rights.")
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "{}", self.what)?;
        writeln!(f, "{}", self.meaning)?;
        writeln!(f, "{}", self.next)
    }
}

impl From<store::StoreError> for Problem {
    fn from(error: store::StoreError) -> Self {
        let altered = matches!(error, store::StoreError::Altered { .. } | store::StoreError::SameId(_));
        let problem = Problem::new(
            format!("The record could not be used: {error}."),
            "Keep the folder as it is and work on a copy; if you have an exported file, `shaftbook verify` it.",
        );
        match altered {
            true => problem.meaning("Something in the record is not what it was when it was signed.").exit(ALTERED),
            false => problem.meaning("Nothing was written."),
        }
    }
}
