//! Facts of the pour: acceptance before it, the line, loads against soundings, volumes, casing lifts.

use super::Sources;
use crate::measure::{Measurement, Subject};
use crate::picture::{LineHistory, Picture};
use crate::reckon::{Lift, LineReckoning};
use criteria::{Dimension, Dimensions, Measured};
use quantity::{Fraction, Inflow, Length, Moment, Span, Volume};
use record::EntryId;
use record::choices::{CasingStay, LineType};
use record::kinds::{CageChecked, CageSet, Interruption, OverPoured};

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let mut all = line_facts(sources);
    let Some(begun) = sources.concrete_started() else { return all };
    all.extend(after_acceptance(sources, begun));
    all.extend(times(sources, begun));
    all.extend(soundings(sources));
    all.extend(volumes(sources));
    all.extend(rise_rates(sources));
    all.extend(over_pour(sources));
    all.extend(casing(sources));
    all
}

/// Bottom and cage had both been accepted when the first concrete went in.
fn after_acceptance(sources: &Sources<'_, '_>, begun: (Moment, EntryId)) -> Option<Measurement> {
    let bottom =
        sources.picture.bottom.accepted.iter().find(|(at, ..)| *at <= begun.0).map(|(_, entry, _)| *entry);
    let caged = sources.picture.plan.as_ref().is_some_and(|plan| plan.cage.is_some());
    let cage = cage_accepted(sources, begun.0);
    let evidence = [Some(begun.1), bottom, cage].into_iter().flatten().collect();
    let accepted = bottom.is_some() && (!caged || cage.is_some());
    Some(Measurement::shaft("placing.after_acceptance", accepted, evidence).at(begun.0))
}

/// The cage was checked and set before a moment: that is how this record accepts one.
pub(super) fn cage_accepted(sources: &Sources<'_, '_>, before: Moment) -> Option<EntryId> {
    let checked = sources.log.each::<CageChecked>().find(|(line, _)| line.at <= before)?;
    let _ = sources.log.each::<CageSet>().find(|(line, _)| line.at <= before)?;
    Some(checked.0.entry.id)
}

fn times(sources: &Sources<'_, '_>, begun: (Moment, EntryId)) -> Vec<Measurement> {
    let mut all = Vec::new();
    let gaps = gaps(sources);
    if let Some((from, until, evidence)) =
        gaps.iter().max_by_key(|(from, until, _)| until.seconds() - from.seconds())
    {
        let span = Span::minutes(until.minutes_since(*from));
        all.push(Measurement::shaft("placing.interruption", span, evidence.clone()).at(*until));
    }
    if let Some(finished) = sources.pour_finished() {
        let last = sources.picture.loads.iter().filter(|load| load.ended == Some(finished));
        let evidence: Vec<EntryId> =
            last.flat_map(|load| load.entries.last().copied()).chain([begun.1]).collect();
        let span = Span::minutes(finished.minutes_since(begun.0));
        all.push(Measurement::shaft("placing.duration", span, evidence.clone()).at(finished));
        let stopped = sources.entries::<Interruption>();
        let continuous = finished.date() == begun.0.date() || span.to_hours() < 24.0;
        let evidence = evidence.into_iter().chain(stopped).collect();
        all.push(Measurement::shaft("placing.continuous", continuous, evidence).at(finished));
    }
    all
}

/// From the end of one discharge to the start of the next, and from the last one to now while the pour
/// goes on.
pub(crate) fn gaps(sources: &Sources<'_, '_>) -> Vec<(Moment, Moment, Vec<EntryId>)> {
    let used = sources.picture.loads.iter().filter(|load| load.used());
    let mut loads: Vec<_> = used.filter_map(|load| Some((load.started.or(load.ended)?, load))).collect();
    loads.sort_by_key(|(at, load)| (*at, load.entries[0]));
    let pairs = loads.windows(2).filter_map(|pair| {
        let ended = pair[0].1.ended?;
        let evidence = vec![*pair[0].1.entries.last()?, *pair[1].1.entries.last()?];
        (pair[1].0 > ended).then_some((ended, pair[1].0, evidence))
    });
    pairs.collect()
}

/// A load counts as sounded when a sounding names it, or one was taken between its end and the next start.
fn soundings(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let picture = sources.picture;
    let used: Vec<_> =
        picture.loads.iter().filter(|load| load.refused.is_none() && load.ended.is_some()).collect();
    let mut all = Vec::new();
    for load in &used {
        let ended = load.ended.expect("filtered above");
        let next = used.iter().filter_map(|other| other.started).filter(|start| *start > ended).min();
        let sounding = picture.concrete.iter().find(|level| {
            level.after.as_deref() == Some(load.ticket)
                || (level.after.is_none() && ended <= level.at && next.is_none_or(|next| level.at <= next))
        });
        let open = next.is_none() && sounding.is_none() && picture.now == ended;
        let evidence = load.entries.iter().copied().chain(sounding.map(|level| level.entry)).collect();
        let subject = Subject::Load(load.ticket.to_owned());
        if !open {
            let value = Some(Measured::from(sounding.is_some()));
            all.push(Measurement::of("placing.sounded_after_load", subject, value, evidence).at(ended));
        }
    }
    all.extend(level_differences(picture));
    all.extend(curve_drawn(&all, &used.iter().flat_map(|load| load.entries.clone()).collect::<Vec<_>>()));
    all
}

fn level_differences(picture: &Picture<'_>) -> Vec<Measurement> {
    let both = picture.concrete.iter().filter_map(|level| {
        let difference = level.surface.inside_above_outside?.value.abs();
        let value = Some(difference.into());
        let subject = Subject::Test(level.entry);
        Some(Measurement::of("placing.level_difference", subject, value, vec![level.entry]).at(level.at))
    });
    both.collect()
}

/// Every load has a volume (a ticket cannot be without one) and a sounding.
fn curve_drawn(sounded: &[Measurement], loads: &[EntryId]) -> Option<Measurement> {
    if loads.is_empty() {
        return None;
    }
    let per_load = sounded.iter().filter(|one| one.fact == "placing.sounded_after_load");
    let all = per_load.clone().count() > 0 && per_load.clone().all(|one| one.value == Some(true.into()));
    Some(Measurement::shaft("volume.curve_drawn", all, loads.to_vec()))
}

fn volumes(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some(pour) = &sources.reckoning.pour else { return Vec::new() };
    let mut all = Vec::new();
    for (interval, sounding) in pour.curve.intervals.iter().zip(&pour.soundings) {
        let subject = Subject::Interval { lower: interval.lower, upper: interval.upper };
        let tickets =
            sources.picture.loads.iter().filter(|load| sounding.tickets.iter().any(|t| t == load.ticket));
        let evidence: Vec<EntryId> =
            tickets.flat_map(|load| load.entries.first().copied()).chain([sounding.entry]).collect();
        let Some(ratio) = interval.ratio else { continue };
        let error = Dimensions::new().with(Dimension::RatioError, Fraction::part(ratio.standard_error));
        let one = |fact, value: Measured| {
            Measurement::of(fact, subject.clone(), Some(value), evidence.clone())
                .at(sounding.at)
                .with(error.clone())
        };
        let long_enough = interval.rise.value >= crate::assumed::least_rise();
        if long_enough {
            all.push(one("volume.ratio.interval", Measured::ratio(ratio.value)));
        }
        if let Some(departure) =
            interval.departure.filter(|departure| long_enough && departure.others.value > 0.0)
        {
            let share = (departure.difference.value / departure.others.value).abs();
            all.push(one("volume.departure", Fraction::part(share).into()));
        }
    }
    all.extend(totals(sources));
    all
}

/// Whole-shaft figures, once the pour is over.
fn totals(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let (Some(pour), Some(finished)) = (&sources.reckoning.pour, sources.pour_finished()) else {
        return Vec::new();
    };
    let Some(ratio) = pour.curve.intervals.last().and_then(|last| last.cumulative.ratio) else {
        return Vec::new();
    };
    let loads = sources.picture.loads.iter().filter(|load| load.used());
    let evidence: Vec<EntryId> = loads
        .filter_map(|load| load.entries.first().copied())
        .chain(pour.soundings.iter().map(|s| s.entry))
        .collect();
    let over = Fraction::part(ratio.value - 1.0);
    vec![
        Measurement::shaft("volume.ratio.total", Measured::ratio(ratio.value), evidence.clone()).at(finished),
        Measurement::shaft("volume.over_consumption", over, evidence).at(finished),
    ]
}

fn rise_rates(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let levels = &sources.picture.concrete;
    let rates = levels.windows(2).filter_map(|pair| {
        let rise = pair[1].surface.mean.value.above(pair[0].surface.mean.value);
        let hours = pair[1].at.minutes_since(pair[0].at) / 60.0;
        let subject =
            Subject::Interval { lower: pair[0].surface.mean.value, upper: pair[1].surface.mean.value };
        let rate = (hours > 0.0).then(|| Inflow::meters_per_hour(rise.to_meters() / hours))?;
        let evidence = vec![pair[0].entry, pair[1].entry];
        Some(Measurement::of("placing.rise_rate", subject, Some(rate.into()), evidence).at(pair[1].at))
    });
    rates.collect()
}

fn over_pour(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some(finished) = sources.pour_finished() else { return Vec::new() };
    let mut all = Vec::new();
    match sources.log.last::<OverPoured>() {
        Some((line, over)) => {
            let evidence = vec![line.entry.id];
            all.push(Measurement::shaft("placing.good_concrete_at_top", over.good, evidence).at(line.at));
        }
        None => all.push(Measurement::missing("placing.good_concrete_at_top")),
    }
    let cut_off = sources.picture.plan.as_ref().map(|plan| plan.cut_off);
    let cast = sources.picture.concrete.last().map(|level| (level.surface.lowest.value, level.entry));
    if let Some(((cast, entry), cut_off)) = cast.zip(cut_off) {
        all.push(Measurement::shaft("placing.overpour", cast.above(cut_off), vec![entry]).at(finished));
    }
    all
}

fn line_facts(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let lines = sources.picture.lines.iter().zip(&sources.reckoning.lines);
    let mut all: Vec<Measurement> =
        lines.flat_map(|(line, reckoned)| one_line(sources, line, reckoned)).collect();
    if sources.picture.lines.is_empty() && sources.concrete_started().is_some() {
        all.push(Measurement::missing("line.tip_above_bottom"));
        all.push(Measurement::missing("line.watertight"));
    }
    all
}

fn one_line(sources: &Sources<'_, '_>, line: &LineHistory, reckoned: &LineReckoning) -> Vec<Measurement> {
    if line.line == LineType::FreeFall {
        return Vec::new();
    }
    let shaft = |fact, value: Option<Measured>| match value {
        Some(value) => Measurement::shaft(fact, value, vec![line.entry]),
        None => Measurement::missing(fact),
    };
    let mut all = vec![
        shaft("line.watertight", line.watertight.map(Measured::from)),
        shaft("line.inner_diameter", line.inside.map(Measured::from)),
    ];
    all.extend(
        line.outside.map(|outside| Measurement::shaft("line.outer_diameter", outside, vec![line.entry])),
    );
    all.extend(line.plug.as_ref().map(|_| Measurement::shaft("line.separated", true, vec![line.entry])));
    all.extend(start_of_line(sources, reckoned));
    all.extend(first_charge(sources, line));
    all.extend(moved_slowly(line));
    all.extend(embedments(reckoned));
    all
}

fn start_of_line(sources: &Sources<'_, '_>, reckoned: &LineReckoning) -> Vec<Measurement> {
    let (Some(hole), Some((at, _))) = (&sources.reckoning.hole, sources.concrete_started()) else {
        return Vec::new();
    };
    let Some((tip, entry)) = reckoned.start else {
        return vec![Measurement::missing("line.tip_above_bottom")];
    };
    let mut evidence = vec![entry];
    evidence.extend(&hole.base_from);
    let above = tip.above(hole.base.value);
    let mut all = vec![Measurement::shaft("line.tip_above_bottom", above, evidence.clone()).at(at)];
    let raised = reckoned.history.iter().find(|(buried, _)| buried.tip > tip);
    all.extend(raised.map(|(buried, entry)| {
        let placed = buried.surface.value.above(hole.base.value);
        Measurement::shaft("line.concrete_at_first_lift", placed, vec![*entry]).at(buried.at)
    }));
    all
}

/// Concrete on site when the first charge went: every load that had arrived by then.
fn first_charge(sources: &Sources<'_, '_>, line: &LineHistory) -> Option<Measurement> {
    let (at, entry) = sources.concrete_started()?;
    let there = sources.picture.loads.iter().filter(|load| load.arrived <= at && load.refused.is_none());
    let volumes: Vec<f64> = there.clone().map(|load| load.volume.to_cubic_meters()).collect();
    let evidence =
        there.filter_map(|load| load.entries.first().copied()).chain([entry, line.entry]).collect();
    let total = Volume::cubic_meters(volumes.iter().sum());
    Some(Measurement::shaft("placing.first_charge", total, evidence).at(at))
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

/// Least and greatest embedment after the tip was first buried, and whether it came out.
fn embedments(reckoned: &LineReckoning) -> Vec<Measurement> {
    let first = reckoned.history.iter().position(|(buried, _)| buried.embedment.value > Length::ZERO);
    let Some(first) = first else { return Vec::new() };
    let after = &reckoned.history[first..];
    let moved = after.iter().skip(1).collect::<Vec<_>>();
    let value = |(buried, _): &(calc::tremie::Buried, EntryId)| buried.embedment.value;
    let most = after.iter().max_by_key(|step| value(step));
    let least = moved.iter().copied().min_by_key(|step| value(step)).or(after.first());
    let mut all = Vec::new();
    if let Some(step) = least {
        all.push(Measurement::shaft("line.embedment.least", value(step), vec![step.1]).at(step.0.at));
        let breached = value(step) <= Length::ZERO;
        all.push(Measurement::shaft("line.breached", breached, vec![step.1]).at(step.0.at));
    }
    all.extend(
        most.map(|step| Measurement::shaft("line.embedment.most", value(step), vec![step.1]).at(step.0.at)),
    );
    all
}

fn casing(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let lifts = sources.reckoning.lifts.iter().enumerate();
    let mut all: Vec<Measurement> =
        lifts.flat_map(|(index, lift)| one_lift(sources, index + 1, lift)).collect();
    let temporary: Vec<_> =
        sources.picture.casings.iter().filter(|casing| casing.stay == CasingStay::Temporary).collect();
    if !temporary.is_empty() && sources.pour_finished().is_some() {
        let gone = temporary.iter().all(|casing| casing.out.is_some() || casing.left.is_some());
        let said =
            temporary.iter().flat_map(|casing| [casing.out, casing.left]).flatten().map(|(_, entry)| entry);
        let evidence = temporary.iter().map(|casing| casing.entry).chain(said).collect();
        all.push(Measurement::shaft("casing.temporary_removed", gone, evidence));
    }
    all
}

fn one_lift(sources: &Sources<'_, '_>, number: usize, lift: &Lift) -> Vec<Measurement> {
    let subject = Subject::Lift(number);
    let expected = lift.expected.as_ref().and_then(|expected| expected.as_ref().ok());
    let measured_head = lift.measured.and_then(|(_, head)| head);
    let head =
        measured_head.or(expected.filter(|_| lift.shoe_after.is_some()).map(|lifted| lifted.head.value));
    let one = |fact, value: Measured| {
        Measurement::of(fact, subject.clone(), Some(value), lift.entries.clone()).at(lift.at)
    };
    let mut all = Vec::new();
    if let Some(head) = head {
        all.push(one("casing.head_over_shoe", head.into()).with(balancing_head(sources, lift)));
    } else if lift.shoe_after.is_some() {
        all.push(
            Measurement::of("casing.head_over_shoe", subject.clone(), None, lift.entries.clone()).at(lift.at),
        );
    }
    if let (Some(expected), Some((level, _)), Some(_)) = (expected, lift.measured, lift.level_before) {
        all.push(one("casing.drop_beyond_expected", expected.level.value.above(level).into()));
    }
    all.extend(lift.cage_rise.map(|rise| one("cage.movement", rise.into())));
    all
}

/// Concrete whose weight balances the groundwater outside, over the shoe after the lift.
fn balancing_head(sources: &Sources<'_, '_>, lift: &Lift) -> Dimensions {
    let none = Dimensions::new();
    let (Some(shoe), Some((water, _))) = (lift.shoe_after, super::fluid::groundwater(sources, lift.at, None))
    else {
        return none;
    };
    let over: Length = water.above(shoe).max(Length::ZERO);
    let concrete = crate::reckon::pour::concrete_density(sources.picture);
    match calc::casing::least_head(crate::assumed::water_density(), over, concrete) {
        Ok(head) => none.with(Dimension::BalancingHead, head),
        Err(_) => none,
    }
}
