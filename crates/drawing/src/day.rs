//! The time–depth sheet.

use crate::ground::strata;
use crate::view::View;
use figure::{AtDepth, CageSet, CasingLine, Flag, LoadTick, SpanMark, TestMark, TimeDepth, ToolRun};
use figure::{Mark, Size, time_depth_svg};
use quantity::{Elevation, Moment};
use record::kinds::{
    CageSet as Set, Cleaning, FluidTest, Interruption, ToolRun as Run, WorkResumed, WorkStopped,
};

pub(crate) fn has_content(view: &View<'_, '_>) -> bool {
    !view.assessment.picture.hole.is_empty() || !view.assessment.picture.concrete.is_empty()
}

pub(crate) fn draw(view: &View<'_, '_>, size: Size) -> String {
    time_depth_svg(&sheet(view), size)
}

fn sheet(view: &View<'_, '_>) -> TimeDepth {
    let picture = &view.assessment.picture;
    let plan = picture.plan.as_ref();
    TimeDepth {
        title: view.title("the work in time and depth"),
        subtitle: subtitle(view),
        depth: view.scales().depth,
        zero_label: view.zero_label(),
        zero_elevation_m: view.zero().map(Elevation::to_meters),
        ground_m: plan.and_then(|plan| view.depth_m(plan.ground?)),
        strata: strata(view),
        runs: runs(view),
        base_soundings: base_soundings(view),
        concrete: concrete(view),
        tremie: tremie(view),
        tremie_out: picture.lines.last().and_then(|line| line.out).map(|(at, _)| at),
        casings: casings(view),
        fluid_level: picture.fluid.iter().filter_map(|step| at(view, step.at, step.surface)).collect(),
        groundwater: picture.water.iter().filter_map(|step| at(view, step.at, step.level)).collect(),
        fluid_tests: fluid_tests(view),
        cages: cages(view),
        cleaning: cleaning(view),
        loads: loads(view),
        interruptions: interruptions(view),
        flags: flags(view),
        planned_tip_m: plan.and_then(|plan| view.depth_m(plan.tip)),
        blanks: Vec::new(),
        words: figure::Words::default(),
    }
}

/// `48 in × 60 ft planned, wet method`: what the sheet cannot show, as far as the plan says it.
fn subtitle(view: &View<'_, '_>) -> String {
    let scales = view.scales();
    let Some(plan) = view.assessment.picture.plan.as_ref() else { return String::new() };
    let length = scales.depth.label(plan.top.above(plan.tip).to_meters());
    let size = match plan.diameter {
        Some(diameter) => format!("{} × {length} planned", scales.small.label(diameter.to_meters())),
        None => format!("{length} planned"),
    };
    format!("{size}, method {}", plan.shaft.method.word().replace('_', " "))
}

fn at(view: &View<'_, '_>, at: Moment, level: Elevation) -> Option<AtDepth> {
    Some(AtDepth { at, depth_m: view.depth_m(level)? })
}

fn runs(view: &View<'_, '_>) -> Vec<ToolRun> {
    let run = |(line, run): (&record::Line<'_>, &Run)| {
        let ended = run.out.unwrap_or(line.at);
        let level = view.assessment.picture.references.elevation(run.to.value(), ended)?;
        Some(ToolRun {
            started: run.out.map(|_| line.at),
            ended,
            to_m: view.depth_m(level)?,
            tool: run.tool.clone().unwrap_or_default(),
        })
    };
    view.log.each::<Run>().filter_map(run).collect()
}

fn base_soundings(view: &View<'_, '_>) -> Vec<TestMark> {
    let soundings = view.assessment.picture.bottom.soundings.iter().map(|sounding| TestMark {
        at: sounding.at,
        depth_m: view.depth_m(sounding.surface.mean.value),
        mark: view.mark_on(sounding.entry, |fact| fact.starts_with("bottom.")),
        label: view
            .depth_m(sounding.surface.mean.value)
            .map_or_else(String::new, |d| view.scales().depth.label(d)),
    });
    soundings.collect()
}

fn concrete(view: &View<'_, '_>) -> Vec<AtDepth> {
    let levels = view.assessment.picture.concrete.iter();
    let start = view.assessment.picture.concrete_started().zip(view.assessment.reckoning.hole.as_ref());
    let start = start.and_then(|(begun, hole)| at(view, begun, hole.base.value));
    start.into_iter().chain(levels.filter_map(|level| at(view, level.at, level.surface.mean.value))).collect()
}

fn tremie(view: &View<'_, '_>) -> Vec<AtDepth> {
    let Some(line) = view.assessment.picture.lines.last() else { return Vec::new() };
    line.steps.iter().filter_map(|step| at(view, step.at, step.tip?)).collect()
}

fn casings(view: &View<'_, '_>) -> Vec<CasingLine> {
    let line = |casing: &assess::picture::CasingHistory| CasingLine {
        label: format!("Casing {}", casing.name.trim_end_matches(" casing")),
        shoe: casing.steps.iter().filter_map(|step| at(view, step.at, step.shoe?)).collect(),
        out: casing.out.map(|(at, _)| at),
    };
    view.assessment.picture.casings.iter().map(line).collect()
}

fn fluid_tests(view: &View<'_, '_>) -> Vec<TestMark> {
    let tests = view.log.each::<FluidTest>().enumerate().map(|(index, (line, test))| TestMark {
        at: line.at,
        depth_m: test.depth.as_ref().and_then(|depth| {
            view.depth_m(view.assessment.picture.references.elevation(depth.value(), line.at)?)
        }),
        mark: view.mark_on(line.entry.id, |fact| fact.starts_with("fluid.")),
        label: format!("F{}", index + 1),
    });
    tests.collect()
}

fn cages(view: &View<'_, '_>) -> Vec<CageSet> {
    let planned = view.assessment.picture.plan.as_ref().and_then(|plan| plan.cage).map(|(_, cage)| cage);
    let set = |(line, set): (&record::Line<'_>, &Set)| {
        let top = set.top.as_ref().map(|top| top.value());
        let length = planned.and_then(|cage| cage.length.as_ref()).map(|length| length.value());
        let bottom = top.zip(length).map(|(top, length)| Elevation(top.0 - length));
        CageSet {
            at: line.at,
            top_m: top.and_then(|top| view.depth_m(top)),
            bottom_m: bottom.and_then(|bottom| view.depth_m(bottom)),
            label: "cage".to_owned(),
        }
    };
    view.log.each::<Set>().map(set).collect()
}

fn cleaning(view: &View<'_, '_>) -> Vec<SpanMark> {
    let pass = |(line, pass): (&record::Line<'_>, &Cleaning)| SpanMark {
        from: line.at,
        to: pass.until,
        label: pass.method.clone(),
    };
    view.log.each::<Cleaning>().map(pass).collect()
}

fn loads(view: &View<'_, '_>) -> Vec<LoadTick> {
    let load = |load: &assess::picture::Load<'_>| {
        let subject = assess::Subject::Load(load.ticket.to_owned());
        let of = view.assessment.findings.iter().filter(|finding| finding.subject == subject);
        let mark = if load.refused.is_some() { Mark::Fails } else { crate::view::worst(of) };
        let from = load.started.or(load.ended).unwrap_or(load.arrived);
        LoadTick { from, to: load.ended, ticket: load.ticket.to_owned(), mark }
    };
    view.assessment.picture.loads.iter().map(load).collect()
}

fn interruptions(view: &View<'_, '_>) -> Vec<SpanMark> {
    let poured = view.log.each::<Interruption>().map(|(line, stop)| SpanMark {
        from: line.at,
        to: stop.until,
        label: stop.reason.clone(),
    });
    let resumed: Vec<Moment> = view.log.each::<WorkResumed>().map(|(line, _)| line.at).collect();
    let stopped = view.log.each::<WorkStopped>().map(|(line, stop)| SpanMark {
        from: line.at,
        to: resumed.iter().copied().filter(|at| *at >= line.at).min(),
        label: stop.reason.clone(),
    });
    poured.chain(stopped).collect()
}

/// The findings that fail and have a moment, numbered as in the list of findings.
fn flags(view: &View<'_, '_>) -> Vec<Flag> {
    let numbered = view.assessment.findings.iter().enumerate();
    let failing = numbered.filter(|(_, finding)| finding.outcome() == assess::Outcome::Fails);
    let flag = |(index, finding): (usize, &assess::Finding)| {
        Some(Flag { at: finding.at?, depth_m: None, number: (index + 1).to_string(), mark: Mark::Fails })
    };
    failing.filter_map(flag).collect()
}
