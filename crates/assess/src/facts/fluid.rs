//! Facts of the drilling fluid: its tests by stage, its level, when it was sampled.

use super::Sources;
use crate::measure::{Measurement, Subject};
use criteria::{Measured, Verdict};
use quantity::{Elevation, Moment, Span};
use record::choices::{FluidPlace, FluidStage, FluidType};
use record::kinds::{FluidIntroduced, FluidTest};
use record::{EntryId, Line};

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let mut all = tests(sources);
    if is_fluid(sources) {
        all.extend(before_casing_bottom(sources));
        all.extend(head(sources));
        all.extend(hydration(sources));
        all.extend(intervals(sources));
        all.extend(tank_first(sources));
        all.extend(last_round(sources));
        all.extend(stagnant(sources));
    }
    all
}

/// There is, or should be, a fluid in this hole.
fn is_fluid(sources: &Sources<'_, '_>) -> bool {
    let tested = sources.log.last::<FluidTest>().is_some() || sources.log.last::<FluidIntroduced>().is_some();
    let planned = sources.picture.plan.as_ref();
    tested || planned.is_some_and(|plan| plan.shaft.method == record::choices::Method::Wet)
}

/// The names of the four properties by stage; a stage without a family of its own is read as drilling.
fn names(stage: FluidStage) -> [&'static str; 4] {
    match stage {
        FluidStage::Introduction => [
            "fluid.density.introduced",
            "fluid.viscosity.introduced",
            "fluid.ph.introduced",
            "fluid.sand.introduced",
        ],
        FluidStage::Drilling | FluidStage::Reuse | FluidStage::Cleaning => {
            ["fluid.density.drilling", "fluid.viscosity.drilling", "fluid.ph.drilling", "fluid.sand.drilling"]
        }
        FluidStage::BeforeConcrete => [
            "fluid.density.before_concrete",
            "fluid.viscosity.before_concrete",
            "fluid.ph.before_concrete",
            "fluid.sand.before_concrete",
        ],
    }
}

fn tests(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    sources.log.each::<FluidTest>().flat_map(|(line, test)| one_test(line, test)).collect()
}

fn one_test(line: &Line<'_>, test: &FluidTest) -> Vec<Measurement> {
    let fresh = test.stage == FluidStage::Introduction;
    let [density, viscosity, ph, sand] = names(test.stage);
    let (loss, cake) = match fresh {
        true => ("fluid.filter_loss.introduced", "fluid.filter_cake.introduced"),
        false => ("fluid.filter_loss.drilling", "fluid.filter_cake.drilling"),
    };
    let values: [(&'static str, Option<Measured>); 8] = [
        (density, test.density.as_ref().map(|value| value.value().into())),
        (viscosity, test.viscosity.as_ref().map(|value| value.value().into())),
        (ph, test.ph.as_ref().map(|value| value.value().into())),
        (sand, test.sand.as_ref().map(|value| value.value().into())),
        ("fluid.temperature", test.temperature.as_ref().map(|value| value.value().into())),
        ("fluid.gel_strength", test.gel.as_ref().map(|value| value.value().into())),
        (loss, test.fluid_loss.as_ref().map(|value| value.value().into())),
        (cake, test.cake.as_ref().map(|value| value.value().into())),
    ];
    let due = |(fact, value): &(&'static str, Option<Measured>)| {
        value.is_some() || [density, viscosity, ph, sand].contains(fact)
    };
    let subject = Subject::Test(line.entry.id);
    values
        .into_iter()
        .filter(due)
        .map(|(fact, value)| Measurement::of(fact, subject.clone(), value, vec![line.entry.id]).at(line.at))
        .collect()
}

/// Fluid stood in the hole before the machine drilled past the shoe of the first casing.
fn before_casing_bottom(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let shoe = sources.picture.casings.first()?.steps.first()?.shoe?;
    let past = sources.picture.hole.iter().find(|step| step.reached < shoe)?;
    let first = sources.log.each::<FluidIntroduced>().next().map(|(line, _)| (line.at, line.entry.id));
    let evidence = first.map(|(_, entry)| entry).into_iter().chain([past.entry]).collect();
    let in_time = first.is_some_and(|(at, _)| at <= past.from);
    Some(Measurement::shaft("fluid.before_casing_bottom", in_time, evidence).at(past.at))
}

/// Least height of the fluid above groundwater: with what was read beside it, else the groundwater met or
/// expected.
fn head(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let picture = sources.picture;
    let heads = picture.fluid.iter().filter_map(|step| {
        let (water, from) = groundwater(sources, step.at, step.groundwater)?;
        let evidence: Vec<EntryId> = [Some(step.entry), from].into_iter().flatten().collect();
        Some((step.surface.above(water), step.at, evidence))
    });
    match heads.min_by_key(|(head, ..)| *head) {
        Some((head, at, evidence)) => Some(Measurement::shaft("fluid.head", head, evidence).at(at)),
        None => sources.machine_started().map(|_| Measurement::missing("fluid.head")),
    }
}

/// Groundwater at a moment, and the entry it comes from.
pub(crate) fn groundwater(
    sources: &Sources<'_, '_>,
    at: Moment,
    read: Option<Elevation>,
) -> Option<(Elevation, Option<EntryId>)> {
    if let Some(level) = read {
        return Some((level, None));
    }
    let met =
        sources.picture.water.iter().rfind(|step| step.at <= at).map(|step| (step.level, Some(step.entry)));
    let plan = sources.picture.plan.as_ref();
    met.or_else(|| plan.and_then(|plan| Some((plan.groundwater?, Some(plan.entry)))))
}

fn hydration(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let mineral =
        sources.log.each::<FluidIntroduced>().filter(|(_, fluid)| fluid.fluid == FluidType::Mineral);
    let timed = mineral.filter_map(|(line, fluid)| {
        let span = Span::minutes(line.at.minutes_since(fluid.mixed?));
        let subject = Subject::Test(line.entry.id);
        let value = Some(span.into());
        Some(Measurement::of("fluid.hydration_time", subject, value, vec![line.entry.id]).at(line.at))
    });
    timed.collect()
}

/// Longest time between tests from the first fluid to the first concrete, or to now.
fn intervals(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some((begun, first)) =
        sources.log.each::<FluidIntroduced>().next().map(|(line, _)| (line.at, line.entry.id))
    else {
        return Vec::new();
    };
    let end = sources.concrete_started().map_or(sources.picture.now, |(at, _)| at);
    let tests = sources.log.each::<FluidTest>().filter(|(line, _)| begun <= line.at && line.at <= end);
    let mut moments: Vec<(Moment, EntryId)> = tests.map(|(line, _)| (line.at, line.entry.id)).collect();
    moments.insert(0, (begun, first));
    moments.push((end, moments[moments.len() - 1].1));
    let longest = moments.windows(2).max_by_key(|pair| pair[1].0.seconds() - pair[0].0.seconds());
    let Some(pair) = longest else { return Vec::new() };
    let span = Span::minutes(pair[1].0.minutes_since(pair[0].0));
    let measured = |fact| Measurement::shaft(fact, span, vec![pair[0].1, pair[1].1]).at(pair[1].0);
    vec![measured("fluid.test_interval.early"), measured("fluid.test_interval.later")]
}

/// A test of the tank before the fluid went in. Whether it met its limits shows with the test itself.
fn tank_first(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let (line, _) = sources.log.each::<FluidIntroduced>().next()?;
    let tank = |test: &FluidTest| test.place == FluidPlace::Tank || test.stage == FluidStage::Introduction;
    let mut before =
        sources.log.each::<FluidTest>().filter(|(test_line, test)| tank(test) && test_line.at <= line.at);
    let tested = before.next().map(|(line, _)| line.entry.id);
    let evidence = [Some(line.entry.id), tested].into_iter().flatten().collect();
    Some(Measurement::shaft("fluid.tank_passed_before_use", tested.is_some(), evidence).at(line.at))
}

/// The tests between the end of cleaning and the first concrete, or the last ones marked so.
pub(crate) fn final_tests<'r>(sources: &Sources<'_, 'r>) -> Vec<(Moment, EntryId, &'r FluidTest)> {
    let until = sources.concrete_started().map_or(sources.picture.now, |(at, _)| at);
    let all = sources.log.each::<FluidTest>();
    let last = all.filter(|(line, test)| test.stage == FluidStage::BeforeConcrete && line.at <= until);
    let cleaned = sources.picture.bottom.cleaned.iter().map(|(at, _)| *at).max();
    let since = |at: Moment| cleaned.is_none_or(|cleaned| cleaned <= at);
    last.filter(|(line, _)| since(line.at)).map(|(line, test)| (line.at, line.entry.id, test)).collect()
}

fn last_round(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some((_, started)) = sources.concrete_started() else { return Vec::new() };
    let tests = final_tests(sources);
    let evidence: Vec<EntryId> = tests.iter().map(|(_, entry, _)| *entry).collect();
    let or_start = |evidence: &[EntryId]| if evidence.is_empty() { vec![started] } else { evidence.to_vec() };
    let mut all =
        vec![Measurement::shaft("fluid.sampled_for_concrete", !tests.is_empty(), or_start(&evidence))];
    all.push(match tests.is_empty() {
        true => Measurement::missing("fluid.within_limits_for_concrete"),
        false => Measurement::of("fluid.within_limits_for_concrete", Subject::Shaft, None, evidence.clone()),
    });
    all.extend(levels_sampled(sources, &tests, &evidence));
    all
}

/// Where the last round was sampled: near the bottom, mid-height, how far apart.
fn levels_sampled(
    sources: &Sources<'_, '_>,
    tests: &[(Moment, EntryId, &FluidTest)],
    evidence: &[EntryId],
) -> Vec<Measurement> {
    let Some(hole) = &sources.reckoning.hole else { return Vec::new() };
    let level = |(at, _, test): &(Moment, EntryId, &FluidTest)| {
        sources.picture.references.elevation(test.depth.as_ref()?.value(), *at)
    };
    let mut levels: Vec<Elevation> = tests.iter().filter_map(level).collect();
    levels.sort();
    let Some(lowest) = levels.first() else {
        return if tests.is_empty() {
            Vec::new()
        } else {
            vec![Measurement::missing("fluid.sample_above_bottom")]
        };
    };
    let above = lowest.above(hole.base.value);
    let mut all = vec![Measurement::shaft("fluid.sample_above_bottom", above, evidence.to_vec())];
    all.push(Measurement::shaft("fluid.sampled_at_two_levels", levels.len() > 1, evidence.to_vec()));
    if let Some(gap) = levels.windows(2).map(|pair| pair[1].above(pair[0])).max() {
        all.push(Measurement::shaft("fluid.sample_spacing", gap, evidence.to_vec()));
    }
    all
}

/// Longest time between two dealings with the fluid before concrete.
fn stagnant(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let (started, entry) = sources.concrete_started()?;
    let cleaned =
        sources.picture.bottom.cleaned.iter().filter(|(at, _)| *at <= started).max_by_key(|(at, _)| *at)?;
    let span = Span::minutes(started.minutes_since(cleaned.0));
    Some(Measurement::shaft("fluid.stagnant_time", span, vec![cleaned.1, entry]).at(started))
}

/// Every property with a limit in force met it, in these tests and at this stage; `None` when nothing was
/// judged.
pub(crate) fn within_limits(findings: &[crate::Finding], tests: &[EntryId], stage: &str) -> Option<bool> {
    let of_round =
        findings.iter().filter(|finding| finding.evidence.iter().any(|entry| tests.contains(entry)));
    let judged = of_round.filter(|finding| finding.fact.name.ends_with(stage));
    let verdicts: Vec<&Verdict> = judged.map(|finding| &finding.judgement.verdict).collect();
    let decided =
        verdicts.iter().any(|verdict| matches!(verdict, Verdict::Meets { .. } | Verdict::Fails { .. }));
    decided.then(|| !verdicts.iter().any(|verdict| matches!(verdict, Verdict::Fails { .. })))
}
