//! Offers that the day itself makes: the load that waits, the line in the hole, where the last run ended.
//!
//! Never: offer a load that was sent away or is in.

use super::{Offer, Source};
use record::Line;
use record::kinds::*;

/// The offer for a field, as the work stands.
pub(super) fn offer(kind: &str, field: &str, source: &Source<'_, '_>) -> Option<Offer> {
    match (kind, field) {
        ("concrete_test" | "water_added" | "discharge_started" | "load_refused", "ticket") => {
            waiting(field, source)
        }
        ("discharge_ended", "ticket") => going_in(field, source),
        ("concrete_wasted" | "cylinders_made", "ticket") => {
            going_in(field, source).or(last_in(field, source))
        }
        ("concrete_sounded", "after") => last_in(field, source),
        ("tip_moved" | "pieces_removed" | "line_out", "name") | ("discharge_started", "line") => {
            line_in(field, source)
        }
        ("line_made_up", "name") => Some(next_line(field, source)),
        ("casing_advanced" | "casing_lifted" | "casing_out" | "casing_left", "name") => {
            casing_in(field, source)
        }
        ("casing_set", _) => planned_casing(field, source),
        ("load_arrived", "mix") | ("concrete_ordered", "mix") => planned_mix(field, source),
        ("fluid_introduced", "product") => planned_fluid(field, source),
        ("tool_run", "from") => run_from(field, source),
        ("stratum_met", "from") => stratum_from(field, source),
        ("hold_released", "hold") => hold(field, source),
        _ => None,
    }
}

fn at(line: &Line<'_>, source: &Source<'_, '_>) -> String {
    source.show.moment(line.at)
}

/// The load that arrived first and neither discharged nor was sent away.
fn waiting(field: &str, source: &Source<'_, '_>) -> Option<Offer> {
    let begun = |ticket: &str| {
        source.log.each::<DischargeStarted>().any(|(_, load)| load.ticket == ticket)
            || source.log.each::<DischargeEnded>().any(|(_, load)| load.ticket == ticket)
            || source.log.each::<LoadRefused>().any(|(_, load)| load.ticket == ticket)
    };
    let arrived = source.log.each::<LoadArrived>().filter(|(_, load)| !begun(&load.ticket));
    let (line, load) = arrived.into_iter().next().or_else(|| source.log.last::<LoadArrived>())?;
    Some(Offer::one(field, &load.ticket, format!("arrived {}", at(line, source))))
}

/// The load that began to discharge and is not in yet.
fn going_in(field: &str, source: &Source<'_, '_>) -> Option<Offer> {
    let ended = |ticket: &str| source.log.each::<DischargeEnded>().any(|(_, load)| load.ticket == ticket);
    let mut begun = source.log.each::<DischargeStarted>().filter(|(_, load)| !ended(&load.ticket));
    let (line, load) = begun.next()?;
    Some(Offer::one(field, &load.ticket, format!("discharging since {}", at(line, source))))
}

/// The load that was in last.
fn last_in(field: &str, source: &Source<'_, '_>) -> Option<Offer> {
    let (line, load) = source.log.last::<DischargeEnded>()?;
    Some(Offer::one(field, &load.ticket, format!("in at {}", at(line, source))))
}

/// The line that was made up last and is still in the hole.
fn line_in(field: &str, source: &Source<'_, '_>) -> Option<Offer> {
    let out = |name: &str, made: &Line<'_>| {
        source.log.each::<LineOut>().any(|(line, out)| out.name == name && line.at >= made.at)
    };
    let mut lines = source.log.each::<LineMadeUp>().rev().filter(|(line, made)| !out(&made.name, line));
    let (line, made) = lines.next()?;
    Some(Offer::one(field, &made.name, format!("made up {}", at(line, source))))
}

/// A name nobody has to think of.
fn next_line(field: &str, source: &Source<'_, '_>) -> Offer {
    let number = source.log.each::<LineMadeUp>().count() + 1;
    Offer::one(field, format!("tremie {number}"), "next name")
}

/// The innermost casing that stands in the ground: the last one set.
fn casing_in(field: &str, source: &Source<'_, '_>) -> Option<Offer> {
    let gone = |name: &str| {
        source.log.each::<CasingOut>().any(|(_, casing)| casing.name == name)
            || source.log.each::<CasingLeft>().any(|(_, casing)| casing.name == name)
    };
    let mut set = source.log.each::<CasingSet>().rev().filter(|(_, casing)| !gone(&casing.name));
    let (line, casing) = set.next()?;
    Some(Offer::one(field, &casing.name, format!("set {}", at(line, source))))
}

/// The next casing the plan asks for.
fn planned_casing(field: &str, source: &Source<'_, '_>) -> Option<Offer> {
    let (_, plan) = source.whole.last::<CasingPlanned>()?;
    let set = |name: &str| source.log.each::<CasingSet>().any(|(_, casing)| casing.name == name);
    let next = plan.casings.iter().find(|casing| !set(&casing.name))?;
    let text = match field {
        "name" => next.name.clone(),
        "stay" => next.stay.word().to_owned(),
        _ => return None,
    };
    Some(Offer::one(field, text, "from the plan"))
}

/// The mix of the last load comes again; before the first load, the one of the plan.
fn planned_mix(field: &str, source: &Source<'_, '_>) -> Option<Offer> {
    if source.log.each::<LoadArrived>().any(|(_, load)| load.mix.is_some()) {
        return None;
    }
    let (_, plan) = source.whole.last::<ShaftPlanned>()?;
    Some(Offer::one(field, plan.mix.clone()?, "from the plan"))
}

fn planned_fluid(field: &str, source: &Source<'_, '_>) -> Option<Offer> {
    if source.log.last::<FluidIntroduced>().is_some() {
        return None;
    }
    let (_, plan) = source.whole.last::<ShaftPlanned>()?;
    Some(Offer::one(field, plan.fluid.clone()?, "from the plan"))
}

/// A run begins where the one before it ended.
fn run_from(field: &str, source: &Source<'_, '_>) -> Option<Offer> {
    match source.log.last::<ToolRun>() {
        Some((line, run)) => {
            Some(Offer::one(field, run.to.shown(), format!("end of the run of {}", at(line, source))))
        }
        None => Some(Offer::one(field, zero(source), "first run")),
    }
}

fn stratum_from(field: &str, source: &Source<'_, '_>) -> Option<Offer> {
    match source.log.last::<StratumMet>() {
        Some((_, layer)) => Some(Offer::one(field, layer.to.as_ref()?.shown(), "foot of the layer before")),
        None => Some(Offer::one(field, zero(source), "first layer")),
    }
}

fn zero(source: &Source<'_, '_>) -> String {
    format!(
        "0 {}",
        source
            .show
            .defaults()
            .unit(quantity::Kind::Length, record::field::Scale::Usual)
            .map_or("", |unit| unit.symbol)
    )
}

/// The last hold nobody has released.
fn hold(field: &str, source: &Source<'_, '_>) -> Option<Offer> {
    let released = |hold: &str| source.log.each::<HoldReleased>().any(|(_, one)| one.hold == hold);
    let mut open = source.log.each::<HoldPlaced>().rev().filter(|(_, one)| !released(&one.hold));
    let (line, placed) = open.next()?;
    Some(Offer::one(field, &placed.hold, format!("held since {}", at(line, source))))
}
