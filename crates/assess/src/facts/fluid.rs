//! Facts of the drilling fluid: its tests by stage, its level, when it was sampled.

use super::Sources;
use crate::measure::{Measurement, Subject};
use crate::picture::Picture;
use criteria::{Measured, Verdict};
use quantity::{Elevation, Entered, FunnelTime, InOrder, Moment, Span};
use record::choices::{FluidPlace, FluidStage, FluidType};
use record::kinds::{Cleaning, FluidApproved, FluidIntroduced, FluidLevel, FluidTest, FluidTreated, ToolRun};
use record::{EntryId, Line, Log};
use std::collections::BTreeMap;

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let mut all = tests(sources);
    if is_fluid(sources) {
        all.extend(before_casing_bottom(sources));
        all.extend(head(sources));
        all.extend(sudden_loss(sources));
        all.extend(trial_hole(sources));
        all.extend(hydration(sources));
        all.extend(intervals(sources));
        all.extend(tank_first(sources));
        all.extend(concreting(sources));
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

/// Fluid stood in the hole before the machine drilled past the shoe of the first casing, where it stood by then: a casing
/// that goes down with the hole is not passed while it leads.
fn before_casing_bottom(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let casing = sources.picture.casings.first()?;
    let set = casing.steps.first()?.shoe?;
    let past = sources.picture.hole.iter().find(|step| step.reached < casing.shoe(step.at).unwrap_or(set))?;
    let first = sources.log.each::<FluidIntroduced>().next().map(|(line, _)| (line.at, line.entry.id));
    let evidence = first.map(|(_, entry)| entry).into_iter().chain([past.entry]).collect();
    let in_time = first.is_some_and(|(at, _)| at <= past.from);
    Some(Measurement::shaft("fluid.before_casing_bottom", in_time, evidence).at(past.at))
}

/// Least height of the fluid above groundwater while the hole stood open: with what was read beside it, else
/// the groundwater met or expected. Concrete that rises later lifts the fluid; that is no head.
fn head(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let until = sources.concrete_started().map(|(at, _)| at);
    let open = sources.picture.fluid.iter().filter(|step| until.is_none_or(|until| step.at <= until));
    let heads = open.filter_map(|step| {
        let (water, from) = groundwater(sources, step.at, step.groundwater)?;
        let evidence: Vec<EntryId> = [Some(step.entry), from].into_iter().flatten().collect();
        Some((step.surface.above(water), step.at, evidence))
    });
    match heads.min_by_key(|(head, ..)| *head) {
        Some((head, at, evidence)) => Some(Measurement::shaft("fluid.head", head, evidence).at(at)),
        None => sources.machine_started().map(|_| Measurement::missing("fluid.head")),
    }
}

/// Said of any reading of the level before concrete; not measured where the level was never read.
fn sudden_loss(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let until = sources.concrete_started().map(|(at, _)| at);
    let read =
        sources.log.each::<FluidLevel>().filter(|(line, _)| until.is_none_or(|until| line.at <= until));
    let levels: Vec<(EntryId, bool)> =
        read.map(|(line, level)| (line.entry.id, level.sudden_loss == Some(true))).collect();
    let lost: Vec<EntryId> = levels.iter().filter(|(_, lost)| *lost).map(|(entry, _)| *entry).collect();
    let all = levels.iter().map(|(entry, _)| *entry).collect();
    match (levels.is_empty(), lost.is_empty()) {
        (true, _) => sources.machine_started().map(|_| Measurement::missing("fluid.sudden_loss")),
        (false, true) => Some(Measurement::shaft("fluid.sudden_loss", false, all)),
        (false, false) => Some(Measurement::shaft("fluid.sudden_loss", true, lost)),
    }
}

/// The product that went into the hole, as it was approved.
fn product<'r>(sources: &Sources<'_, 'r>) -> Option<(EntryId, &'r FluidApproved)> {
    let used = sources.log.last::<FluidIntroduced>().map(|(_, fluid)| fluid.product.as_str());
    let planned = sources.picture.plan.as_ref().and_then(|plan| plan.shaft.fluid.as_deref());
    let wanted = used.or(planned)?;
    let mut approved = sources.log.each::<FluidApproved>().filter(|(_, fluid)| fluid.product == wanted);
    approved.next_back().map(|(line, fluid)| (line.entry.id, fluid))
}

fn trial_hole(sources: &Sources<'_, '_>) -> Option<Measurement> {
    sources.machine_started()?;
    let said = product(sources).and_then(|(entry, fluid)| Some((entry, fluid.trial_hole?)));
    Some(match said {
        Some((entry, made)) => Measurement::shaft("fluid.trial_hole_made", made, vec![entry]),
        None => Measurement::missing("fluid.trial_hole_made"),
    })
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

/// Longest time between tests from the first fluid to the first concrete, or to now: while the fluid is new,
/// and after that. Fewest tests on any day, which stands for a shift.
fn intervals(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some((begun, first)) =
        sources.log.each::<FluidIntroduced>().next().map(|(line, _)| (line.at, line.entry.id))
    else {
        return Vec::new();
    };
    let end = sources.concrete_started().map_or(sources.picture.now, |(at, _)| at);
    let tests = sources.log.each::<FluidTest>().filter(|(line, _)| begun <= line.at && line.at <= end);
    let tests: Vec<(Moment, EntryId)> = tests.map(|(line, _)| (line.at, line.entry.id)).collect();
    let mut moments = tests.clone();
    moments.insert(0, (begun, first));
    moments.push((end, moments[moments.len() - 1].1));
    let settled = begun.plus_seconds(crate::assumed::fluid_is_new_for().to_seconds() as i64);
    let gaps = moments.windows(2).filter(|pair| pair[0].0 < pair[1].0);
    let (new, later): (Vec<_>, Vec<_>) = gaps.partition(|pair| pair[0].0 < settled);
    let longest = |fact, gaps: Vec<&[(Moment, EntryId)]>| {
        let pair = gaps.into_iter().max_by_key(|pair| pair[1].0.seconds() - pair[0].0.seconds())?;
        let span = Span::minutes(pair[1].0.minutes_since(pair[0].0));
        Some(Measurement::shaft(fact, span, vec![pair[0].1, pair[1].1]).at(pair[1].0))
    };
    let early = longest("fluid.test_interval.early", new);
    let later = longest("fluid.test_interval.later", later);
    early.into_iter().chain(later).chain([per_day(&tests, (begun, first), end)]).collect()
}

fn per_day(tests: &[(Moment, EntryId)], begun: (Moment, EntryId), end: Moment) -> Measurement {
    const DAY: i64 = 86_400;
    let days = (0..).map(|day| begun.0.plus_seconds(day * DAY).date());
    let counts = days.take_while(|day| *day <= end.date()).map(|day| {
        let of_day: Vec<EntryId> =
            tests.iter().filter(|(at, _)| at.date() == day).map(|(_, entry)| *entry).collect();
        of_day
    });
    let fewest = counts.min_by_key(Vec::len).unwrap_or_default();
    let count = Measured::count(u32::try_from(fewest.len()).unwrap_or(u32::MAX));
    let evidence = fewest.into_iter().chain([begun.1]).collect();
    Measurement::shaft("fluid.tests_per_shift", count, evidence)
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

/// The last tests before concrete: those marked so since the last cleaning, or since the fluid was last
/// treated where it was tested after that; of several at one place the last one.
pub(crate) fn last_round<'l, 'r>(
    log: &'l Log<'r>,
    picture: &Picture<'r>,
) -> Vec<(&'l Line<'r>, &'r FluidTest)> {
    let until = picture.concrete_started().unwrap_or(picture.now);
    let cleaned = picture.bottom.cleaned.iter().map(|(at, _)| *at).filter(|at| *at <= until).max();
    let marked = log.each::<FluidTest>().filter(|(line, test)| {
        let in_time = line.at <= until && cleaned.is_none_or(|cleaned| cleaned <= line.at);
        test.stage == FluidStage::BeforeConcrete && in_time
    });
    let mut round: Vec<(&Line<'_>, &FluidTest)> = marked.collect();
    let treated = log.each::<FluidTreated>().map(|(line, treated)| treated.until.unwrap_or(line.at));
    if let Some(last) = round.last().map(|(line, _)| line.at)
        && let Some(treated) = treated.filter(|at| *at <= last).max()
    {
        round.retain(|(line, _)| treated <= line.at);
    }
    let place = |test: &FluidTest| (test.place, test.depth.as_ref().map(|depth| depth.value()));
    let again =
        |index: usize| round[index + 1..].iter().any(|(_, other)| place(other) == place(round[index].1));
    (0..round.len()).filter(|index| !again(*index)).map(|index| round[index]).collect()
}

fn concreting(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some((_, started)) = sources.concrete_started() else { return Vec::new() };
    let tests = last_round(sources.log, sources.picture);
    let mut evidence: Vec<EntryId> = tests.iter().map(|(line, _)| line.entry.id).collect();
    if tests.is_empty() {
        return vec![
            Measurement::shaft("fluid.sampled_for_concrete", false, vec![started]),
            Measurement::missing("fluid.within_limits_for_concrete"),
        ];
    }
    let mut all = vec![Measurement::shaft("fluid.sampled_for_concrete", true, evidence.clone())];
    all.extend(levels_sampled(sources, &tests, &evidence));
    let own = product(sources).and_then(|(entry, product)| {
        let met = tests.iter().filter_map(|(_, test)| meets_product(product, test)).reduce(|a, b| a && b)?;
        evidence.push(entry);
        Some(met.into())
    });
    all.push(Measurement::of("fluid.within_limits_for_concrete", Subject::Shaft, own, evidence));
    all
}

/// Whether a test lies inside the limits approved for the product; `None` where it has none that apply.
fn meets_product(product: &FluidApproved, test: &FluidTest) -> Option<bool> {
    let density = within(&product.density_low, &test.density, &product.density_high);
    let ph = within(&product.ph_low, &test.ph, &product.ph_high);
    let sand = within(&None, &test.sand, &product.sand_high);
    let viscosity = funnel_within(&product.viscosity_low, &test.viscosity, &product.viscosity_high);
    [density, ph, sand, viscosity].into_iter().flatten().reduce(|a, b| a && b)
}

/// Compared as exactly as both were written.
fn within<Q: quantity::Quantity>(
    low: &Option<Entered<Q>>,
    value: &Option<Entered<Q>>,
    high: &Option<Entered<Q>>,
) -> Option<bool> {
    let value = value.as_ref()?.value().number().to_f64();
    let low = low.as_ref().map(|low| low.value().number().to_f64() <= value);
    let high = high.as_ref().map(|high| value <= high.value().number().to_f64());
    low.into_iter().chain(high).reduce(|a, b| a && b)
}

/// A funnel time compares only with a limit for the same volume.
fn funnel_within(
    low: &Option<Entered<FunnelTime>>,
    value: &Option<Entered<FunnelTime>>,
    high: &Option<Entered<FunnelTime>>,
) -> Option<bool> {
    let basis = value.as_ref()?.value().basis();
    let same = |limit: &Option<Entered<FunnelTime>>| {
        limit.as_ref().filter(|limit| limit.value().basis() == basis).cloned()
    };
    within(&same(low), value, &same(high))
}

/// Where the last round was sampled: near the bottom, mid-height, how far apart.
fn levels_sampled(
    sources: &Sources<'_, '_>,
    tests: &[(&Line<'_>, &FluidTest)],
    evidence: &[EntryId],
) -> Vec<Measurement> {
    let Some(hole) = &sources.reckoning.hole else { return Vec::new() };
    let level = |(line, test): &(&Line<'_>, &FluidTest)| {
        sources.picture.references.elevation(test.depth.as_ref()?.value(), line.at)
    };
    let mut levels: Vec<Elevation> = tests.iter().filter_map(level).collect();
    levels.put_in_order();
    let Some(lowest) = levels.first() else {
        return vec![
            Measurement::missing("fluid.sample_above_bottom"),
            Measurement::missing("fluid.sampled_at_two_levels"),
        ];
    };
    let above = lowest.above(hole.base.value);
    let mut all = vec![Measurement::shaft("fluid.sample_above_bottom", above, evidence.to_vec())];
    all.push(Measurement::shaft("fluid.sampled_at_two_levels", levels.len() > 1, evidence.to_vec()));
    if let Some(gap) = levels.windows(2).map(|pair| pair[1].above(pair[0])).max() {
        all.push(Measurement::shaft("fluid.sample_spacing", gap, evidence.to_vec()));
    }
    all
}

/// Longest time between two dealings with the fluid before concrete: drilling, cleaning, treating it.
fn stagnant(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let (started, entry) = sources.concrete_started()?;
    let (begun, first) = sources.log.each::<FluidIntroduced>().next().map(|(l, _)| (l.at, l.entry.id))?;
    let runs = sources.log.each::<ToolRun>().map(|(l, run)| (l.at, run.out.unwrap_or(l.at), l.entry.id));
    let cleaned = sources.log.each::<Cleaning>().map(|(l, c)| (l.at, c.until.unwrap_or(l.at), l.entry.id));
    let treated =
        sources.log.each::<FluidTreated>().map(|(l, t)| (l.at, t.until.unwrap_or(l.at), l.entry.id));
    let mut stirred: Vec<(Moment, Moment, EntryId)> = runs.chain(cleaned).chain(treated).collect();
    stirred.retain(|(from, ..)| begun <= *from && *from <= started);
    stirred.push((started, started, entry));
    stirred.put_in_order();
    let (mut last, mut longest) = ((begun, first), None::<(i64, [EntryId; 2])>);
    for (from, until, entry) in stirred {
        let gap = from.seconds() - last.0.seconds();
        if longest.is_none_or(|(longest, _)| gap > longest) {
            longest = Some((gap, [last.1, entry]));
        }
        if until > last.0 {
            last = (until, entry);
        }
    }
    let (gap, between) = longest?;
    let span = Span::seconds(gap as f64);
    Some(Measurement::shaft("fluid.stagnant_time", span, between.to_vec()).at(started))
}

/// Every property with a limit in force met it, in these tests and at this stage; `None` when nothing was
/// judged, or a property with a limit was not measured in any of them.
pub(crate) fn within_limits(findings: &[crate::Finding], tests: &[EntryId], stage: &str) -> Option<bool> {
    let of_round =
        findings.iter().filter(|finding| finding.evidence.iter().any(|entry| tests.contains(entry)));
    let judged = of_round.filter(|finding| finding.fact.name.ends_with(stage) && finding.criterion.is_some());
    let mut met: BTreeMap<&str, bool> = BTreeMap::new();
    for finding in judged {
        let name = finding.fact.name;
        match finding.judgement.verdict {
            Verdict::Fails { .. } => return Some(false),
            Verdict::Meets { .. } => _ = met.insert(name, true),
            Verdict::NotMeasured | Verdict::CannotSay(_) => _ = met.entry(name).or_insert(false),
            Verdict::NoLimitSet(_) => {}
        }
    }
    (!met.is_empty() && met.values().all(|met| *met)).then_some(true)
}
