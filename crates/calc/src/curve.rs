//! Concrete volume against depth.
//!
//! The volume curve compares what was placed with what the drilled hole needs. A local gain or loss
//! points at over-break, a cave-in or a neck, but only where it is larger than what tape and tickets
//! can feign; and a cumulative ratio hides the one in the sum of all others. So each interval is held
//! against the rest of its own shaft, with the error of both.
//!
//! Words: *station* = a moment at which the surface was sounded; *interval* = between two stations;
//! *ratio* = placed over theoretical; *departure* = ratio of an interval less the ratio of the rest.
//! Units: SI inside; ratios are plain numbers, 1 when the hole takes what the drawing says.
//! Never: judge; drop a doubtful station; treat two intervals that share a sounding as independent.

mod balance;
mod build;
mod noise;
mod propagate;

pub use balance::{Balance, balance};
pub use build::volume_curve;
pub use noise::{Noise, PlannedInterval, noise};

use quantity::{Elevation, Length, Volume};

use crate::estimate::{Estimate, Level, in_quadrature};
use crate::geometry::Bore;

/// How far the volume on a ticket can be trusted, as parts of the volume.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadError {
    /// Standard error of each load on its own.
    pub each: f64,
    /// Standard error that all loads of the shaft share: yield of the mix, scales of the plant.
    pub shared: f64,
}

/// One moment at which the surface was sounded.
#[derive(Debug, Clone, PartialEq)]
pub struct Station<'a> {
    /// The mean level of the surface.
    pub level: Level,
    /// What left each truck since the station before.
    pub loads: Vec<Volume>,
    /// What was wasted since the station before.
    pub wasted: Volume,
    /// What stood in tremie, hopper and pump line at this moment.
    pub held: Volume,
    /// The hole as it stood at this moment: casings standing or pulled, steel, and the wall of the tremie
    /// in the concrete where the job counts it.
    pub bore: &'a Bore,
}

/// All that the curve of one shaft is made from.
#[derive(Debug, Clone, PartialEq)]
pub struct Pour<'a> {
    /// The level the concrete starts from: the sounded bottom.
    pub base: Level,
    /// The hole as it stood before the first load.
    pub bore: &'a Bore,
    /// The stations in the order taken.
    pub stations: Vec<Station<'a>>,
    /// How far the tickets can be trusted.
    pub load_error: LoadError,
    /// A shorter rise than this is named in the issues.
    pub least_rise: Length,
}

/// From one station to the next.
#[derive(Debug, Clone, PartialEq)]
pub struct Interval {
    /// Level at the station before.
    pub lower: Elevation,
    /// Level at this station.
    pub upper: Elevation,
    /// From `lower` to `upper`; negative when the surface fell.
    pub rise: Estimate<Length>,
    /// What the hole as drawn takes; `None` when a level lies outside of it. A casing pulled within the
    /// interval is counted: the room it left is part of the theoretical volume.
    pub theoretical: Option<Estimate<Volume>>,
    /// What was placed.
    pub placed: Estimate<Volume>,
    /// Placed over theoretical; `None` when there is nothing to divide by.
    pub ratio: Option<Estimate<f64>>,
    /// Diameter of the cylinder that takes what was placed and the steel; `None` when the surface did
    /// not rise, nothing was placed, or a casing moved.
    pub diameter: Option<Estimate<Length>>,
    /// The ratio held against all other intervals; `None` when there are none.
    pub departure: Option<Departure>,
    /// From the base to this station.
    pub cumulative: Cumulative,
}

impl Interval {
    /// How many standard errors lie between what was placed and what the room between the two soundings takes at the ratio of
    /// the rest of the shaft.
    ///
    /// `z = (V − r T) / √(sV² + (r sT)² + (T sr)²)`
    ///
    /// | symbol | field | meaning |
    /// |---|---|---|
    /// | `V`, `sV` | `placed` | what was placed and its standard error |
    /// | `T`, `sT` | `theoretical` | what the hole as drawn takes and its standard error |
    /// | `r`, `sr` | `departure.others` | ratio of all other intervals and its standard error |
    ///
    /// `None` without another interval, outside the hole, or when all readings are taken as known.
    ///
    /// **Valid for** intervals of any length. The error of a *ratio* is proportional to it, to first order: where hardly
    /// anything was placed, [`Departure::z`] calls every wiggle of the tape certain. Errors that intervals share are counted in
    /// both, so a shared error of the tickets makes this too modest.
    ///
    /// **Source**: error propagation [GUM], of the numerator alone, as in the interval of a ratio by Fieller (from memory).
    pub fn unlike_the_rest(&self) -> Option<f64> {
        let (theoretical, others) = (self.theoretical?, self.departure?.others);
        let [placed, takes] = [self.placed, theoretical].map(|volume| volume.value.to_cubic_meters());
        let [placed_error, takes_error] =
            [self.placed, theoretical].map(|volume| volume.standard_error.to_cubic_meters());
        let error = in_quadrature(&[placed_error, others.value * takes_error, takes * others.standard_error]);
        (error > 0.0).then(|| (placed - others.value * takes) / error)
    }
}

/// One interval held against the rest of its shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Departure {
    /// Ratio of all other intervals together.
    pub others: Estimate<f64>,
    /// Ratio of this interval less that of the others; errors they share are counted once.
    pub difference: Estimate<f64>,
    /// The difference in standard errors; `None` when all readings are taken as known.
    pub z: Option<f64>,
}

/// From the base to one station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cumulative {
    /// What was placed.
    pub placed: Estimate<Volume>,
    /// What the hole as drawn takes; `None` when the level lies outside of it.
    pub theoretical: Option<Estimate<Volume>>,
    /// Placed over theoretical.
    pub ratio: Option<Estimate<f64>>,
}

/// The whole curve.
#[derive(Debug, Clone, PartialEq)]
pub struct VolumeCurve {
    /// One interval per station.
    pub intervals: Vec<Interval>,
}

/// What is doubtful about a curve. `at` counts stations from zero.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Issue {
    /// The surface went down although no casing moved.
    SurfaceFell {
        /// Which station.
        at: usize,
        /// By how much.
        by: Length,
    },
    /// More was wasted or stands in the lines than came in: the running total went down.
    TotalFell {
        /// Which station.
        at: usize,
        /// By how much.
        by: Volume,
    },
    /// The surface rose so little that its ratio means nothing.
    TinyInterval {
        /// Which station.
        at: usize,
        /// How much it rose.
        rise: Length,
    },
    /// The surface rose that little though what was placed fills far more of the hole: one of the two soundings may
    /// be misread, or the concrete is somewhere else.
    HardlyRose {
        /// Which station.
        at: usize,
        /// How much it rose.
        rise: Length,
        /// How much the concrete placed fills of the hole as drawn.
        fills: Length,
    },
    /// The level lies outside the hole as drawn.
    OutsideBore {
        /// Which station.
        at: usize,
        /// The level sounded.
        level: Elevation,
    },
}
