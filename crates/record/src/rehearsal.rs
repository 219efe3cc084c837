//! What keeps a made-up day out of a job's record: its mark stands in every entry.
//!
//! A rehearsal looks like a record and is signed like one. Its key begins with a word no job may use, and
//! the key stands in each entry under its signature: so no record takes such an entry in, wherever two
//! records meet, and nobody can take the mark off without signing anew.
//!
//! Words: *rehearsal* = a record made up for practice, demonstration or proof.
//! Never: let a correction turn a rehearsal into a job.

use crate::entry::Held;
use crate::kinds::Body;
use crate::merge::Record;

/// The beginning of the key of every rehearsal, and of nothing else.
pub const PREFIX: &str = "rehearsal-";

/// A key says that it is of a rehearsal.
pub fn is_rehearsal_key(key: &str) -> bool {
    key.starts_with(PREFIX)
}

/// The key of a rehearsal: a word of small letters and hyphens, 12 signs at most, and a number. Within 40
/// signs, as every key.
pub fn key_of(word: &str, number: u64) -> String {
    format!("{PREFIX}{word}-{number:x}")
}

impl Record {
    /// It was made up: by its key, or because an entry that opened the job says so. An entry that said so
    /// once counts, struck through or not.
    pub fn is_rehearsal(&self) -> bool {
        self.job().is_some_and(is_rehearsal_key) || self.entries().any(opens_rehearsal)
    }
}

fn opens_rehearsal(held: &Held) -> bool {
    let Held::Known(entry) = held else { return false };
    match &entry.body {
        Body::JobOpened(opened) => opened.rehearsal == Some(true),
        Body::Correction(correction) => match correction.body.as_deref() {
            Some(Body::JobOpened(opened)) => opened.rehearsal == Some(true),
            _ => false,
        },
        _ => false,
    }
}
