//! The figures of what was built as JSON: cage, position and cover, strength.

use super::{ids, meters, moment};
use assess::reckon::{AsBuiltReckoning, CageReckoning, StrengthReckoning, StrengthSet};
use calc::axis::Offset;
use serde_json::{Value, json};

pub(super) fn cage(cage: &CageReckoning) -> Value {
    json!({
        "outside_m": meters(cage.outside), "bar_circle_m": cage.bar_circle.map(meters),
        "bars": cage.bars.as_ref().map(|(count, bar)| json!({
            "count": count, "size": bar.name, "diameter_m": meters(bar.diameter),
            "area_m2": bar.area.to_square_meters(),
        })),
        "clear_around_m": cage.clear_around.map(meters), "clear_along_m": cage.clear_along.map(meters),
        "cover_m": cage.cover.map(meters), "steel_ratio": cage.ratio.map(|ratio| ratio.to_part()),
        "kilograms_per_meter": cage.kilograms_per_meter, "length_m": cage.length.map(meters),
        "inner_width_m": cage.inner_width.map(meters), "entries": ids(&cage.entries),
    })
}

pub(super) fn as_built(built: &AsBuiltReckoning) -> Value {
    json!({
        "offset": built.offset.as_ref().map(|(at, _)| offset(at)),
        "offset_entry": built.offset.as_ref().map(|(_, entry)| entry.to_string()),
        "axis": built.axis.as_ref().map(|(fitted, entry)| json!({
            "lean_east": fitted.axis.lean_east.to_part(), "lean_north": fitted.axis.lean_north.to_part(),
            "lean": fitted.axis.lean().to_part(), "greatest_bend_m": meters(fitted.greatest_bend),
            "entry": entry.to_string(),
        })),
        "off_plan": built.off_plan.map(|slope| slope.to_part()),
        "toe": built.toe.as_ref().map(offset),
        "least_cover_m": built.cover.as_ref().map(|least| meters(least.cover)),
        "least_cover_depth_m": built.cover.as_ref().map(|least| least.depth.to_meters()),
        "cage_off_hole": built.cover.as_ref().map(|least| offset(&least.cage_off_hole)),
        "cover_entries": ids(&built.cover_entries),
    })
}

fn offset(offset: &Offset) -> Value {
    let distance = meters(offset.distance());
    json!({ "east_m": meters(offset.east), "north_m": meters(offset.north), "distance_m": distance })
}

pub(super) fn strength(strength: &StrengthReckoning) -> Value {
    json!({
        "specified_pa": strength.specified.map(|specified| specified.to_pascals()),
        "sets": strength.sets.iter().map(set).collect::<Vec<_>>(),
        "age_days": strength.age.map(|age| age.to_days()),
        "expected_share_en_1992": strength.european.map(|share| share.to_part()),
        "expected_share_aci_209": strength.american.map(|share| share.to_part()),
        "maturity": strength.maturity.iter().map(|sensor| json!({
            "sensor": sensor.sensor, "until": moment(sensor.until), "degree_hours": sensor.degree_hours.0,
            "equivalent_age_days": sensor.equivalent_age.to_days(), "entries": ids(&sensor.entries),
        })).collect::<Vec<_>>(),
    })
}

fn set(set: &StrengthSet) -> Value {
    json!({
        "set": set.set, "made": set.made.to_string(),
        "breaks": set.breaks.iter().map(|(age, strength, entry)| json!({
            "age_days": age.map(|age| age.to_days()), "strength_pa": strength.to_pascals(),
            "entry": entry.to_string(),
        })).collect::<Vec<_>>(),
        "mean_pa": set.last.as_ref().map(|last| last.mean.to_pascals()),
        "lowest_pa": set.last.as_ref().map(|last| last.lowest.to_pascals()),
        "highest_pa": set.last.as_ref().map(|last| last.highest.to_pascals()),
        "range": set.last.as_ref().map(|last| last.range.to_part()),
        "cylinders": set.last.as_ref().map(|last| last.cylinders),
    })
}
