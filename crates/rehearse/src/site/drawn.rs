//! The two drawings of the made-up shaft.

use record::field::UnitSystem;

use super::{FOOT, Ground, INCH, Site, Tremie, YARD};
use crate::ground::Soil;
use crate::readings::Marks;

/// In feet and yards: 4 ft, 61 ft deep.
pub(crate) static US: Site = Site {
    system: UnitSystem::Us,
    reference_m: 101.0 * FOOT,
    ground_m: FOOT,
    bottom_m: 61.0 * FOOT,
    shoe_m: 8.0 * FOOT,
    diameters_m: [4.0 * FOOT, 49.0 * INCH, 50.0 * INCH],
    strata: strata([12.0 * FOOT, 27.0 * FOOT, 39.0 * FOOT, 61.0 * FOOT]),
    water_m: [2.0 * FOOT, 16.0 * FOOT],
    samples_m: [60.0 * FOOT, 51.0 * FOOT],
    tested_below_m: [20.0 * FOOT, 50.0 * FOOT],
    run_m: 9.0 * FOOT,
    truck_m3: 6.5 * YARD,
    orders: [20, 30, 40, 50, 65],
    tremie: Tremie {
        inside_m: 10.0 * INCH,
        tip_m: 60.5 * FOOT,
        piece_m: 10.0 * FOOT,
        embedment_m: 12.0 * FOOT,
        too_far: 1,
    },
    settled_m: 0.25 * FOOT,
    misread_m: 10.0 * FOOT,
    cage_m: [99.8 * FOOT, 8.0 * INCH],
    marks: Marks::TenthFoot,
};

/// In metres: 1.2 m, 18.5 m deep, short pieces of the tremie so that it is never buried deeper than 8 m.
pub(crate) static METRIC: Site = Site {
    system: UnitSystem::Metric,
    reference_m: 52.0,
    ground_m: 0.3,
    bottom_m: 18.5,
    shoe_m: 2.5,
    diameters_m: [1.2, 1.226, 1.25],
    strata: strata([3.6, 8.2, 11.9, 18.5]),
    water_m: [0.6, 4.9],
    samples_m: [18.2, 15.5],
    tested_below_m: [6.0, 15.0],
    run_m: 2.7,
    truck_m3: 4.0,
    orders: [15, 20, 25, 30, 40],
    tremie: Tremie { inside_m: 0.25, tip_m: 18.3, piece_m: 1.5, embedment_m: 2.7, too_far: 2 },
    settled_m: 0.07,
    misread_m: 3.0,
    cage_m: [50.9, 0.2],
    marks: Marks::FiveCentimeters,
};

const fn strata([fill_m, soft_m, sand_m, bottom_m]: [f64; 4]) -> [Ground; 4] {
    [
        Ground { bottom_m: fill_m, soil: Soil::StiffClay, word: "clay", says: "brown clay, stiff" },
        Ground { bottom_m: soft_m, soil: Soil::SoftClay, word: "clay", says: "grey clay, soft" },
        Ground { bottom_m: sand_m, soil: Soil::Sand, word: "sand", says: "fine sand, loose to medium" },
        Ground { bottom_m, soil: Soil::StiffClay, word: "clay", says: "grey clay, very stiff" },
    ]
}
