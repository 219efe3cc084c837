//! Entries about the cage and the access tubes.

use super::plan::{Bars, Hoops};
use crate::choices::*;
use crate::declare::{group, kinds};
use quantity::{Elevation, Entered, Fraction, Length, Moment};

group! {
    /// One access tube.
    TubeReading {
        /// Tube mark.
        tube: String,
        /// Length sounded.
        length: Option<Entered<Length>>,
        /// Free from top to bottom.
        clear: Option<bool>,
        /// Depth below the tube top where the probe stops.
        blocked_at: Option<Entered<Length>>,
        /// Tight.
        tight: Option<bool>,
    }
}

kinds! { Cage:
    /// The cage as it lies on the ground.
    CageChecked = "cage_checked" {
        /// Longitudinal bars found.
        bars: Vec<Bars>,
        /// Transverse bars found.
        hoops: Vec<Hoops>,
        /// Mark of the cage.
        mark: Option<String>,
        /// Diameter over the transverse bars.
        diameter: Option<Small>,
        /// Overall length.
        length: Option<Entered<Length>>,
        /// Part of the longitudinal bars that reach down into depth drilled beyond the plans.
        bars_extended: Option<Entered<Fraction>>,
        /// Part of the intersections that are tied.
        tied: Option<Entered<Fraction>>,
        /// Lap length found.
        lap: Option<Entered<Length>>,
        /// Couplers: how many and which.
        couplers: Option<String>,
        /// Stiffeners: how many and where.
        stiffeners: Option<String>,
        /// Spacers per level.
        spacers_per_level: Option<u32>,
        /// Distance of spacer levels.
        spacer_levels_every: Option<Entered<Length>>,
        /// Distance from an end of the cage to the nearest level of spacers, the larger of both ends.
        spacer_end: Option<Small>,
        /// Depth of a spacer: the cover it gives.
        spacer_cover: Option<Small>,
        /// Sort of the spacers: wheels, runners, blocks.
        spacer_sort: Option<String>,
        /// Access tubes found.
        tubes: Option<u32>,
        /// Inside diameter of the tubes.
        tube_inside: Option<Small>,
        /// Tube material.
        tube_material: Option<TubeMaterial>,
        /// Largest distance between neighboring tubes.
        tube_spacing: Option<Small>,
        /// Tubes are capped at both ends.
        tubes_capped: Option<bool>,
        /// Length of the tubes.
        tube_length: Option<Entered<Length>>,
        /// Distance of the tube feet above the foot of the cage.
        tube_foot: Option<Small>,
        /// Tubes are tied to the cage, straight and parallel to its bars.
        tubes_straight: Option<bool>,
        /// Joints and feet of the tubes are watertight.
        tubes_watertight: Option<bool>,
        /// Steel is clean.
        clean: Option<bool>,
        /// Braced for lifting.
        braced: Option<bool>,
        /// In words.
        note: Option<String>,
    }
    /// The cage stands in the hole.
    CageSet = "cage_set" {
        /// Elevation of its top.
        top: Option<Entered<Elevation>>,
        /// Distance of its foot from the bottom.
        stand_off: Option<Small>,
        /// How it is held.
        held: Option<String>,
        /// Lifted without lasting deformation.
        lifted_well: Option<bool>,
        /// Offset of its centre at the top from the centre of the hole, east.
        east: Option<Small>,
        /// Offset north.
        north: Option<Small>,
        /// Splices made over the hole.
        splices: Option<u32>,
        /// Mark of the cage.
        mark: Option<String>,
    }
    /// The elevation of the cage read again.
    CageElevation = "cage_elevation" {
        /// When.
        moment: CageMoment,
        /// Elevation of its top.
        top: Entered<Elevation>,
        /// Offset of its centre east.
        east: Option<Small>,
        /// Offset north.
        north: Option<Small>,
    }
    /// Sensors on the cage: temperature wires, strain gauges.
    SensorsPlaced = "sensors_placed" {
        /// What they are.
        what: String,
        /// How many wires or sensors.
        count: Option<u32>,
        /// Serial numbers.
        serials: Option<String>,
        /// Elevation of the highest.
        top: Option<Entered<Elevation>>,
        /// Elevation of the lowest.
        bottom: Option<Entered<Elevation>>,
        /// Connectors were kept dry.
        dry: Option<bool>,
        /// When recording began.
        recording: Option<Moment>,
    }
    /// Access tubes inspected.
    TubesChecked = "tubes_checked" {
        /// Each tube.
        tubes: Vec<TubeReading>,
        /// Inspected and found good.
        good: Option<bool>,
    }
    /// Access tubes filled with water.
    TubesFilled = "tubes_filled" {
        /// Clean water.
        clean_water: Option<bool>,
        /// Capped again.
        capped: Option<bool>,
    }
    /// Water in the tubes read later.
    TubeWater = "tube_water" {
        /// Distance of the water below the tube tops.
        below_top: Option<Small>,
        /// Topped up.
        topped_up: Option<bool>,
    }
}
