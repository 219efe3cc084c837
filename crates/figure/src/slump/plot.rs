//! Slump over time: expectations as lines, tests as signs, the limit and the planned end.

use super::{LoadLife, SlumpSheet, slump_range};
use crate::around::around;
use crate::axis::{Axis, known};
use crate::days::Days;
use crate::lettering::fit;
use crate::mark::{self, Mark};
use crate::sheet;
use crate::size::Rect;
use crate::style::{Anchor, BAD, HEAD, INK, LABEL, LIMIT, Pen, STRONG, TICK};
use crate::svg::Svg;
use quantity::InOrder;

const EXPECTED: Pen = Pen::line("expected", INK, 0.8).dashed("3 2");
const TEST: Pen = Pen::area("test", INK);
const PLANNED_END: Pen = Pen::line("planned-end", INK, 1.2).dashed("6 2");

pub(super) fn sample_test(svg: &mut Svg, at: (f64, f64)) {
    svg.circle(at, 2.2, &TEST);
}

pub(super) fn sample_expected(svg: &mut Svg, at: (f64, f64)) {
    sheet::sample_line(svg, at, &EXPECTED);
}

pub(super) fn draw(svg: &mut Svg, data: &SlumpSheet, plot: Rect, days: &Days) {
    let axis = Axis::new(slump_range(data), (plot.bottom(), plot.y));
    sheet::value_scale(svg, &axis, &data.slump, plot);
    sheet::foot_scale(svg, &days.ticks(30.0), plot);
    let head = format!("{}, {}", data.words.slump, data.slump.symbol());
    svg.text(&HEAD, (plot.x - 28.0, plot.y - 5.0), &head);
    limit(svg, data, plot, &axis);
    end(svg, data, plot, days);
    for load in &data.loads {
        expected(svg, load, days, &axis);
    }
    for load in &data.loads {
        tests(svg, load, days, &axis);
    }
    for load in &data.loads {
        names(svg, load, plot, (days, &axis));
    }
    sheet::frame(svg, plot);
}

fn limit(svg: &mut Svg, data: &SlumpSheet, plot: Rect, axis: &Axis) {
    if let Some(limit) = known(data.limit_m) {
        let y = axis.at(limit);
        svg.line((plot.x, y), (plot.right(), y), &LIMIT);
        let text = format!("{} {}", data.words.limit, data.slump.label(limit));
        let places = [((plot.x + 4.0, y - 3.5), Anchor::Start), ((plot.x + 4.0, y + 8.5), Anchor::Start)];
        svg.text_where_free(&STRONG.ink(BAD), &places, &text, plot);
    }
}

fn end(svg: &mut Svg, data: &SlumpSheet, plot: Rect, days: &Days) {
    if let Some(end) = data.end {
        let x = days.at(end);
        svg.line((x, plot.y), (x, plot.bottom()), &PLANNED_END);
        let text = format!("{} {}", data.end_label, end.clock());
        let text = fit(text.trim(), LABEL.weight, LABEL.size, plot.width / 2.0);
        let places = [((x - 4.0, plot.y + 9.0), Anchor::End), ((x + 4.0, plot.y + 9.0), Anchor::Start)];
        svg.text_where_free(&LABEL, &places, &text, plot);
    }
}

fn expected(svg: &mut Svg, load: &LoadLife, days: &Days, axis: &Axis) {
    let mut points: Vec<_> = load.expected.iter().filter(|p| axis.contains(p.slump_m)).collect();
    points.put_in_order_by_key(|p| p.at);
    let line: Vec<_> = points.iter().map(|p| (days.at(p.at), axis.at(p.slump_m))).collect();
    svg.polyline(&line, &EXPECTED);
    svg.avoid_line(&line);
}

fn tests(svg: &mut Svg, load: &LoadLife, days: &Days, axis: &Axis) {
    for test in load.tests.iter().filter(|t| axis.contains(t.slump_m)) {
        let at = (days.at(test.at), axis.at(test.slump_m));
        match test.mark {
            Mark::NoLimit => {
                svg.circle(at, 2.4, &TEST);
                svg.keep_clear(Rect::new(at.0 - 2.4, at.1 - 2.4, 4.8, 4.8));
            }
            mark => mark::draw(svg, mark, at, 3.6),
        }
    }
}

/// The name of the load and the slump beside its first test.
fn names(svg: &mut Svg, load: &LoadLife, plot: Rect, axes: (&Days, &Axis)) {
    let (days, axis) = axes;
    let Some(test) = load.tests.iter().find(|t| axis.contains(t.slump_m)) else { return };
    let at = (days.at(test.at), axis.at(test.slump_m));
    let above = ((at.0, at.1 - 6.0), Anchor::Middle);
    let places: Vec<_> = [above].into_iter().chain(around(at, 3.6)).collect();
    svg.bare_where_free(&TICK.ink(INK), &places, &load.label, plot);
}
