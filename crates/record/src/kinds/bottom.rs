//! Entries about the bottom of the hole: cleaning, soundings, sediment, acceptance.

use crate::choices::*;
use crate::declare::{group, kinds};
use quantity::{Depth, Entered, Length, Moment};

group! {
    /// One sounded depth.
    DepthPoint {
        /// Where in the section.
        place: Option<Place>,
        /// Depth below the reference.
        depth: Entered<Depth>,
    }
    /// One thickness of sediment.
    SedimentPoint {
        /// Where in the section.
        place: Option<Place>,
        /// Thickness over the hard bottom.
        thickness: Small,
    }
}

kinds! { Bottom:
    /// One pass of cleaning: begun at the entry's time.
    Cleaning = "cleaning" {
        /// Tool or method.
        method: String,
        /// When it ended.
        until: Option<Moment>,
        /// In words.
        note: Option<String>,
    }
    /// The bottom was sounded.
    BottomSounded = "bottom_sounded" {
        /// Why.
        purpose: SoundingPurpose,
        /// Readings.
        points: Vec<DepthPoint>,
        /// Reference the depths are measured from; blank: the one in force.
        reference: Option<String>,
        /// Added to every reading: length of the weight below the tape's zero.
        tape_correction: Option<Entered<Length>>,
        /// How the bottom felt.
        feel: Option<String>,
    }
    /// Sediment on the bottom was measured.
    SedimentMeasured = "sediment_measured" {
        /// Readings.
        points: Vec<SedimentPoint>,
        /// Method.
        method: Option<String>,
    }
    /// The bottom was accepted.
    BottomAccepted = "bottom_accepted" {
        /// By whom.
        by: String,
        /// In words.
        note: Option<String>,
    }
}
