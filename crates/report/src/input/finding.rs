//! How each criterion stands, with its limit, its source and what was done about it.
//!
//! A reviewer reads this table first and argues with it: so every row shows where its limit comes from and
//! how sure the transcription is.

use serde::Serialize;

use super::Counts;

/// How one criterion, one shaft or one job stands. Printed as a word and a shape, never as a colour alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// Outside the limit.
    Fails,
    /// Inside the limit, yet a person has to look.
    NeedsAttention,
    /// A limit is set, nothing was measured.
    NotMeasured,
    /// Inside the limit.
    Meets,
    /// No limit is set: neither passed nor failed.
    NoLimit,
}

/// How the whole shaft stands.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Verdict {
    /// The worst standing of any criterion.
    pub standing: Standing,
    /// One sentence, for example `Two criteria fail; one of them was answered by the engineer.`
    pub sentence: String,
    /// The counts behind it.
    pub counts: Counts,
}

/// How sure the transcription of a limit is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Certainty {
    /// Somebody read the place in the document.
    Read,
    /// Nobody did: to be verified before use. Prints a warning beside every limit that rests on it.
    FromMemory,
    /// Common practice without a document.
    CommonPractice,
    /// Set for this job, with a reason.
    SetByJob,
}

/// One row of the findings table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Finding {
    /// How it stands.
    pub standing: Standing,
    /// What was checked, for example `Sediment over the bottom, thickest place`.
    pub criterion: String,
    /// The stable name of the criterion, printed small.
    pub id: String,
    /// The limit as printed in its source, for example `at most 1 in`; empty when none is set.
    pub limit: String,
    /// Document and clause.
    pub source: String,
    /// How sure the transcription is.
    pub certainty: Certainty,
    /// What was measured, as typed where it was typed; empty when not measured.
    pub value: String,
    /// How far inside or outside, for example `1/2 in over`.
    pub margin: String,
    /// What was done about it, who and when; empty when nothing is recorded.
    pub done: String,
    /// The entries behind it, short, for example `tablet 1 no. 41, 43`.
    pub evidence: String,
}

/// Something that was going to happen if nothing changed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Forecast {
    /// How urgent: `Fails` is past its limit, `NeedsAttention` is close.
    pub standing: Standing,
    /// What is due, for example `Slump of the oldest concrete reaches 5 in`.
    pub what: String,
    /// When or at which depth, with its uncertainty.
    pub when: String,
    /// Why, and on which readings it rests.
    pub because: String,
}
