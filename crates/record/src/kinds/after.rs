//! Entries after the pour: top, inserts, curing, strength, tests, survey.

use crate::choices::*;
use crate::declare::{group, kinds};
use crate::entry::FileHash;
use quantity::{Depth, Elevation, Entered, Fraction, Length, Moment, Pressure, Slope, Span, Temperature};

group! {
    /// One anchor bolt.
    Bolt {
        /// Mark.
        bolt: String,
        /// Off its place, east.
        east: Option<Small>,
        /// Off its place, north.
        north: Option<Small>,
        /// Projection above the top.
        projection: Option<Small>,
        /// Out of plumb.
        plumb: Option<Entered<Slope>>,
    }
    /// One pair of tubes of a crosshole test.
    TubePair {
        /// Tubes.
        tubes: String,
        /// Distance of the two tubes at the head.
        spacing: Option<Small>,
        /// Depth of the reading, or of the worst one.
        depth: Option<Entered<Length>>,
        /// Arrival time later than its neighbourhood, percent.
        delay: Option<Entered<Fraction>>,
        /// Energy loss in decibel, as a number.
        energy: Option<String>,
        /// Lowest gamma reading below the mean of its tubes, in standard deviations, as a number.
        deviations: Option<String>,
    }
}

kinds! { After:
    /// The top is formed.
    TopFormed = "top_formed" {
        /// Shape.
        shape: Option<String>,
        /// Width or diameter.
        width: Option<Small>,
        /// Height.
        height: Option<Entered<Length>>,
        /// Elevation of its top.
        top: Option<Entered<Elevation>>,
    }
    /// Conduits are in.
    ConduitSet = "conduit_set" {
        /// How many and which size.
        what: String,
        /// As planned.
        as_planned: Option<bool>,
    }
    /// Anchor bolts are in.
    AnchorsSet = "anchors_set" {
        /// How many.
        count: u32,
        /// A template held them.
        template: Option<bool>,
        /// Bolt circle.
        circle: Option<Small>,
        /// Bolts, one by one.
        bolts: Vec<Bolt>,
        /// Read after the casing was out.
        after_casing: Option<bool>,
    }
    /// Curing.
    Curing = "curing" {
        /// Method.
        method: String,
        /// When it ended.
        until: Option<Moment>,
        /// In words.
        note: Option<String>,
    }
    /// Temperature of the concrete in place.
    TemperatureRead = "temperature_read" {
        /// Sensor.
        sensor: String,
        /// Reading.
        temperature: Entered<Temperature>,
        /// The sensor sits at the edge of the shaft; blank: inside it.
        at_edge: Option<bool>,
    }
    /// Cylinders or cubes were made.
    CylindersMade = "cylinders_made" {
        /// Mark of the set.
        set: String,
        /// Ticket of the load.
        ticket: Option<String>,
        /// How many.
        count: u32,
        /// Size and sort.
        size: Option<String>,
        /// First storage.
        storage: Option<String>,
        /// Lowest temperature of the first storage.
        storage_low: Option<Entered<Temperature>>,
        /// Highest temperature of the first storage.
        storage_high: Option<Entered<Temperature>>,
        /// When they left the first storage.
        stored_until: Option<Moment>,
    }
    /// A cylinder or cube was broken.
    CylinderBroken = "cylinder_broken" {
        /// Mark of the set.
        set: String,
        /// Mark of the specimen.
        specimen: Option<String>,
        /// Age.
        age: Option<Entered<Span>>,
        /// Strength.
        strength: Entered<Pressure>,
    }
    /// Forms came off.
    FormRemoved = "form_removed" {
        /// In words.
        note: Option<String>,
    }
    /// An integrity test.
    IntegrityTest = "integrity_test" {
        /// Method.
        method: IntegrityMethod,
        /// By whom.
        by: Option<String>,
        /// Instrument: serial number, date of calibration, check before the test.
        instrument: Option<String>,
        /// Its file.
        file: Option<FileHash>,
        /// What it said, in the tester's words.
        result: Option<String>,
        /// Pairs of tubes.
        pairs: Vec<TubePair>,
    }
    /// A repair was carried out.
    RepairMade = "repair_made" {
        /// What was repaired.
        what: String,
        /// How.
        method: String,
        /// Depth where it begins.
        from: Option<Entered<Depth>>,
        /// Depth where it ends.
        to: Option<Entered<Depth>>,
        /// Who approved it.
        by: Option<String>,
        /// Its file.
        file: Option<FileHash>,
    }
    /// The head was cut down.
    Trimmed = "trimmed" {
        /// Elevation of the sound head.
        top: Entered<Elevation>,
        /// What the concrete looked like.
        concrete: Option<String>,
    }
    /// The shaft as built, by survey.
    AsBuilt = "as_built" {
        /// Northing of the centre.
        northing: Option<Coordinate>,
        /// Easting of the centre.
        easting: Option<Coordinate>,
        /// Off its place, east, where no coordinates were read.
        east: Option<Small>,
        /// Off its place, north.
        north: Option<Small>,
        /// Elevation of the level it was measured at.
        level: Option<Entered<Elevation>>,
        /// Elevation of the top.
        top: Option<Entered<Elevation>>,
        /// Diameter at the top.
        diameter: Option<Small>,
        /// Elevation of the cage top.
        cage_top: Option<Entered<Elevation>>,
        /// Surveyor.
        by: Option<String>,
    }
}
