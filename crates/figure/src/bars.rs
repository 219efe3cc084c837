//! What each of many shafts took of something, in rows: bars end to end, with marks for what was asked for.
//!
//! Where hours or concrete went is seen at a glance: the shaft that waited, the one that sent half a load back.
//!
//! Words: *kind* = what a stretch of a bar is; *asked* = a value beside the bar, such as what was ordered.
//! Units: those of the scale, SI in the data. Never: draw a stretch for what nobody wrote.

use crate::axis::Axis;
use crate::lead::Lead;
use crate::lettering::{fit, width};
use crate::scale::Scale;
use crate::sheet;
use crate::size::{Rect, Size};
use crate::style::{CONCRETE, EARTH, FLUID, INK, LABEL, NOTE, PAPER, Pen, STRONG};
use crate::svg::{Path, Svg};
use crate::words::Words;

/// Height of a row, points.
const ROW: f64 = 15.0;
/// Height of a row with a line of its own for its name.
const TWO_LINES: f64 = 25.0;
/// Room of the names at the left and of the words at the right, points.
const BESIDE: (f64, f64) = (78.0, 74.0);
/// On paper narrower than this, names and words stand over their row.
const NARROW: f64 = 400.0;
/// Nothing on a site lasts longer or holds more, in SI.
const MOST: f64 = 1e9;

/// Bars of many shafts on one axis.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BarSheet {
    /// What is shown.
    pub title: String,
    /// From what, and what is left out.
    pub subtitle: String,
    /// What the axis counts: `Hours`.
    pub axis: String,
    /// Unit of the axis.
    pub scale: Scale,
    /// What the stretches of a bar are.
    pub kinds: Vec<BarKind>,
    /// What the two values beside a bar are: a triangle over it, a broken line through it.
    pub asked: [String; 2],
    /// Rows, from the top.
    pub rows: Vec<BarRow>,
    /// Captions.
    pub words: Words,
}

/// What a stretch of a bar is.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BarKind {
    /// Its name.
    pub name: String,
    /// How it is filled.
    pub fill: BarFill,
}

/// How a stretch is filled; each can be told on a black-and-white copy.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum BarFill {
    /// Plain grey.
    #[default]
    Full,
    /// Upright strokes.
    Striped,
    /// Level strokes.
    Lined,
    /// Nothing, in a broken frame.
    Open,
}

/// One row.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BarRow {
    /// The shaft.
    pub label: String,
    /// Where its name leads.
    pub lead: Lead,
    /// Its stretches, end to end.
    pub bars: Vec<Bar>,
    /// What was asked for, in the order of the sheet; `None` where nobody wrote it.
    pub asked: [Option<f64>; 2],
    /// What stands at its right: `6 h 15 min`.
    pub beside: String,
}

/// One stretch of a bar.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bar {
    /// Which kind it is, by its place in the sheet.
    pub kind: usize,
    /// How long it is, SI.
    pub value: f64,
    /// Where it leads.
    pub lead: Lead,
}

impl BarSheet {
    /// A size in which every row has room.
    pub fn size(&self, width: f64) -> Size {
        let keyed = sheet::legend_height(&self.legend(), width - 2.0 * sheet::MARGIN);
        Size::points(width, 84.0 + keyed + self.rows.len() as f64 * row_height(width < NARROW))
    }

    /// What occurs in it.
    fn legend(&self) -> Vec<(sheet::Sample, &str)> {
        let occurs = |kind: usize| self.rows.iter().flat_map(|row| &row.bars).any(|bar| bar.kind == kind);
        let kinds = self.kinds.iter().enumerate().filter(|(index, _)| occurs(*index));
        let kinds = kinds.map(|(_, kind)| (sample(kind.fill), kind.name.as_str()));
        let asked = [over as sheet::Sample, through].into_iter().zip(&self.asked).enumerate();
        let asked = asked.filter(|(index, _)| self.rows.iter().any(|row| row.asked[*index].is_some()));
        kinds.chain(asked.map(|(_, (sample, name))| (sample, name.as_str()))).collect()
    }
}

fn row_height(narrow: bool) -> f64 {
    if narrow { TWO_LINES } else { ROW }
}

fn sample(fill: BarFill) -> sheet::Sample {
    match fill {
        BarFill::Full => |svg, at| filled(svg, sample_room(at), BarFill::Full),
        BarFill::Striped => |svg, at| filled(svg, sample_room(at), BarFill::Striped),
        BarFill::Lined => |svg, at| filled(svg, sample_room(at), BarFill::Lined),
        BarFill::Open => |svg, at| filled(svg, sample_room(at), BarFill::Open),
    }
}

fn sample_room(at: (f64, f64)) -> Rect {
    Rect::new(at.0 - 8.0, at.1 - 3.5, 16.0, 7.0)
}

/// Draws the bars.
pub fn bars_svg(data: &BarSheet, size: Size) -> String {
    let size = size.usable();
    let mut svg = Svg::new(size);
    let room = sheet::title(&mut svg, size, &data.title, &data.subtitle).inset(0.0, 2.0, 0.0, 0.0);
    let entries = data.legend();
    let keyed = sheet::legend_height(&entries, room.width);
    let most = data.rows.iter().map(reach).fold(0.0, f64::max);
    if most > 0.0 {
        sheet::legend(&mut svg, &entries, Rect::new(room.x, room.y - 4.0, room.width, keyed));
        plot(&mut svg, data, room.inset(0.0, keyed + 2.0, 0.0, 0.0), most);
    } else {
        sheet::nothing(&mut svg, room, &data.words);
    }
    svg.finish("bars", &data.title, &description(data))
}

/// A length as it may be drawn.
fn usable(value: f64) -> Option<f64> {
    (value.is_finite() && (0.0..=MOST).contains(&value)).then_some(value)
}

/// How far to the right a row goes.
fn reach(row: &BarRow) -> f64 {
    let bars: f64 = row.bars.iter().filter_map(|bar| usable(bar.value)).sum();
    row.asked.iter().flatten().filter_map(|value| usable(*value)).fold(bars, f64::max)
}

fn plot(svg: &mut Svg, data: &BarSheet, room: Rect, most: f64) {
    let narrow = room.width + 2.0 * sheet::MARGIN < NARROW;
    let plot = match narrow {
        true => room.inset(4.0, 2.0, 8.0, 24.0),
        false => room.inset(BESIDE.0, 2.0, BESIDE.1, 24.0),
    };
    let axis = Axis::new((0.0, most * 1.02), (plot.x, plot.right()));
    sheet::foot_scale(svg, &axis.ticks(&data.scale, 34.0), plot);
    let unit = data.scale.symbol();
    let caption = if unit.is_empty() { data.axis.clone() } else { format!("{}, {unit}", data.axis) };
    svg.text(&NOTE.middle(), (plot.middle().0, plot.bottom() + 19.0), &caption);
    sheet::frame(svg, plot);
    let step = plot.height / data.rows.len().max(1) as f64;
    for (index, row) in data.rows.iter().enumerate() {
        let lane = Rect::new(plot.x, plot.y + index as f64 * step, plot.width, step);
        let bar = match narrow {
            true => named_over(svg, row, lane),
            false => named_beside(svg, row, (lane, room)),
        };
        stretches(svg, data, row, (&axis, bar));
        asked(svg, row, (&axis, bar));
    }
}

/// Name at the left, words at the right; says where the bar lies.
fn named_beside(svg: &mut Svg, row: &BarRow, (lane, room): (Rect, Rect)) -> Rect {
    let y = lane.middle().1;
    let name = fit(&row.label, LABEL.weight, LABEL.size, BESIDE.0 - 8.0);
    svg.leading(&row.lead, |svg| svg.text(&LABEL, (room.x, y + 2.5), &name));
    let beside = fit(&row.beside, STRONG.weight, STRONG.size, BESIDE.1 - 8.0);
    svg.text(&STRONG, (lane.right() + 6.0, y + 2.5), &beside);
    Rect::new(lane.x, y - 4.0, lane.width, 8.0)
}

/// Name and words in a line over the bar.
fn named_over(svg: &mut Svg, row: &BarRow, lane: Rect) -> Rect {
    let beside = fit(&row.beside, STRONG.weight, STRONG.size, lane.width * 0.5);
    let taken = width(&beside, STRONG.weight, STRONG.size);
    svg.plated(&STRONG.end(), (lane.right() - 4.0, lane.y + 9.0), &beside);
    let name = fit(&row.label, LABEL.weight, LABEL.size, lane.width - taken - 16.0);
    svg.leading(&row.lead, |svg| svg.plated(&LABEL, (lane.x + 4.0, lane.y + 9.0), &name));
    Rect::new(lane.x, lane.y + 13.0, lane.width, 8.0)
}

fn stretches(svg: &mut Svg, data: &BarSheet, row: &BarRow, (axis, bar): (&Axis, Rect)) {
    let mut from = 0.0;
    for one in &row.bars {
        let Some(value) = usable(one.value) else { continue };
        let fill = data.kinds.get(one.kind).map_or(BarFill::Full, |kind| kind.fill);
        let (start, end) = (axis.clamped(from), axis.clamped(from + value));
        let room = Rect::new(start, bar.y, end - start, bar.height);
        svg.leading(&one.lead, |svg| filled(svg, room, fill));
        from += value;
    }
}

/// What was asked for: a triangle over the bar, a broken line through it.
fn asked(svg: &mut Svg, row: &BarRow, (axis, bar): (&Axis, Rect)) {
    let [first, second] = row.asked.map(|value| value.and_then(usable).map(|value| axis.clamped(value)));
    if let Some(x) = second {
        svg.line((x, bar.y - 2.0), (x, bar.bottom() + 2.0), &THROUGH);
    }
    if let Some(x) = first {
        triangle(svg, (x, bar.y));
    }
}

const THROUGH: Pen = Pen::line("asked-through", INK, 1.4).dashed("2.2 1.4");
const OVER: Pen = Pen::area("asked-over", INK);

fn triangle(svg: &mut Svg, (x, y): (f64, f64)) {
    svg.polygon(&[(x - 2.6, y - 3.0), (x + 2.6, y - 3.0), (x, y + 1.6)], &OVER);
}

fn over(svg: &mut Svg, at: (f64, f64)) {
    triangle(svg, at);
}

fn through(svg: &mut Svg, at: (f64, f64)) {
    svg.line((at.0, at.1 - 5.0), (at.0, at.1 + 4.0), &THROUGH);
}

/// A stretch with its filling.
fn filled(svg: &mut Svg, room: Rect, fill: BarFill) {
    let (paper, edge) = match fill {
        BarFill::Full => (CONCRETE, Pen::line("bar-full", INK, 0.7)),
        BarFill::Striped => (EARTH, Pen::line("bar-striped", INK, 0.7)),
        BarFill::Lined => (FLUID, Pen::line("bar-lined", INK, 0.7)),
        BarFill::Open => (PAPER, Pen::line("bar-open", INK, 0.8).dashed("1.8 1.4")),
    };
    svg.rect(room, &edge.filled(paper));
    let strokes = Pen::line("bar-strokes", INK, 0.5);
    match fill {
        BarFill::Striped => svg.path(upright(room), &strokes),
        BarFill::Lined => svg.path(level(room), &strokes),
        BarFill::Full | BarFill::Open => {}
    }
}

fn upright(room: Rect) -> Path {
    let count = (room.width / 2.4).ceil().min(2000.0) as usize;
    let x = |k: usize| room.x + 2.4 * k as f64;
    (1..count).fold(Path::new(), |path, k| path.stroke((x(k), room.y), (x(k), room.bottom())))
}

fn level(room: Rect) -> Path {
    let y = |k: i32| room.y + room.height * f64::from(k) / 4.0;
    (1..4).fold(Path::new(), |path, k| path.stroke((room.x, y(k)), (room.right(), y(k))))
}

fn description(data: &BarSheet) -> String {
    let name = |kind: usize| data.kinds.get(kind).map_or("", |kind| kind.name.as_str());
    let bars = |row: &BarRow| {
        let each = row.bars.iter().map(|bar| format!("{} {}", name(bar.kind), data.scale.label(bar.value)));
        each.collect::<Vec<_>>().join(", ")
    };
    let rows = data.rows.iter().map(|row| format!("{}: {}", row.label, bars(row)));
    [data.subtitle.clone()].into_iter().chain(rows).collect::<Vec<_>>().join("; ")
}
