//! Facts of the bottom of the hole: depth, sediment, levelness.
//!
//! A soft base cannot be repaired later; these are the last minutes in which it can be cleaned.
//!
//! Never: hold a limit.

use super::short::{BeforeConcrete, Fact, LENGTH, Plain, SLOPE, Shaft, YesNo, fact};

/// The facts of this family.
pub(super) const FACTS: &[Fact] = &[
    fact(
        "bottom.sounded",
        (YesNo, BeforeConcrete, Shaft),
        "The depth of the cleaned bottom was sounded and recorded.",
    ),
    fact(
        "bottom.weighted_tape",
        (YesNo, BeforeConcrete, Shaft),
        "The final depth was taken by weighted tape after final cleaning.",
    ),
    fact(
        "bottom.points",
        (Plain("points"), BeforeConcrete, Shaft),
        "Number of points of the last sounding of the bottom.",
    ),
    fact(
        "bottom.resounded",
        (YesNo, BeforeConcrete, Shaft),
        "The bottom was sounded again after the cage was set, before concrete.",
    ),
    fact(
        "bottom.change_since_accepted",
        (LENGTH, BeforeConcrete, Shaft),
        "How much shallower the bottom became between acceptance and the first concrete.",
    ),
    fact(
        "bottom.sediment_recorded",
        (YesNo, BeforeConcrete, Shaft),
        "The thickness of sediment on the bottom was measured and recorded.",
    ),
    fact("bottom.sediment.max", (LENGTH, BeforeConcrete, Shaft), "Thickness of sediment at the worst point."),
    fact(
        "bottom.sediment.mean",
        (LENGTH, BeforeConcrete, Shaft),
        "Mean thickness of sediment over the area of the base.",
    ),
    fact(
        "bottom.sediment.half_area",
        (LENGTH, BeforeConcrete, Shaft),
        "Thickness of sediment that half of the area of the base does not exceed.",
    ),
    fact(
        "bottom.levelness",
        (SLOPE, BeforeConcrete, Shaft),
        "Difference between the highest and lowest point of the base over the diameter.",
    ),
    fact(
        "bottom.tip_above_plan",
        (LENGTH, BeforeConcrete, Shaft),
        "Elevation of the bottom minus planned tip elevation; negative when deeper.",
    ),
    fact(
        "bottom.accepted",
        (YesNo, BeforeConcrete, Shaft),
        "The bottom was accepted by a named person before concrete.",
    ),
    fact(
        "socket.length_short",
        (LENGTH, BeforeConcrete, Shaft),
        "Planned length of the rock socket minus the length drilled.",
    ),
];
