//! Fluid tests against their limits: one small plot for density, viscosity, pH and sand each.
//!
//! Values that creep toward a limit are seen before they cross it; the bar of the instrument shows when a
//! value and its limit cannot be told apart.
//!
//! Words: *panel* = the plot of one property. Units: SI in the data.
//! Never: compare with a limit.

use crate::around::{around, tether};
use crate::axis::{Axis, known, range};
use crate::days::Days;
use crate::lettering::fit;
use crate::mark::{self, Mark};
use crate::scale::Scale;
use crate::sheet;
use crate::size::{Rect, Size};
use crate::style::{BAD, BAND, HEAD, INK, LIMIT, NOTE, Pen, SOFT, TICK};
use crate::svg::{Path, Svg};
use crate::words::Words;
use quantity::{InOrder, Moment};

/// Everything the sheet of fluid tests shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FluidTests {
    /// Name of the shaft and what is shown.
    pub title: String,
    /// The fluid and the limits in force.
    pub subtitle: String,
    /// One panel per property, in the order given.
    pub panels: Vec<FluidPanel>,
    /// What was not recorded.
    pub blanks: Vec<String>,
    /// Captions.
    pub words: Words,
}

/// One property over time.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FluidPanel {
    /// Name of the property, `Density`.
    pub title: String,
    /// Unit of the values.
    pub scale: Scale,
    /// Lower limit, SI; `None` when none is set.
    pub low: Option<f64>,
    /// Upper limit, SI; `None` when none is set.
    pub high: Option<f64>,
    /// Accuracy of the instrument, SI, each way; `None` when not known.
    pub accuracy: Option<f64>,
    /// The tests.
    pub points: Vec<FluidPoint>,
}

/// One value.
#[derive(Debug, Clone, PartialEq)]
pub struct FluidPoint {
    /// When.
    pub at: Moment,
    /// The value, SI; `None` when the property was not measured in this test.
    pub value: Option<f64>,
    /// What the assessment said about it.
    pub mark: Mark,
    /// Name of the test and where it was taken, `F2 bottom`.
    pub label: String,
}

const BAR: Pen = Pen::line("accuracy", INK, 0.7);
const ALLOWED: Pen = Pen::area("allowed", BAND);
const COURSE: Pen = Pen::line("course", SOFT, 0.5);

/// Draws the sheet of fluid tests.
pub fn fluid_tests_svg(data: &FluidTests, size: Size) -> String {
    let data = &data.usable();
    let size = size.usable();
    let mut svg = Svg::new(size);
    let foot = sheet::blanks_height(&data.blanks, size);
    let room = sheet::title(&mut svg, size, &data.title, &data.subtitle).inset(0.0, 2.0, 0.0, foot);
    sheet::blanks(&mut svg, size, &data.blanks, &data.words);
    let moments: Vec<Moment> = data.panels.iter().flat_map(|p| p.points.iter().map(|t| t.at)).collect();
    let entries = legend(data);
    let legend = sheet::legend_height(&entries, room.width);
    if moments.is_empty() {
        sheet::nothing(&mut svg, room, &data.words);
    } else {
        panels(&mut svg, data, room.inset(0.0, 0.0, 0.0, legend + 2.0), &moments);
        sheet::legend(&mut svg, &entries, Rect::new(room.x, room.bottom() - legend, room.width, legend));
    }
    svg.finish("fluid-tests", &data.title, &description(data))
}

/// Only the signs that occur.
fn legend(data: &FluidTests) -> Vec<(sheet::Sample, &str)> {
    let words = &data.words;
    let points = || data.panels.iter().flat_map(|panel| &panel.points);
    let has =
        |mark: Mark| points().any(|p| p.mark == mark || (mark == Mark::NotMeasured && p.value.is_none()));
    let limits = data.panels.iter().any(|panel| panel.low.is_some() || panel.high.is_some());
    let accuracy = data.panels.iter().any(|panel| panel.accuracy.is_some());
    let all: [(bool, sheet::Sample, &str); 6] = [
        (has(Mark::Meets), |svg, at| mark::draw(svg, Mark::Meets, at, 3.2), &words.meets),
        (has(Mark::Fails), |svg, at| mark::draw(svg, Mark::Fails, at, 3.2), &words.fails),
        (has(Mark::Doubtful), |svg, at| mark::draw(svg, Mark::Doubtful, at, 3.2), &words.doubtful),
        (has(Mark::NotMeasured), |svg, at| mark::draw(svg, Mark::NotMeasured, at, 3.2), &words.not_measured),
        (limits, |svg, at| sheet::sample_area(svg, at, BAND), &words.within_limits),
        (accuracy, sample_bar, &words.accuracy),
    ];
    all.into_iter().filter(|entry| entry.0).map(|(_, sample, word)| (sample, word)).collect()
}

fn sample_bar(svg: &mut Svg, at: (f64, f64)) {
    svg.path(bar(at.0, at.1 - 4.0, at.1 + 4.0), &BAR);
}

/// Two panels beside each other where there is room, else one below the other.
fn panels(svg: &mut Svg, data: &FluidTests, room: Rect, moments: &[Moment]) {
    let columns = if room.width >= 380.0 && data.panels.len() > 1 { 2 } else { 1 };
    let rows = data.panels.len().div_ceil(columns);
    let gap = 14.0;
    let width = (room.width - gap * (columns as f64 - 1.0)) / columns as f64;
    let height = room.height / rows as f64;
    for (k, panel) in data.panels.iter().enumerate() {
        let (column, row) = ((k % columns) as f64, (k / columns) as f64);
        let cell = Rect::new(room.x + column * (width + gap), room.y + row * height, width, height);
        draw_panel(svg, data, panel, cell, moments);
    }
}

fn draw_panel(svg: &mut Svg, data: &FluidTests, panel: &FluidPanel, cell: Rect, moments: &[Moment]) {
    let plot = cell.inset(30.0, 15.0, 4.0, 16.0);
    let Some(days) = Days::lay_out(moments, (plot.x + 4.0, plot.right() - 4.0)) else { return };
    let unit = panel.scale.symbol();
    let head = if unit.is_empty() { panel.title.clone() } else { format!("{}, {unit}", panel.title) };
    svg.text(&HEAD, (cell.x, cell.y + 9.0), &fit(&head, HEAD.weight, HEAD.size, cell.width * 0.5));
    limits_in_words(svg, data, panel, cell);
    let axis = value_axis(panel, plot);
    allowed(svg, panel, plot, &axis);
    sheet::value_scale(svg, &axis, &panel.scale, plot);
    sheet::foot_scale(svg, &days.ticks(34.0), plot);
    limits(svg, panel, plot, &axis);
    points(svg, panel, plot, &axis, &days);
    sheet::frame(svg, plot);
}

/// Room for every value with its accuracy and for the limits.
fn value_axis(panel: &FluidPanel, plot: Rect) -> Axis {
    let accuracy = known(panel.accuracy).unwrap_or(0.0).abs();
    let values = panel.points.iter().filter_map(|p| known(p.value));
    let ends = values.flat_map(|value| [value - accuracy, value + accuracy]);
    let (low, high) = range(ends.chain(known(panel.low)).chain(known(panel.high))).unwrap_or((0.0, 1.0));
    let margin = ((high - low) * 0.2).max(high.abs() * 0.01).max(1e-6);
    let floor = if low >= 0.0 { (low - margin).max(0.0) } else { low - margin };
    Axis::new((floor, high + margin), (plot.bottom(), plot.y))
}

fn limits_in_words(svg: &mut Svg, data: &FluidTests, panel: &FluidPanel, cell: Rect) {
    let text = match (known(panel.low), known(panel.high)) {
        (Some(low), Some(high)) => {
            format!("{} {} – {}", data.words.limit, panel.scale.figure(low), panel.scale.figure(high))
        }
        (Some(low), None) => format!("{} ≥ {}", data.words.limit, panel.scale.figure(low)),
        (None, Some(high)) => format!("{} ≤ {}", data.words.limit, panel.scale.figure(high)),
        (None, None) => data.words.no_limit.clone(),
    };
    let text = fit(&text, TICK.weight, TICK.size, cell.width * 0.45);
    svg.text(&TICK.end(), (cell.right() - 4.0, cell.y + 9.0), &text);
}

/// A grey band where the values may lie; none when no limit is set.
fn allowed(svg: &mut Svg, panel: &FluidPanel, plot: Rect, axis: &Axis) {
    let (low, high) = (known(panel.low), known(panel.high));
    if low.is_none() && high.is_none() {
        return;
    }
    let top = high.map_or(plot.y, |high| axis.clamped(high));
    let bottom = low.map_or(plot.bottom(), |low| axis.clamped(low));
    svg.rect(Rect::between((plot.x, top), (plot.right(), bottom)), &ALLOWED);
}

fn limits(svg: &mut Svg, panel: &FluidPanel, plot: Rect, axis: &Axis) {
    for limit in [known(panel.low), known(panel.high)].into_iter().flatten() {
        let y = axis.clamped(limit);
        svg.line((plot.x, y), (plot.right(), y), &LIMIT);
        svg.avoid_line(&[(plot.x, y), (plot.right(), y)]);
        // Short strokes point to the side that is not allowed, for those who see no colour.
        let outward = if known(panel.high) == Some(limit) { -3.0 } else { 3.0 };
        let ticks = (0..6).fold(Path::new(), |path, k| {
            let x = plot.x + plot.width * (f64::from(k) + 0.5) / 6.0;
            path.stroke((x, y), (x + 3.0, y + outward))
        });
        svg.path(ticks, &Pen::line("limit", BAD, 0.7));
    }
}

fn points(svg: &mut Svg, panel: &FluidPanel, plot: Rect, axis: &Axis, days: &Days) {
    let mut sorted: Vec<&FluidPoint> = panel.points.iter().collect();
    sorted.put_in_order_by_key(|p| p.at);
    let place = |p: &FluidPoint| known(p.value).map(|value| (days.at(p.at), axis.at(value)));
    let course: Vec<_> = sorted.iter().filter_map(|p| place(p)).collect();
    svg.polyline(&course, &COURSE);
    svg.avoid_line(&course);
    let accuracy = known(panel.accuracy).filter(|a| *a > 0.0);
    for point in &sorted {
        let (Some(value), Some(accuracy)) = (known(point.value), accuracy) else { continue };
        svg.path(bar(days.at(point.at), axis.at(value + accuracy), axis.at(value - accuracy)), &BAR);
    }
    for point in &sorted {
        let missing = (days.at(point.at), plot.bottom() - 6.0);
        let mark = if point.value.is_some() { point.mark } else { Mark::NotMeasured };
        mark::draw(svg, mark, place(point).unwrap_or(missing), 3.4);
    }
    for point in &sorted {
        let at = place(point).unwrap_or((days.at(point.at), plot.bottom() - 6.0));
        name(svg, point, at, plot);
    }
}

fn name(svg: &mut Svg, point: &FluidPoint, at: (f64, f64), plot: Rect) {
    let style = if point.value.is_some() { TICK.ink(INK) } else { NOTE };
    let inside = plot.inset(3.0, 2.0, 3.0, 2.0);
    if let Some(room) = svg.bare_where_free(&style, &around(at, 3.4), &point.label, inside) {
        tether(svg, at, room);
    }
}

fn bar(x: f64, top: f64, bottom: f64) -> Path {
    let foot = |path: Path, y: f64| path.stroke((x - 2.2, y), (x + 2.2, y));
    foot(foot(Path::new().stroke((x, top), (x, bottom)), top), bottom)
}

fn description(data: &FluidTests) -> String {
    let values = data.panels.iter().flat_map(|panel| {
        panel.points.iter().map(|p| {
            let value = known(p.value).map_or(data.words.not_measured.clone(), |v| panel.scale.label(v));
            format!("{} {} {}: {value}", panel.title, p.label, p.at.clock())
        })
    });
    [data.subtitle.clone()].into_iter().chain(values).collect::<Vec<_>>().join("; ")
}
