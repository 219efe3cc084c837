//! Facts of the pour: line, embedment, soundings, volume, casing withdrawal.
//!
//! What happens in these hours makes the shaft or breaks it, and most of it can be seen in time.
//!
//! Never: hold a limit.

use super::short::{
    CasingWithdrawal, Fact, Interval, LENGTH, Lift, Load, Placing, Plain, SHARE, SPAN, SPEED, Shaft, Test,
    VOLUME, YesNo, fact,
};

/// The facts of this family.
pub(super) const FACTS: &[Fact] = &[
    fact(
        "placing.after_acceptance",
        (YesNo, Placing, Shaft),
        "Bottom and cage had both been accepted when the first concrete went in.",
    ),
    fact("placing.free_fall", (LENGTH, Placing, Shaft), "Height the concrete falls freely in a dry hole."),
    fact(
        "placing.clear_of_cage",
        (YesNo, Placing, Shaft),
        "Free-falling concrete was centered and did not strike the cage.",
    ),
    fact(
        "placing.first_charge",
        (VOLUME, Placing, Shaft),
        "Concrete on site, line and hopper included, when the first charge was released.",
    ),
    fact(
        "placing.interruption",
        (SPAN, Placing, Shaft),
        "Longest time between two loads, end of discharge to start of the next.",
    ),
    fact("placing.continuous", (YesNo, Placing, Shaft), "The shaft was poured in one continuous operation."),
    fact("placing.duration", (SPAN, Placing, Shaft), "Time from the first to the last concrete."),
    fact("placing.rise_rate", (SPEED, Placing, Interval), "Rise of the concrete surface per time."),
    fact(
        "placing.sounded_after_load",
        (YesNo, Placing, Load),
        "The depth to concrete was sounded after the load.",
    ),
    fact(
        "placing.level_difference",
        (LENGTH, Placing, Test),
        "Difference between the concrete level inside and outside the cage.",
    ),
    fact(
        "placing.overpour",
        (LENGTH, Placing, Shaft),
        "Height of the concrete as cast above the cut-off level.",
    ),
    fact(
        "placing.good_concrete_at_top",
        (YesNo, Placing, Shaft),
        "Concrete was over-poured until good concrete showed at the top of the casing.",
    ),
    fact("placing.top_vibrated", (YesNo, Placing, Shaft), "The top of the shaft was vibrated."),
    fact("line.watertight", (YesNo, Placing, Shaft), "Tremie or pump line and its joints are watertight."),
    fact(
        "line.material_allowed",
        (YesNo, Placing, Shaft),
        "The line is smooth and clean, and no aluminum touches the concrete.",
    ),
    fact("line.inner_diameter", (LENGTH, Placing, Shaft), "Inner diameter of the tremie or pump line."),
    fact("line.outer_diameter", (LENGTH, Placing, Shaft), "Outer diameter of the tremie with its joints."),
    fact(
        "line.separated",
        (YesNo, Placing, Shaft),
        "A plug, plate or valve kept concrete and fluid apart until the line was charged.",
    ),
    fact(
        "line.tip_above_bottom",
        (LENGTH, Placing, Shaft),
        "Height of the discharge end above the bottom at the start of discharge.",
    ),
    fact(
        "line.concrete_at_first_lift",
        (LENGTH, Placing, Shaft),
        "Height of concrete above the bottom when the discharge end was first raised.",
    ),
    fact(
        "line.moved_slowly",
        (YesNo, Placing, Shaft),
        "The line was never raised or lowered rapidly to speed the discharge.",
    ),
    fact("line.lift_speed", (SPEED, Placing, Shaft), "Largest speed at which the line was raised."),
    fact(
        "line.embedment.least",
        (LENGTH, Placing, Shaft),
        "Least embedment of the discharge end once it was embedded; negative when out of the concrete.",
    ),
    fact(
        "line.embedment.most",
        (LENGTH, Placing, Shaft),
        "Largest embedment of the discharge end in concrete.",
    ),
    fact(
        "line.breached",
        (YesNo, Placing, Shaft),
        "The discharge end came out of the concrete, or fluid entered the line, after the pour had begun.",
    ),
    fact(
        "volume.curve_drawn",
        (YesNo, Placing, Shaft),
        "Placed volume against depth can be compared with theory: every load has a volume and a sounding.",
    ),
    fact(
        "volume.ratio.interval",
        (Plain(""), Placing, Interval),
        "Placed over theoretical volume of one interval.",
    ),
    fact(
        "volume.ratio.total",
        (Plain(""), Placing, Shaft),
        "Placed over theoretical volume of the whole shaft.",
    ),
    fact(
        "volume.departure",
        (SHARE, Placing, Interval),
        "Distance of the ratio of one interval from the shaft's running ratio, either way, over the latter.",
    ),
    fact(
        "volume.over_consumption",
        (SHARE, Placing, Shaft),
        "Placed minus theoretical volume over theoretical volume, whole shaft.",
    ),
    fact(
        "casing.head_over_shoe",
        (LENGTH, CasingWithdrawal, Lift),
        "Height of fresh concrete above the bottom of the casing after a lift, before anything is added.",
    ),
    fact(
        "casing.drop_beyond_expected",
        (LENGTH, CasingWithdrawal, Lift),
        "Measured minus expected drop of the concrete level during a lift; negative when it rose.",
    ),
    fact(
        "casing.pulled_steadily",
        (YesNo, CasingWithdrawal, Shaft),
        "The casing was pulled slowly, evenly and in line with its axis.",
    ),
    fact(
        "casing.temporary_removed",
        (YesNo, CasingWithdrawal, Shaft),
        "Temporary casing was removed, or leaving it was approved.",
    ),
];
