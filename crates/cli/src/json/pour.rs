//! The figures of the pour as JSON: curve, line, lifts, slump, tickets.

use super::{cubic, ids, level, meters, moment};
use assess::reckon::{
    Lift, LineReckoning, LoadLife, PourReckoning, PourSounding, SlumpReckoning, TicketReckoning,
};
use calc::curve::Interval;
use serde_json::{Value, json};

pub(super) fn curve(pour: &PourReckoning) -> Vec<Value> {
    pour.curve.intervals.iter().zip(&pour.soundings).map(|(one, sounding)| interval(one, sounding)).collect()
}

fn interval(interval: &Interval, sounding: &PourSounding) -> Value {
    json!({
        "at": moment(sounding.at), "tickets": sounding.tickets, "entry": sounding.entry.to_string(),
        "lower_m": level(interval.lower), "upper_m": level(interval.upper),
        "rise_m": meters(interval.rise.value), "rise_error_m": meters(interval.rise.standard_error),
        "placed_m3": cubic(interval.placed.value), "placed_error_m3": cubic(interval.placed.standard_error),
        "held_in_line_m3": cubic(sounding.held),
        "theoretical_m3": interval.theoretical.map(|t| cubic(t.value)),
        "ratio": interval.ratio.map(|r| r.value), "ratio_error": interval.ratio.map(|r| r.standard_error),
        "diameter_m": interval.diameter.map(|d| meters(d.value)),
        "diameter_error_m": interval.diameter.map(|d| meters(d.standard_error)),
        "others_ratio": interval.departure.map(|d| d.others.value),
        "difference": interval.departure.map(|d| d.difference.value),
        "difference_error": interval.departure.map(|d| d.difference.standard_error),
        "z": interval.departure.and_then(|d| d.z),
        "cumulative_placed_m3": cubic(interval.cumulative.placed.value),
        "cumulative_theoretical_m3": interval.cumulative.theoretical.map(|t| cubic(t.value)),
        "cumulative_ratio": interval.cumulative.ratio.map(|r| r.value),
        "cumulative_ratio_error": interval.cumulative.ratio.map(|r| r.standard_error),
    })
}

pub(super) fn totals(pour: &PourReckoning) -> Value {
    json!({
        "discharged_m3": cubic(pour.discharged), "wasted_m3": cubic(pour.wasted),
        "soundings_left_out": ids(&pour.left_out),
    })
}

fn pipes(string: &calc::tremie::PipeString) -> Vec<f64> {
    string.pipes.iter().map(|pipe| meters(*pipe)).collect()
}

pub(super) fn line(line: &LineReckoning) -> Value {
    json!({
        "line": line.name,
        "length_m": line.string.as_ref().map(|string| meters(string.length())),
        "pipes_m": line.string.as_ref().map(pipes),
        "tip_m": line.string.as_ref().map(|string| level(string.tip())),
        "concrete_m": line.surface.map(|surface| level(surface.value)),
        "concrete_error_m": line.surface.map(|surface| meters(surface.standard_error)),
        "tip_at_start_m": line.start.map(|(tip, _)| level(tip)),
        "balance_m": line.balance.map(level),
        "history": line.history.iter().map(|(buried, entry)| json!({
            "at": moment(buried.at), "tip_m": level(buried.tip),
            "embedment_m": meters(buried.embedment.value),
            "error_m": meters(buried.embedment.standard_error), "entry": entry.to_string(),
        })).collect::<Vec<_>>(),
    })
}

pub(super) fn lift(lift: &Lift) -> Value {
    let expected = lift.expected.as_ref().and_then(|expected| expected.as_ref().ok());
    json!({
        "casing": lift.casing, "at": moment(lift.at),
        "shoe_before_m": level(lift.shoe_before), "shoe_after_m": lift.shoe_after.map(level),
        "level_before_m": lift.level_before.map(level),
        "expected_level_m": expected.map(|e| level(e.level.value)),
        "expected_level_error_m": expected.map(|e| meters(e.level.standard_error)),
        "head_m": expected.map(|e| meters(e.head.value)),
        "head_error_m": expected.map(|e| meters(e.head.standard_error)),
        "measured_level_m": lift.measured.map(|(measured, _)| level(measured)),
        "unexplained_m3": lift.unexplained.map(|u| cubic(u.value)),
        "unexplained_error_m3": lift.unexplained.map(|u| cubic(u.standard_error)),
        "cage_rise_m": lift.cage_rise.map(meters), "added_m3": lift.added.map(cubic),
        "steadily": lift.steadily, "left_at_m": lift.left_at.map(level),
        "entries": ids(&lift.entries),
    })
}

pub(super) fn lives(slump: &SlumpReckoning) -> Vec<Value> {
    slump.loads.iter().map(|load| life(load, slump)).collect()
}

fn life(load: &LoadLife, slump: &SlumpReckoning) -> Value {
    json!({
        "ticket": load.ticket, "mix": slump.mix, "least_slump_m": slump.limit.map(meters),
        "batched": load.batched.map(moment), "ends": load.ends().map(moment),
        "life_min": load.life.map(|life| life.value.to_minutes()),
        "error_min": load.life.map(|life| life.standard_error.to_minutes()),
        "sure_until_min": load.sure_until.map(|span| span.to_minutes()),
        "below_from_start": load.below_from_start,
        "tests": load.tests.iter().map(|test| json!({
            "age_min": test.age.to_minutes(), "slump_m": meters(test.slump),
        })).collect::<Vec<_>>(),
        "entries": ids(&load.entries),
    })
}

pub(super) fn ticket(ticket: &TicketReckoning) -> Value {
    json!({
        "ticket": ticket.ticket,
        "water_cement": ticket.water_cement.map(|ratio| ratio.to_ratio()),
        "room_to_ratio_m3": ticket.room_to_ratio.map(cubic),
        "held_back_m3": ticket.held_back.map(cubic), "allowed_left_m3": ticket.allowed_left.map(cubic),
        "may_be_added_m3": ticket.may_be_added().map(cubic),
        "yield_m3": ticket.real.map(|real| cubic(real.volume)),
        "yield_error_m3": ticket.real.and_then(|real| real.standard_error.map(cubic)),
        "unit_weight_kg_m3": ticket.real.map(|real| real.unit_weight.to_kilograms_per_cubic_meter()),
        "relative_yield": ticket.relative_yield.map(|part| part.to_part()),
        "entries": ids(&ticket.entries),
    })
}
