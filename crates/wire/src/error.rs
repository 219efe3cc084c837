//! Why a line is not an entry.

use record::Fault;
use std::fmt;

/// Why one line could not be read.
#[derive(Debug, Clone, PartialEq)]
pub enum LineFault {
    /// Not JSON: what the reader said.
    NotJson(String),
    /// JSON, but not an object with the members of an entry; the member that is missing or odd.
    Member(&'static str),
    /// Readable, but not the one canonical spelling: its bytes were touched.
    NotCanonical,
    /// The id is not the hash of what stands there: it was altered.
    IdDisagrees,
    /// The signature is not the device's: altered or forged.
    NotSealed,
    /// A body of a format we know has fields that do not fit.
    Body(Vec<Fault>),
}

impl fmt::Display for LineFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            LineFault::NotJson(why) => write!(f, "this is not JSON: {why}"),
            LineFault::Member(name) => {
                write!(f, "the member `{name}` is missing or has no place in an entry")
            }
            LineFault::NotCanonical => write!(f, "the line is not in its canonical spelling; it was touched"),
            LineFault::IdDisagrees => write!(f, "the id does not follow from the content; it was altered"),
            LineFault::NotSealed => write!(f, "the signature is not that of the device; altered or forged"),
            LineFault::Body(faults) => {
                let paths: Vec<&str> = faults.iter().map(|fault| fault.path.as_str()).collect();
                write!(f, "the body does not fit its kind at {}", paths.join(", "))
            }
        }
    }
}

/// A line that could not be read, with its place in the file.
#[derive(Debug, Clone, PartialEq)]
pub struct WireError {
    /// Line number from 1.
    pub line: usize,
    /// What is wrong.
    pub fault: LineFault,
}

impl fmt::Display for WireError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}: {}", self.line, self.fault)
    }
}

impl std::error::Error for WireError {}
