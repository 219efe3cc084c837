//! The two curves: theoretical volume as a broken line, placed volume as points with their errors.

use super::{PlacedPoint, VolumeCurve};
use crate::around::around;
use crate::axis::{Axis, known, range};
use crate::mark::{self, Mark};
use crate::sheet;
use crate::size::Rect;
use crate::style::{Anchor, HEAD, INK, MEASURED, PAPER, PLANNED, Pen, STRONG, TICK};
use crate::svg::{Path, Svg};
use quantity::InOrder;

const ERROR: Pen = Pen::line("error-bar", INK, 0.7);
const POINT: Pen = Pen::line("sounding", INK, 1.0).filled(PAPER);

pub(super) fn sample_theoretical(svg: &mut Svg, at: (f64, f64)) {
    sheet::sample_line(svg, at, &PLANNED);
}

pub(super) fn sample_placed(svg: &mut Svg, at: (f64, f64)) {
    sheet::sample_line(svg, at, &MEASURED);
    svg.circle(at, 2.2, &POINT);
}

/// The axes the curves stand on.
struct View<'a> {
    plot: Rect,
    depth: &'a Axis,
    volume: Axis,
}

impl View<'_> {
    fn at(&self, depth_m: f64, volume_m3: f64) -> (f64, f64) {
        (self.volume.at(volume_m3), self.depth.at(depth_m))
    }
}

pub(super) fn draw(svg: &mut Svg, curve: &VolumeCurve, plot: Rect, depth: &Axis) {
    let view = View { plot, depth, volume: volume_axis(curve, plot) };
    sheet::depth_grid(svg, depth, &curve.depth, (plot.x, plot.right()));
    sheet::foot_scale(svg, &view.volume.ticks(&curve.volume, 26.0), plot);
    let head = format!("{}, {}", curve.words.volume, curve.volume.symbol());
    svg.text(&HEAD, (plot.x, plot.y - 6.0), &head);
    lines(svg, curve, &view);
    for point in &curve.placed {
        errors(svg, point, &view);
    }
    for point in &curve.placed {
        sounding(svg, point, &view);
    }
    names(svg, curve, &view);
    sheet::frame(svg, plot);
}

/// From zero (or the lowest volume, were one negative) to a little above the highest with its error.
fn volume_axis(curve: &VolumeCurve, plot: Rect) -> Axis {
    let theory = curve.theoretical.iter().map(|p| p.volume_m3);
    let reach = |p: &PlacedPoint| p.volume_m3 + known(p.volume_error_m3).unwrap_or(0.0).max(0.0) * 2.0;
    let placed = curve.placed.iter().flat_map(|p| [p.volume_m3, reach(p)]);
    let ends = range(theory.chain(placed));
    let (low, high) = ends.map_or((0.0, 1.0), |range| (range.0.min(0.0), range.1.max(0.0)));
    Axis::new((low, high + (high - low) * 0.08), (plot.x, plot.right()))
}

fn lines(svg: &mut Svg, curve: &VolumeCurve, view: &View<'_>) {
    let mut theory: Vec<(f64, f64)> = curve.theoretical.iter().map(|p| (p.depth_m, p.volume_m3)).collect();
    theory.put_in_order_by(|a, b| b.0.total_cmp(&a.0));
    let line: Vec<_> = theory.iter().map(|p| view.at(p.0, p.1)).collect();
    svg.polyline(&line, &PLANNED);
    svg.avoid_line(&line);
    let start = theory.first().filter(|p| p.1 == 0.0).copied();
    let placed = curve.placed.iter().map(|p| (p.depth_m, p.volume_m3));
    let points: Vec<(f64, f64)> = start.into_iter().chain(placed).map(|p| view.at(p.0, p.1)).collect();
    svg.polyline(&points, &MEASURED);
    svg.avoid_line(&points);
}

fn sounding(svg: &mut Svg, point: &PlacedPoint, view: &View<'_>) {
    let at = view.at(point.depth_m, point.volume_m3);
    if matches!(point.mark, Mark::NoLimit) {
        svg.circle(at, 2.0, &POINT);
        svg.keep_clear(Rect::new(at.0 - 2.4, at.1 - 2.4, 4.8, 4.8));
    } else {
        mark::draw(svg, point.mark, at, 3.4);
    }
}

/// One standard error each way, with feet at the ends.
fn errors(svg: &mut Svg, point: &PlacedPoint, view: &View<'_>) {
    let (depth, volume) = (view.depth, &view.volume);
    let mut path = Path::new();
    let (x, y) = view.at(point.depth_m, point.volume_m3);
    if let Some(error) = known(point.volume_error_m3).filter(|e| *e > 0.0) {
        let (a, b) = (volume.clamped(point.volume_m3 - error), volume.clamped(point.volume_m3 + error));
        path = path.stroke((a, y), (b, y));
        path = path.stroke((a, y - 2.0), (a, y + 2.0)).stroke((b, y - 2.0), (b, y + 2.0));
    }
    if let Some(error) = known(point.depth_error_m).filter(|e| *e > 0.0) {
        let (a, b) = (depth.clamped(point.depth_m - error), depth.clamped(point.depth_m + error));
        path = path.stroke((x, a), (x, b));
        path = path.stroke((x - 2.0, a), (x + 2.0, a)).stroke((x - 2.0, b), (x + 2.0, b));
    }
    svg.path(path, &ERROR);
}

/// The number of the load beside each sounding, where there is room for it.
fn names(svg: &mut Svg, curve: &VolumeCurve, view: &View<'_>) {
    for point in &curve.placed {
        let at = view.at(point.depth_m, point.volume_m3);
        let places: Vec<_> = corners(at).into_iter().chain(around(at, 3.4)).collect();
        let figure = curve.volume.figure(point.volume_m3);
        let text = if point.label.is_empty() { figure } else { format!("{} · {figure}", point.label) };
        if !svg.text_where_free(&TICK.ink(INK), &places, &text, view.plot) {
            svg.text_where_free(&STRONG, &places, &point.label, view.plot);
        }
    }
}

/// A rising curve leaves room right below and left above its points.
fn corners(at: (f64, f64)) -> [((f64, f64), Anchor); 2] {
    [((at.0 + 6.0, at.1 + 9.0), Anchor::Start), ((at.0 - 6.0, at.1 - 4.0), Anchor::End)]
}
