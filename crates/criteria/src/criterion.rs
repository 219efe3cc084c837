//! One criterion: what is measured, the rule, when it applies, where it comes from.
//!
//! Words: *id* = stable for ever, printed in every finding; *sure* = how far the transcription can be
//! relied on; *holds* = concrete should not start, or go on, before this is settled.
//! Never: exist without saying where the limit comes from.

use crate::conditions::When;
use crate::facts::Fact;
use crate::limit::{Printed, Rule};

/// How far a transcription can be relied on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sure {
    /// Somebody had the document, or a public copy of that place, before their eyes.
    Read,
    /// Nobody had: open the document before the limit is relied on.
    FromMemory,
    /// What people do; there is no document.
    CommonPractice,
    /// The job's own document or an override: the person named there answers for it.
    Job,
}

impl Sure {
    /// Every grade.
    pub const ALL: [Sure; 4] = [Sure::Read, Sure::FromMemory, Sure::CommonPractice, Sure::Job];

    /// The word in a criteria file.
    pub fn word(self) -> &'static str {
        match self {
            Sure::Read => "read",
            Sure::FromMemory => "from_memory",
            Sure::CommonPractice => "common_practice",
            Sure::Job => "job",
        }
    }

    /// The grade with that word.
    pub fn named(word: &str) -> Option<Sure> {
        Self::ALL.into_iter().find(|sure| sure.word() == word)
    }
}

/// One criterion of a set.
#[derive(Debug, Clone, PartialEq)]
pub struct Criterion {
    /// Stable for ever: `set/topic`.
    pub id: String,
    /// What it is about, in a few words.
    pub title: String,
    /// What it measures.
    pub fact: &'static Fact,
    /// What it asks.
    pub rule: Rule,
    /// When it applies.
    pub when: When,
    /// How exact the usual instrument is: a value this near to the limit says so.
    pub accuracy: Option<Printed>,
    /// Concrete waits until this is settled.
    pub holds: bool,
    /// How far the transcription can be relied on.
    pub sure: Sure,
    /// Key of the document in `docs/sources.md`; none for common practice.
    pub source: Option<String>,
    /// Place in the document, as far as known.
    pub clause: Option<String>,
    /// What has to be verified before the limit is relied on.
    pub verify: Option<String>,
    /// Other values in circulation, and what was chosen.
    pub note: Option<String>,
    /// Why it matters, in one sentence.
    pub why: String,
    /// What is usually done when it fails.
    pub if_fails: String,
    /// Line in the file where it begins.
    pub line: usize,
}
