//! Readings of many shafts beside each other, in the order of time, against their limits.
//!
//! A plant that gets wetter from shaft to shaft, a fluid that gets dirtier: no single shaft shows it. Each shaft is a
//! column with its name at the foot, so that shafts are told apart by their place; within it the readings stand in the
//! order of time. A short stroke tells fluid of the hole from fluid of the tank.
//!
//! Words: *column* = the readings of one shaft; *panel* = the plot of one measure.
//! Units: SI in the data. Never: draw a line from reading to reading; compare with a limit.

mod limits;

use crate::axis::{Axis, known, range};
use crate::lead::Lead;
use crate::lettering::{fit, width};
use crate::mark::{self, Mark};
use crate::scale::Scale;
use crate::sheet;
use crate::size::{Rect, Size};
use crate::style::{BAND, GRID, HEAD, INK, NOTE, Pen, TICK};
use crate::svg::Svg;
use crate::words::Words;

/// Height of a panel, points.
const PANEL: f64 = 118.0;
/// On paper narrower than this, the words of the limits stand over their panel.
const NARROW: f64 = 400.0;
/// Largest half width of a sign, points; in a crowd it is smaller.
const SIGN: f64 = 3.2;

/// Readings of many shafts.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TrendSheet {
    /// What is shown.
    pub title: String,
    /// From what, and of which days.
    pub subtitle: String,
    /// The shafts, from the left.
    pub columns: Vec<TrendColumn>,
    /// One panel a measure.
    pub panels: Vec<TrendPanel>,
    /// Captions.
    pub words: Words,
}

/// One shaft.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct TrendColumn {
    /// Its name.
    pub name: String,
    /// The day of its first reading: `13 May`.
    pub day: String,
    /// Where its name leads.
    pub lead: Lead,
}

/// One measure.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TrendPanel {
    /// Its name, `Density`.
    pub title: String,
    /// Unit of the values.
    pub scale: Scale,
    /// What the readings were held against.
    pub limits: Vec<TrendLimit>,
    /// The readings, each shaft's in the order of time.
    pub points: Vec<TrendPoint>,
}

/// A limit.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TrendLimit {
    /// Its value, SI.
    pub value: f64,
    /// The least that is allowed; else the most.
    pub least: bool,
    /// When it holds: `before concrete`.
    pub words: String,
    /// The shafts it holds for, by their places among the columns.
    pub columns: Vec<usize>,
}

/// One reading.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TrendPoint {
    /// Its shaft, by its place among the columns.
    pub column: usize,
    /// Its value, SI.
    pub value: f64,
    /// What the assessment said about it.
    pub mark: Mark,
    /// Where it was taken.
    pub origin: Origin,
    /// Where it leads.
    pub lead: Lead,
}

/// Where a sample was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Origin {
    /// Nothing to tell: no stroke.
    #[default]
    Plain,
    /// From the tank: a stroke above the sign.
    Tank,
    /// From the hole: a stroke below the sign.
    Hole,
}

const ROOT: Pen = Pen::line("origin", INK, 1.1);
const EVERY_OTHER: Pen = Pen::area("column", BAND);

impl TrendSheet {
    /// A size in which every panel has room.
    pub fn size(&self, width: f64) -> Size {
        let keyed = sheet::legend_height(&legend(self), width - 2.0 * sheet::MARGIN);
        let heads: f64 = self.panels.iter().map(|panel| limits::height(panel, width)).sum();
        Size::points(width, 52.0 + keyed + heads + self.panels.len() as f64 * PANEL)
    }
}

/// Draws the readings.
pub fn trend_svg(data: &TrendSheet, size: Size) -> String {
    let size = size.usable();
    let mut svg = Svg::new(size);
    let room = sheet::title(&mut svg, size, &data.title, &data.subtitle).inset(0.0, 2.0, 0.0, 0.0);
    if data.panels.iter().all(|panel| panel.points.is_empty()) {
        sheet::nothing(&mut svg, room, &data.words);
        return svg.finish("trend", &data.title, &description(data));
    }
    let entries = legend(data);
    let keyed = sheet::legend_height(&entries, room.width);
    sheet::legend(&mut svg, &entries, Rect::new(room.x, room.y - 4.0, room.width, keyed));
    let heads: Vec<f64> = data.panels.iter().map(|panel| limits::height(panel, size.width)).collect();
    let body = room.inset(0.0, keyed, 0.0, 0.0);
    let each = (body.height - heads.iter().sum::<f64>()) / data.panels.len().max(1) as f64;
    let mut y = body.y;
    for (panel, head) in data.panels.iter().zip(heads) {
        draw_panel(&mut svg, data, panel, (Rect::new(body.x, y, body.width, each + head), head));
        y += each + head;
    }
    svg.finish("trend", &data.title, &description(data))
}

/// Only the signs that occur.
fn legend(data: &TrendSheet) -> Vec<(sheet::Sample, &str)> {
    let words = &data.words;
    let has = |of: &dyn Fn(&TrendPoint) -> bool| data.panels.iter().flat_map(|panel| &panel.points).any(of);
    let is = |mark: Mark| has(&|point| point.mark == mark);
    let from = |origin: Origin| has(&|point| point.origin == origin);
    let all: [(bool, sheet::Sample, &str); 6] = [
        (is(Mark::Meets), |svg, at| mark::draw(svg, Mark::Meets, at, 3.2), &words.meets),
        (is(Mark::Fails), |svg, at| mark::draw(svg, Mark::Fails, at, 3.2), &words.fails),
        (is(Mark::Doubtful), |svg, at| mark::draw(svg, Mark::Doubtful, at, 3.2), &words.doubtful),
        (is(Mark::NoLimit), |svg, at| mark::draw(svg, Mark::NoLimit, at, 3.2), &words.no_limit),
        (from(Origin::Tank), |svg, at| sample_origin(svg, at, Origin::Tank), "from the tank"),
        (from(Origin::Hole), |svg, at| sample_origin(svg, at, Origin::Hole), "from the hole"),
    ];
    all.into_iter().filter(|entry| entry.0).map(|(_, sample, word)| (sample, word)).collect()
}

fn sample_origin(svg: &mut Svg, at: (f64, f64), from: Origin) {
    root(svg, at, from, 2.4);
    svg.circle(at, 2.4, &Pen::line("origin", INK, 0.9));
}

/// Where the columns of a panel lie: the width of one, and the readings each has.
struct Columns {
    start: f64,
    step: f64,
    counts: Vec<usize>,
}

impl Columns {
    fn of(data: &TrendSheet, panel: &TrendPanel, plot: Rect) -> Self {
        let mut counts = vec![0; data.columns.len()];
        for point in &panel.points {
            if let Some(count) = counts.get_mut(point.column) {
                *count += 1;
            }
        }
        let count = counts.len().max(1) as f64;
        Columns { start: plot.x, step: plot.width / count, counts }
    }

    fn left(&self, column: usize) -> f64 {
        self.start + column as f64 * self.step
    }

    /// The place of the `index`th reading of a column.
    fn at(&self, column: usize, index: usize) -> f64 {
        let count = self.counts.get(column).copied().unwrap_or(1).max(1) as f64;
        self.left(column) + self.step * (index as f64 + 0.5) / count
    }

    /// Half the width of a sign, so that neighbours can be told apart as long as that is possible.
    fn sign(&self) -> f64 {
        let most = self.counts.iter().copied().max().unwrap_or(1).max(1) as f64;
        (self.step / most * 0.5).clamp(1.7, SIGN)
    }
}

fn draw_panel(svg: &mut Svg, data: &TrendSheet, panel: &TrendPanel, (cell, head): (Rect, f64)) {
    let unit = panel.scale.symbol();
    let title = if unit.is_empty() { panel.title.clone() } else { format!("{}, {unit}", panel.title) };
    svg.text(&HEAD, (cell.x, cell.y + 9.0), &fit(&title, HEAD.weight, HEAD.size, cell.width));
    let words = limits::side(panel, cell.width + 2.0 * sheet::MARGIN);
    let plot = cell.inset(30.0, 14.0 + head, 4.0 + words, 26.0);
    let axis = value_axis(panel, plot);
    let columns = Columns::of(data, panel, plot);
    for column in (1..data.columns.len()).step_by(2) {
        svg.rect(Rect::new(columns.left(column), plot.y, columns.step, plot.height), &EVERY_OTHER);
    }
    for tick in axis.ticks(&panel.scale, 17.0) {
        svg.line((plot.x, tick.at), (plot.right(), tick.at), &GRID);
        svg.text(&TICK.end(), (plot.x - 4.0, tick.at + 2.5), &tick.label);
    }
    limits::draw(svg, panel, (&axis, &columns), (plot, cell));
    points(svg, panel, &axis, &columns);
    sheet::frame(svg, plot);
    names(svg, data, &columns, plot);
}

/// Room for every value and for the limits.
fn value_axis(panel: &TrendPanel, plot: Rect) -> Axis {
    let values = panel.points.iter().filter_map(|point| known(Some(point.value)));
    let limits = panel.limits.iter().filter_map(|limit| known(Some(limit.value)));
    let (low, high) = range(values.chain(limits)).unwrap_or((0.0, 1.0));
    let margin = ((high - low) * 0.15).max(high.abs() * 0.01).max(1e-6);
    let floor = if low >= 0.0 { (low - margin).max(0.0) } else { low - margin };
    // A sign at either end stays inside the frame.
    Axis::new((floor, high + margin), (plot.bottom() - 6.0, plot.y + 5.0))
}

/// What fails is drawn last, so that nothing covers it.
fn points(svg: &mut Svg, panel: &TrendPanel, axis: &Axis, columns: &Columns) {
    let mut seen = vec![0; columns.counts.len()];
    let mut placed = Vec::new();
    for point in &panel.points {
        let Some(index) = seen.get_mut(point.column) else { continue };
        let x = columns.at(point.column, *index);
        *index += 1;
        if known(Some(point.value)).is_some() {
            placed.push((point, (x, axis.clamped(point.value))));
        }
    }
    let fails = |point: &TrendPoint| point.mark == Mark::Fails;
    let (last, first): (Vec<_>, Vec<_>) = placed.into_iter().partition(|(point, _)| fails(point));
    for (point, at) in first.into_iter().chain(last) {
        sign(svg, point, at, columns.sign());
    }
}

fn sign(svg: &mut Svg, point: &TrendPoint, at: (f64, f64), r: f64) {
    svg.leading(&point.lead, |svg| {
        if !point.lead.to.is_empty() {
            svg.reach(at, (r + 3.0).max(5.0));
        }
        root(svg, at, point.origin, r);
        // In a crowd the ticks and crosses would run together: what meets is a plain ring, what fails a full square.
        match point.mark {
            Mark::Meets if r < 2.4 => svg.circle(at, r, &Pen::line("meets", Mark::Meets.ink(), 0.7)),
            Mark::Fails if r < 2.4 => {
                svg.rect(
                    Rect::new(at.0 - r, at.1 - r, 2.0 * r, 2.0 * r),
                    &Pen::area("fails", Mark::Fails.ink()),
                );
            }
            mark => mark::draw(svg, mark, at, r),
        }
    });
}

fn root(svg: &mut Svg, (x, y): (f64, f64), from: Origin, r: f64) {
    match from {
        Origin::Plain => {}
        Origin::Tank => svg.line((x, y - r), (x, y - r - 3.2), &ROOT),
        Origin::Hole => svg.line((x, y + r), (x, y + r + 3.2), &ROOT),
    }
}

/// Names at the foot, as many as there is room for, each with its day where that is another than before.
fn names(svg: &mut Svg, data: &TrendSheet, columns: &Columns, plot: Rect) {
    let (mut free, mut free_day, mut day) = (f64::NEG_INFINITY, f64::NEG_INFINITY, "");
    for (index, column) in data.columns.iter().enumerate() {
        let x = columns.left(index) + columns.step / 2.0;
        let within = |half: f64| {
            let low = plot.x + half - 8.0;
            x.clamp(low, (plot.right() - half + 8.0).max(low))
        };
        let name = fit(&column.name, TICK.weight, TICK.size, columns.step.max(34.0));
        let half = width(&name, TICK.weight, TICK.size) / 2.0;
        let at = within(half);
        if at - half > free {
            let name_at = (at, plot.bottom() + 9.0);
            svg.leading(&column.lead, |svg| svg.text(&TICK.middle().ink(INK), name_at, &name));
            free = at + half + 3.0;
        }
        let text = fit(&column.day, NOTE.weight, NOTE.size, 60.0);
        let half = width(&text, NOTE.weight, NOTE.size) / 2.0;
        let at = within(half);
        if column.day != day && at - half > free_day {
            svg.text(&NOTE.middle(), (at, plot.bottom() + 18.0), &text);
            free_day = at + half + 4.0;
            day = &column.day;
        }
    }
}

fn description(data: &TrendSheet) -> String {
    let panel = |panel: &TrendPanel| {
        let values = panel.points.iter().filter_map(|point| known(Some(point.value)));
        let ends = range(values)
            .map(|(low, high)| format!("{} to {}", panel.scale.figure(low), panel.scale.label(high)));
        let fails = panel.points.iter().filter(|point| point.mark == Mark::Fails).count();
        let count = panel.points.len();
        let said = ends.unwrap_or_else(|| data.words.nothing_recorded.clone());
        format!(
            "{}: {count} readings of {} shafts, {said}; {fails} {}",
            panel.title,
            data.columns.len(),
            data.words.fails
        )
    };
    [data.subtitle.clone()].into_iter().chain(data.panels.iter().map(panel)).collect::<Vec<_>>().join("; ")
}
