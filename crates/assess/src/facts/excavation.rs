//! Facts of the excavation: method, reference, waiting, water in a dry hole.

use super::Sources;
use crate::measure::{Measurement, Subject};
use quantity::{Inflow, Moment, Span};
use record::EntryId;
use record::choices::Method;
use record::kinds::{
    CageSet, FluidIntroduced, InflowMeasured, StratumMet, ToolRun, WorkResumed, WorkStopped,
};

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let single = [
        method_allowed(sources),
        from_reference(sources),
        secured(sources),
        overnight(sources),
        strata(sources),
        water_depth(sources),
        wall_exposure(sources),
    ];
    single.into_iter().flatten().chain(inflow(sources)).chain(waits(sources)).collect()
}

/// The hole was made wet, or the plans allow the dry method that was used.
fn method_allowed(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let plan = sources.picture.plan.as_ref()?;
    let (_, begun) = sources.machine_started()?;
    let wet = sources.log.last::<FluidIntroduced>().map(|(line, _)| line.entry.id);
    let allowed = wet.is_some() || plan.shaft.dry_allowed == Some(true) || plan.shaft.method != Method::Dry;
    let unsaid = plan.shaft.method == Method::Dry && plan.shaft.dry_allowed.is_none() && wet.is_none();
    let evidence = vec![plan.entry, wet.unwrap_or(begun)];
    Some(match unsaid {
        true => Measurement::missing("excavation.method_allowed"),
        false => Measurement::shaft("excavation.method_allowed", allowed, evidence),
    })
}

fn from_reference(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let depths = sources.picture.bottom.soundings.len() + sources.picture.concrete.len();
    if depths == 0 {
        return None;
    }
    let set = sources.picture.references.is_set();
    let first = sources.picture.bottom.soundings.first().map(|sounding| sounding.entry);
    let read = first.or(sources.picture.concrete.first().map(|level| level.entry));
    let evidence = sources.picture.references.entries().into_iter().chain(read).collect();
    Some(Measurement::shaft("excavation.depth_from_reference", set, evidence))
}

/// Every stop says that the hole was covered. A stop that says nothing is not measured.
fn secured(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let stops: Vec<(EntryId, Option<bool>)> =
        sources.log.each::<WorkStopped>().map(|(line, stop)| (line.entry.id, stop.covered)).collect();
    let evidence: Vec<EntryId> = stops.iter().map(|(entry, _)| *entry).collect();
    if stops.is_empty() {
        return None;
    }
    if stops.iter().any(|(_, covered)| *covered == Some(false)) {
        return Some(Measurement::shaft("excavation.unattended_secured", false, evidence));
    }
    match stops.iter().all(|(_, covered)| covered.is_some()) {
        true => Some(Measurement::shaft("excavation.unattended_secured", true, evidence)),
        false => Some(Measurement::missing("excavation.unattended_secured")),
    }
}

/// Left open over midnight without casing down to the bottom.
fn overnight(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let (begun, first) = sources.machine_started()?;
    let (started, last) = sources.concrete_started()?;
    if begun.date() == started.date() {
        return Some(Measurement::shaft("excavation.overnight_cased", true, vec![first, last]));
    }
    let bottom = sources.reckoning.hole.as_ref().map(|hole| hole.base.value)?;
    let before_night = |at: Moment| at.date() < started.date();
    let cased = sources.picture.casings.iter().any(|casing| {
        casing
            .steps
            .iter()
            .rfind(|step| before_night(step.at))
            .and_then(|step| step.shoe)
            .is_some_and(|s| s <= bottom)
    });
    let evidence = vec![first, last].into_iter().chain(sources.entries::<WorkResumed>()).collect();
    Some(Measurement::shaft("excavation.overnight_cased", cased, evidence).at(started))
}

/// Tool runs or strata describe the ground over the whole depth.
fn strata(sources: &Sources<'_, '_>) -> Option<Measurement> {
    sources.picture.bottom.reached.as_ref()?;
    let runs = sources.log.each::<ToolRun>();
    let described: Vec<bool> = runs.map(|(_, run)| run.material.is_some() || run.ground.is_some()).collect();
    let layers = sources.entries::<StratumMet>();
    if described.is_empty() && layers.is_empty() {
        return Some(Measurement::missing("excavation.strata_recorded"));
    }
    let complete = !layers.is_empty() || described.iter().all(|described| *described);
    let evidence = layers.into_iter().chain(sources.entries::<ToolRun>()).collect();
    Some(Measurement::shaft("excavation.strata_recorded", complete, evidence))
}

fn is_dry(sources: &Sources<'_, '_>) -> bool {
    sources.log.last::<FluidIntroduced>().is_none() && sources.picture.fluid.is_empty()
}

fn water_depth(sources: &Sources<'_, '_>) -> Option<Measurement> {
    if !is_dry(sources) {
        return None;
    }
    let until = sources.concrete_started().map(|(at, _)| at);
    let read =
        sources.log.each::<InflowMeasured>().filter(|(line, _)| until.is_none_or(|until| line.at <= until));
    let last = read.filter_map(|(line, water)| Some((line, water.standing.as_ref()?))).next_back();
    match last {
        Some((line, standing)) => {
            Some(Measurement::shaft("dry.water_depth", standing.value(), vec![line.entry.id]).at(line.at))
        }
        None => until.map(|_| Measurement::missing("dry.water_depth")),
    }
}

fn inflow(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let rate = |water: &InflowMeasured| {
        let written = water.rate.as_ref().map(|rate| rate.value());
        let timed = water.rise.as_ref().zip(water.over.as_ref()).and_then(|(rise, over)| {
            let hours = over.value().to_hours();
            (hours > 0.0).then(|| Inflow::meters_per_hour(rise.value().to_meters() / hours))
        });
        written.or(timed)
    };
    let read = sources.log.each::<InflowMeasured>().filter_map(|(line, water)| {
        let subject = Subject::Test(line.entry.id);
        let value = Some(rate(water)?.into());
        Some(Measurement::of("dry.inflow", subject, value, vec![line.entry.id]).at(line.at))
    });
    read.collect()
}

/// From a moment to the first concrete, or to now while there is none.
fn until_concrete(
    sources: &Sources<'_, '_>,
    fact: &'static str,
    from: Option<(Moment, EntryId)>,
) -> Option<Measurement> {
    let (from, entry) = from?;
    let started = sources.concrete_started();
    let until = started.map_or(sources.picture.now, |(at, _)| at);
    let evidence = [Some(entry), started.map(|(_, entry)| entry)].into_iter().flatten().collect();
    Some(Measurement::shaft(fact, Span::minutes(until.minutes_since(from)), evidence).at(until))
}

fn waits(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let picture = sources.picture;
    let started = sources.concrete_started().map(|(at, _)| at);
    let before = |at: Moment| started.is_none_or(|started| at <= started);
    let bottom = picture.bottom.reached.map(|(at, _, entry)| (at, entry));
    let cleaned =
        picture.bottom.cleaned.iter().filter(|(at, _)| before(*at)).max_by_key(|(at, _)| *at).copied();
    let accepted = picture.bottom.accepted.iter().filter(|(at, ..)| before(*at));
    let accepted = accepted.map(|(at, entry, _)| (*at, *entry)).max_by_key(|(at, _)| *at);
    // The cage is accepted when it was checked and stands in the hole: the later of the two counts.
    let caged = sources.log.each::<CageSet>().rfind(|(line, _)| before(line.at));
    let caged = caged.map(|(line, _)| (line.at, line.entry.id));
    let accepted =
        accepted.map(|bottom| caged.into_iter().fold(bottom, |a, b| if b.0 > a.0 { b } else { a }));
    let waits = [
        until_concrete(sources, "time.open_hole", sources.machine_started()),
        until_concrete(sources, "time.bottom_to_concrete", bottom),
        until_concrete(sources, "time.cleaning_to_concrete", cleaned),
        until_concrete(sources, "time.accepted_to_concrete", accepted),
    ];
    waits.into_iter().flatten().collect()
}

fn wall_exposure(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let first = sources.log.each::<FluidIntroduced>().next().map(|(line, _)| (line.at, line.entry.id));
    until_concrete(sources, "time.wall_exposure", first)
}
