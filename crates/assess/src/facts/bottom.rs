//! Facts of the bottom: soundings, sediment, acceptance, depth against the plan.

use super::Sources;
use crate::measure::Measurement;
use crate::picture::BottomSounding;
use criteria::Measured;
use quantity::{Elevation, Length, Moment, Slope};
use record::EntryId;
use record::choices::{Ground, SoundingPurpose};
use record::kinds::{CageSet, RockSocket, StratumMet};

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let due = sources.picture.bottom.reached.is_some() || sources.concrete_started().is_some();
    let mut all = Vec::new();
    if due {
        all.extend(sounded(sources));
        all.extend(accepted(sources));
        all.extend(sediment(sources));
    }
    all.extend(depth(sources));
    all.extend(socket(sources));
    all
}

/// Soundings before the first concrete.
fn before_concrete<'v>(sources: &Sources<'v, '_>) -> Vec<&'v BottomSounding> {
    let until = sources.concrete_started().map(|(at, _)| at);
    let soundings = sources.picture.bottom.soundings.iter();
    soundings.filter(|sounding| until.is_none_or(|until| sounding.at <= until)).collect()
}

fn sounded(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let soundings = before_concrete(sources);
    let Some(last) = soundings.last() else {
        return vec![Measurement::missing("bottom.sounded"), Measurement::missing("bottom.weighted_tape")];
    };
    let evidence = vec![last.entry];
    let cleaned = sources.picture.bottom.cleaned.iter().map(|(at, _)| *at).max();
    let after_cleaning = cleaned.is_none_or(|cleaned| cleaned <= last.at);
    let points = u32::try_from(last.points.len()).unwrap_or(u32::MAX);
    let mut all = vec![
        Measurement::shaft("bottom.sounded", true, evidence.clone()).at(last.at),
        Measurement::shaft("bottom.weighted_tape", after_cleaning, evidence.clone()).at(last.at),
        Measurement::shaft("bottom.points", Measured::count(points), evidence.clone()).at(last.at),
    ];
    all.extend(resounded(sources, &soundings));
    all.extend(change(sources, &soundings));
    all.extend(levelness(sources, last));
    all
}

/// Sounded again after the cage was set.
fn resounded(sources: &Sources<'_, '_>, soundings: &[&BottomSounding]) -> Option<Measurement> {
    let (caged, entry) = sources.log.each::<CageSet>().next().map(|(line, _)| (line.at, line.entry.id))?;
    sources.concrete_started()?;
    let again = soundings
        .iter()
        .find(|sounding| sounding.at >= caged || sounding.purpose == SoundingPurpose::BeforeConcrete);
    let evidence = [Some(entry), again.map(|sounding| sounding.entry)].into_iter().flatten().collect();
    Some(Measurement::shaft("bottom.resounded", again.is_some(), evidence))
}

/// How much shallower the last sounding is than the one the bottom was accepted by.
fn change(sources: &Sources<'_, '_>, soundings: &[&BottomSounding]) -> Option<Measurement> {
    let (accepted, entry, _) = sources.picture.bottom.accepted.first()?;
    let then = soundings.iter().rfind(|sounding| sounding.at <= *accepted)?;
    let last = soundings.last().filter(|last| last.at > *accepted)?;
    let rise = last.surface.mean.value.above(then.surface.mean.value);
    let evidence = vec![then.entry, *entry, last.entry];
    Some(Measurement::shaft("bottom.change_since_accepted", rise, evidence).at(last.at))
}

/// Difference between highest and lowest point over the diameter.
fn levelness(sources: &Sources<'_, '_>, last: &BottomSounding) -> Option<Measurement> {
    let diameter = sources.picture.plan.as_ref()?.diameter.filter(|diameter| *diameter > Length::ZERO)?;
    if last.points.len() < 2 {
        return None;
    }
    let highest = last.points.iter().map(|(_, level)| *level).max()?;
    let lowest = last.points.iter().map(|(_, level)| *level).min()?;
    let slope = Slope::part(highest.above(lowest).to_meters() / diameter.to_meters());
    Some(Measurement::shaft("bottom.levelness", slope, vec![last.entry]).at(last.at))
}

fn accepted(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let begun = sources.concrete_started();
    let first = sources.picture.bottom.accepted.first();
    match (first, begun) {
        (Some((at, entry, _)), begun) => {
            let in_time = begun.is_none_or(|(begun, _)| *at <= begun);
            Some(Measurement::shaft("bottom.accepted", in_time, vec![*entry]).at(*at))
        }
        (None, Some(_)) => Some(Measurement::missing("bottom.accepted")),
        (None, None) => None,
    }
}

fn sediment(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some(base) = &sources.reckoning.base else {
        return ["bottom.sediment_recorded", "bottom.sediment.max", "bottom.sediment.mean"]
            .map(Measurement::missing)
            .to_vec();
    };
    let one = |fact, thickness: Length| Measurement::shaft(fact, thickness, vec![base.entry]).at(base.at);
    vec![
        Measurement::shaft("bottom.sediment_recorded", true, vec![base.entry]).at(base.at),
        one("bottom.sediment.max", base.worst),
        one("bottom.sediment.mean", base.mean),
        one("bottom.sediment.half_area", base.half_area),
    ]
}

/// Bottom against planned tip: positive when the hole is too shallow.
fn depth(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let plan = sources.picture.plan.as_ref()?;
    let reached: Option<(Elevation, EntryId, Moment)> = sources
        .picture
        .bottom
        .last_sounding()
        .map(|sounding| (sounding.surface.highest.value, sounding.entry, sounding.at))
        .or(sources.picture.bottom.reached.map(|(at, level, entry)| (level, entry, at)));
    let Some((level, entry, at)) = reached else {
        return sources.concrete_started().map(|_| Measurement::missing("bottom.tip_above_plan"));
    };
    let evidence = vec![entry, plan.entry];
    Some(Measurement::shaft("bottom.tip_above_plan", level.above(plan.tip), evidence).at(at))
}

/// Planned rock socket against the socket as drilled: as written, else from the rock met to the bottom.
fn socket(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let plan = sources.picture.plan.as_ref()?;
    let pieces = plan.bore.as_ref().ok()?.pieces();
    let planned: Length = pieces
        .iter()
        .filter(|p| p.part == calc::geometry::Part::Socket)
        .map(calc::geometry::Piece::height)
        .sum();
    if planned == Length::ZERO {
        return None;
    }
    let (_, bottom, reached) = sources.picture.bottom.reached?;
    let Some((rock, foot, entry)) = rock(sources) else {
        return Some(Measurement::missing("socket.length_short"));
    };
    let short = planned - rock.above(foot.unwrap_or(bottom));
    Some(Measurement::shaft("socket.length_short", short, vec![plan.entry, entry, reached]))
}

/// Where the rock begins, where the socket ends if that was written, and the entry.
fn rock(sources: &Sources<'_, '_>) -> Option<(Elevation, Option<Elevation>, EntryId)> {
    let references = &sources.picture.references;
    if let Some((line, socket)) = sources.log.last::<RockSocket>() {
        let foot = socket.to.as_ref().and_then(|depth| references.elevation(depth.value(), line.at));
        return Some((references.elevation(socket.from.value(), line.at)?, foot, line.entry.id));
    }
    let is_rock = |ground: Ground| matches!(ground, Ground::Rock | Ground::WeatheredRock);
    let (line, stratum) = sources.log.each::<StratumMet>().find(|(_, stratum)| is_rock(stratum.ground))?;
    Some((references.elevation(stratum.from.value(), line.at)?, None, line.entry.id))
}
