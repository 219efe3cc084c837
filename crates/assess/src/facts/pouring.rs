//! Facts of the pour: acceptance before it, gaps, soundings after loads, volumes, over-pour.

use super::Sources;
use crate::measure::{Aside, Measurement, Subject};
use crate::picture::Picture;
use criteria::{Dimension, Dimensions, Measured};
use quantity::{Elevation, Fraction, InOrder, Inflow, Moment, Span};
use record::EntryId;
use record::kinds::{CageChecked, CageSet, Interruption, OverPoured, Vibrated};

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some(begun) = sources.concrete_started() else { return Vec::new() };
    let mut all: Vec<Measurement> = after_acceptance(sources, begun).into_iter().collect();
    all.extend(times(sources, begun));
    all.extend(soundings(sources));
    all.extend(volumes(sources));
    all.extend(rise_rates(sources));
    all.extend(over_pour(sources));
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
    if let Some((finished, last)) = sources.pour_over() {
        let evidence = vec![last, begun.1];
        let span = Span::minutes(finished.minutes_since(begun.0));
        all.push(Measurement::shaft("placing.duration", span, evidence.clone()).at(finished));
        // A pour that stopped for the night is two pours; shorter stops are judged by their length.
        let night = gaps.iter().any(|(from, until, _)| from.date() != until.date());
        let evidence = evidence.into_iter().chain(sources.entries::<Interruption>()).collect();
        all.push(Measurement::shaft("placing.continuous", !night, evidence).at(finished));
    }
    all
}

/// Times in which nothing went in: from the end of all discharges so far to the start of the next one, and
/// stops that were written down.
fn gaps(sources: &Sources<'_, '_>) -> Vec<(Moment, Moment, Vec<EntryId>)> {
    let used = sources.picture.loads.iter().filter(|load| load.used());
    let mut loads: Vec<_> = used.filter_map(|load| Some((load.begun?, load.done))).collect();
    loads.put_in_order();
    let mut gaps = Vec::new();
    let mut reached: Option<(Moment, EntryId)> = None;
    for (begun, done) in loads {
        if let Some((ended, entry)) = reached.filter(|(ended, _)| *ended < begun.0) {
            gaps.push((ended, begun.0, vec![entry, begun.1]));
        }
        // While a load has no end, nobody knows of a gap after it.
        reached = done.into_iter().chain(reached).max_by_key(|(at, _)| *at);
    }
    let stops = sources.log.each::<Interruption>().filter_map(|(line, stop)| {
        let until = stop.until.filter(|until| *until <= sources.picture.now)?;
        Some((line.at, until, vec![line.entry.id]))
    });
    gaps.extend(stops);
    gaps
}

/// A load counts as sounded when a sounding names it, or one was taken between its end and the next start.
///
/// It is due once the next load goes in or the pour is over: until then the tape may still be on its way.
fn soundings(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let picture = sources.picture;
    let used: Vec<_> =
        picture.loads.iter().filter(|load| load.used()).filter_map(|load| Some((load, load.done?))).collect();
    let mut all = Vec::new();
    for (load, (ended, entry)) in &used {
        let starts = picture.loads.iter().filter(|other| other.used() && other.ticket != load.ticket);
        let next = starts.filter_map(|other| other.started).filter(|start| start >= ended).min();
        let between = |at: Moment| *ended <= at && next.is_none_or(|next| at <= next);
        let sounding = picture.concrete.iter().find(|level| match level.after.as_deref() {
            Some(after) => after.trim() == load.ticket,
            None => between(level.at),
        });
        if sounding.is_none() && next.is_none() && sources.pour_finished().is_none() {
            continue;
        }
        let evidence = vec![load.entries[0], sounding.map_or(*entry, |level| level.entry)];
        let value = Some(Measured::from(sounding.is_some()));
        let subject = Subject::Load(load.ticket.to_owned());
        all.push(Measurement::of("placing.sounded_after_load", subject, value, evidence).at(*ended));
    }
    let loads: Vec<EntryId> = used.iter().map(|(load, _)| load.entries[0]).collect();
    let drawn = curve_drawn(&all, &loads);
    all.extend(drawn);
    all.extend(level_differences(picture));
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
    if loads.is_empty() || sounded.is_empty() {
        return None;
    }
    let all = sounded.iter().all(|one| one.value == Some(true.into()));
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
        let readable = is_readable(interval);
        if readable {
            all.push(one("volume.ratio.interval", Measured::ratio(ratio.value)));
        }
        if let Some(departure) =
            interval.departure.filter(|departure| readable && departure.others.value > 0.0)
            && mostly_open_hole(sources, interval, sounding.at)
        {
            let share = (departure.difference.value / departure.others.value).abs();
            let aside = Aside::Ratios { own: ratio.value, rest: departure.others.value };
            all.push(one("volume.departure", Fraction::part(share).into()).beside(aside));
        }
    }
    all.extend(totals(sources));
    all
}

/// Long beside the error of the tape; or so far off the rest that no error of tape and tickets makes it so, as
/// where a sounding was misread.
fn is_readable(interval: &calc::curve::Interval) -> bool {
    let far = |z: f64| z.abs() >= crate::assumed::unmistakable();
    let far_off = interval.unlike_the_rest().is_some_and(far);
    far_off || interval.rise.value >= crate::assumed::least_rise()
}

/// At least half of an interval lies against the ground. Inside a casing there is no wall to break out: its
/// ratio is near one by nature and says nothing against the open hole.
fn mostly_open_hole(sources: &Sources<'_, '_>, interval: &calc::curve::Interval, at: Moment) -> bool {
    let shoes = sources.picture.casings.iter().filter_map(|casing| casing.shoe(at));
    let Some(lowest) = shoes.min() else { return true };
    let cased = interval.upper.above(lowest.max(interval.lower));
    cased.to_meters() * 2.0 <= interval.rise.value.to_meters()
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
    all.extend(over_cut_off(sources).map(|over| Measurement { at: over.at.or(Some(finished)), ..over }));
    all.push(match sources.log.last::<Vibrated>() {
        Some((line, _)) => Measurement::shaft("placing.top_vibrated", true, vec![line.entry.id]).at(line.at),
        None => Measurement::missing("placing.top_vibrated"),
    });
    all
}

/// The height over the cut-off: as somebody wrote it, else as the concrete was last read; with what ran over.
fn over_cut_off(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let over = sources.log.last::<OverPoured>();
    let written = over.and_then(|(line, over)| Some((line.at, over.height.as_ref()?.value(), line.entry.id)));
    let one = match written {
        Some((at, height, entry)) => Measurement::shaft("placing.overpour", height, vec![entry]).at(at),
        None => {
            let (level, entry) = cast(sources)?;
            let cut_off = sources.picture.plan.as_ref()?.cut_off;
            Measurement::shaft("placing.overpour", level.above(cut_off), vec![entry])
        }
    };
    let ran_over = over.and_then(|(_, over)| over.volume.as_ref()).map(|volume| volume.value());
    Some(Measurement { aside: ran_over.map(Aside::RanOver), ..one })
}

/// Where the concrete stood in the end: as last sounded, or as the last lift of a casing left it.
fn cast(sources: &Sources<'_, '_>) -> Option<(Elevation, EntryId)> {
    let sounded = sources.picture.surface(sources.picture.now)?;
    let lifts = sources.reckoning.lifts.iter().filter(|lift| lift.at > sounded.at);
    let left = lifts.filter_map(|lift| Some((lift.left_at?, lift.entries[0]))).next_back();
    Some(left.unwrap_or((sounded.level, sounded.entry)))
}
