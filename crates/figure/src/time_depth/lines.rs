//! The lines of the day: bottom of the hole, casing shoe, tremie tip, concrete, fluid, groundwater.

use super::areas::{concrete_line, hole_bottom, levels};
use super::plan::Plan;
use super::{CasingLine, TimeDepth};
use crate::size::Rect;
use crate::style::{CASING, CONCRETE_LEVEL, GROUNDWATER, INK, PAPER, PLANNED, Pen, WATER};
use crate::svg::{Path, Svg};

pub(super) const HOLE: Pen = Pen::line("hole-bottom", INK, 1.1);
pub(super) const SHOE: Pen = Pen::line("casing-shoe", CASING, 2.0);
pub(super) const FLUID_LINE: Pen = Pen::line("fluid-level", WATER, 1.0).dashed("6 1.5 1.5 1.5");
pub(super) const PIPE: Pen = Pen::line("tremie", INK, 3.4);
pub(super) const PIPE_INSIDE: Pen = Pen::line("tremie", PAPER, 1.8);
const DOT: Pen = Pen::area("concrete-sounding", INK);

pub(super) fn draw(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    svg.open("lines");
    planned_tip(svg, data, plan);
    hole(svg, data, plan);
    for casing in &data.casings {
        shoe(svg, plan, casing);
    }
    svg.polyline(&levels(&data.fluid_level, plan), &FLUID_LINE);
    tremie(svg, data, plan);
    concrete(svg, data, plan);
    for water in data.groundwater.iter() {
        groundwater(svg, plan.at(water.at, water.depth_m));
    }
    svg.close();
    plan.draw_cuts(svg, &data.words.pause);
}

fn planned_tip(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    if let Some(depth) = data.planned_tip_m {
        let y = plan.depth.at(depth);
        svg.line((plan.plot.x, y), (plan.plot.right(), y), &PLANNED);
    }
}

/// The bottom of the hole, with a small foot where each run ended.
fn hole(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    let bottom = hole_bottom(data, plan);
    svg.polyline(&bottom, &HOLE);
    svg.avoid_line(&bottom);
    let ends = data.runs.iter();
    let feet = ends.fold(Path::new(), |path, run| {
        let (x, y) = plan.at(run.ended, run.to_m);
        path.stroke((x, y - 2.5), (x, y + 2.5))
    });
    svg.path(feet, &HOLE);
}

/// The shoe moves in steps: it stood where it was until the next reading.
fn shoe(svg: &mut Svg, plan: &Plan, casing: &CasingLine) {
    let mut line = stepped(&levels(&casing.shoe, plan));
    let out = casing.out.map_or(plan.plot.right(), |out| plan.days.at(out));
    if let Some(last) = line.last().copied().filter(|last| last.0 < out) {
        line.push((out, last.1));
    }
    svg.polyline(&line, &SHOE);
    svg.avoid_line(&line);
    let teeth = line.iter().fold(Path::new(), |path, p| path.stroke((p.0, p.1), (p.0, p.1 - 4.0)));
    svg.path(teeth, &Pen { width: 1.0, ..SHOE });
}

/// Drawn as a pipe: an ink line with a white core.
fn tremie(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    let mut line = stepped(&levels(&data.tremie, plan));
    let out = data.tremie_out.map(|out| plan.days.at(out));
    let ends = line.last().copied().zip(out).filter(|(last, out)| last.0 <= *out);
    line.extend(ends.into_iter().flat_map(|(last, out)| [(out, last.1), (out, plan.depth.start)]));
    svg.polyline(&line, &PIPE);
    svg.polyline(&line, &PIPE_INSIDE);
    svg.avoid_line(&line);
}

fn concrete(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    let line = concrete_line(data, plan);
    svg.polyline(&line, &CONCRETE_LEVEL);
    svg.avoid_line(&line);
    for at in levels(&data.concrete, plan) {
        svg.circle(at, 2.0, &DOT);
    }
}

fn stepped(line: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut steps: Vec<(f64, f64)> = Vec::new();
    for &(x, y) in line {
        if let Some(last) = steps.last().copied() {
            steps.push((x, last.1));
        }
        steps.push((x, y));
    }
    steps
}

pub(super) fn groundwater(svg: &mut Svg, at: (f64, f64)) {
    let (x, y) = at;
    svg.keep_clear(Rect::new(x - 4.0, y - 7.0, 8.0, 11.0));
    svg.polygon(&[(x - 4.0, y - 7.0), (x + 4.0, y - 7.0), (x, y)], &GROUNDWATER.filled(PAPER));
    let lines = Path::new().stroke((x - 4.5, y), (x + 4.5, y)).stroke((x - 3.0, y + 2.0), (x + 3.0, y + 2.0));
    svg.path(lines.stroke((x - 1.5, y + 4.0), (x + 1.5, y + 4.0)), &GROUNDWATER);
}
