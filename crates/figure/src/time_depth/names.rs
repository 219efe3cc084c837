//! The names of the lines, right of the plot at the depth where each ended.

use super::lines::{FLUID_LINE, HOLE, PIPE, PIPE_INSIDE, SHOE, groundwater};
use super::plan::Plan;
use super::{AtDepth, TimeDepth};
use crate::lettering::{self, fit};
use crate::spread::{Column, spread};
use crate::style::{CONCRETE_LEVEL, LABEL, LEADER, PLANNED, Pen, TICK};
use crate::svg::Svg;
use quantity::Moment;

/// One name: depth, words, figure, and how its sample is drawn.
struct Name<'a> {
    depth_m: f64,
    word: &'a str,
    pens: &'a [Pen],
    /// When it left the hole; its line ends there and not at the edge.
    out: Option<Moment>,
}

pub(super) fn draw(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    let mut names = names(data);
    let ends = (plan.names.y + 5.0, plan.names.bottom() - 10.0);
    let column = Column::fitting(names.len(), ends.1 - ends.0);
    names.truncate(column.shown);
    let wanted: Vec<f64> = names.iter().map(|name| plan.depth.at(name.depth_m)).collect();
    svg.open("names");
    for ((name, y), own) in names.iter().zip(spread(&wanted, column.apart, ends)).zip(&wanted) {
        let end = name.out.map_or(plan.plot.right(), |out| plan.days.at(out).min(plan.plot.right()));
        svg.polyline(&[(end, *own), (plan.plot.right(), *own), (plan.names.x, y)], &LEADER);
        sample(svg, name, (plan.names.x, y));
        let room = plan.names.width - 15.0;
        svg.text(&LABEL, (plan.names.x + 14.0, y + 2.5), &fit(name.word, LABEL.weight, LABEL.size, room));
        if column.two_rows {
            svg.text(&TICK, (plan.names.x + 14.0, y + 10.5), &figure(data, name));
        }
    }
    svg.close();
}

/// The widest of the names with its sample, points.
pub(super) fn width(data: &TimeDepth) -> f64 {
    let wide = |name: &Name<'_>| lettering::width(name.word, LABEL.weight, LABEL.size) + 15.0;
    names(data).iter().map(wide).fold(0.0, f64::max)
}

fn names(data: &TimeDepth) -> Vec<Name<'_>> {
    let words = &data.words;
    let bottom = data.runs.iter().max_by_key(|run| run.ended).map(|run| run.to_m);
    let mut names = Vec::new();
    let mut add = |depth: Option<f64>, word, pens| {
        names.extend(depth.map(|depth_m| Name { depth_m, word, pens, out: None }));
    };
    add(last(&data.fluid_level), words.fluid.as_str(), &[FLUID_LINE]);
    add(last(&data.concrete), words.concrete.as_str(), &[CONCRETE_LEVEL]);
    add(bottom, words.hole_bottom.as_str(), &[HOLE]);
    add(data.planned_tip_m, words.planned_tip.as_str(), &[PLANNED]);
    add(last(&data.groundwater), words.groundwater.as_str(), &[]);
    let mut moved = |levels: &[AtDepth], word, pens, out| {
        names.extend(last(levels).map(|depth_m| Name { depth_m, word, pens, out }));
    };
    moved(&data.tremie, words.tremie_tip.as_str(), &[PIPE, PIPE_INSIDE], data.tremie_out);
    for casing in &data.casings {
        let word = if casing.label.is_empty() { words.casing_shoe.as_str() } else { casing.label.as_str() };
        moved(&casing.shoe, word, &[SHOE], casing.out);
    }
    names
}

/// The depth, or when it came out.
fn figure(data: &TimeDepth, name: &Name<'_>) -> String {
    name.out.map_or_else(
        || data.depth.label(name.depth_m),
        |out| format!("{} {}", data.words.out_at, out.clock()),
    )
}

/// Depth of the last observation.
fn last(levels: &[AtDepth]) -> Option<f64> {
    levels.iter().max_by_key(|level| level.at).map(|level| level.depth_m)
}

fn sample(svg: &mut Svg, name: &Name<'_>, at: (f64, f64)) {
    if name.pens.is_empty() {
        groundwater(svg, (at.0 + 6.0, at.1 + 2.0));
    }
    for pen in name.pens {
        svg.line((at.0, at.1), (at.0 + 11.0, at.1), pen);
    }
}
