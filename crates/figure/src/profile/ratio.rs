//! The lane of the estimate: ratio of areas with its bands, and the plain ratios it is made from.

use super::{ProfileCell, ProfileSheet};
use crate::axis::{Axis, range};
use crate::lettering::fit;
use crate::scale::{Scale, fixed};
use crate::sheet;
use crate::size::Rect;
use crate::style::{BAND, HEAD, INK, MEASURED, NOTE, Pen, SOFT, STRONG, UNCERTAIN, WATER};
use crate::svg::{Path, Svg};
use quantity::units;

const MOST: Pen = Pen::area("most-band", BAND);
const HALF: Pen = Pen::area("half-band", UNCERTAIN);
const EDGE: Pen = Pen::line("most-band-edge", SOFT, 0.6);
const READ: Pen = Pen::line("ratio-read", WATER, 1.2).dashed("4 1.5 1 1.5");
const UNITY: Pen = Pen::line("unity", SOFT, 0.8);
const BEYOND: Pen = Pen::area("ratio-beyond", WATER);
const SOUNDED: Pen = Pen::line("sounding", INK, 1.0);

pub(super) fn sample_estimate(svg: &mut Svg, at: (f64, f64)) {
    sheet::sample_line(svg, at, &MEASURED);
}

pub(super) fn sample_half(svg: &mut Svg, at: (f64, f64)) {
    sheet::sample_area(svg, at, UNCERTAIN);
}

pub(super) fn sample_most(svg: &mut Svg, at: (f64, f64)) {
    sheet::sample_area(svg, at, BAND);
}

pub(super) fn sample_read(svg: &mut Svg, at: (f64, f64)) {
    sheet::sample_line(svg, at, &READ);
}

/// The axes of the lane.
struct Lane<'a> {
    depth: &'a Axis,
    ratio: Axis,
}

pub(super) fn draw(svg: &mut Svg, sheet: &ProfileSheet, plot: Rect, depth: &Axis) {
    let lane = Lane { depth, ratio: ratio_axis(sheet, plot) };
    svg.open("estimate");
    band(svg, sheet, &lane, (|cell| cell.most, &MOST));
    band(svg, sheet, &lane, (|cell| cell.half, &HALF));
    sheet::depth_grid(svg, depth, &sheet.depth, (plot.x, plot.right()));
    sheet::foot_scale(svg, &lane.ratio.ticks(&Scale::of(&units::PART, 2), 28.0), plot);
    edges(svg, sheet, &lane);
    svg.line((lane.ratio.at(1.0), plot.y), (lane.ratio.at(1.0), plot.bottom()), &UNITY);
    steps(svg, sheet.read.iter().map(|read| (read.top_m, read.bottom_m, read.ratio)), &lane, &READ);
    steps(svg, sheet.cells.iter().map(|cell| (cell.top_m, cell.bottom_m, cell.ratio)), &lane, &MEASURED);
    for at in sheet.soundings_m.iter().map(|depth_m| depth.clamped(*depth_m)) {
        svg.line((plot.x, at), (plot.x + 6.0, at), &SOUNDED);
        svg.line((plot.right() - 6.0, at), (plot.right(), at), &SOUNDED);
    }
    cased(svg, sheet, &lane, plot);
    beyond(svg, sheet, &lane, plot);
    sheet::frame(svg, plot);
    svg.text(
        &HEAD,
        (plot.x, plot.y - 6.0),
        &fit(&sheet.words.shape.area_ratio, HEAD.weight, HEAD.size, plot.width),
    );
    svg.close();
}

/// Says why there is no band where a pipe is the wall.
fn cased(svg: &mut Svg, sheet: &ProfileSheet, lane: &Lane<'_>, plot: Rect) {
    let cells = || sheet.cells.iter().filter(|cell| cell.cased);
    let Some((top, bottom)) = range(cells().flat_map(|cell| [cell.top_m, cell.bottom_m])) else { return };
    let [from, to] = [top, bottom].map(|depth_m| lane.depth.clamped(depth_m));
    let lines = NOTE.wrapped(&sheet.words.shape.cased, plot.width * 0.45, 3);
    let crowded = off_axis(sheet, lane).iter().any(|(_, y)| from - 5.0 <= *y && *y <= to + 5.0);
    if crowded || to - from < 8.5 * lines.len() as f64 {
        return;
    }
    let first = f64::midpoint(from, to) - 4.25 * (lines.len() as f64 - 1.0) + 2.5;
    for (row, line) in lines.iter().enumerate() {
        svg.text(&NOTE.end(), (plot.right() - 9.0, first + 8.5 * row as f64), line);
    }
}

/// Plain ratios off the axis, with the places of their figures; one that finds no room between two others is left to
/// the table of volumes.
fn off_axis(sheet: &ProfileSheet, lane: &Lane<'_>) -> Vec<(f64, f64)> {
    let mut places: Vec<(f64, f64)> = Vec::new();
    for read in sheet.read.iter().filter(|read| !lane.ratio.contains(read.ratio)) {
        let y = lane.depth.clamped(f64::midpoint(read.top_m, read.bottom_m));
        if places.iter().all(|(_, other)| (other - y).abs() >= 9.0) {
            places.push((read.ratio, y));
        }
    }
    places
}

/// A plain ratio that lies off the axis is told by an arrow at its edge and its figure.
fn beyond(svg: &mut Svg, sheet: &ProfileSheet, lane: &Lane<'_>, plot: Rect) {
    for (ratio, y) in off_axis(sheet, lane) {
        let right = ratio > lane.ratio.to;
        let (tip, back) = if right { (plot.right() - 2.0, -6.0) } else { (plot.x + 2.0, 6.0) };
        svg.polygon(&[(tip, y), (tip + back, y - 3.0), (tip + back, y + 3.0)], &BEYOND);
        let style = if right { STRONG.end() } else { STRONG };
        svg.text(&style.ink(WATER), (tip + back * 1.4, y + 2.6), &fixed(ratio, 2));
    }
}

/// From a little below the least to a little above the greatest, with 1.00 always in sight.
fn ratio_axis(sheet: &ProfileSheet, plot: Rect) -> Axis {
    let cells = sheet.cells.iter().flat_map(|cell| [cell.ratio, cell.most.0, cell.most.1]);
    let read = sheet.read.iter().map(|read| read.ratio);
    let (low, high) = range(cells.chain(read).chain([1.0])).unwrap_or((0.9, 1.1));
    let (low, high) = (low.max(0.0), high.clamp(1.0, 3.0));
    let margin = ((high - low) * 0.06).max(0.03);
    Axis::new(((low - margin).max(0.0), high + margin), (plot.x, plot.right()))
}

type Ends = fn(&ProfileCell) -> (f64, f64);

/// One area down the left ends and up the right ends.
fn band(svg: &mut Svg, sheet: &ProfileSheet, lane: &Lane<'_>, (ends, pen): (Ends, &Pen)) {
    let side = |cell: &ProfileCell, end: f64| {
        let x = lane.ratio.clamped(end);
        [(x, lane.depth.clamped(cell.top_m)), (x, lane.depth.clamped(cell.bottom_m))]
    };
    let down = sheet.cells.iter().flat_map(|cell| side(cell, ends(cell).0));
    let up = sheet.cells.iter().rev().flat_map(|cell| {
        let [top, bottom] = side(cell, ends(cell).1);
        [bottom, top]
    });
    svg.polygon(&down.chain(up).collect::<Vec<_>>(), pen);
}

/// The outer band has an edge, so that it shows on a photocopy.
fn edges(svg: &mut Svg, sheet: &ProfileSheet, lane: &Lane<'_>) {
    for end in [|cell: &ProfileCell| cell.most.0, |cell: &ProfileCell| cell.most.1] {
        steps(svg, sheet.cells.iter().map(|cell| (cell.top_m, cell.bottom_m, end(cell))), lane, &EDGE);
    }
}

/// A stepped line down the depth.
fn steps(svg: &mut Svg, values: impl Iterator<Item = (f64, f64, f64)>, lane: &Lane<'_>, pen: &Pen) {
    let mut path = Path::new();
    let mut before: Option<f64> = None;
    for (top, bottom, value) in values {
        let (x, from, to) = (lane.ratio.clamped(value), lane.depth.clamped(top), lane.depth.clamped(bottom));
        path = match before {
            Some(end) if (end - from).abs() < 0.05 => path.to((x, from)).to((x, to)),
            _ => path.stroke((x, from), (x, to)),
        };
        before = Some(to);
    }
    svg.path(path, pen);
}
