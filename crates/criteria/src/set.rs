//! A set of criteria: one file, known by the digest of its text.
//!
//! Every finding names its criterion and the digest of the file it was judged by, so that ten years later
//! it is clear which limits were in force.
//!
//! Never: read a file; two shipped sets are never merged.

use crate::criterion::Criterion;
use crate::problem::Problem;
use crate::read;
use sha2::{Digest, Sha256};
use std::sync::OnceLock;

/// What a set is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct About {
    /// The name a job chooses it by.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Its edition.
    pub edition: String,
    /// What it was made from and for.
    pub about: String,
    /// What everybody who uses it has to know; carried into every report.
    pub caution: Option<String>,
}

/// The criteria of one file.
#[derive(Debug, Clone, PartialEq)]
pub struct Set {
    /// What the set is.
    pub about: About,
    /// SHA-256 of the file's text, lower-case hexadecimal.
    pub sha256: String,
    /// In the order of the file.
    pub criteria: Vec<Criterion>,
}

/// The sets that come with the program: id and text.
pub const SHIPPED: [(&str, &str); 3] = [
    ("roadside-common-practice-1", include_str!("../../../criteria/roadside-common-practice-1.toml")),
    ("fhwa-aashto-style-1", include_str!("../../../criteria/fhwa-aashto-style-1.toml")),
    ("en1536-style-1", include_str!("../../../criteria/en1536-style-1.toml")),
];

/// The shipped sets once somebody asked for them: reading one takes longer than judging a shaft by it.
static READ: [OnceLock<Set>; 3] = [const { OnceLock::new() }; 3];

impl Set {
    /// Reads the text of a criteria file.
    ///
    /// # Errors
    /// Every mistake of the file, in the order of its lines.
    pub fn parse(text: &str) -> Result<Set, Vec<Problem>> {
        let (about, criteria) = read::set(text)?;
        Ok(Set { about, sha256: sha256(text), criteria })
    }

    /// A set that comes with the program.
    pub fn shipped(id: &str) -> Option<Set> {
        let place = SHIPPED.iter().position(|(name, _)| *name == id)?;
        let read = || Set::parse(SHIPPED[place].1).expect("a shipped set is read by the tests of this crate");
        Some(READ[place].get_or_init(read).clone())
    }

    /// The criterion with that id.
    pub fn get(&self, id: &str) -> Option<&Criterion> {
        self.criteria.iter().find(|criterion| criterion.id == id)
    }
}

/// SHA-256 of a text, lower-case hexadecimal.
pub fn sha256(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().map(|byte| format!("{byte:02x}")).collect()
}
