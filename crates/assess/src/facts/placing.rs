//! Facts of the line: how it was made, where its tip was, how deep it was buried.

use super::{Sources, worst};
use crate::measure::Measurement;
use crate::picture::{LineHistory, Load};
use crate::reckon::LineReckoning;
use calc::tremie::Buried;
use criteria::Measured;
use quantity::{Elevation, Inflow, Length, Volume};
use record::EntryId;
use record::choices::LineType;

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    line_facts(sources)
}

fn line_facts(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    if sources.picture.lines.is_empty() && sources.concrete_started().is_some() {
        return vec![Measurement::missing("line.tip_above_bottom"), Measurement::missing("line.watertight")];
    }
    let lines = sources.picture.lines.iter().zip(&sources.reckoning.lines);
    let all = lines.flat_map(|(line, reckoned)| match line.line {
        LineType::FreeFall => free_fall(sources, line),
        LineType::Tremie | LineType::Pump => one_line(sources, line, reckoned),
    });
    worst::of_each(all.collect())
}

/// How far the concrete falls: from the end of the chute, else from the ground; and clear of the cage.
fn free_fall(sources: &Sources<'_, '_>, line: &LineHistory) -> Vec<Measurement> {
    let hole = sources.reckoning.hole.as_ref();
    let ground = sources.picture.plan.as_ref().map(|plan| plan.ground.unwrap_or(plan.top));
    let from = line.steps[0].tip.or(ground);
    let mut all = vec![match hole.zip(from) {
        Some((hole, from)) => {
            let evidence = [line.entry].into_iter().chain(hole.base_from.iter().copied()).collect();
            Measurement::shaft("placing.free_fall", from.above(hole.base.value), evidence)
        }
        None => Measurement::missing("placing.free_fall"),
    }];
    all.push(match line.centered {
        Some(clear) => Measurement::shaft("placing.clear_of_cage", clear, vec![line.entry]),
        None => Measurement::missing("placing.clear_of_cage"),
    });
    all
}

fn one_line(sources: &Sources<'_, '_>, line: &LineHistory, reckoned: &LineReckoning) -> Vec<Measurement> {
    let shaft = |fact, value: Option<Measured>| match value {
        Some(value) => Measurement::shaft(fact, value, vec![line.entry]),
        None => Measurement::missing(fact),
    };
    let mut all = vec![
        shaft("line.watertight", line.watertight.map(Measured::from)),
        shaft("line.inner_diameter", line.inside.map(Measured::from)),
        shaft("line.outer_diameter", line.outside.map(Measured::from)),
        shaft("line.separated", line.plug.as_deref().map(|plug| Measured::from(is_plug(plug)))),
        shaft("line.material_allowed", material_allowed(line).map(Measured::from)),
    ];
    all.extend(start_of_line(sources, line, reckoned));
    all.extend(first_charge(sources, line));
    all.extend(moved_slowly(line));
    all.extend(lift_speed(line));
    all.extend(embedments(sources, line, reckoned));
    all
}

/// Somebody may write that there was none.
fn is_plug(plug: &str) -> bool {
    !["", "no", "none", "without"].contains(&plug.trim().to_lowercase().as_str())
}

/// Aluminum is never right; anything else is when the line was found clean and smooth.
fn material_allowed(line: &LineHistory) -> Option<bool> {
    let aluminum =
        line.material.as_deref().is_some_and(|material| material.to_lowercase().contains("alumin"));
    if aluminum { Some(false) } else { line.clean }
}

/// The fastest lift of which both height and time were written.
fn lift_speed(line: &LineHistory) -> Option<Measurement> {
    let speeds = line.steps.windows(2).filter_map(|pair| {
        let (rise, hours) = (pair[1].tip?.above(pair[0].tip?), pair[1].took?.to_hours());
        let speed = (rise > Length::ZERO && hours > 0.0).then(|| rise.to_meters() / hours)?;
        Some((speed, pair[1].entry, pair[1].at))
    });
    let (speed, entry, at) = speeds.max_by(|a, b| a.0.total_cmp(&b.0))?;
    Some(Measurement::shaft("line.lift_speed", Inflow::meters_per_hour(speed), vec![entry]).at(at))
}

/// The tip over the bottom when the first concrete came. A line made up later started in concrete.
fn start_of_line(
    sources: &Sources<'_, '_>,
    line: &LineHistory,
    reckoned: &LineReckoning,
) -> Vec<Measurement> {
    let (Some(hole), Some((at, _))) = (&sources.reckoning.hole, sources.concrete_started()) else {
        return Vec::new();
    };
    if line.steps[0].at > at {
        return Vec::new();
    }
    let Some((tip, entry)) = reckoned.start else {
        return vec![Measurement::missing("line.tip_above_bottom")];
    };
    let evidence = [entry].into_iter().chain(hole.base_from.iter().copied()).collect();
    let above = tip.above(hole.base.value);
    let mut all = vec![Measurement::shaft("line.tip_above_bottom", above, evidence).at(at)];
    all.extend(first_lift(sources, line, tip));
    all
}

/// How much concrete stood when the tip was first raised after the start; none where nothing was sounded.
fn first_lift(sources: &Sources<'_, '_>, line: &LineHistory, start: Elevation) -> Option<Measurement> {
    let hole = sources.reckoning.hole.as_ref()?;
    let (begun, first) = sources.concrete_started()?;
    let raised = line.steps.iter().find(|step| step.at > begun && step.tip.is_some_and(|tip| tip > start))?;
    let surface = sources.picture.surface(raised.at);
    let placed = surface.map_or(Length::ZERO, |surface| surface.level.above(hole.base.value));
    let evidence = vec![raised.entry, surface.map_or(first, |surface| surface.entry)];
    Some(Measurement::shaft("line.concrete_at_first_lift", placed, evidence).at(raised.at))
}

/// Concrete on site when the first charge went: every load that had arrived by then.
fn first_charge(sources: &Sources<'_, '_>, line: &LineHistory) -> Option<Measurement> {
    let (at, entry) = sources.concrete_started()?;
    if line.steps[0].at > at {
        return None;
    }
    let there = sources.picture.loads.iter().filter(|load| load.arrived <= at && load.refused.is_none());
    let volumes: Vec<f64> = there.clone().map(|load| load.volume.to_cubic_meters()).collect();
    let evidence =
        there.filter_map(|load| load.entries.first().copied()).chain([entry, line.entry]).collect();
    let total = Volume::cubic_meters(volumes.iter().sum());
    (!volumes.is_empty()).then(|| Measurement::shaft("placing.first_charge", total, evidence).at(at))
}

fn moved_slowly(line: &LineHistory) -> Option<Measurement> {
    let said: Vec<(EntryId, bool)> =
        line.steps.iter().filter_map(|step| Some((step.entry, step.slowly?))).collect();
    let evidence = said.iter().map(|(entry, _)| *entry).collect();
    let moved = line.steps.len() > 1;
    match said.is_empty() {
        true => moved.then(|| Measurement::missing("line.moved_slowly")),
        false => {
            Some(Measurement::shaft("line.moved_slowly", said.iter().all(|(_, slowly)| *slowly), evidence))
        }
    }
}

/// Least and greatest embedment once the tip was buried, and whether it came out.
///
/// While the first concrete buries the tip, the embedment only grows: it counts from the first time that it
/// shrank, or that a raised tip hung free. When the pour is over, the line comes out; that is no breach.
fn embedments(sources: &Sources<'_, '_>, line: &LineHistory, reckoned: &LineReckoning) -> Vec<Measurement> {
    let history = until_withdrawn(sources, reckoned);
    let value = |step: &(Buried, EntryId)| step.0.embedment.value;
    let first_tip = line.steps[0].tip;
    let counts = |index: usize| {
        let raised = first_tip.is_some_and(|first| history[index].0.tip > first);
        let shrank = index > 0 && value(&history[index]) < value(&history[index - 1]);
        shrank || (raised && value(&history[index]) <= Length::ZERO)
    };
    let counted = match (0..history.len()).find(|index| counts(*index)) {
        Some(first) => &history[first..],
        None => &history[history.len().saturating_sub(1)..],
    };
    let Some(least) = counted.iter().min_by_key(|step| value(step)) else { return Vec::new() };
    // A tip the first concrete has not reached yet is not buried; nothing can be said of it.
    let buried = history.iter().any(|step| value(step) > Length::ZERO);
    if !buried && first_tip.is_some_and(|first| least.0.tip <= first) {
        return Vec::new();
    }
    let one = |fact, of: &(Buried, EntryId), measured: Measured| {
        Measurement::shaft(fact, measured, vec![of.1]).at(of.0.at)
    };
    let breached = value(least) <= Length::ZERO;
    let mut all = vec![
        one("line.embedment.least", least, value(least).into()),
        one("line.breached", least, breached.into()),
    ];
    let most = history.iter().max_by_key(|step| value(step));
    all.extend(most.map(|most| one("line.embedment.most", most, value(most).into())));
    all
}

/// The history up to the lift with which the line is taken out for good.
fn until_withdrawn<'l>(sources: &Sources<'_, '_>, reckoned: &'l LineReckoning) -> &'l [(Buried, EntryId)] {
    let history = &reckoned.history;
    let taken_out = |index: &usize| {
        let (before, now) = (&history[index - 1].0, &history[*index].0);
        now.tip > before.tip && withdrawn(sources, now)
    };
    let end = (1..history.len()).find(taken_out).unwrap_or(history.len());
    &history[..end]
}

/// The concrete was where it should end, nothing went in afterwards: the line was being taken out.
fn withdrawn(sources: &Sources<'_, '_>, buried: &Buried) -> bool {
    let after = |load: &Load<'_>| load.used() && load.done.is_none_or(|(done, _)| done > buried.at);
    if sources.picture.loads.iter().any(|load| after(load) || load.waiting()) {
        return false;
    }
    let cut_off = sources.picture.plan.as_ref().map(|plan| plan.cut_off);
    let full = cut_off.is_some_and(|cut_off| buried.surface.value >= cut_off);
    full || sources.pour_finished().is_some_and(|finished| finished < buried.at)
}
