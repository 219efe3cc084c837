//! A job in the formats other programs read: building models, ground data, spreadsheets, tables.
//!
//! Whoever gets a job from the office has programs of their own. What they open has to say the same as our
//! pages, in SI units, and has to say what was not recorded; so everything here is copied from the record and
//! its assessment. What each file holds is in `docs/formats.md`.
//!
//! Words: *job* = a record with its assessed shafts; *shaft* = one of them.
//! Never: compute a figure of the site, judge, read a clock or a file; make up a place, a level or a layer.

pub mod ags;
pub mod csvw;
pub mod geojson;
pub mod ifc;
mod layer;
mod packed;
pub mod parquet;
mod place;
pub mod workbook;

use assess::Assessment;
use assess::shape::{Shape, Width};
use quantity::Moment;
use record::kinds::JobOpened;
use record::{Held, Log, Record};

/// A job as it is written out.
pub struct Job<'v, 'r> {
    /// Its record.
    pub record: &'r Record,
    /// Its shafts, in the order they are written.
    pub shafts: Vec<Shaft<'v, 'r>>,
    /// The name and version of the program.
    pub program: &'v str,
}

/// A shaft as it is written out.
pub struct Shaft<'v, 'r> {
    /// Its name.
    pub name: &'v str,
    /// Its log.
    pub log: &'v Log<'r>,
    /// What it means.
    pub assessment: &'v Assessment<'r>,
    /// Its estimated shape; `None` where the readings give none.
    pub shape: Option<Shape>,
}

impl<'r> Job<'_, 'r> {
    /// How the job was opened.
    pub(crate) fn opened(&self) -> Option<&'r JobOpened> {
        Log::of(self.record, None, None).last::<JobOpened>().map(|(_, job)| job)
    }

    /// The key of the job.
    pub(crate) fn key(&self) -> &str {
        self.record.job().unwrap_or_default()
    }

    /// When the last entry was entered: files carry this time, so that the same record gives the same bytes.
    pub(crate) fn as_of(&self) -> Moment {
        let entered = self.record.entries().map(|held| match held {
            Held::Known(entry) => entry.entered_at,
            Held::Newer(newer) => newer.observed_at,
        });
        entered.max().unwrap_or(Moment::at(0, 0))
    }

    /// The digest of the record.
    pub(crate) fn digest(&self) -> String {
        hexadecimal(&wire::digest(self.record))
    }
}

/// Bytes as lower-case hexadecimal digits.
pub(crate) fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The pieces of the estimate from the bottom up, as far as the concrete stood at last: it falls when a casing is
/// pulled. None where the readings give no estimate.
pub(crate) fn pieces(shaft: &Shaft<'_, '_>) -> Vec<Width> {
    let pour = shaft.assessment.reckoning.pour.as_ref();
    let surface = pour.and_then(|pour| pour.curve.intervals.last()).map(|last| last.upper);
    shaft.shape.as_ref().zip(surface).map_or_else(Vec::new, |(shape, surface)| shape.pieces(surface))
}
