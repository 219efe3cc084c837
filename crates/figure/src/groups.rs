//! Values of many shafts in rows: each shaft a dot, together a bar with its middle, all on one axis.
//!
//! Somebody who plans the next shafts sees which ground takes more, how much that differs, and how little one shaft says.
//!
//! Units: plain numbers on one axis. Never: draw a bar where there is one shaft alone.

use crate::axis::{Axis, known, range};
use crate::lead::Lead;
use crate::lettering::{fit, width};
use crate::scale::Scale;
use crate::sheet;
use crate::size::{Rect, Size};
use crate::style::{CONCRETE, HEAD, INK, LABEL, NOTE, PAPER, Pen, SOFT, STRONG};
use crate::svg::Svg;
use crate::words::Words;
use quantity::units;

/// Height of a row, points.
const ROW: f64 = 17.0;
/// Room of the names at the left, as a part of the width.
const NAMES: f64 = 0.36;
/// Room of the words at the right of a row, points.
const BESIDE: f64 = 92.0;
/// On paper narrower than this, names and words stand over their row.
const NARROW: f64 = 400.0;

const BAR: Pen = Pen::line("together", INK, 0.8).filled(CONCRETE);
const MIDDLE: Pen = Pen::line("together-middle", INK, 1.6);
const DOT: Pen = Pen::line("part", SOFT, 0.8).filled(PAPER);
const LINE: Pen = Pen::line("reference", INK, 0.8).dashed("5 2.5");

/// Rows of values on one axis.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct GroupSheet {
    /// What is shown.
    pub title: String,
    /// From what, and how sure.
    pub subtitle: String,
    /// A value that everything is compared with, and what it is.
    pub reference: Option<(f64, String)>,
    /// Rows, from the top.
    pub rows: Vec<GroupRow>,
    /// Captions.
    pub words: Words,
}

/// One row.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct GroupRow {
    /// A heading that stands over this row and those after it; empty: none.
    pub heading: String,
    /// What it is.
    pub label: String,
    /// The parts: one a shaft.
    pub parts: Vec<GroupPart>,
    /// Low end, middle, high end; `None` of one part alone.
    pub together: Option<[f64; 3]>,
    /// What stands at its right: `1.08 (1.04–1.12)`.
    pub beside: String,
}

/// One shaft in a row.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct GroupPart {
    /// Its value.
    pub value: f64,
    /// Where its dot leads.
    pub lead: Lead,
}

impl GroupSheet {
    /// A size in which every row has room.
    pub fn size(&self, width: f64) -> Size {
        let lines = self.rows.iter().map(|row| row.lines(width < NARROW)).sum::<usize>();
        Size::points(width, 74.0 + lines as f64 * ROW)
    }

    fn lines(&self, narrow: bool) -> usize {
        self.rows.iter().map(|row| row.lines(narrow)).sum()
    }
}

impl GroupRow {
    /// Its own line, one for its heading, and on narrow paper one for its name.
    fn lines(&self, narrow: bool) -> usize {
        1 + usize::from(!self.heading.is_empty()) + usize::from(narrow)
    }
}

/// Draws the rows.
pub fn groups_svg(data: &GroupSheet, size: Size) -> String {
    let size = size.usable();
    let mut svg = Svg::new(size);
    let room = sheet::title(&mut svg, size, &data.title, &data.subtitle);
    let parts = |row: &GroupRow| row.parts.iter().map(|part| part.value).collect::<Vec<_>>();
    let values =
        data.rows.iter().flat_map(|row| parts(row).into_iter().chain(row.together.into_iter().flatten()));
    let values = values.chain(data.reference.iter().map(|(value, _)| *value));
    match range(values.filter(|value| known(Some(*value)).is_some())) {
        Some((low, high)) => plot(&mut svg, data, room, (low, high)),
        None => sheet::nothing(&mut svg, room, &data.words),
    }
    svg.finish("groups", &data.title, &description(data))
}

fn plot(svg: &mut Svg, data: &GroupSheet, room: Rect, (low, high): (f64, f64)) {
    let narrow = room.width + 2.0 * sheet::MARGIN < NARROW;
    let plot = match narrow {
        true => room.inset(4.0, 6.0, 4.0, 26.0),
        false => room.inset(room.width * NAMES, 6.0, BESIDE, 26.0),
    };
    let spare = (high - low).max(0.02) * 0.08;
    let axis = Axis::new((low - spare, high + spare), (plot.x, plot.right()));
    let ratio = Scale::of(&units::PART, 2);
    sheet::foot_scale(svg, &axis.ticks(&ratio, 34.0), plot);
    if let Some((value, label)) = &data.reference {
        let x = axis.clamped(*value);
        svg.line((x, plot.y), (x, plot.bottom()), &LINE);
        let half = width(label, NOTE.weight, NOTE.size) / 2.0;
        let x = x.clamp(room.x + half, (room.right() - half).max(room.x + half));
        svg.text(&NOTE.middle(), (x, plot.bottom() + 19.0), label);
    }
    sheet::frame(svg, plot);
    let step = plot.height / data.lines(narrow).max(1) as f64;
    let mut line = 0.0;
    for row in &data.rows {
        if !row.heading.is_empty() {
            heading(
                svg,
                &row.heading,
                (if narrow { plot.x + 4.0 } else { room.x }, plot.y + (line + 0.5) * step + 2.5),
            );
            line += 1.0;
        }
        let lane = Rect::new(room.x, plot.y + line * step, plot.right() - room.x, step);
        line += if narrow {
            named_over(svg, row, &axis, (lane, plot))
        } else {
            named_beside(svg, row, &axis, lane)
        };
    }
}

fn heading(svg: &mut Svg, text: &str, at: (f64, f64)) {
    svg.plated(&HEAD, at, text);
}

/// Name at the left, words at the right; says how many lines it took.
fn named_beside(svg: &mut Svg, row: &GroupRow, axis: &Axis, lane: Rect) -> f64 {
    let y = lane.middle().1;
    let name = fit(&row.label, LABEL.weight, LABEL.size, axis.start - lane.x - 12.0);
    svg.text(&LABEL, (lane.x + 6.0, y + 2.5), &name);
    values(svg, row, axis, y);
    let beside = fit(&row.beside, STRONG.weight, STRONG.size, BESIDE - 8.0);
    svg.text(&STRONG, (lane.right() + 6.0, y + 2.5), &beside);
    1.0
}

/// Name and words in a line of their own over the values.
fn named_over(svg: &mut Svg, row: &GroupRow, axis: &Axis, (lane, plot): (Rect, Rect)) -> f64 {
    let y = lane.middle().1 + 4.5;
    let beside = fit(&row.beside, STRONG.weight, STRONG.size, plot.width * 0.55);
    let taken = width(&beside, STRONG.weight, STRONG.size);
    svg.plated(&STRONG.end(), (plot.right() - 4.0, y), &beside);
    svg.plated(
        &LABEL,
        (plot.x + 4.0, y),
        &fit(&row.label, LABEL.weight, LABEL.size, plot.width - taken - 16.0),
    );
    values(svg, row, axis, lane.middle().1 + lane.height - 1.0);
    2.0
}

fn values(svg: &mut Svg, row: &GroupRow, axis: &Axis, y: f64) {
    if let Some([low, middle, high]) = row.together {
        let (from, to) = (axis.clamped(low), axis.clamped(high));
        svg.rect(Rect::new(from, y - 4.0, to - from, 8.0), &BAR);
        let x = axis.clamped(middle);
        svg.line((x, y - 5.5), (x, y + 5.5), &MIDDLE);
    }
    for part in row.parts.iter().filter(|part| known(Some(part.value)).is_some()) {
        let at = (axis.clamped(part.value), y);
        svg.leading(&part.lead, |svg| {
            if !part.lead.to.is_empty() {
                svg.reach(at, 6.0);
            }
            svg.circle(at, 2.2, &DOT);
        });
    }
}

fn description(data: &GroupSheet) -> String {
    let rows = data.rows.iter().map(|row| format!("{}: {}", row.label, row.beside));
    [data.subtitle.clone()].into_iter().chain(rows).collect::<Vec<_>>().join("; ")
}
