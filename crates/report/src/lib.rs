//! Report input, already judged, rounded and worded → a PDF that can be handed in the same evening.
//!
//! The package is what outlives the shaft: it has to be read by somebody who was not there, on paper without
//! colour, ten years later. This crate only places texts and drawings on pages, through typst as a library.
//!
//! Words: *package* = the document of one shaft; *job summary* = the document of all shafts of a job.
//! Never: compute, judge, round, read a clock, a file or the network.

mod check;
mod error;
mod fonts;
mod input;
mod literal;
mod pages;
mod render;

pub use error::ReportError;
pub use fonts::Fonts;
pub use input::{
    Align, Assumed, Caution, Certainty, Column, Correction, Counts, Dispute, Doubt, Drawing, Fact, FactGroup,
    Finding, Forecast, Heading, Layout, LogTable, Mark, Paper, Photo, Question, RecordDigest, ReportInput,
    Room, Row, Sealed, ShaftLine, ShaftSeal, Signature, SourceOfLimit, Standing, SummaryInput, Verdict,
};
pub use render::{Attachment, Pdf, job_summary, package, sealed_package};
