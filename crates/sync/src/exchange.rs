//! A record file read in: two tablets come to the same record where there is no network at all.

use crate::talk::{Arrived, Effect};
use wire::WireError;

/// What a file added.
#[derive(Debug, Clone, PartialEq)]
pub struct FileRead {
    /// What was not here: keep it. It now waits for the desk like what was written here.
    pub new: Vec<Arrived>,
    /// How many were here already.
    pub known: usize,
    /// What it revealed.
    pub effects: Vec<Effect>,
}

/// Why nothing of a file was taken in.
#[derive(Debug, Clone, PartialEq)]
pub enum FileFault {
    /// There is no entry in it.
    Empty,
    /// It has lines that are no entries, or were altered: all of them.
    Lines(Vec<WireError>),
    /// It is of another job.
    OtherJob {
        /// The job here.
        here: String,
        /// The job there.
        there: String,
    },
}
