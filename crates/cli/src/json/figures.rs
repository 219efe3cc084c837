//! Every computed figure of a shaft as JSON, one member a topic of the reckoning.
//!
//! A topic nobody entered anything for is `null` or an empty list.

use super::{built, cubic, ids, level, meters, moment, pour};
use assess::reckon::{BaseReckoning, FluidReckoning, Hole, Payment, Reckoning, SandPair};
use serde_json::{Value, json};

pub(super) fn figures(reckoning: &Reckoning) -> Value {
    json!({
        "hole": reckoning.hole.as_ref().map(hole),
        "curve": reckoning.pour.as_ref().map_or_else(Vec::new, pour::curve),
        "pour": reckoning.pour.as_ref().map(pour::totals),
        "embedment": reckoning.lines.iter().map(pour::line).collect::<Vec<_>>(),
        "lifts": reckoning.lifts.iter().map(pour::lift).collect::<Vec<_>>(),
        "slump_life": reckoning.slump.as_ref().map_or_else(Vec::new, pour::lives),
        "tickets": reckoning.tickets.iter().map(pour::ticket).collect::<Vec<_>>(),
        "fluid": fluid(&reckoning.fluid),
        "base": reckoning.base.as_ref().map(base),
        "cage": reckoning.cage.as_ref().map(built::cage),
        "as_built": built::as_built(&reckoning.as_built),
        "strength": built::strength(&reckoning.strength),
        "payment": payment(&reckoning.payment),
    })
}

fn hole(hole: &Hole) -> Value {
    json!({
        "planned_volume_m3": cubic(hole.planned.volume()),
        "drilled_volume_m3": cubic(hole.drilled.volume()),
        "base_m": level(hole.base.value),
        "base_error_m": meters(hole.base.standard_error),
        "base_entries": ids(&hole.base_from),
        "pieces": hole.drilled.pieces().iter().map(|piece| json!({
            "top_m": level(piece.top), "bottom_m": level(piece.bottom),
            "upper_diameter_m": meters(piece.upper_diameter),
            "lower_diameter_m": meters(piece.lower_diameter),
        })).collect::<Vec<_>>(),
    })
}

fn fluid(fluid: &FluidReckoning) -> Value {
    json!({
        "clean_density_kg_m3": fluid.clean.as_ref().map(|clean| clean.0.to_kilograms_per_cubic_meter()),
        "clean_entry": fluid.clean.as_ref().and_then(|(_, entry)| entry.map(|entry| entry.to_string())),
        "sand_against_density": fluid.pairs.iter().map(pair).collect::<Vec<_>>(),
        "may_settle_m": fluid.settled.map(|settled| meters(settled.value)),
        "may_settle_error_m": fluid.settled.map(|settled| meters(settled.standard_error)),
        "may_settle_entries": ids(&fluid.settled_from),
    })
}

/// Density and sand of one test held against each other.
fn pair(pair: &SandPair) -> Value {
    let difference = pair.fit.difference;
    json!({
        "entry": pair.entry.to_string(),
        "expected_density_kg_m3": pair.fit.expected.to_kilograms_per_cubic_meter(),
        "difference_kg_m3": difference.value.to_kilograms_per_cubic_meter(),
        "difference_error_kg_m3": difference.standard_error.to_kilograms_per_cubic_meter(),
        "sand_implied": pair.fit.sand_implied.to_part(), "fines": pair.fit.fines.to_part(),
        "apart": pair.apart,
    })
}

fn base(base: &BaseReckoning) -> Value {
    json!({
        "at": moment(base.at), "entry": base.entry.to_string(),
        "worst_m": meters(base.worst), "mean_m": meters(base.mean),
        "half_the_area_has_less_than_m": meters(base.half_area),
        "shares_of_area": base.base.shares().iter().map(|share| share.to_part()).collect::<Vec<_>>(),
    })
}

fn payment(payment: &Payment) -> Value {
    json!({
        "drilled": payment.drilled.iter().map(|drilled| json!({
            "diameter_m": meters(drilled.diameter),
            "material": drilled.material, "length_m": meters(drilled.length),
        })).collect::<Vec<_>>(),
        "begun_at_run_before": payment.begun.iter().map(|(top, bottom)| json!({
            "top_m": meters(top.0), "bottom_m": meters(bottom.0),
        })).collect::<Vec<_>>(),
        "not_counted_to_m": payment.uncounted.iter().map(|depth| meters(depth.0)).collect::<Vec<_>>(),
        "obstructions_min": payment.obstructions.map(|time| time.to_minutes()),
        "obstruction_entries": ids(&payment.obstruction_entries),
        "theoretical_m3": payment.theoretical.map(cubic),
        "concrete": payment.concrete.as_ref().map(|concrete| json!({
            "ordered_m3": concrete.ordered.map(cubic), "delivered_m3": cubic(concrete.delivered),
            "rejected_m3": cubic(concrete.rejected), "wasted_m3": cubic(concrete.wasted),
            "left_in_lines_m3": cubic(concrete.left_in_lines), "placed_m3": cubic(concrete.placed),
        })),
    })
}
