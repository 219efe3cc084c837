//! Facts of the drilling fluid, by the stage at which it is tested.
//!
//! The fluid holds the hole open and carries the sand; each property has its own limit at each stage, so
//! each stage is a fact of its own: introduced, drilling (also: ready for re-use, before final cleaning) and
//! before concrete.
//!
//! Never: hold a limit.

use super::short::{
    ACIDITY, Before, BeforeConcrete, DENSITY, Excavation, Fact, LENGTH, PRESSURE, Plain, SHARE, SPAN, Shaft,
    TEMPERATURE, Test, VISCOSITY, VOLUME, YesNo, fact,
};

/// The facts of this family.
pub(super) const FACTS: &[Fact] = &[
    fact(
        "fluid.density.introduced",
        (DENSITY, Excavation, Test),
        "Density of the fluid as it enters the hole.",
    ),
    fact(
        "fluid.viscosity.introduced",
        (VISCOSITY, Excavation, Test),
        "Marsh funnel time of the fluid as it enters the hole, with its volume.",
    ),
    fact("fluid.ph.introduced", (ACIDITY, Excavation, Test), "pH of the fluid as it enters the hole."),
    fact(
        "fluid.sand.introduced",
        (SHARE, Excavation, Test),
        "Sand content of the fluid by volume as it enters the hole.",
    ),
    fact(
        "fluid.density.drilling",
        (DENSITY, Excavation, Test),
        "Density of the fluid while drilling, or ready for re-use.",
    ),
    fact(
        "fluid.viscosity.drilling",
        (VISCOSITY, Excavation, Test),
        "Marsh funnel time of the fluid while drilling, or ready for re-use, with its volume.",
    ),
    fact(
        "fluid.ph.drilling",
        (ACIDITY, Excavation, Test),
        "pH of the fluid while drilling, or ready for re-use.",
    ),
    fact(
        "fluid.sand.drilling",
        (SHARE, Excavation, Test),
        "Sand content of the fluid by volume while drilling, or ready for re-use.",
    ),
    fact(
        "fluid.density.before_concrete",
        (DENSITY, BeforeConcrete, Test),
        "Density of the fluid just before concrete.",
    ),
    fact(
        "fluid.viscosity.before_concrete",
        (VISCOSITY, BeforeConcrete, Test),
        "Marsh funnel time of the fluid just before concrete, with its volume.",
    ),
    fact(
        "fluid.ph.before_concrete",
        (ACIDITY, BeforeConcrete, Test),
        "pH of the fluid just before concrete.",
    ),
    fact(
        "fluid.sand.before_concrete",
        (SHARE, BeforeConcrete, Test),
        "Sand content of the fluid by volume just before concrete.",
    ),
    fact("fluid.gel_strength", (PRESSURE, Excavation, Test), "Gel strength of the fluid."),
    fact(
        "fluid.filter_loss.introduced",
        (VOLUME, Excavation, Test),
        "Water lost through the filter in half an hour, fresh fluid.",
    ),
    fact(
        "fluid.filter_loss.drilling",
        (VOLUME, Excavation, Test),
        "Water lost through the filter in half an hour, fluid ready for re-use.",
    ),
    fact(
        "fluid.filter_cake.introduced",
        (LENGTH, Excavation, Test),
        "Thickness of the filter cake, fresh fluid.",
    ),
    fact(
        "fluid.filter_cake.drilling",
        (LENGTH, Excavation, Test),
        "Thickness of the filter cake, fluid ready for re-use.",
    ),
    fact(
        "fluid.temperature",
        (TEMPERATURE, Excavation, Test),
        "Temperature of the fluid when it was tested.",
    ),
    fact("fluid.hydration_time", (SPAN, Excavation, Test), "Time from mixing the fluid to its first use."),
    fact(
        "fluid.tank_passed_before_use",
        (YesNo, Excavation, Shaft),
        "Fluid from the tank was tested and met its limits before it entered the hole.",
    ),
    fact(
        "fluid.trial_hole_made",
        (YesNo, Before, Shaft),
        "A trial hole showed that the fluid keeps this ground open.",
    ),
    fact(
        "fluid.before_casing_bottom",
        (YesNo, Excavation, Shaft),
        "Fluid stood in the hole before drilling passed the bottom of the surface casing.",
    ),
    fact(
        "fluid.head",
        (LENGTH, Excavation, Shaft),
        "Least height of the fluid level above groundwater while the hole stood open.",
    ),
    fact(
        "fluid.sudden_loss",
        (YesNo, Excavation, Shaft),
        "The fluid level fell suddenly, for a reason that was not the tool leaving the hole.",
    ),
    fact(
        "fluid.test_interval.early",
        (SPAN, Excavation, Shaft),
        "Longest time between tests until samples from tank and bottom agree.",
    ),
    fact(
        "fluid.test_interval.later",
        (SPAN, Excavation, Shaft),
        "Longest time between tests once the fluid is steady.",
    ),
    fact(
        "fluid.tests_per_shift",
        (Plain("tests"), Excavation, Shaft),
        "Fewest tests in one working shift once the fluid is steady.",
    ),
    fact(
        "fluid.sample_above_bottom",
        (LENGTH, BeforeConcrete, Shaft),
        "Height of the lowest sample above the bottom, last round of tests before concrete.",
    ),
    fact(
        "fluid.sample_spacing",
        (LENGTH, BeforeConcrete, Shaft),
        "Largest vertical distance between samples, last round of tests before concrete.",
    ),
    fact(
        "fluid.sampled_at_two_levels",
        (YesNo, BeforeConcrete, Shaft),
        "The last round of tests had a sample from mid-height and one from near the bottom.",
    ),
    fact(
        "fluid.sampled_for_concrete",
        (YesNo, BeforeConcrete, Shaft),
        "The fluid was sampled and tested between final cleaning and the first concrete.",
    ),
    fact(
        "fluid.within_limits_for_concrete",
        (YesNo, BeforeConcrete, Shaft),
        "Every property of the fluid with a limit in force met it in the last round before concrete.",
    ),
    fact(
        "fluid.stagnant_time",
        (SPAN, BeforeConcrete, Shaft),
        "Longest time the fluid stood without circulation or agitation.",
    ),
];
