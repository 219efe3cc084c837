//! One look at a shaft at one moment, from which every part of a screen is taken.
//!
//! Folding the record and assessing the shaft is the larger part of the work; a screen that shows figures,
//! section and keys does it once and takes all three from here.
//!
//! Never: change after it was taken; it is of one record and one moment.

use super::drawing::changeable;
use super::looked::Looked;
use super::shaft::{ShaftScreen, of_looked};
use crate::entry::keys::{EntryKey, keys};
use figure::Size;
use quantity::Moment;
use record::Record;

/// A shaft as it was found at a moment.
pub struct Look<'r>(Looked<'r>);

impl<'r> Look<'r> {
    /// Folds the record, finds the criteria in force and assesses the shaft.
    pub fn at(record: &'r Record, shaft: &'r str, at: Moment) -> Self {
        Look(Looked::at(record, shaft, at))
    }

    /// The same at once: shape, order and the played rest of the day take longer than everything else together. The
    /// shape is not there yet; the others say that they are being reckoned until `at` has told them.
    pub fn briefly(record: &'r Record, shaft: &'r str, at: Moment) -> Self {
        Look(Looked::at(record, shaft, at).briefly())
    }

    /// Figures, clocks, what calls, what to do next, cards.
    pub fn screen(&self) -> ShaftScreen {
        of_looked(&self.0)
    }

    /// The section by itself, without the curve beside it, as SVG text: large enough to be read across the rig. With
    /// the band of the estimated shape where that was estimated.
    pub fn section(&self, size: Size) -> String {
        let draw = match self.0.shape().is_some() {
            true => ::drawing::section_estimated,
            false => ::drawing::section_alone,
        };
        changeable(&draw(&self.0.view(), size))
    }

    /// The entry keys of the stage, the likeliest first.
    pub fn keys(&self) -> Vec<EntryKey> {
        keys(&self.0.log, &self.0.assessment.picture)
    }
}
