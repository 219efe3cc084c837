//! The filled areas: ground still standing, the open hole, the fluid in it, the concrete.

use super::plan::Plan;
use super::{AtDepth, TimeDepth};
use crate::style::{CONCRETE, EARTH, EARTH_INK, FLUID, PAPER, Pen};
use crate::svg::Svg;
use quantity::InOrder;

const BOUNDARY: Pen = Pen::line("boundary", EARTH_INK, 0.35).dashed("4 3");

/// Points of a line on the paper, from left to right.
pub(super) type Line = Vec<(f64, f64)>;

pub(super) fn draw(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    svg.open("areas");
    earth(svg, data, plan);
    let bottom = hole_bottom(data, plan);
    if let Some((first, last)) = ends(&bottom) {
        let last = last.max(pour_end(data, plan).unwrap_or(last));
        let ground = level_line(plan, surface(data), (first, last));
        between(svg, &ground, &bottom, &Pen::area("open-hole", PAPER));
        let fluid = levels(&data.fluid_level, plan);
        between(svg, &fluid, &bottom, &Pen::area("fluid", FLUID));
        between(svg, &concrete_line(data, plan), &bottom, &Pen::area("concrete", CONCRETE));
    }
    svg.close();
}

fn earth(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    let top = plan.depth.clamped(surface(data)) - plan.plot.y;
    svg.rect(plan.plot.inset(0.0, top, 0.0, 0.0), &Pen::area("earth", EARTH));
    for stratum in data.strata.iter().filter(|s| plan.depth.contains(s.top_m)) {
        let y = plan.depth.at(stratum.top_m);
        svg.line((plan.plot.x, y), (plan.plot.right(), y), &BOUNDARY);
    }
}

/// The ground surface, or the reference where the ground was not recorded.
fn surface(data: &TimeDepth) -> f64 {
    data.ground_m.unwrap_or(0.0)
}

/// The bottom of the hole: level between runs, falling during a run, held until the pour ends.
pub(super) fn hole_bottom(data: &TimeDepth, plan: &Plan) -> Line {
    let mut runs: Vec<_> = data.runs.iter().collect();
    runs.put_in_order_by_key(|run| run.ended);
    let mut line: Line = Vec::new();
    let mut before = plan.depth.clamped(surface(data));
    for run in runs {
        let started = run.started.filter(|start| *start <= run.ended).unwrap_or(run.ended);
        let last = line.last().map_or(f64::NEG_INFINITY, |p| p.0);
        let (start, end) = (plan.days.at(started).max(last), plan.days.at(run.ended).max(last));
        line.push((start, before));
        before = plan.depth.at(run.to_m);
        line.push((end, before));
    }
    if let Some(end) = pour_end(data, plan).filter(|end| line.last().is_some_and(|last| last.0 < *end)) {
        line.push((end, before));
    }
    line
}

/// The hole stays open until the last thing known about what is in it.
fn pour_end(data: &TimeDepth, plan: &Plan) -> Option<f64> {
    let concrete = data.concrete.iter().map(|c| c.at);
    let fluid = data.fluid_level.iter().map(|f| f.at);
    let marks = data.fluid_tests.iter().chain(&data.base_soundings).map(|t| t.at);
    let rest = data.cages.iter().map(|c| c.at).chain(data.tremie.iter().map(|t| t.at));
    let spans = data.cleaning.iter().map(|c| c.to.unwrap_or(c.from));
    concrete.chain(fluid).chain(marks).chain(rest).chain(spans).max().map(|moment| plan.days.at(moment))
}

/// The surface of the concrete: from the bottom of the hole when the first load began, through every sounding.
pub(super) fn concrete_line(data: &TimeDepth, plan: &Plan) -> Line {
    let line = levels(&data.concrete, plan);
    let bottom = hole_bottom(data, plan).last().copied();
    let began = data.loads.iter().map(|load| load.from).min().map(|at| plan.days.at(at));
    let start = match (began, bottom, line.first()) {
        (Some(x), Some(bottom), Some(first)) if x < first.0 => Some((x, bottom.1)),
        _ => None,
    };
    start.into_iter().chain(line).collect()
}

/// Observed levels as points from left to right.
pub(super) fn levels(levels: &[AtDepth], plan: &Plan) -> Line {
    let mut sorted: Vec<&AtDepth> = levels.iter().collect();
    sorted.put_in_order_by_key(|level| level.at);
    sorted.into_iter().map(|level| plan.at(level.at, level.depth_m)).collect()
}

fn level_line(plan: &Plan, depth_m: f64, ends: (f64, f64)) -> Line {
    let y = plan.depth.clamped(depth_m);
    vec![(ends.0, y), (ends.1, y)]
}

fn ends(line: &Line) -> Option<(f64, f64)> {
    Some((line.first()?.0, line.last()?.0))
}

/// Fills the area between two lines, over the time they share.
fn between(svg: &mut Svg, upper: &Line, lower: &Line, pen: &Pen) {
    let (Some(a), Some(b)) = (ends(upper), ends(lower)) else { return };
    let (from, to) = (a.0.max(b.0), a.1.min(b.1));
    if to <= from {
        return;
    }
    let mut points = part(upper, from, to);
    points.extend(part(lower, from, to).into_iter().rev());
    svg.polygon(&points, pen);
}

fn part(line: &Line, from: f64, to: f64) -> Line {
    let inside = line.iter().filter(|p| from < p.0 && p.0 < to).copied();
    [(from, y_at(line, from))].into_iter().chain(inside).chain([(to, y_at(line, to))]).collect()
}

pub(super) fn y_at(line: &Line, x: f64) -> f64 {
    let pair = line.windows(2).find(|pair| pair[0].0 <= x && x <= pair[1].0);
    match pair {
        Some([a, b]) if b.0 > a.0 => a.1 + (b.1 - a.1) * (x - a.0) / (b.0 - a.0),
        Some([_, b]) => b.1,
        _ => line.last().map_or(0.0, |p| p.1),
    }
}
