//! Facts of the concrete as delivered and tested.
//!
//! Every load is judged on its own, before it goes where nobody can take it out again.
//!
//! Never: hold a limit.

use super::short::{
    After, CasingWithdrawal, DENSITY, Fact, LENGTH, Load, PRESSURE, Placing, Plain, SHARE, SPAN, Shaft,
    TEMPERATURE, TemperatureStep, Test, VOLUME, WATER_CEMENT, YesNo, fact,
};

/// The facts of this family.
pub(super) const FACTS: &[Fact] = &[
    fact(
        "ticket.mix_checked",
        (YesNo, Placing, Load),
        "The ticket was checked: the mix is the approved one.",
    ),
    fact(
        "ticket.water_cement_checked",
        (YesNo, Placing, Load),
        "The ticket was checked for the water-cement ratio.",
    ),
    fact(
        "ticket.revolutions_checked",
        (YesNo, Placing, Load),
        "The ticket or counter was checked for drum revolutions.",
    ),
    fact("ticket.batch_time_checked", (YesNo, Placing, Load), "The ticket was checked for the batch time."),
    fact("concrete.batch_to_discharge", (SPAN, Placing, Load), "Time from batching to the end of discharge."),
    fact(
        "concrete.revolutions",
        (Plain("rev"), Placing, Load),
        "Drum revolutions from batching to the end of discharge.",
    ),
    fact(
        "concrete.revolutions_after_water",
        (Plain("rev"), Placing, Load),
        "Drum revolutions at mixing speed after water was added on site.",
    ),
    fact(
        "concrete.water_cement",
        (WATER_CEMENT, Placing, Load),
        "Water-cement ratio by mass, with moisture and all water added.",
    ),
    fact(
        "concrete.water_additions",
        (Plain("times"), Placing, Load),
        "How often water was added to the load on site.",
    ),
    fact(
        "concrete.cement_content",
        (DENSITY, Placing, Load),
        "Mass of cementitious material per volume of concrete.",
    ),
    fact(
        "concrete.fines_content",
        (DENSITY, Placing, Load),
        "Mass of fines, cement included, per volume of concrete.",
    ),
    fact("concrete.aggregate_size", (LENGTH, Placing, Load), "Maximum size of the aggregate."),
    fact(
        "concrete.temperature",
        (TEMPERATURE, Placing, Load),
        "Temperature of the fresh concrete as placed.",
    ),
    fact("concrete.air", (SHARE, Placing, Load), "Air content of the fresh concrete by volume."),
    fact(
        "concrete.yield_error",
        (SHARE, Placing, Load),
        "Volume from batch mass and measured unit weight over ticket volume, minus one.",
    ),
    fact(
        "concrete.stability_index",
        (Plain("class"), Placing, Load),
        "Visual stability index of the slump flow patty.",
    ),
    fact("slump.placing", (LENGTH, Placing, Load), "Slump at placing."),
    fact("slump.flow", (LENGTH, Placing, Load), "Diameter of the slump flow at placing."),
    fact("slump.flow_table", (LENGTH, Placing, Load), "Diameter on the flow table at placing."),
    fact(
        "slump.until_finished",
        (LENGTH, CasingWithdrawal, Shaft),
        "Least slump of the oldest concrete when the casing was out and the last insert was in.",
    ),
    fact(
        "slump.life_left",
        (SPAN, CasingWithdrawal, Shaft),
        "Slump life of the oldest concrete that was left when the casing was out and the last insert was in.",
    ),
    fact("slump.test_started", (SPAN, Placing, Test), "Time from sampling to the start of the slump test."),
    fact("slump.test_duration", (SPAN, Placing, Test), "Time from the start to the end of the slump test."),
    fact(
        "cylinders.sets",
        (Plain("sets"), Placing, Shaft),
        "Number of sets of strength cylinders made for the shaft.",
    ),
    fact(
        "cylinders.volume_per_set",
        (VOLUME, Placing, Shaft),
        "Volume placed per set of strength cylinders.",
    ),
    fact(
        "cylinders.initial_cure_temperature",
        (TEMPERATURE, After, Test),
        "Temperature around the cylinders during initial curing, the value farthest from the middle.",
    ),
    fact(
        "cylinders.initial_cure_time",
        (SPAN, After, Test),
        "Time the cylinders stayed in initial curing on site.",
    ),
    fact(
        "cylinders.strength",
        (PRESSURE, After, Test),
        "Compressive strength at the specified age, mean of the cylinders of one test.",
    ),
    fact(
        "concrete.peak_temperature",
        (TEMPERATURE, After, Shaft),
        "Highest temperature inside the shaft while it hardens.",
    ),
    fact(
        "concrete.temperature_difference",
        (TemperatureStep, After, Shaft),
        "Largest difference between the inside and the edge of the shaft while it hardens.",
    ),
];
