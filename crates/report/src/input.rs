//! Everything a package prints, already judged, rounded and worded.
//!
//! The person who made the figures is the one who may answer for them, so the page gets texts and pictures
//! and nothing it could calculate with. The same input gives the same bytes, on any day and any machine.
//!
//! Words: *package* = the document of one shaft; *job summary* = the document of all shafts of a job;
//! *standing* = how a criterion, a shaft or a job stands.
//! Units: none here; every number is a text that already carries its unit.
//! Never: a clock, a limit, a calculation. The moment of making is part of the input.

mod closing;
mod drawing;
mod finding;
mod heading;
mod log;
mod summary;

pub use closing::{
    Assumed, Caution, Correction, Dispute, Doubt, Photo, Question, RecordDigest, Sealed, ShaftSeal,
    Signature, SourceOfLimit,
};
pub use drawing::{Drawing, Room};
pub use finding::{Certainty, Finding, Forecast, Standing, Verdict};
pub use heading::{Counts, Fact, FactGroup, Heading, Paper};
pub use log::{Align, Column, Layout, LogTable, Mark, Row};
pub use summary::{ShaftLine, SummaryInput};

use quantity::Moment;
use serde::Serialize;

/// The package of one shaft, in the order in which it is printed.
///
/// A text that is empty means *not recorded* and prints as the mark `–`; it is never left out.
/// A list that is empty prints a sentence saying so (`none recorded`), except `forecasts`, `no_limit`, `doubts`,
/// `assumed` and `papers`, which are left out when there is nothing to say.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReportInput {
    /// The size of the pages.
    pub paper: Paper,
    /// The moment the package is made: printed, and written into the file's metadata.
    #[serde(serialize_with = "heading::moment_as_text")]
    pub made: Moment,
    /// Who, where and when: the band at the top of page one.
    pub heading: Heading,
    /// How the shaft stands: counts, and one sentence.
    pub verdict: Verdict,
    /// The time–depth sheet of the day, drawn across page one.
    pub sheet: Drawing,
    /// The findings that matter, most urgent first. Page one has room for five; all stand in `findings`.
    pub leading: Vec<String>,
    /// Every criterion, in the order `assess` defined.
    pub findings: Vec<Finding>,
    /// What was measured where no limit is set: neither passed nor failed, printed as a closing list.
    pub no_limit: Vec<Fact>,
    /// What was about to happen when the package was made.
    pub forecasts: Vec<Forecast>,
    /// Identity and plan data, in groups of label and value.
    pub plan: Vec<FactGroup>,
    /// Every log of the shaft as a table, in the order of the work.
    pub logs: Vec<LogTable>,
    /// The drawings after the logs.
    pub drawings: Vec<Drawing>,
    /// Every correction, oldest first.
    pub corrections: Vec<Correction>,
    /// Every dispute, open or closed.
    pub disputes: Vec<Dispute>,
    /// What plausibility asked, and what was answered.
    pub questions: Vec<Question>,
    /// What the readings leave odd, each with where to look again.
    pub doubts: Vec<Doubt>,
    /// Photos by the digest of their file.
    pub photos: Vec<Photo>,
    /// The documents the limits come from.
    pub sources: Vec<SourceOfLimit>,
    /// What the reckoning took where the record is silent, each with how sure it is.
    pub assumed: Vec<Assumed>,
    /// Cautions, each with the law or practice it defers to.
    pub cautions: Vec<Caution>,
    /// Lines to sign, and signatures that already stand in the record.
    pub signatures: Vec<Signature>,
    /// The seals over the shaft's entries, oldest first; left out when there are none.
    pub seals: Vec<ShaftSeal>,
    /// The fingerprint of the record this package was made from.
    pub digest: RecordDigest,
    /// Papers of the job that concern this shaft, as an appendix; left out when there are none.
    pub papers: Vec<LogTable>,
}
