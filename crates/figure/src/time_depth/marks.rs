//! What stands at one place of the sheet: fluid tests, soundings of the base, cages, cleaning, tools.

use super::areas::{hole_bottom, y_at};
use super::plan::Plan;
use super::{CageSet, TestMark, TimeDepth};
use crate::around::{around, tether};
use crate::mark::{self, Mark};
use crate::size::Rect;
use crate::style::{Anchor, INK, NOTE, PAPER, Pen, STEEL, TICK};
use crate::svg::{Path, Svg};

const CAGE: Pen = Pen::line("cage", STEEL, 0.9);
const RUNG: Pen = Pen::line("cage-hoop", STEEL, 0.5);
const CLEANING: Pen = Pen::line("cleaning", INK, 0.8);
const PLUMB: Pen = Pen::line("sounding", INK, 0.8);

pub(super) fn draw(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    svg.open("marks");
    for cage in &data.cages {
        draw_cage(svg, plan, cage);
    }
    for span in &data.cleaning {
        cleaning(svg, data, plan, (plan.days.at(span.from), plan.days.at(span.to.unwrap_or(span.from))));
    }
    for sounding in &data.base_soundings {
        base_sounding(svg, plan, sounding);
    }
    for test in &data.fluid_tests {
        mark::draw(svg, test.mark, place(plan, test), 3.6);
    }
    for test in &data.fluid_tests {
        beside(svg, plan, place(plan, test), &test.label);
    }
    for sounding in data.base_soundings.iter().filter(|s| s.depth_m.is_some()) {
        let (x, y) = place(plan, sounding);
        beside(svg, plan, (x - 2.0, y - 19.5), &sounding.label);
    }
    tools(svg, data, plan);
    svg.close();
}

/// A ladder from the top to the lower end of the cage; an end that was not recorded is left open.
fn draw_cage(svg: &mut Svg, plan: &Plan, cage: &CageSet) {
    let known = |m: Option<f64>| m;
    let (Some(top), Some(bottom)) = (known(cage.top_m), known(cage.bottom_m)) else { return };
    let x = plan.days.at(cage.at);
    let (top, bottom) = (plan.depth.at(top), plan.depth.at(bottom));
    let sides =
        Path::new().stroke((x - 3.5, top), (x - 3.5, bottom)).stroke((x + 3.5, top), (x + 3.5, bottom));
    let count = (((bottom - top).abs() / 6.0) as i32).min(400);
    let rungs = (0..=count).fold(Path::new(), |path, k| {
        let y = top + (bottom - top) * (f64::from(k) + 0.5) / f64::from(count + 1);
        path.stroke((x - 3.5, y), (x + 3.5, y))
    });
    svg.keep_clear(Rect::between((x - 3.5, top), (x + 3.5, bottom)));
    svg.path(rungs, &RUNG);
    svg.path(sides, &CAGE);
}

/// Saw teeth along the bottom of the hole.
fn cleaning(svg: &mut Svg, data: &TimeDepth, plan: &Plan, ends: (f64, f64)) {
    let bottom = hole_bottom(data, plan);
    if bottom.is_empty() {
        return;
    }
    let count = (((ends.1 - ends.0) / 4.0) as i32).clamp(2, 200);
    let step = ((ends.1 - ends.0) / f64::from(count)).max(2.0);
    let teeth = (0..=count).fold(Path::new(), |path, k| {
        let x = ends.0 + step * f64::from(k);
        path.to((x, y_at(&bottom, x) - if k % 2 == 0 { 1.5 } else { 5.5 }))
    });
    svg.path(teeth, &CLEANING);
}

/// Where a test stands: at its depth, or in the lane above when it has none.
fn place(plan: &Plan, test: &TestMark) -> (f64, f64) {
    match test.depth_m {
        Some(depth) => plan.at(test.at, depth),
        None => (plan.days.at(test.at), plan.tests.y + plan.tests.height / 2.0),
    }
}

/// A plumb bob hanging to the depth that was found.
fn base_sounding(svg: &mut Svg, plan: &Plan, sounding: &TestMark) {
    let Some(depth) = sounding.depth_m else { return };
    let (x, y) = plan.at(sounding.at, depth);
    svg.keep_clear(Rect::new(x - 2.6, y - 16.0, 5.2, 16.0));
    svg.line((x, y - 16.0), (x, y - 6.0), &PLUMB);
    svg.polygon(&[(x - 2.6, y - 6.0), (x + 2.6, y - 6.0), (x, y)], &PLUMB.filled(PAPER));
    if sounding.mark != Mark::NoLimit {
        mark::draw(svg, sounding.mark, (x, y - 19.5), 3.2);
    }
}

/// The letters of a mark, right or left of it, where nothing else stands.
fn beside(svg: &mut Svg, plan: &Plan, at: (f64, f64), label: &str) {
    let height = plan.plot.bottom() - plan.spans.y;
    let inside = Rect::new(plan.plot.x, plan.spans.y, plan.plot.width, height);
    let written = svg.bare_where_free(&TICK.ink(INK), &around(at, 3.6), label, inside);
    if let Some(room) = written {
        tether(svg, at, room);
    }
}

/// The name of a tool where it was first used.
fn tools(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    let mut before = "";
    for run in data.runs.iter() {
        if run.tool != before && !run.tool.is_empty() {
            let (x, y) = plan.at(run.ended, run.to_m);
            let below = [((x - 2.0, y + 10.0), Anchor::End), ((x - 5.0, y + 3.0), Anchor::End)];
            let above = [((x + 5.0, y - 4.0), Anchor::Start), ((x + 5.0, y + 10.0), Anchor::Start)];
            let places: Vec<_> = below.into_iter().chain(above).collect();
            svg.bare_where_free(&NOTE, &places, &run.tool, plan.plot);
        }
        before = &run.tool;
    }
}
