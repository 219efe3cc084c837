//! The made-up site: one shaft as drawn, and as a scenario and a seed make it in truth.
//!
//! There are two drawings of it, one in feet and yards and one in metres, each in the round figures of its
//! trade. Depths are below the top of the casing, which stands a little over the ground and is the reference of
//! the day. Everything on the drawings is invented.

mod drawn;

use record::field::UnitSystem;

use crate::chance::Chance;
use crate::ground::{Layer, Soil};
use crate::hole::{Hole, Sleeve};
use crate::readings::{Column, Crew, Marks, Plant, Tape};
use crate::scenario::Scenario;
use crate::wall::{Feature, FeatureSort, Wall};

pub(crate) use drawn::{METRIC, US};

/// One foot in metres.
pub(crate) const FOOT: f64 = 0.3048;
const INCH: f64 = 0.0254;
/// One cubic yard in cubic metres.
const YARD: f64 = 0.764_554_857_984;

/// The shaft as drawn, the plant and the line. Lengths in metres, depths below the reference.
pub(crate) struct Site {
    /// What everything is written in.
    pub(crate) system: UnitSystem,
    /// Elevation of the reference, the top of the casing.
    pub(crate) reference_m: f64,
    pub(crate) ground_m: f64,
    pub(crate) bottom_m: f64,
    /// Depth of the shoe of the casing.
    pub(crate) shoe_m: f64,
    /// Of the bore, and of the casing inside and outside.
    pub(crate) diameters_m: [f64; 3],
    pub(crate) strata: [Ground; 4],
    /// Depth of the fluid and of the groundwater.
    pub(crate) water_m: [f64; 2],
    /// Depth of the sample near the bottom and of the one above it.
    pub(crate) samples_m: [f64; 2],
    /// The fluid is tested while drilling when the hole passes these depths.
    pub(crate) tested_below_m: [f64; 2],
    /// The longest run of the tool.
    pub(crate) run_m: f64,
    /// What a full truck brings, in cubic metres.
    pub(crate) truck_m3: f64,
    /// What the last truck can be ordered with, in tenths of a cubic yard or metre; the last is a full truck.
    pub(crate) orders: [u32; 5],
    pub(crate) tremie: Tremie,
    /// What lies on the bottom after it stood for hours.
    pub(crate) settled_m: f64,
    /// What a misread tape is off by.
    pub(crate) misread_m: f64,
    /// Elevation of the top of the cage, and what it rises by when it rises.
    pub(crate) cage_m: [f64; 2],
    pub(crate) marks: Marks,
}

/// The tremie, in metres.
pub(crate) struct Tremie {
    pub(crate) inside_m: f64,
    /// Depth of the tip at the start.
    pub(crate) tip_m: f64,
    pub(crate) piece_m: f64,
    /// What the crew leaves in the concrete after it took pieces off.
    pub(crate) embedment_m: f64,
    /// Pieces by which the crane takes it up too far.
    pub(crate) too_far: usize,
}

/// A layer of the made-up ground: lower boundary in metres, soil, and what the log of the hole says.
pub(crate) struct Ground {
    pub(crate) bottom_m: f64,
    pub(crate) soil: Soil,
    /// Word of the record.
    pub(crate) word: &'static str,
    pub(crate) says: &'static str,
}

impl Site {
    /// The drawing in some units.
    pub(crate) fn of(system: UnitSystem) -> &'static Site {
        match system {
            UnitSystem::Us => &US,
            UnitSystem::Metric => &METRIC,
        }
    }

    /// A text for each kind of units.
    pub(crate) fn pick<T>(&self, us: T, metric: T) -> T {
        if self.system == UnitSystem::Us { us } else { metric }
    }

    /// A length as it is written: feet and tenths, or metres and centimetres.
    pub(crate) fn length(&self, length_m: f64) -> String {
        self.pick(format!("{:.1} ft", length_m / FOOT), format!("{length_m:.2} m"))
    }

    /// A length as a tape shows it, to its marks.
    pub(crate) fn taped(&self, length_m: f64) -> String {
        self.length(self.marks.round_m(length_m))
    }

    /// Elevation of a depth, as it is written.
    pub(crate) fn elevation(&self, depth_m: f64) -> String {
        self.length(self.reference_m - depth_m)
    }

    /// A volume in cubic yards or metres.
    pub(crate) fn in_units(&self, volume_m3: f64) -> f64 {
        self.pick(volume_m3 / YARD, volume_m3)
    }

    /// Cubic metres of a volume in cubic yards or metres.
    pub(crate) fn cubic_meters(&self, volume: f64) -> f64 {
        self.pick(volume * YARD, volume)
    }

    /// A volume as it is written.
    pub(crate) fn volume(&self, volume_m3: f64) -> String {
        let volume = self.in_units(volume_m3);
        self.pick(format!("{volume:.1} cy"), format!("{volume:.1} m3"))
    }

    /// The smallest order that holds a volume, in tenths of a cubic yard or metre; a full truck where none does.
    pub(crate) fn order_for(&self, volume_m3: f64) -> u32 {
        let enough = |tenths: &u32| f64::from(*tenths) >= self.in_units(volume_m3) * 10.0 - 1e-9;
        self.orders.into_iter().find(enough).unwrap_or(self.orders[self.orders.len() - 1])
    }
}

/// The shaft of a seed and a scenario in truth, by the drawing in some units.
pub fn hole(seed: u64, scenario: Scenario, system: UnitSystem) -> Hole {
    let site = Site::of(system);
    let mut chance = Chance::of_topic(seed, "site");
    // The ground lies tight against the casing.
    let mut top_m = site.shoe_m;
    let behind =
        Layer { top_m: 0.0, bottom_m: top_m, soil: site.strata[0].soil, mean: 1.0, wander: 0.0, run_m: 1.0 };
    let mut layers = vec![behind];
    for ground in &site.strata {
        layers.push(quiet([top_m, ground.bottom_m], ground.soil, &mut chance));
        top_m = ground.bottom_m;
    }
    let features: Vec<Feature> = feature(scenario, &mut chance).into_iter().collect();
    let wall = Wall::new(&layers, &features, 0.3, &mut chance);
    let [diameter_m, inside_m, outside_m] = site.diameters_m;
    let sleeve = Sleeve { shoe_m: site.shoe_m, inside_m, outside_m };
    Hole { diameter_m, layers, features, wall, sleeve: Some(sleeve) }
}

/// A layer that takes about four percent more than drawn and wanders little: a good day's drilling.
fn quiet([top_m, bottom_m]: [f64; 2], soil: Soil, chance: &mut Chance) -> Layer {
    let mean = chance.between([1.03, 1.05]);
    Layer { top_m, bottom_m, soil, mean, wander: 0.008, run_m: chance.between([0.6, 1.5]) }
}

/// What a scenario does to the wall. The layers of both drawings lie alike, so that it does the same to both.
fn feature(scenario: Scenario, chance: &mut Chance) -> Option<Feature> {
    let (sort, middle_ft, height_ft, change) = match scenario {
        Scenario::NeckInSoftClay => (FeatureSort::Neck, [18.0, 21.0], [7.0, 9.0], [-0.40, -0.33]),
        Scenario::Cavity => (FeatureSort::Cavity, [32.0, 34.0], [5.0, 6.0], [0.8, 1.0]),
        Scenario::LooseSandSeam => (FeatureSort::Seam, [30.0, 36.0], [0.8, 1.2], [0.2, 0.3]),
        _ => return None,
    };
    Some(Feature {
        sort,
        middle_m: chance.between(middle_ft) * FOOT,
        height_m: chance.between(height_ft) * FOOT,
        flat: 0.4,
        change: chance.between(change),
    })
}

/// Who reads and delivers on the made-up site: a tape read at two points, the casing pulled in one go when the
/// hole is full.
pub(crate) fn crew(system: UnitSystem) -> Crew {
    let site = Site::of(system);
    let inside_m = site.tremie.inside_m;
    Crew {
        tape: Tape { each_m: 0.02, shared_m: 0.01, marks: site.marks, points: 2 },
        plant: Plant { bias: 0.0, shared: 0.008, each: 0.01 },
        truck_m3: site.truck_m3,
        lift_m: site.shoe_m,
        head_m: f64::INFINITY,
        held_m3: [0.0, 0.02],
        column: Some(Column {
            area_m2: std::f64::consts::PI * inside_m * inside_m / 4.0,
            share: site.pick(62.9 / 150.0, 1.05 / 2.38),
            fluid_m: site.water_m[0],
        }),
        top_up: false,
        ..Crew::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_smallest_order_that_is_enough_is_wise() {
        let us = |cubic_yards: f64| US.order_for(cubic_yards * YARD);
        assert_eq!([0.0, 2.0, 2.1, 4.99, 6.4, 9.0].map(us), [20, 20, 30, 50, 65, 65]);
        assert_eq!(
            [0.0, 1.5, 1.6, 4.0, 9.0].map(|volume_m3| METRIC.order_for(volume_m3)),
            [15, 15, 20, 40, 40]
        );
    }

    #[test]
    fn each_drawing_writes_in_its_own_units() {
        let written =
            |site: &Site| [site.length(3.048), site.elevation(site.ground_m), site.volume(site.truck_m3)];
        assert_eq!(written(&US), ["10.0 ft", "100.0 ft", "6.5 cy"]);
        assert_eq!(written(&METRIC), ["3.05 m", "51.70 m", "4.0 m3"]);
        assert_eq!([US.taped(3.04), METRIC.taped(3.04)], ["10.0 ft", "3.05 m"]);
    }
}
