//! The lane of what could hide: the smallest loss of area that would have shown, for each depth and height.

use super::{BlindSpots, ProfileSheet};
use crate::axis::Axis;
use crate::lettering::fit;
use crate::scale::Scale;
use crate::sheet;
use crate::size::Rect;
use crate::style::{DOUBT, EARTH, HEAD, Pen};
use crate::svg::{Path, Svg};
use quantity::units;

/// Losses left of the lines could hide.
const HIDDEN: Pen = Pen::area("blind_spots", EARTH);
/// The lower the loss, the finer its line.
const LINES: [Pen; 3] = [
    Pen::line("blind-first", DOUBT, 0.8).dashed("1.5 1.5"),
    Pen::line("blind-second", DOUBT, 1.0).dashed("5 2"),
    Pen::line("blind-third", DOUBT, 1.5),
];

pub(super) const SAMPLES: [sheet::Sample; 3] = [
    |svg, at| sheet::sample_line(svg, at, &LINES[0]),
    |svg, at| sheet::sample_line(svg, at, &LINES[1]),
    |svg, at| sheet::sample_line(svg, at, &LINES[2]),
];

/// A little more than all of the area, so that the line of all of it stands off the frame.
const ALL: f64 = 1.06;

pub(super) fn sample_hidden(svg: &mut Svg, at: (f64, f64)) {
    sheet::sample_area(svg, at, EARTH);
}

pub(super) fn draw(svg: &mut Svg, sheet: &ProfileSheet, plot: Rect, depth: &Axis) {
    let loss = Axis::new((0.0, ALL), (plot.x, plot.right()));
    svg.open("blind_spots");
    if let Some(widest) = sheet.blind_spots.first() {
        svg.polygon(&area(widest, plot, depth, &loss), &HIDDEN);
    }
    sheet::depth_grid(svg, depth, &sheet.depth, (plot.x, plot.right()));
    sheet::foot_scale(svg, &loss.ticks(&Scale::of(&units::PERCENT, 0), 28.0), plot);
    for (line, pen) in sheet.blind_spots.iter().zip(&LINES) {
        let points = line.points.iter().map(|point| (reach(point.loss, &loss), depth.clamped(point.depth_m)));
        svg.path(points.fold(Path::new(), Path::to), pen);
    }
    sheet::frame(svg, plot);
    let head = fit(&sheet.words.shape.could_hide, HEAD.weight, HEAD.size, plot.width);
    svg.text(&HEAD, (plot.x, plot.y - 6.0), &head);
    svg.close();
}

/// Where even the loss of all of it would not have shown, the line runs along 100 %.
fn reach(loss: Option<f64>, axis: &Axis) -> f64 {
    axis.clamped(loss.unwrap_or(1.0))
}

fn area(line: &BlindSpots, plot: Rect, depth: &Axis, loss: &Axis) -> Vec<(f64, f64)> {
    let Some((first, last)) = line.points.first().zip(line.points.last()) else { return Vec::new() };
    let points = line.points.iter().map(|point| (reach(point.loss, loss), depth.clamped(point.depth_m)));
    let start = (plot.x, depth.clamped(first.depth_m));
    let end = (plot.x, depth.clamped(last.depth_m));
    [start].into_iter().chain(points).chain([end]).collect()
}
