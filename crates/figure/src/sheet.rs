//! What every sheet has: its title, scales at the sides, a legend, and what was not recorded.
//!
//! Units: points.

use crate::axis::{Axis, Tick};
use crate::lettering::{self, fit};
use crate::scale::Scale;
use crate::size::{Rect, Size};
use crate::style::{
    FAINT, FRAME, GRID, HEAD, INK, LABEL, NOTE, PAPER, Pen, SUBTITLE, TICK, TICK_LINE, TITLE, Type,
};
use crate::svg::Svg;
use crate::words::Words;

pub(crate) const MARGIN: f64 = 12.0;
const TITLE_HEIGHT: f64 = 34.0;
const LINE: f64 = 10.0;

/// White paper, the title with its bar, and the room that is left below.
pub(crate) fn title(svg: &mut Svg, size: Size, title: &str, subtitle: &str) -> Rect {
    let room = Rect::new(0.0, 0.0, size.width, size.height);
    svg.rect(room, &Pen::area("paper", PAPER));
    let width = size.width - 2.0 * MARGIN - 8.0;
    svg.rect(Rect::new(MARGIN, MARGIN - 1.0, 2.5, 22.5), &Pen::area("title-bar", INK));
    let text = fit(title, TITLE.weight, TITLE.size, width);
    svg.text(&TITLE, (MARGIN + 8.0, MARGIN + 8.5), &text);
    let text = fit(subtitle, SUBTITLE.weight, SUBTITLE.size, width);
    svg.text(&SUBTITLE, (MARGIN + 8.0, MARGIN + 20.0), &text);
    room.inset(MARGIN, MARGIN + TITLE_HEIGHT - 4.0, MARGIN, MARGIN)
}

/// Height of the lines that name what was not recorded.
pub(crate) fn blanks_height(blanks: &[String], size: Size) -> f64 {
    if blanks.is_empty() { 0.0 } else { blank_lines(blanks, "not recorded", size).len() as f64 * LINE + 4.0 }
}

/// Names what was not recorded, at the foot of the sheet.
pub(crate) fn blanks(svg: &mut Svg, size: Size, blanks: &[String], words: &Words) {
    if blanks.is_empty() {
        return;
    }
    let lines = blank_lines(blanks, &words.not_recorded, size);
    let first = size.height - MARGIN - (lines.len() as f64 - 1.0) * LINE - 1.0;
    for (row, line) in lines.iter().enumerate() {
        svg.text(&NOTE, (MARGIN, first + row as f64 * LINE), line);
    }
}

fn blank_lines(blanks: &[String], words: &str, size: Size) -> Vec<String> {
    let mut start = words.chars();
    let first = start.next().map(|c| c.to_uppercase().collect::<String>()).unwrap_or_default();
    let text = format!("{first}{}: {}", start.as_str(), blanks.join(", "));
    NOTE.wrapped(&text, size.width - 2.0 * MARGIN, 4)
}

/// A drawing without data says so in its middle.
pub(crate) fn nothing(svg: &mut Svg, room: Rect, words: &Words) {
    let (x, y) = room.middle();
    let text = fit(&words.nothing_recorded, NOTE.weight, NOTE.size, room.width);
    svg.text(&NOTE.middle(), (x, y), &text);
}

/// A scale at the side of a drawing.
#[derive(Clone, Copy)]
pub(crate) struct SideScale<'a> {
    pub(crate) axis: &'a Axis,
    pub(crate) scale: &'a Scale,
    /// Where its line stands.
    pub(crate) x: f64,
    /// Its head.
    pub(crate) word: &'a str,
}

/// A scale of depths: head, line, and figures at its left.
pub(crate) fn depth_scale(svg: &mut Svg, side: &SideScale<'_>) {
    side_scale(svg, side, &side.axis.ticks(side.scale, 26.0), -1.0);
    head(svg, side, side.x - 27.0, &HEAD);
}

/// A scale of elevations with figures at its right; `zero` is the elevation of depth zero.
pub(crate) fn elevation_scale(svg: &mut Svg, side: &SideScale<'_>, zero: f64) {
    side_scale(svg, side, &side.axis.elevation_ticks(side.scale, 26.0, zero), 1.0);
    head(svg, side, side.x + 29.0, &HEAD.end());
}

fn head(svg: &mut Svg, side: &SideScale<'_>, x: f64, style: &Type) {
    let y = side.axis.start - 13.0;
    svg.text(style, (x, y), &fit(side.word, style.weight, style.size, 44.0));
    svg.text(&Type { anchor: style.anchor, ..TICK }, (x, y + 8.5), side.scale.symbol());
}

fn side_scale(svg: &mut Svg, side: &SideScale<'_>, ticks: &[Tick], outward: f64) {
    let x = side.x;
    svg.line((x, side.axis.start), (x, side.axis.end), &TICK_LINE);
    let style = if outward < 0.0 { TICK.end() } else { TICK };
    for tick in ticks {
        svg.line((x, tick.at), (x + outward * 3.0, tick.at), &TICK_LINE);
        svg.text(&style, (x + outward * 5.0, tick.at + 2.5), &tick.label);
    }
}

/// Thin lines across at the ticks of a depth axis.
pub(crate) fn depth_grid(svg: &mut Svg, axis: &Axis, scale: &Scale, across: (f64, f64)) {
    for tick in axis.ticks(scale, 26.0) {
        svg.line((across.0, tick.at), (across.1, tick.at), &GRID);
    }
}

/// An upright scale at the left of a plot with grid lines through it, for any quantity.
pub(crate) fn value_scale(svg: &mut Svg, axis: &Axis, scale: &Scale, plot: Rect) {
    for tick in axis.ticks(scale, (plot.height / 10.0).max(17.0)) {
        svg.line((plot.x, tick.at), (plot.right(), tick.at), &GRID);
        svg.text(&TICK.end(), (plot.x - 4.0, tick.at + 2.5), &tick.label);
    }
}

/// Grid lines and labels of a time or value axis that runs across, labelled below the plot.
pub(crate) fn foot_scale(svg: &mut Svg, ticks: &[Tick], plot: Rect) {
    let mut last = f64::NEG_INFINITY;
    for tick in ticks {
        svg.line((tick.at, plot.y), (tick.at, plot.bottom()), &GRID);
        let half = lettering::width(&tick.label, TICK.weight, TICK.size) / 2.0;
        if tick.at - half > last + 2.0 {
            svg.text(&TICK.middle(), (tick.at, plot.bottom() + 9.0), &tick.label);
            last = tick.at + half;
        }
    }
}

/// The frame of a plot.
pub(crate) fn frame(svg: &mut Svg, plot: Rect) {
    svg.rect(plot, &FRAME);
}

/// A sample in the legend: drawn into 16 × 6 points about its middle.
pub(crate) type Sample = fn(&mut Svg, (f64, f64));

const SAMPLE_WIDTH: f64 = 18.0;
const ENTRY_GAP: f64 = 12.0;

/// Height of a legend in a given width.
pub(crate) fn legend_height(entries: &[(Sample, &str)], width: f64) -> f64 {
    legend_rows(entries, width).last().map_or(0.0, |last| (last.1 + 1) as f64 * 11.0 + 3.0)
}

/// Samples with their words, row by row.
pub(crate) fn legend(svg: &mut Svg, entries: &[(Sample, &str)], room: Rect) {
    for ((sample, word), (x, row)) in entries.iter().zip(legend_rows(entries, room.width)) {
        let (x, y) = (room.x + x, room.y + 8.0 + row as f64 * 11.0);
        sample(svg, (x + SAMPLE_WIDTH / 2.0 - 1.0, y - 2.5));
        let room = room.right() - x - SAMPLE_WIDTH - 2.0;
        svg.text(&LABEL, (x + SAMPLE_WIDTH + 2.0, y), &fit(word, LABEL.weight, LABEL.size, room));
    }
}

/// Left edge and row of each entry.
fn legend_rows(entries: &[(Sample, &str)], room: f64) -> Vec<(f64, usize)> {
    let (mut x, mut row) = (0.0, 0);
    let mut places = Vec::new();
    for (_, word) in entries {
        let width = SAMPLE_WIDTH + 2.0 + lettering::width(word, LABEL.weight, LABEL.size);
        if x > 0.0 && x + width > room {
            (x, row) = (0.0, row + 1);
        }
        places.push((x, row));
        x += width + ENTRY_GAP;
    }
    places
}

/// A straight sample of a line.
pub(crate) fn sample_line(svg: &mut Svg, at: (f64, f64), pen: &Pen) {
    svg.line((at.0 - 8.0, at.1), (at.0 + 8.0, at.1), pen);
}

/// A sample of a filled area.
pub(crate) fn sample_area(svg: &mut Svg, at: (f64, f64), fill: &'static str) {
    let pen = Pen::line("sample", FAINT, 0.5).filled(fill);
    svg.rect(Rect::new(at.0 - 8.0, at.1 - 3.0, 16.0, 6.0), &pen);
}
