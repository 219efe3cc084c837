//! The made-up site: one shaft as drawn, and as a scenario and a seed make it in truth.
//!
//! Depths are below the top of the casing, which stands 1 ft over the ground and is the reference of the
//! day. Everything on the drawing is invented.

use crate::chance::Chance;
use crate::ground::{Layer, Soil};
use crate::hole::{Hole, Sleeve};
use crate::readings::{Column, Crew, Marks, Plant, Tape};
use crate::scenario::Scenario;
use crate::wall::{Feature, FeatureSort, Wall};

/// One foot in metres.
pub(crate) const FOOT: f64 = 0.3048;
const INCH: f64 = 0.0254;

/// Elevation of the reference, the top of the casing, in feet.
pub(crate) const REFERENCE_FT: f64 = 101.0;
/// Depth of the bottom below the reference, in feet.
pub(crate) const BOTTOM_FT: f64 = 61.0;
/// Depth of the shoe of the casing, in feet.
pub(crate) const SHOE_FT: f64 = 8.0;
/// Volume on the ticket of a truck, in cubic yards.
pub(crate) const TRUCK_CY: f64 = 6.5;
/// One cubic yard in cubic metres.
pub(crate) const YARD: f64 = 0.764_554_857_984;

/// A layer of the made-up ground: lower boundary in feet, soil, and what the log of the hole says.
pub(crate) struct Ground {
    pub(crate) bottom_ft: f64,
    pub(crate) soil: Soil,
    /// Word of the record.
    pub(crate) word: &'static str,
    pub(crate) says: &'static str,
}

pub(crate) const GROUND: [Ground; 4] = [
    Ground { bottom_ft: 12.0, soil: Soil::StiffClay, word: "clay", says: "brown clay, stiff" },
    Ground { bottom_ft: 27.0, soil: Soil::SoftClay, word: "clay", says: "grey clay, soft" },
    Ground { bottom_ft: 39.0, soil: Soil::Sand, word: "sand", says: "fine sand, loose to medium" },
    Ground { bottom_ft: BOTTOM_FT, soil: Soil::StiffClay, word: "clay", says: "grey clay, very stiff" },
];

/// The shaft of a seed and a scenario in truth.
pub fn hole(seed: u64, scenario: Scenario) -> Hole {
    let mut chance = Chance::of_topic(seed, "site");
    // The ground lies tight against the casing.
    let mut top_m = SHOE_FT * FOOT;
    let behind =
        Layer { top_m: 0.0, bottom_m: top_m, soil: GROUND[0].soil, mean: 1.0, wander: 0.0, run_m: 1.0 };
    let mut layers = vec![behind];
    for ground in GROUND {
        layers.push(quiet([top_m, ground.bottom_ft * FOOT], ground.soil, &mut chance));
        top_m = ground.bottom_ft * FOOT;
    }
    let features: Vec<Feature> = feature(scenario, &mut chance).into_iter().collect();
    let wall = Wall::new(&layers, &features, 0.3, &mut chance);
    let sleeve = Sleeve { shoe_m: SHOE_FT * FOOT, inside_m: 49.0 * INCH, outside_m: 50.0 * INCH };
    Hole { diameter_m: 4.0 * FOOT, layers, features, wall, sleeve: Some(sleeve) }
}

/// A layer that takes about four percent more than drawn and wanders little: a good day's drilling.
fn quiet([top_m, bottom_m]: [f64; 2], soil: Soil, chance: &mut Chance) -> Layer {
    let mean = chance.between([1.03, 1.05]);
    Layer { top_m, bottom_m, soil, mean, wander: 0.008, run_m: chance.between([0.6, 1.5]) }
}

/// What a scenario does to the wall.
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

/// Who reads and delivers on the made-up site: trucks of 6 1/2 yd³, a tape in tenths of a foot read at two
/// points, the casing pulled in one go when the hole is full.
pub(crate) fn crew() -> Crew {
    Crew {
        tape: Tape { each_m: 0.02, shared_m: 0.01, marks: Marks::TenthFoot, points: 2 },
        plant: Plant { bias: 0.0, shared: 0.008, each: 0.01 },
        truck_m3: TRUCK_CY * YARD,
        lift_m: SHOE_FT * FOOT,
        head_m: f64::INFINITY,
        held_m3: [0.0, 0.02],
        column: Some(Column {
            area_m2: std::f64::consts::PI * (10.0 * INCH) * (10.0 * INCH) / 4.0,
            share: 62.9 / 150.0,
            fluid_m: 2.0 * FOOT,
        }),
        top_up: false,
        ..Crew::default()
    }
}
