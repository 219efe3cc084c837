//! Facts of the finished shaft: top, bolts, curing, as-built survey, integrity tests.
//!
//! Tolerances are defined at a named level; the place of measurement is part of the fact.
//!
//! Never: hold a limit.

use super::short::{
    After, Bolt, Fact, LENGTH, PRESSURE, Plain, SHARE, SLOPE, SPAN, SPEED, Shaft, Testing, Tube, YesNo, fact,
};

/// The facts of this family.
pub(super) const FACTS: &[Fact] = &[
    fact(
        "top.form_set",
        (YesNo, After, Shaft),
        "The top form has the size, place and elevation of the plans.",
    ),
    fact(
        "form.strength_at_removal",
        (PRESSURE, After, Shaft),
        "Strength by cylinder breaks when the form was removed.",
    ),
    fact("form.age_at_removal", (SPAN, After, Shaft), "Age of the concrete when the form was removed."),
    fact("curing.started", (YesNo, After, Shaft), "Curing of the exposed top was started."),
    fact("curing.duration", (SPAN, After, Shaft), "Time the exposed top was cured."),
    fact(
        "loading.strength_share",
        (SHARE, After, Shaft),
        "Strength over specified strength when pole, column or structure was set on the shaft.",
    ),
    fact(
        "loading.age",
        (SPAN, After, Shaft),
        "Age of the concrete when pole, column or structure was set on the shaft.",
    ),
    fact(
        "bolts.position_offset",
        (LENGTH, After, Bolt),
        "Horizontal distance of an anchor bolt from its planned place in the pattern.",
    ),
    fact(
        "bolts.projection_deviation",
        (LENGTH, After, Bolt),
        "Projection of an anchor bolt above the top minus its planned projection.",
    ),
    fact("bolts.plumbness", (SLOPE, After, Bolt), "Slope of an anchor bolt from the vertical."),
    fact(
        "bolts.rechecked",
        (YesNo, After, Shaft),
        "Position of the anchor bolts was checked again after the casing was pulled.",
    ),
    fact("conduit.as_planned", (YesNo, After, Shaft), "Conduits are in place as the plans show."),
    fact(
        "asbuilt.position_offset",
        (LENGTH, After, Shaft),
        "Horizontal distance between as-built and planned axis at the level the tolerance is defined for.",
    ),
    fact(
        "asbuilt.plumbness",
        (SLOPE, After, Shaft),
        "Slope of the as-built axis from the planned axis, horizontal over vertical.",
    ),
    fact(
        "asbuilt.toe_offset",
        (LENGTH, After, Shaft),
        "Horizontal distance between as-built and planned axis at the toe.",
    ),
    fact(
        "asbuilt.top_deviation",
        (LENGTH, After, Shaft),
        "Elevation of the top of the finished shaft minus its planned elevation.",
    ),
    fact(
        "asbuilt.diameter_short",
        (LENGTH, After, Shaft),
        "Planned diameter minus the least diameter measured.",
    ),
    fact(
        "asbuilt.diameter_over",
        (LENGTH, After, Shaft),
        "Largest diameter measured minus the planned diameter.",
    ),
    fact(
        "asbuilt.cover",
        (LENGTH, After, Shaft),
        "Least cover along the cage from hole, tilt and cage offset together.",
    ),
    fact(
        "asbuilt.tolerances_checked",
        (YesNo, After, Shaft),
        "Every construction tolerance with a limit in force has a measured value.",
    ),
    fact("crosshole.age", (SPAN, Testing, Shaft), "Age of the concrete at the crosshole test."),
    fact(
        "crosshole.velocity_reduction",
        (SHARE, Testing, Tube),
        "Largest reduction of pulse velocity against the reference of the pair.",
    ),
    fact(
        "crosshole.arrival_increase",
        (SHARE, Testing, Tube),
        "Largest increase of first arrival time against the reference of the pair.",
    ),
    fact(
        "crosshole.energy_drop",
        (Plain("dB"), Testing, Tube),
        "Largest drop of energy against the reference of the pair.",
    ),
    fact(
        "crosshole.velocity",
        (SPEED, Testing, Tube),
        "Pulse velocity, spacing at the head over first arrival time.",
    ),
    fact("lowstrain.age", (SPAN, Testing, Shaft), "Age of the concrete at the low strain test."),
    fact(
        "lowstrain.strength_share",
        (SHARE, Testing, Shaft),
        "Strength over specified strength at the low strain test.",
    ),
    fact("thermal.age", (SPAN, Testing, Shaft), "Age of the concrete at the thermal profile."),
    fact(
        "gamma.deviation",
        (Plain("sigma"), Testing, Tube),
        "Lowest reading of a tube group: how far below its mean, in standard deviations.",
    ),
];
