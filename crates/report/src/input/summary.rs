//! The summary of a job: one line per shaft.
//!
//! The office asks which shafts still need somebody; the payment clerk asks what was built and placed.

use quantity::Moment;
use serde::Serialize;

use super::{Counts, Drawing, Heading, Paper, RecordDigest, Signature, Standing, Verdict};

/// The summary of a job.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SummaryInput {
    /// The size of the pages.
    pub paper: Paper,
    /// The moment the summary is made: printed, and written into the file's metadata.
    #[serde(serialize_with = "super::heading::moment_as_text")]
    pub made: Moment,
    /// Who, where and when; `shaft` says which shafts, for example `all shafts`.
    pub heading: Heading,
    /// How the job stands.
    pub verdict: Verdict,
    /// What the office has to look at, most urgent first.
    pub leading: Vec<String>,
    /// One line per shaft, in plan order.
    pub shafts: Vec<ShaftLine>,
    /// Totals in words, for example `Placed 312.5 yd³ in 9 shafts`; may be empty.
    pub totals: Vec<String>,
    /// A plan of the shafts, if there is one.
    pub plan: Option<Drawing>,
    /// Lines to sign.
    pub signatures: Vec<Signature>,
    /// The fingerprint of the record.
    pub digest: RecordDigest,
}

/// One shaft of the job. Empty texts print as *not recorded*.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ShaftLine {
    /// The shaft as the plans call it.
    pub shaft: String,
    /// What it carries, for example `sign pole`.
    pub structure: String,
    /// The day or days of concrete.
    pub date: String,
    /// Planned diameter and length.
    pub planned: String,
    /// As-built diameter and length.
    pub built: String,
    /// Theoretical volume.
    pub theoretical: String,
    /// Placed volume.
    pub placed: String,
    /// Placed over theoretical.
    pub ratio: String,
    /// How many criteria stand how; all zero for a shaft that is not begun.
    pub counts: Counts,
    /// How it stands.
    pub standing: Standing,
    /// The one thing to know about it; may be empty.
    pub remark: String,
}
