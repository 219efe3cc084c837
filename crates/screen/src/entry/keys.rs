//! The entry keys: what can be written now, the likeliest first, and the way to every kind there is.
//!
//! At each stage a handful of entries is written again and again. They lie under the thumb, in the words
//! of the trade, and the one that most likely comes next is marked; all others are two taps away.
//!
//! Words: *likely* = what the work so far makes the next entry, never more than one at a time.
//! Never: hide a kind of entry, enter anything.

mod face;
mod next;

use super::stage::Stage;
use assess::Picture;
use record::Log;
use record::kinds::{Family, KINDS, KindSpec};
use wording::label;

/// A key that begins an entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EntryKey {
    /// The kind it begins.
    pub word: &'static str,
    /// What stands on it, short: `Truck in`.
    pub label: String,
    /// What the entry says.
    pub hint: String,
    /// The most likely next entry.
    pub likely: bool,
}

/// The keys of a family.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeyGroup {
    /// What the family is called.
    pub label: &'static str,
    /// Its keys, in the order of the work.
    pub keys: Vec<EntryKey>,
}

/// The keys for where a shaft stands; the likeliest comes first and is the only one marked.
pub fn keys(log: &Log<'_>, picture: &Picture<'_>) -> Vec<EntryKey> {
    let stage = Stage::of(log, picture);
    let likely = next::likely(stage, log, picture);
    let mut words: Vec<&'static str> = vec![likely];
    words.extend(face::of_stage(stage).iter().copied().filter(|word| *word != likely));
    words.into_iter().map(|word| key(word, word == likely)).collect()
}

/// Every kind of entry a person writes, by family.
pub fn all() -> Vec<KeyGroup> {
    let mut groups: Vec<(Family, KeyGroup)> = Vec::new();
    for kind in KINDS.iter().filter(|kind| !kind.is_made()) {
        let key = key_of(kind, false);
        match groups.iter_mut().find(|(family, _)| *family == kind.family) {
            Some((_, group)) => group.keys.push(key),
            None => {
                groups.push((kind.family, KeyGroup { label: label::family(kind.family), keys: vec![key] }))
            }
        }
    }
    groups.into_iter().map(|(_, group)| group).collect()
}

fn key(word: &str, likely: bool) -> EntryKey {
    let kind = record::kinds::kind_of(word).expect("a key names a kind; tested for every table");
    key_of(kind, likely)
}

fn key_of(kind: &'static KindSpec, likely: bool) -> EntryKey {
    let label = face::short(kind.word).map_or_else(|| label::kind(kind), str::to_owned);
    EntryKey { word: kind.word, label, hint: kind.meaning.trim().to_owned(), likely }
}
