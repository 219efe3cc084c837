//! Entries about casings: set, pulled step by step, left in the ground.

use crate::choices::*;
use crate::declare::kinds;
use quantity::{Depth, Elevation, Entered, Length, Slope, Volume};

kinds! { Casing:
    /// A casing stands in the ground.
    CasingSet = "casing_set" {
        /// What it is called.
        name: String,
        /// How long it stays.
        stay: CasingStay,
        /// Sort: smooth, corrugated, sectional; how its sections are joined.
        sort: Option<String>,
        /// Outside diameter.
        outside: Option<Small>,
        /// Wall thickness.
        wall: Option<Small>,
        /// Inside diameter, where it was measured.
        inside: Option<Small>,
        /// Length.
        length: Option<Entered<Length>>,
        /// Elevation of its top.
        top: Option<Entered<Elevation>>,
        /// Depth of its shoe below the reference.
        shoe: Option<Entered<Depth>>,
        /// Height of its top above ground.
        above_ground: Option<Entered<Length>>,
        /// Out of plumb.
        plumb: Option<Entered<Slope>>,
        /// How plumbness was checked: level, plumb bob.
        plumb_method: Option<String>,
        /// Off its place, east; west is negative.
        east: Option<Small>,
        /// Off its place, north; south is negative.
        north: Option<Small>,
        /// Oiled or clean inside.
        clean: Option<bool>,
        /// In words.
        note: Option<String>,
    }
    /// A casing went deeper with the drilling.
    CasingAdvanced = "casing_advanced" {
        /// Which.
        name: String,
        /// Depth of its shoe now.
        shoe: Entered<Depth>,
        /// Out of plumb.
        plumb: Option<Entered<Slope>>,
    }
    /// One lift of a casing during the pour.
    CasingLifted = "casing_lifted" {
        /// Which.
        name: String,
        /// Depth of its shoe after the lift.
        shoe: Entered<Depth>,
        /// Depth to concrete before the lift.
        level_before: Option<Entered<Depth>>,
        /// Depth to concrete after the lift.
        level_after: Option<Entered<Depth>>,
        /// Concrete added to make up for the drop.
        added: Option<Entered<Volume>>,
        /// Rise of the cage; downward is negative.
        cage_rise: Option<Small>,
        /// Water came up at the top.
        water_seen: Option<bool>,
        /// Pulled slowly, evenly and in line with its axis.
        steadily: Option<bool>,
        /// In words.
        note: Option<String>,
    }
    /// A casing is out of the ground.
    CasingOut = "casing_out" {
        /// Which.
        name: String,
        /// Depth to concrete before.
        level_before: Option<Entered<Depth>>,
        /// Depth to concrete after.
        level_after: Option<Entered<Depth>>,
        /// Concrete added afterwards.
        added: Option<Entered<Volume>>,
        /// Rise of the cage.
        cage_rise: Option<Small>,
        /// Pulled slowly, evenly and in line with its axis.
        steadily: Option<bool>,
    }
    /// A casing stays in the ground.
    CasingLeft = "casing_left" {
        /// Which.
        name: String,
        /// Elevation of its top.
        top: Option<Entered<Elevation>>,
        /// Elevation of its bottom.
        bottom: Option<Entered<Elevation>>,
        /// Why, where it was meant to come out.
        reason: Option<String>,
        /// Who approved that it stays, where it was meant to come out.
        approved_by: Option<String>,
    }
}
