//! Facts before the drill turns: papers, equipment, stake-out, utilities, surface casing, instruments.

use super::Sources;
use crate::measure::{Measurement, Subject};
use criteria::Measured;
use quantity::{Length, Span};
use record::EntryId;
use record::choices::{CasingStay, Instrument};
use record::kinds::{
    CasingSet, EquipmentChecked, InstallationPlan, InstrumentChecked, ReferenceSet, StakeOut,
    UtilitiesCleared,
};

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let mut all = geometry(sources);
    all.extend(installation_plan(sources));
    all.extend(equipment(sources));
    all.extend(set_out(sources));
    all.extend(utilities(sources));
    all.extend(casing(sources));
    all.extend(instruments(sources));
    all
}

fn geometry(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some(plan) = &sources.picture.plan else { return Vec::new() };
    let Some(diameter) = plan.diameter.filter(|diameter| *diameter > Length::ZERO) else { return Vec::new() };
    let slenderness = plan.depth().to_meters() / diameter.to_meters();
    let mut all = vec![
        Measurement::shaft("geometry.diameter", diameter, vec![plan.entry]),
        Measurement::shaft("geometry.slenderness", Measured::ratio(slenderness), vec![plan.entry]),
    ];
    let rake = plan.shaft.rake.as_ref().map(|rake| rake.value());
    all.extend(rake.map(|rake| Measurement::shaft("geometry.rake", rake, vec![plan.entry])));
    all
}

fn installation_plan(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some((begun, first)) = sources.drilling_started() else { return Vec::new() };
    let submitted = sources.log.each::<InstallationPlan>().find(|(line, _)| line.at <= begun);
    let Some((line, plan)) = submitted else {
        return vec![Measurement::missing("plan.installation_approved")];
    };
    let evidence = vec![line.entry.id, first];
    let handed_in = plan.submitted.unwrap_or(line.at);
    let ahead = Span::minutes(begun.minutes_since(handed_in));
    vec![
        Measurement::shaft("plan.installation_approved", plan.approved, evidence.clone()),
        Measurement::shaft("plan.submitted_ahead", ahead, evidence),
    ]
}

/// Planned diameter less the widest tool measured.
fn equipment(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let plan = sources.picture.plan.as_ref()?;
    let measured = sources
        .log
        .each::<EquipmentChecked>()
        .filter_map(|(line, tool)| Some((tool.diameter.as_ref()?.value(), line.entry.id)));
    let (widest, entry) = measured.max_by_key(|(diameter, _)| *diameter)?;
    Some(Measurement::shaft(
        "equipment.tool_diameter_short",
        plan.diameter? - widest,
        vec![entry, plan.entry],
    ))
}

fn set_out(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some((begun, first)) = sources.drilling_started() else { return Vec::new() };
    let staked = sources.log.each::<StakeOut>().find(|(line, _)| line.at <= begun);
    let stake = match staked {
        Some((line, _)) => Measurement::shaft("stakeout.checked", true, vec![line.entry.id, first]),
        None => Measurement::missing("stakeout.checked"),
    };
    let reference = sources.log.each::<ReferenceSet>().next().map(|(line, _)| line.entry.id);
    let known = match reference {
        Some(entry) => Measurement::shaft("reference.elevation_known", true, vec![entry]),
        None => Measurement::missing("reference.elevation_known"),
    };
    vec![stake, known]
}

/// Cleared before the machine drilled; dug by hand as written, or as far as the runs by hand went.
fn utilities(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some((begun, first)) = sources.machine_started() else { return Vec::new() };
    let cleared = sources.log.each::<UtilitiesCleared>().find(|(line, _)| line.at <= begun);
    let mut all = vec![match cleared {
        Some((line, _)) => Measurement::shaft("utilities.cleared", true, vec![line.entry.id, first]),
        None => Measurement::missing("utilities.cleared"),
    }];
    let written =
        cleared.and_then(|(line, cleared)| Some((cleared.hand_dug.as_ref()?.value(), line.entry.id)));
    all.push(match written.or_else(|| hand_dug(sources)) {
        Some((depth, entry)) => Measurement::shaft("utilities.hand_dug_depth", depth, vec![entry]),
        None => Measurement::missing("utilities.hand_dug_depth"),
    });
    all
}

fn hand_dug(sources: &Sources<'_, '_>) -> Option<(Length, EntryId)> {
    let ground = sources.picture.plan.as_ref()?.ground?;
    let (begun, _) = sources.machine_started()?;
    let runs = sources.picture.hole.iter().filter(|step| step.by_hand && step.from <= begun);
    let deepest = runs.min_by_key(|step| step.reached)?;
    Some((ground.above(deepest.reached), deepest.entry))
}

/// The first casing is the surface casing.
fn casing(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let mut all = Vec::new();
    let ground = sources.picture.plan.as_ref().and_then(|plan| plan.ground);
    for (line, set) in sources.log.each::<CasingSet>() {
        if let Some(plumb) = &set.plumb {
            all.push(Measurement::shaft("casing.plumbness", plumb.value(), vec![line.entry.id]).at(line.at));
        }
    }
    all.extend(above_water(sources));
    let Some(first) = sources.picture.casings.first().filter(|casing| casing.stay == CasingStay::Temporary)
    else {
        return all;
    };
    let written = sources.log.each::<CasingSet>().next().and_then(|(_, set)| set.above_ground.as_ref());
    let above =
        written.map(|height| height.value()).or(first.top.zip(ground).map(|(top, ground)| top.above(ground)));
    let below = first.deepest().zip(ground).map(|(shoe, ground)| ground.above(shoe));
    for (fact, value) in [("casing.surface.above_ground", above), ("casing.surface.below_ground", below)] {
        all.push(match value {
            Some(value) => Measurement::shaft(fact, value, vec![first.entry]),
            None => Measurement::missing(fact),
        });
    }
    all
}

/// Height of a permanent casing above the open water the shaft stands in, the lowest of them.
fn above_water(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let plan = sources.picture.plan.as_ref()?;
    let water = plan.shaft.open_water.as_ref()?.value();
    let permanent = sources.picture.casings.iter().filter(|casing| casing.stay == CasingStay::Permanent);
    let tops: Vec<_> = permanent.map(|casing| (casing.top, casing.entry)).collect();
    let fact = "casing.permanent.above_water";
    let lowest = tops.iter().min_by_key(|(top, _)| *top)?;
    Some(match lowest {
        (Some(top), entry) => Measurement::shaft(fact, top.above(water), vec![*entry, plan.entry]),
        (None, _) => Measurement::missing(fact),
    })
}

fn instruments(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let mut all = Vec::new();
    for (line, check) in sources.log.each::<InstrumentChecked>() {
        let subject = Subject::Test(line.entry.id);
        let value: Option<(&'static str, Measured)> = match check.instrument {
            Instrument::Funnel => {
                check.water_time.as_ref().map(|time| ("instrument.funnel_in_water", time.value().into()))
            }
            Instrument::Balance => check
                .water_density
                .as_ref()
                .map(|density| ("instrument.balance_in_water", density.value().into())),
            _ => None,
        };
        all.extend(value.map(|(fact, value)| {
            Measurement::of(fact, subject, Some(value), vec![line.entry.id]).at(line.at)
        }));
    }
    all
}
