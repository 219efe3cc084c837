//! Facts of the excavation: method, water, time, neighbours.
//!
//! A hole loses strength with every hour it stands open, and a dry method in wet ground fails quietly.
//!
//! Never: hold a limit.

use super::short::{BeforeConcrete, Excavation, Fact, LENGTH, SPAN, SPEED, Shaft, Test, YesNo, fact};

/// The facts of this family.
pub(super) const FACTS: &[Fact] = &[
    fact(
        "excavation.method_allowed",
        (YesNo, Excavation, Shaft),
        "The hole was made wet, or the plans allow the dry method that was used.",
    ),
    fact(
        "excavation.depth_from_reference",
        (YesNo, Excavation, Shaft),
        "Every depth check was taken from a reference of known elevation.",
    ),
    fact(
        "excavation.unattended_secured",
        (YesNo, Excavation, Shaft),
        "Whenever work stopped, the open hole was covered.",
    ),
    fact(
        "excavation.overnight_cased",
        (YesNo, Excavation, Shaft),
        "The hole was not left unfilled overnight unless cased over its full depth.",
    ),
    fact(
        "excavation.strata_recorded",
        (YesNo, Excavation, Shaft),
        "The ground met was described over the whole depth.",
    ),
    fact(
        "dry.water_depth",
        (LENGTH, BeforeConcrete, Shaft),
        "Depth of standing water on the bottom of a dry hole just before concrete.",
    ),
    fact("dry.inflow", (SPEED, Excavation, Test), "Rise of water in a dry hole per time, with the pump off."),
    fact(
        "time.open_hole",
        (SPAN, Excavation, Shaft),
        "Time from the machine's first run to the first concrete.",
    ),
    fact(
        "time.wall_exposure",
        (SPAN, Excavation, Shaft),
        "Longest time any part of the wall stood against fluid before concrete.",
    ),
    fact(
        "time.bottom_to_concrete",
        (SPAN, BeforeConcrete, Shaft),
        "Time from reaching the bottom to the first concrete.",
    ),
    fact(
        "time.cleaning_to_concrete",
        (SPAN, BeforeConcrete, Shaft),
        "Time from the end of final cleaning to the first concrete.",
    ),
    fact(
        "time.accepted_to_concrete",
        (SPAN, BeforeConcrete, Shaft),
        "Time from the later acceptance, of bottom or cage, to the first concrete.",
    ),
    fact(
        "neighbor.clear_distance",
        (LENGTH, Excavation, Shaft),
        "Distance between axes to the nearest shaft with young concrete while drilling or pouring.",
    ),
];
