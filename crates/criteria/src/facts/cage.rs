//! Facts of the reinforcing cage and the access tubes.
//!
//! Bars too close together hold the concrete back, bars too near the wall rust, and a tube that leaks tests
//! nothing.
//!
//! Never: hold a limit.

use super::short::{
    After, BeforeConcrete, CasingWithdrawal, Fact, LENGTH, Lift, Placing, Plain, SHARE, SPAN, Shaft, Tube,
    YesNo, fact,
};

/// The facts of this family.
pub(super) const FACTS: &[Fact] = &[
    fact(
        "cage.as_planned",
        (YesNo, BeforeConcrete, Shaft),
        "Number, size and position of bars and hoops are those of the plans.",
    ),
    fact(
        "cage.length_short",
        (LENGTH, BeforeConcrete, Shaft),
        "Length of the cage by the plans minus its length; depth cleaned below the required tip not counted.",
    ),
    fact(
        "cage.bars_extended",
        (SHARE, BeforeConcrete, Shaft),
        "Share of longitudinal bars that reach down into depth drilled beyond the plans.",
    ),
    fact(
        "cage.lap_short",
        (LENGTH, BeforeConcrete, Shaft),
        "Required lap length minus the shortest lap found.",
    ),
    fact(
        "cage.ties",
        (SHARE, BeforeConcrete, Shaft),
        "Share of the intersections of cage steel that are tied.",
    ),
    fact(
        "cage.clear_spacing",
        (LENGTH, BeforeConcrete, Shaft),
        "Least clear distance between bars, either direction.",
    ),
    fact(
        "cage.cover",
        (LENGTH, BeforeConcrete, Shaft),
        "Least clear cover from the outermost steel to the nominal wall.",
    ),
    fact(
        "cage.spacers.vertical_gap",
        (LENGTH, BeforeConcrete, Shaft),
        "Largest vertical distance between levels of spacers.",
    ),
    fact(
        "cage.spacers.arc_gap",
        (LENGTH, BeforeConcrete, Shaft),
        "Largest distance between spacers of one level along the circumference of the cage.",
    ),
    fact(
        "cage.spacers.per_level",
        (Plain("spacers"), BeforeConcrete, Shaft),
        "Fewest spacers found at one level.",
    ),
    fact(
        "cage.spacers.end_distance",
        (LENGTH, BeforeConcrete, Shaft),
        "Distance from an end of the cage to the nearest level of spacers, the larger of both ends.",
    ),
    fact(
        "cage.stand_off",
        (LENGTH, BeforeConcrete, Shaft),
        "Height of the bottom of the cage above the bottom of the hole.",
    ),
    fact(
        "cage.held",
        (YesNo, BeforeConcrete, Shaft),
        "The cage is supported so that it can neither sink nor rise during the pour.",
    ),
    fact(
        "cage.top_deviation.set",
        (LENGTH, BeforeConcrete, Shaft),
        "Elevation of the top of the cage minus its planned elevation, as set.",
    ),
    fact(
        "cage.top_deviation.after_pour",
        (LENGTH, Placing, Shaft),
        "Elevation of the top of the cage minus its planned elevation, after the pour.",
    ),
    fact(
        "cage.top_deviation.after_casing",
        (LENGTH, CasingWithdrawal, Shaft),
        "Elevation of the top of the cage minus its planned elevation, after the casing was pulled.",
    ),
    fact(
        "cage.movement",
        (LENGTH, CasingWithdrawal, Lift),
        "Movement of the top of the cage during one lift of the casing, upward positive.",
    ),
    fact(
        "cage.accepted",
        (YesNo, BeforeConcrete, Shaft),
        "The cage was accepted by a named person before concrete.",
    ),
    fact("tubes.count", (Plain("tubes"), BeforeConcrete, Shaft), "Number of access tubes in the cage."),
    fact(
        "tubes.as_planned",
        (YesNo, BeforeConcrete, Shaft),
        "Number, size and material of the access tubes are those of the plans.",
    ),
    fact("tubes.inner_diameter", (LENGTH, BeforeConcrete, Tube), "Inner diameter of an access tube."),
    fact(
        "tubes.spacing",
        (LENGTH, BeforeConcrete, Shaft),
        "Largest distance between neighboring access tubes.",
    ),
    fact(
        "tubes.above_base",
        (LENGTH, BeforeConcrete, Tube),
        "Height of the bottom of an access tube above the bottom of the hole.",
    ),
    fact(
        "tubes.above_joint",
        (LENGTH, BeforeConcrete, Tube),
        "Height of the top of an access tube above the construction joint or the top of the concrete.",
    ),
    fact(
        "tubes.straight",
        (YesNo, BeforeConcrete, Shaft),
        "The tubes are vertical, parallel to each other and fixed inside the cage.",
    ),
    fact(
        "tubes.watertight",
        (YesNo, BeforeConcrete, Shaft),
        "Shoes, joints and caps of the tubes are watertight.",
    ),
    fact(
        "tubes.inspected",
        (YesNo, BeforeConcrete, Shaft),
        "Every access tube was inspected before concrete.",
    ),
    fact(
        "tubes.filled_before_concrete",
        (YesNo, BeforeConcrete, Shaft),
        "Every access tube was filled with clean water before concrete.",
    ),
    fact(
        "tubes.capped_before_concrete",
        (YesNo, BeforeConcrete, Shaft),
        "Every access tube was capped again after filling, before concrete.",
    ),
    fact(
        "tubes.fill_delay",
        (SPAN, After, Shaft),
        "Time from the end of concrete to the last tube filled with water; negative when earlier.",
    ),
    fact(
        "tubes.rechecked_after_pour",
        (YesNo, After, Shaft),
        "Water and caps of the tubes were checked after the pour and after the casing was pulled.",
    ),
];
