//! The ratio of every interval between two soundings, with one and two standard errors.

use super::{Interval, VolumeCurve};
use crate::axis::{Axis, known, range};
use crate::lettering::fit;
use crate::mark::{self, Mark};
use crate::scale::{Scale, fixed};
use crate::sheet;
use crate::size::Rect;
use crate::style::{Anchor, BAND, HEAD, INK, NOTE, Pen, SOFT, STRONG, WATER};
use crate::svg::{Path, Svg};
use quantity::units;

/// Room for a ratio and its sign.
const FIGURE_WIDTH: f64 = 32.0;
const BAR: Pen = Pen::line("ratio", INK, 0.6).filled(BAND);
const ONE: Pen = Pen::line("one-error", INK, 2.4);
const TWO: Pen = Pen::line("two-errors", INK, 0.7);
const RUNNING: Pen = Pen::line("running-ratio", WATER, 1.2).dashed("4 1.5 1 1.5");
const UNITY: Pen = Pen::line("unity", SOFT, 0.8);

pub(super) fn sample_one(svg: &mut Svg, at: (f64, f64)) {
    svg.line((at.0 - 5.0, at.1), (at.0 + 5.0, at.1), &ONE);
}

pub(super) fn sample_two(svg: &mut Svg, at: (f64, f64)) {
    svg.path(whisker(Path::new(), (at.0 - 8.0, at.0 + 8.0), at.1), &TWO);
}

pub(super) fn sample_running(svg: &mut Svg, at: (f64, f64)) {
    sheet::sample_line(svg, at, &RUNNING);
}

/// The axes the bars stand on.
struct View<'a> {
    plot: Rect,
    depth: &'a Axis,
    ratio: Axis,
}

pub(super) fn draw(svg: &mut Svg, curve: &VolumeCurve, plot: Rect, depth: &Axis) {
    let view = View { plot, depth, ratio: ratio_axis(curve, plot) };
    sheet::depth_grid(svg, depth, &curve.depth, (plot.x, plot.right()));
    sheet::foot_scale(svg, &view.ratio.ticks(&Scale::of(&units::PART, 2), 28.0), plot);
    let head = fit(&curve.words.ratio, HEAD.weight, HEAD.size, plot.width);
    svg.text(&HEAD, (plot.x, plot.y - 6.0), &head);
    for interval in &curve.intervals {
        bar(svg, curve, interval, &view);
    }
    svg.line((view.ratio.at(1.0), plot.y), (view.ratio.at(1.0), plot.bottom()), &UNITY);
    running(svg, curve, &view);
    for interval in &curve.intervals {
        errors(svg, interval, &view);
        figure(svg, interval, &view);
    }
    sheet::frame(svg, plot);
}

/// From a little below the least to a little above the greatest, with 1.00 always in sight.
fn ratio_axis(curve: &VolumeCurve, plot: Rect) -> Axis {
    let ends = curve.intervals.iter().flat_map(|i| {
        let error = 2.0 * known(i.standard_error).unwrap_or(0.0).clamp(0.0, 2.0);
        let ratio = known(i.ratio);
        [ratio.map(|r| r - error), ratio.map(|r| r + error), known(i.running_ratio), Some(1.0)]
    });
    let (low, high) = range(ends.flatten()).unwrap_or((0.9, 1.1));
    let margin = ((high - low) * 0.1).max(0.04);
    let (low, high) = (low - margin, high + margin);
    // The figures stand right of the bars and need room of their own.
    let figures = FIGURE_WIDTH / (plot.width - FIGURE_WIDTH).max(FIGURE_WIDTH);
    Axis::new((low, high + (high - low) * figures), (plot.x, plot.right()))
}

/// The bar runs from the unity line to the ratio; an interval without one says so.
fn bar(svg: &mut Svg, curve: &VolumeCurve, interval: &Interval, view: &View<'_>) {
    let (top, bottom) = (view.depth.at(interval.top_m), view.depth.at(interval.bottom_m));
    match known(interval.ratio) {
        Some(value) => {
            let ink = if interval.mark == Mark::NoLimit { INK } else { interval.mark.ink() };
            let width = if matches!(interval.mark, Mark::Fails | Mark::Doubtful) { 1.2 } else { 0.6 };
            let ends = (view.ratio.at(1.0), view.ratio.at(value));
            svg.rect(
                Rect::between((ends.0, top + 0.6), (ends.1, bottom - 0.6)),
                &Pen { stroke: ink, width, ..BAR },
            );
        }
        None => {
            let places = [((view.plot.right() - 4.0, (top + bottom) / 2.0 + 2.5), Anchor::End)];
            svg.text_where_free(&NOTE, &places, &curve.words.not_recorded, view.plot);
        }
    }
}

/// A stepped line, broken where the running ratio is not known.
fn running(svg: &mut Svg, curve: &VolumeCurve, view: &View<'_>) {
    let mut points = Vec::new();
    for interval in &curve.intervals {
        match known(interval.running_ratio) {
            Some(value) => {
                points.push((view.ratio.at(value), view.depth.at(interval.bottom_m)));
                points.push((view.ratio.at(value), view.depth.at(interval.top_m)));
            }
            None => svg.polyline(&std::mem::take(&mut points), &RUNNING),
        }
    }
    svg.polyline(&points, &RUNNING);
}

fn errors(svg: &mut Svg, interval: &Interval, view: &View<'_>) {
    let (Some(value), Some(error)) = (known(interval.ratio), known(interval.standard_error)) else { return };
    let y = (view.depth.at(interval.top_m) + view.depth.at(interval.bottom_m)) / 2.0;
    let ends = |k: f64| (view.ratio.clamped(value - k * error), view.ratio.clamped(value + k * error));
    svg.path(whisker(Path::new(), ends(2.0), y), &TWO);
    let one = ends(1.0);
    svg.line((one.0, y), (one.1, y), &ONE);
}

fn whisker(path: Path, ends: (f64, f64), y: f64) -> Path {
    let foot = |path: Path, x: f64| path.stroke((x, y - 2.2), (x, y + 2.2));
    foot(foot(path.stroke((ends.0, y), (ends.1, y)), ends.0), ends.1)
}

/// The ratio in figures at the right, with its sign when the assessment has something to say.
fn figure(svg: &mut Svg, interval: &Interval, view: &View<'_>) {
    let Some(value) = known(interval.ratio) else { return };
    let y = (view.depth.at(interval.top_m) + view.depth.at(interval.bottom_m)) / 2.0;
    let outer = value + 2.0 * known(interval.standard_error).unwrap_or(0.0).max(0.0);
    let reach = view.ratio.clamped(outer).max(view.ratio.at(1.0));
    let sign = matches!(interval.mark, Mark::Fails | Mark::Doubtful);
    let x = reach + if sign { 13.0 } else { 5.0 };
    let places = [((x, y + 2.5), Anchor::Start), ((view.plot.x + 3.0, y + 2.5), Anchor::Start)];
    let written = svg.text_where_free(&STRONG, &places, &fixed(value, 2), view.plot);
    if sign && written && x + 20.0 < view.plot.right() {
        mark::draw(svg, interval.mark, (reach + 7.0, y), 3.2);
    }
}
