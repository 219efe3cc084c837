//! Facts of the time before drilling: papers, equipment, utilities, surface casing, geometry.
//!
//! What was settled before the rig moved decides whether anything later can be trusted: the reference
//! elevation, the cleared utilities, the casing that holds the top of the hole.
//!
//! Never: hold a limit.

use super::short::{Before, DENSITY, Fact, LENGTH, Plain, SLOPE, SPAN, Shaft, Test, VISCOSITY, YesNo, fact};

/// The facts of this family.
pub(super) const FACTS: &[Fact] = &[
    fact(
        "plan.installation_approved",
        (YesNo, Before, Shaft),
        "The installation plan for this shaft was approved before drilling began.",
    ),
    fact(
        "plan.submitted_ahead",
        (SPAN, Before, Shaft),
        "Time from handing in the installation plan to the start of drilling.",
    ),
    fact(
        "geometry.diameter",
        (LENGTH, Before, Shaft),
        "Planned diameter of the shaft, the least one where it is telescoped.",
    ),
    fact("geometry.slenderness", (Plain(""), Before, Shaft), "Planned depth over planned diameter."),
    fact(
        "geometry.rake",
        (SLOPE, Before, Shaft),
        "Planned slope of the axis from the vertical, horizontal over vertical.",
    ),
    fact(
        "equipment.tool_diameter_short",
        (LENGTH, Before, Shaft),
        "Planned diameter minus the measured diameter of the tool that cuts it.",
    ),
    fact(
        "reference.elevation_known",
        (YesNo, Before, Shaft),
        "Depths are measured from a marked reference point whose elevation is recorded.",
    ),
    fact("stakeout.checked", (YesNo, Before, Shaft), "The staked position was checked before drilling."),
    fact(
        "utilities.cleared",
        (YesNo, Before, Shaft),
        "Utilities were located and cleared before machine drilling.",
    ),
    fact(
        "utilities.hand_dug_depth",
        (LENGTH, Before, Shaft),
        "Depth below ground dug by hand before the machine drilled.",
    ),
    fact(
        "casing.surface.above_ground",
        (LENGTH, Before, Shaft),
        "Height of the top of the surface casing above ground.",
    ),
    fact(
        "casing.surface.below_ground",
        (LENGTH, Before, Shaft),
        "Depth of the bottom of the surface casing below ground.",
    ),
    fact(
        "casing.permanent.above_water",
        (LENGTH, Before, Shaft),
        "Height of the top of permanent casing above open water.",
    ),
    fact(
        "casing.plumbness",
        (SLOPE, Before, Shaft),
        "Slope of the casing from the vertical as set, horizontal over vertical.",
    ),
    fact(
        "instrument.funnel_in_water",
        (VISCOSITY, Before, Test),
        "Marsh funnel time of fresh water on the day, the check of the funnel.",
    ),
    fact(
        "instrument.balance_in_water",
        (DENSITY, Before, Test),
        "Density of fresh water read on the mud balance, the check of the balance.",
    ),
];
