//! What closes a package: changes, questions, photos, sources, cautions, signatures and the digest.
//!
//! Ten years later this part decides whether the rest is believed.

use serde::Serialize;

use super::Certainty;

/// One correction of one entry.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Correction {
    /// Which entry, for example `Load 4 · tablet 1 no. 41`.
    pub what: String,
    /// As it was.
    pub was: String,
    /// As it stands.
    pub is: String,
    /// Who and when.
    pub by: String,
    /// The reason given.
    pub why: String,
}

/// One entry with two or more competing corrections.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Dispute {
    /// Which entry.
    pub what: String,
    /// Every candidate with its author and time.
    pub candidates: Vec<String>,
    /// Who closed it, when, and for what reason; empty while it is open.
    pub closed: String,
}

/// A question that plausibility asked.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Question {
    /// About which entry.
    pub about: String,
    /// The question.
    pub asked: String,
    /// The answer with author and time; empty when nobody answered.
    pub answered: String,
}

/// What the readings leave odd; no limit stands behind it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Doubt {
    /// Which entries to look at.
    pub about: String,
    /// What is odd, and what it means.
    pub what: String,
    /// What to do about it.
    pub next: String,
}

/// A value that was taken where the record is silent.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Assumed {
    /// What it stands for.
    pub about: String,
    /// The value.
    pub value: String,
    /// What it does, and how sure it is.
    pub how: String,
}

/// A photo by the digest of its file.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Photo {
    /// When it was taken.
    pub taken: String,
    /// What it shows, with depth or stage.
    pub shows: String,
    /// The entry that names it, with its author.
    pub file: String,
    /// SHA-256 of the file, in hexadecimal.
    pub digest: String,
}

/// A document that limits come from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SourceOfLimit {
    /// The key printed beside the limits.
    pub key: String,
    /// Document, edition, place.
    pub document: String,
    /// How sure the transcription is.
    pub certainty: Certainty,
    /// How many limits of this package rest on it, in words.
    pub used: String,
}

/// One caution and what it defers to.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Caution {
    /// The danger, for example `Open hole`.
    pub danger: String,
    /// The caution.
    pub text: String,
}

/// A line to sign.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Signature {
    /// In which role, for example `Inspector`.
    pub role: String,
    /// The printed name; empty leaves a line to write on.
    pub name: String,
    /// The signature that already stands in the record, if there is one.
    pub sealed: Option<Sealed>,
}

/// A digital signature that stands in the record.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Sealed {
    /// When it was given.
    pub at: String,
    /// The fingerprint of the key.
    pub key: String,
    /// What was signed and whether it verifies, in words.
    pub over: String,
}

/// A seal over the shaft's entries, and what came after it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ShaftSeal {
    /// When, by whom, over what, in words.
    pub what: String,
    /// The root of the tree over the sealed entries, 64 hexadecimal digits.
    pub root: String,
    /// Each entry that came after it and before the next seal, in words.
    pub later: Vec<String>,
}

/// The fingerprint of the record.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RecordDigest {
    /// SHA-256 over the entries, 64 hexadecimal digits.
    pub sha256: String,
    /// How many entries and devices, in words.
    pub covers: String,
    /// How a stranger checks it, in one or two sentences.
    pub how_to_check: String,
    /// What the check of chains and signatures said, in words.
    pub checked: String,
}
