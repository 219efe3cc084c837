//! The hole and the concrete in it: what the formulas do at the edges, and the laws they keep.
//!
//! Published and hand-worked values stand in `cases/`; here stand the errors, the doubts and the laws.

#[path = "pour/casing.rs"]
mod casing;
#[path = "pour/curve.rs"]
mod curve;
#[path = "pour/hole.rs"]
mod hole;
#[path = "pour/placed.rs"]
mod placed;
#[path = "pour/sounding.rs"]
mod sounding;
#[path = "pour/tremie.rs"]
mod tremie;

use calc::geometry::{Bore, Part, Piece};
use quantity::{Elevation, Length, Volume};

/// So many feet above the datum; the ground of every test lies at zero.
fn at(feet: f64) -> Elevation {
    Elevation(Length::feet(feet))
}

fn yards(volume: f64) -> Volume {
    Volume::cubic_yards(volume)
}

/// A cylinder from the ground down.
fn cylinder(inches: f64, bottom_feet: f64) -> Bore {
    Bore::cylinder(Length::inches(inches), at(0.0), at(-bottom_feet)).expect("a sound hole")
}

/// `[inches at the top, inches at the bottom, top depth, bottom depth]` in feet.
fn piece([upper, lower, top, bottom]: [f64; 4]) -> Piece {
    Piece {
        part: Part::Shaft,
        top: at(-top),
        bottom: at(-bottom),
        upper_diameter: Length::inches(upper),
        lower_diameter: Length::inches(lower),
    }
}
