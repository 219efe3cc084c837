//! Facts of slump life: what the concrete still was when casing was out and every insert in.

use super::Sources;
use crate::measure::Measurement;
use crate::reckon::{Life, LoadLife, SlumpReckoning};
use quantity::{Length, Moment, Span};
use record::EntryId;
use record::kinds::{AnchorsSet, ConduitSet};

/// When casing is out and the last insert is in: the end of what the slump has to last for.
pub(crate) fn finished(sources: &Sources<'_, '_>) -> Option<(Moment, EntryId)> {
    let pour = sources.pour_over()?;
    let casing = sources.picture.casings.iter().filter_map(|casing| casing.out);
    // The bolts are set once; what is written of them later is a reading.
    let anchors = sources.log.each::<AnchorsSet>().map(|(line, _)| (line.at, line.entry.id));
    let anchors = anchors.filter(|(at, _)| *at >= pour.0).take(1);
    let conduits = sources.log.each::<ConduitSet>().map(|(line, _)| (line.at, line.entry.id));
    let after = casing.chain(anchors).chain(conduits).filter(|(at, _)| *at >= pour.0);
    after.chain([pour]).max_by_key(|(at, _)| *at)
}

/// Temporary casing that still stands: the slump has to last until it is out.
pub(crate) fn casing_stands(sources: &Sources<'_, '_>) -> bool {
    sources.picture.casings.iter().any(crate::picture::CasingHistory::is_to_come_out)
}

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some((at, entry)) = finished(sources).filter(|_| !casing_stands(sources)) else { return Vec::new() };
    let Some(slump) = &sources.reckoning.slump else {
        return vec![Measurement::missing("slump.until_finished"), Measurement::missing("slump.life_left")];
    };
    let evidence = |load: &LoadLife| -> Vec<EntryId> {
        load.entries.iter().copied().chain([slump.mix_entry, entry]).collect()
    };
    let mut all = vec![match least(slump, at) {
        Some((least, load)) => Measurement::shaft("slump.until_finished", least, evidence(load)).at(at),
        None => Measurement::missing("slump.until_finished"),
    }];
    all.extend(slump.limit.map(|limit| match life_left(slump, at, limit) {
        Some((left, load)) => Measurement::shaft("slump.life_left", left, evidence(load)).at(at),
        None => Measurement::missing("slump.life_left"),
    }));
    all
}

fn age(load: &LoadLife, at: Moment) -> Option<Span> {
    Some(Span::minutes(at.minutes_since(load.batched?)))
}

/// The load with the least slump at a moment; `None` when that of any load is not known, since it could be
/// less.
fn least(slump: &SlumpReckoning, at: Moment) -> Option<(Length, &LoadLife)> {
    let slumps: Option<Vec<_>> = slump.slumps_on(at).into_iter().collect();
    let slumps = slumps?.into_iter().map(|slump| slump.value).zip(&slump.loads);
    slumps.min_by_key(|(slump, _)| *slump)
}

/// What is left of the life of the load that ends first; a life the trial does not see the end of counts as
/// long as it is sure.
fn life_left(slump: &SlumpReckoning, at: Moment, limit: Length) -> Option<(Span, &LoadLife)> {
    let left = |(life, load): (Option<Life>, &LoadLife)| -> Option<f64> {
        let life = match life? {
            Life::Until(life) => life.value,
            Life::AtLeast(sure) => sure,
            Life::Never => Span::seconds(0.0),
        };
        Some(life.to_seconds() - age(load, at)?.to_seconds())
    };
    let lives = slump.lives_above(limit).into_iter().zip(&slump.loads);
    let all: Option<Vec<(f64, &LoadLife)>> =
        lives.map(|(life, load)| Some((left((life, load))?, load))).collect();
    let (left, load) = all?.into_iter().min_by(|a, b| a.0.total_cmp(&b.0))?;
    Some((Span::seconds(left), load))
}
