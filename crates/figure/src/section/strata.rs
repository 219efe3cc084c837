//! The ground beside the hole: hatchings, boundaries, descriptions, the ground surface.
//!
//! Never: invent the bottom of a stratum; one without a bottom ends at the next top, with a broken line
//! when there is none.

use super::layout::Layout;
use super::{Section, Stratum};
use crate::axis::Axis;
use crate::ground::Ground;
use crate::hatch::hatch;
use crate::lettering::{fit, width};
use crate::scale::Scale;
use crate::size::Rect;
use crate::spread::spread_wide;
use crate::style::{EARTH, EARTH_INK, GRID, INK, LABEL, NOTE, PLATE, Pen, TICK};
use crate::svg::{Path, Svg, extent};
use crate::words::Words;
use quantity::InOrder;

/// Width of the hatched strip in a column.
const STRIP_WIDTH: f64 = 25.0;
const SURFACE: Pen = Pen::line("ground-surface", INK, 1.4);
const SURFACE_TICKS: Pen = Pen::line("ground-surface", INK, 0.6);
const BOUNDARY: Pen = Pen::line("boundary", EARTH_INK, 0.7);
const OPEN_BOUNDARY: Pen = Pen::line("boundary", EARTH_INK, 0.7).dashed("2 2");

/// A stratum as it is drawn: top, bottom, and whether the bottom is known.
pub(crate) struct Layer<'a> {
    pub(crate) top: f64,
    pub(crate) bottom: f64,
    pub(crate) bottom_known: bool,
    pub(crate) stratum: &'a Stratum,
}

/// The strata with their ends, in order of depth, within the range of the axis.
pub(crate) fn layers<'a>(strata: &'a [Stratum], axis: &Axis) -> Vec<Layer<'a>> {
    let mut sorted: Vec<&Stratum> = strata.iter().collect();
    sorted.put_in_order_by(|a, b| a.top_m.total_cmp(&b.top_m));
    let next_top = |i: usize| sorted.get(i + 1).map(|next| next.top_m);
    let layer = |(i, s): (usize, &&'a Stratum)| {
        let own = s.bottom_m;
        let end = own.into_iter().chain(next_top(i)).reduce(f64::min);
        let bottom = end.unwrap_or(axis.to).clamp(axis.from, axis.to);
        let top = s.top_m.clamp(axis.from, axis.to);
        Layer { top, bottom, bottom_known: end.is_some(), stratum: s }
    };
    sorted.iter().enumerate().map(layer).filter(|layer| layer.bottom > layer.top).collect()
}

pub(super) fn draw(svg: &mut Svg, section: &Section, layout: &Layout) {
    let layers = layers(&section.strata, &layout.depth);
    svg.open("strata");
    background(svg, section, layout, layers.is_empty());
    for layer in &layers {
        draw_layer(svg, layer, &layout.depth, layout.ground);
    }
    svg.close();
    surface(svg, section, layout);
}

/// Descriptions stand over the hatching; they are written after the hole is drawn.
pub(super) fn draw_labels(svg: &mut Svg, section: &Section, layout: &Layout) {
    let layers = layers(&section.strata, &layout.depth);
    let hole = layout.sides(super::layout::widest(section).unwrap_or(0.0)).0;
    let ground = section.ground_m.map_or(layout.depth.start, |m| layout.depth.clamped(m));
    let room = Rect::between((layout.ground.x, ground + 1.0), (hole - 6.0, layout.ground.bottom()));
    let blank = blank(&section.words);
    Column { axis: &layout.depth, scale: &section.depth, room, blank }.label_layers(svg, &layers);
}

/// `Strata: not recorded`.
pub(crate) fn blank(words: &Words) -> String {
    format!("{}: {}", words.strata, words.not_recorded)
}

/// A column beside a depth axis in which strata are described.
pub(crate) struct Column<'a> {
    pub(crate) axis: &'a Axis,
    pub(crate) scale: &'a Scale,
    pub(crate) room: Rect,
    /// Said where no stratum was recorded.
    pub(crate) blank: String,
}

impl Column<'_> {
    /// The strata as a narrow hatched strip at the right of the column, with the descriptions left of it.
    pub(crate) fn draw(&self, svg: &mut Svg, strata: &[Stratum]) {
        let layers = layers(strata, self.axis);
        let strip = self.room.inset((self.room.width - STRIP_WIDTH).max(0.0), 0.0, 0.0, 0.0);
        svg.open("strata");
        svg.rect(strip, &Pen::area("earth", EARTH));
        if layers.is_empty() {
            hatch(svg, Ground::NotRecorded, strip);
        }
        for layer in &layers {
            draw_layer(svg, layer, self.axis, strip);
            let y = self.axis.at(layer.top);
            svg.line((self.room.x, y), (strip.x, y), &GRID);
        }
        svg.close();
        let room = self.room.inset(0.0, 0.0, STRIP_WIDTH, 0.0);
        Column { room, blank: self.blank.clone(), ..*self }.label_layers(svg, &layers);
    }

    /// Each description near the top of its stratum, on a plate, with the depth of the top.
    fn label_layers(&self, svg: &mut Svg, layers: &[Layer<'_>]) {
        if layers.is_empty() {
            return self.say_blank(svg);
        }
        let texts: Vec<Vec<String>> = layers.iter().map(|layer| self.label_lines(layer)).collect();
        let height = |lines: &Vec<String>| lines.len() as f64 * 9.0 + 2.0;
        let wanted = layers.iter().zip(&texts).map(|(layer, lines)| {
            let (top, bottom) = (self.axis.at(layer.top), self.axis.at(layer.bottom));
            let free = (bottom - top - height(lines)).clamp(1.0, 6.0);
            (top + free / 2.0 + height(lines) / 2.0, height(lines))
        });
        let wanted: Vec<_> = wanted.collect();
        let places = spread_wide(&wanted, (self.room.y, self.room.bottom()));
        for ((lines, middle), size) in texts.iter().zip(&places).zip(&wanted) {
            let top = middle - size.1 / 2.0;
            if top + size.1 <= self.room.bottom() + 0.5 {
                label(svg, lines, (self.room.x + 4.0, top + 1.0));
            }
        }
    }

    fn say_blank(&self, svg: &mut Svg) {
        let most = ((self.room.height - 12.0) / 9.0).clamp(0.0, 5.0) as usize;
        let lines = NOTE.wrapped(&self.blank, self.room.width - 8.0, most);
        for (row, line) in lines.iter().take(most).enumerate() {
            svg.plated(&NOTE, (self.room.x + 4.0, self.room.y + 12.0 + row as f64 * 9.0), line);
        }
    }

    /// As many lines of the description as its stratum is high, then the depth of its top. Where the column is too
    /// narrow for a word of it, the hatching has to say alone what ground it is: chopped words say nothing.
    fn label_lines(&self, layer: &Layer<'_>) -> Vec<String> {
        let height = self.axis.at(layer.bottom) - self.axis.at(layer.top);
        let most = ((height / 9.0) as usize).clamp(2, 6) - 1;
        let room = self.room.width - 8.0;
        let words = &layer.stratum.label;
        let whole = words.split_whitespace().all(|word| width(word, LABEL.weight, LABEL.size) <= room);
        let mut lines = if whole { LABEL.wrapped(words, room, most) } else { Vec::new() };
        lines.push(self.scale.figure(layer.stratum.top_m));
        lines
    }
}

fn background(svg: &mut Svg, section: &Section, layout: &Layout, empty: bool) {
    let ground = layout.ground;
    let top = section.ground_m.or(section.strata.first().map(|s| s.top_m));
    let y = layout.depth.clamped(top.unwrap_or(layout.depth.from));
    let earth = Rect::new(ground.x, y, ground.width, ground.bottom() - y);
    svg.rect(earth, &Pen::area("earth", EARTH));
    if empty {
        hatch(svg, Ground::NotRecorded, earth);
    }
}

fn draw_layer(svg: &mut Svg, layer: &Layer<'_>, axis: &Axis, room: Rect) {
    let (top, bottom) = (axis.at(layer.top), axis.at(layer.bottom));
    let area = Rect::new(room.x, top, room.width, bottom - top);
    hatch(svg, layer.stratum.ground, area.inset(0.5, 0.5, 0.5, 0.5));
    let pen = if layer.bottom_known { &BOUNDARY } else { &OPEN_BOUNDARY };
    svg.line((room.x, bottom), (room.right(), bottom), pen);
}

fn label(svg: &mut Svg, lines: &[String], at: (f64, f64)) {
    let styles = |row: usize| if row + 1 == lines.len() { TICK } else { LABEL };
    let rooms = lines.iter().enumerate().map(|(row, line)| extent(&styles(row), at, line).width);
    let width = rooms.fold(0.0, f64::max);
    let height = lines.len() as f64 * 9.0;
    svg.rect(Rect::new(at.0 - 2.0, at.1 - 0.5, width + 4.0, height + 0.5), &PLATE);
    for (row, line) in lines.iter().enumerate() {
        svg.text(&styles(row), (at.0, at.1 + 6.5 + row as f64 * 9.0), line);
    }
}

fn surface(svg: &mut Svg, section: &Section, layout: &Layout) {
    let Some(depth) = section.ground_m else {
        let at = (layout.ground.x + 2.0, layout.depth.start - 3.0);
        let text = format!("{}: {}", section.words.ground, section.words.not_recorded);
        // On narrow paper the scale of elevations begins where the ground ends.
        let text = fit(&text, NOTE.weight, NOTE.size, layout.ground.width - 4.0);
        return svg.text(&NOTE, at, &text);
    };
    let y = layout.depth.at(depth);
    let hole =
        section.drilled.first().or(section.planned.first()).map(|bore| layout.sides(bore.top_diameter_m));
    let (left, right) = hole.unwrap_or((layout.center, layout.center));
    for (from, to) in [(layout.ground.x, left), (right, layout.ground.right())] {
        svg.line((from, y), (to, y), &SURFACE);
        svg.path(ticks_below((from, to), y), &SURFACE_TICKS);
    }
}

/// The usual sign for a ground surface: pairs of short slanted strokes.
fn ticks_below(ends: (f64, f64), y: f64) -> Path {
    let mut path = Path::new();
    let mut x = ends.0 + 1.0;
    while x + 8.0 < ends.1 {
        path = path.stroke((x + 3.5, y + 0.6), (x, y + 4.1)).stroke((x + 6.5, y + 0.6), (x + 3.0, y + 4.1));
        x += 11.0;
    }
    path
}
