//! Why a hole has no shape, or a level no place in it.
//!
//! Carries the offending values, so that a view can print them in the inspector's own unit.
//!
//! Never: hold a number already turned into text.

use std::fmt;

use quantity::{Elevation, Length, Volume};

/// Why no answer is possible.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum GeometryError {
    /// The diameter is not greater than zero.
    Diameter {
        /// What was given.
        given: Length,
    },
    /// The height or length is negative, or zero where one is needed.
    Height {
        /// What was given.
        given: Length,
    },
    /// The spacing is not greater than zero.
    Spacing {
        /// What was given.
        given: Length,
    },
    /// The volume is negative, or zero where one is needed.
    Volume {
        /// What was given.
        given: Volume,
    },
    /// The ratio of placed to theoretical volume is not greater than zero.
    Ratio {
        /// What was given.
        given: f64,
    },
    /// The lower end of a piece does not lie below its upper end.
    Interval {
        /// The upper end as given.
        top: Elevation,
        /// The lower end as given.
        bottom: Elevation,
    },
    /// A hole of no pieces.
    NoPiece,
    /// Two pieces do not meet.
    Gap {
        /// Where the upper piece ends.
        above: Elevation,
        /// Where the lower piece begins.
        below: Elevation,
    },
    /// A casing hangs above the hole without touching it.
    CasingAboveHole {
        /// Its shoe.
        shoe: Elevation,
        /// The top of the hole.
        top: Elevation,
    },
    /// The steel leaves no room for concrete.
    SteelFillsHole {
        /// The upper end of the stretch without room.
        at: Elevation,
    },
    /// The level lies outside the hole.
    Outside {
        /// The level asked for.
        level: Elevation,
        /// The top of the hole.
        top: Elevation,
        /// The bottom of the hole.
        bottom: Elevation,
    },
    /// The volume does not fit under the top of the hole.
    Overflows {
        /// How much is left over.
        over: Volume,
        /// The top of the hole.
        top: Elevation,
    },
}

impl fmt::Display for GeometryError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            GeometryError::Diameter { .. } => "the diameter is not greater than zero",
            GeometryError::Height { .. } => "the height is too small",
            GeometryError::Spacing { .. } => "the spacing is not greater than zero",
            GeometryError::Volume { .. } => "the volume is too small",
            GeometryError::Ratio { .. } => "the ratio is not greater than zero",
            GeometryError::Interval { .. } => "the lower end does not lie below the upper end",
            GeometryError::NoPiece => "the hole has no pieces",
            GeometryError::Gap { .. } => "two pieces of the hole do not meet",
            GeometryError::CasingAboveHole { .. } => "the casing ends above the hole",
            GeometryError::SteelFillsHole { .. } => "the steel leaves no room for concrete",
            GeometryError::Outside { .. } => "the level lies outside the hole",
            GeometryError::Overflows { .. } => "the volume does not fit into the hole",
        })
    }
}

impl std::error::Error for GeometryError {}
