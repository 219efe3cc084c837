//! The limits of a panel: a line each, with its words beside it or, on narrow paper, over the panel.
//!
//! Units: points.

use super::{Columns, NARROW, TrendLimit, TrendPanel};
use crate::axis::{Axis, known};
use crate::lettering::{fit, width};
use crate::sheet::MARGIN;
use crate::size::Rect;
use crate::spread::spread;
use crate::style::{BAD, LEADER, LIMIT, Pen, TICK};
use crate::svg::{Path, Svg};

/// From one line of words to the next.
const LINE: f64 = 8.5;
/// Widest the words at the side may be.
const WIDEST: f64 = 130.0;

/// `≤ 4.0 % before concrete`.
fn words(panel: &TrendPanel, limit: &TrendLimit) -> String {
    let sign = if limit.least { "≥" } else { "≤" };
    format!("{sign} {} {}", panel.scale.label(limit.value), limit.words)
}

fn known_limits(panel: &TrendPanel) -> impl Iterator<Item = &TrendLimit> {
    panel.limits.iter().filter(|limit| known(Some(limit.value)).is_some())
}

/// All the words as lines as wide as narrow paper has room for.
fn lines(panel: &TrendPanel, room: f64) -> Vec<String> {
    let all: Vec<String> = known_limits(panel).map(|limit| words(panel, limit)).collect();
    if all.is_empty() { Vec::new() } else { TICK.wrapped(&all.join("; "), room, 4) }
}

/// Height the words take over the panel.
pub(super) fn height(panel: &TrendPanel, paper: f64) -> f64 {
    if paper < NARROW { lines(panel, paper - 2.0 * MARGIN).len() as f64 * LINE } else { 0.0 }
}

/// Width the words take beside the panel.
pub(super) fn side(panel: &TrendPanel, paper: f64) -> f64 {
    if paper < NARROW {
        return 0.0;
    }
    let widths = known_limits(panel).map(|limit| width(&words(panel, limit), TICK.weight, TICK.size));
    let widest = widths.fold(0.0, f64::max);
    if widest > 0.0 { widest.min(WIDEST) + 14.0 } else { 0.0 }
}

/// The lines, and their words.
pub(super) fn draw(
    svg: &mut Svg,
    panel: &TrendPanel,
    (axis, columns): (&Axis, &Columns),
    (plot, cell): (Rect, Rect),
) {
    for limit in known_limits(panel) {
        for ends in stretches(limit, columns) {
            line(svg, limit, axis.clamped(limit.value), (plot, ends));
        }
    }
    let paper = cell.width + 2.0 * MARGIN;
    if paper < NARROW {
        for (row, text) in lines(panel, cell.width).iter().enumerate() {
            svg.text(&TICK, (cell.x, cell.y + 9.0 + LINE * (row as f64 + 1.0)), text);
        }
        return;
    }
    let wanted: Vec<f64> = known_limits(panel).map(|limit| axis.clamped(limit.value)).collect();
    let places = spread(&wanted, LINE, (plot.y + 3.0, plot.bottom() - 2.0));
    for ((limit, from), at) in known_limits(panel).zip(&wanted).zip(&places) {
        svg.line((plot.right(), *from), (plot.right() + 9.0, *at), &LEADER);
        let text = fit(&words(panel, limit), TICK.weight, TICK.size, cell.right() - plot.right() - 11.0);
        svg.text(&TICK, (plot.right() + 11.0, at + 2.5), &text);
    }
}

/// From where to where a limit holds: the columns that follow each other as one.
fn stretches(limit: &TrendLimit, columns: &Columns) -> Vec<(f64, f64)> {
    let mut stretches: Vec<(f64, f64)> = Vec::new();
    for column in (0..columns.counts.len()).filter(|column| limit.columns.contains(column)) {
        let (from, to) = (columns.left(column), columns.left(column + 1));
        match stretches.last_mut() {
            Some(last) if (last.1 - from).abs() < 1e-6 => last.1 = to,
            _ => stretches.push((from, to)),
        }
    }
    stretches
}

/// Short strokes point to the side that is not allowed, for those who see no colour.
fn line(svg: &mut Svg, limit: &TrendLimit, y: f64, (plot, (from, to)): (Rect, (f64, f64))) {
    svg.line((from, y), (to, y), &LIMIT);
    let outward = if limit.least { 3.0 } else { -3.0 };
    let out = (y + outward).clamp(plot.y, plot.bottom());
    let count = ((to - from) / 56.0).ceil().clamp(1.0, 200.0) as i32;
    let strokes = (0..count).fold(Path::new(), |path, k| {
        let x = from + (to - from) * (f64::from(k) + 0.5) / f64::from(count);
        path.stroke((x, y), ((x + 3.0).min(plot.right()), out))
    });
    svg.path(strokes, &Pen::line("limit", BAD, 0.7));
}
