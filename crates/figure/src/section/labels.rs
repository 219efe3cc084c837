//! The names beside the section: levels with depth and elevation, the scales, the groundwater sign.
//!
//! Never: let one label cover another; a leader shows where a moved label belongs.

use super::fittings::embedment_place;
use super::layout::Layout;
use super::{Level, LevelKind, Section, strata};
use crate::lettering::{fit, width};
use crate::mark::{self, Mark};
use crate::sheet::{self, SideScale};
use crate::spread::{Column, spread};
use crate::style::{
    CONCRETE_LEVEL, GROUNDWATER, INK, LABEL, LEADER, NOTE, PAPER, PLANNED, Pen, STRONG, TICK, Type, WATER,
};
use crate::svg::{Path, Svg};

const MEASURED_LEVEL: Pen = Pen::line("level", INK, 0.8);
const FLUID_LEVEL: Pen = Pen::line("fluid-level", WATER, 1.1).dashed("6 1.5 1.5 1.5");

/// One label: where it belongs, what it says, which sign stands before it.
struct Label {
    depth_m: f64,
    from_x: f64,
    name: String,
    /// Stands behind the name, and stays when the name has to be shortened.
    figure: String,
    /// The second row: the first of these that has room.
    second: Vec<String>,
    mark: Mark,
}

impl Label {
    fn first(&self) -> String {
        format!("{} {}", self.name, self.figure).trim().to_owned()
    }

    /// The first row in so much room.
    fn fitted(&self, style: &Type, room: f64) -> String {
        let whole = self.first();
        if width(&whole, style.weight, style.size) <= room {
            return whole;
        }
        let behind = format!(" {}", self.figure);
        let left = room - width(&behind, style.weight, style.size);
        match fit(&self.name, style.weight, style.size, left) {
            name if name.is_empty() => fit(&self.figure, style.weight, style.size, room),
            name => format!("{name}{behind}"),
        }
    }
}

pub(super) fn draw(svg: &mut Svg, section: &Section, layout: &Layout) {
    svg.open("levels");
    let mut labels: Vec<Label> = Vec::new();
    for level in section.levels.iter().filter(|l| layout.depth.contains(l.depth_m)) {
        let from_x = level_line(svg, section, layout, level);
        let label = label(section, &level.label, level.depth_m, from_x);
        labels.push(Label { mark: level.mark, second: noted(label.second, &level.note), ..label });
    }
    labels.extend(casing_labels(section, layout));
    labels.extend(tremie_labels(section, layout));
    labels.extend(sediment_label(section, layout));
    let left_out = write(svg, layout, &labels);
    svg.close();
    strata::draw_labels(svg, section, layout);
    scales(svg, section, layout, left_out);
}

fn label(section: &Section, name: &str, depth_m: f64, from_x: f64) -> Label {
    let figure = section.depth.figure(depth_m);
    let elevation = section.zero_elevation_m.map(|zero| section.depth.figure(zero - depth_m));
    let second = elevation
        .map(|e| vec![format!("{} {e}", section.words.elevation.to_lowercase()), e])
        .unwrap_or_default();
    Label { depth_m, from_x, name: name.to_owned(), figure, second, mark: Mark::NoLimit }
}

/// Each of these with a note behind it; the note alone where there is none.
fn noted(second: Vec<String>, note: &str) -> Vec<String> {
    match (note, second.is_empty()) {
        ("", _) => second,
        (note, true) => vec![note.to_owned()],
        (note, false) => second.into_iter().map(|row| format!("{row}, {note}")).collect(),
    }
}

fn casing_labels<'a>(section: &'a Section, layout: &'a Layout) -> impl Iterator<Item = Label> + 'a {
    section.casings.iter().filter(|c| layout.depth.contains(c.shoe_m)).map(|casing| {
        let x = layout.sides(casing.diameter_m).1 + 2.6;
        let mut label = label(section, &section.words.casing_shoe, casing.shoe_m, x);
        if !casing.label.is_empty() {
            label.second = vec![format!("{} {}", section.width.label(casing.diameter_m), casing.label)];
        }
        label
    })
}

fn tremie_labels(section: &Section, layout: &Layout) -> Vec<Label> {
    let Some(tremie) = section.tremie.as_ref() else { return Vec::new() };
    let tip = label(section, &section.words.tremie_tip, tremie.tip_m, layout.center + 3.0);
    let embedded = section.level(LevelKind::Concrete).map(|concrete| Label {
        depth_m: (tremie.tip_m + concrete) / 2.0,
        from_x: embedment_place(section, layout),
        name: section.words.embedment.clone(),
        figure: section.depth.label(tremie.tip_m - concrete),
        second: Vec::new(),
        mark: tremie.embedment_mark,
    });
    [tip].into_iter().chain(embedded).collect()
}

fn sediment_label(section: &Section, layout: &Layout) -> Option<Label> {
    let (sediment, bottom) = (section.sediment.as_ref()?, section.bottom()?);
    let depth_m = bottom - sediment.thickness_m.max(0.0) / 2.0;
    let width = section.drilled.iter().find(|b| b.bottom_m == bottom).map_or(0.0, |b| b.bottom_diameter_m);
    Some(Label {
        depth_m,
        from_x: layout.sides(width).1 - 3.0,
        name: section.words.sediment.clone(),
        figure: section.width.label(sediment.thickness_m),
        second: Vec::new(),
        mark: sediment.mark,
    })
}

/// Draws the line of a level and returns where its leader begins.
fn level_line(svg: &mut Svg, section: &Section, layout: &Layout, level: &Level) -> f64 {
    let y = layout.depth.at(level.depth_m);
    let local = super::bore::diameter(section, level.depth_m).or_else(|| super::layout::widest(section));
    let (left, right) = layout.sides(local.unwrap_or(0.0));
    match level.kind {
        LevelKind::Groundwater => groundwater(svg, layout, y, right),
        LevelKind::Concrete => svg.line((left, y), (right, y), &CONCRETE_LEVEL),
        LevelKind::Fluid => svg.line((left, y), (right, y), &FLUID_LEVEL),
        LevelKind::Planned => svg.line((left - 6.0, y), (right + 6.0, y), &PLANNED),
        LevelKind::Measured => svg.line((right - 4.0, y), (right + 6.0, y), &MEASURED_LEVEL),
    }
    right
}

/// The usual sign for free water: a triangle standing on shortening lines, right of the hole.
fn groundwater(svg: &mut Svg, layout: &Layout, y: f64, hole: f64) {
    let x = (hole + layout.ground.right()) / 2.0;
    let pen = GROUNDWATER.dashed("8 3");
    svg.line((layout.ground.x, y), (2.0 * layout.center - hole, y), &pen);
    svg.line((hole, y), (layout.ground.right(), y), &pen);
    svg.polygon(&[(x - 4.0, y - 7.0), (x + 4.0, y - 7.0), (x, y)], &GROUNDWATER.filled(PAPER));
    let lines = Path::new().stroke((x - 4.0, y + 2.0), (x + 4.0, y + 2.0));
    svg.path(lines.stroke((x - 2.2, y + 4.0), (x + 2.2, y + 4.0)), &GROUNDWATER);
}

/// Returns how many labels found no room.
fn write(svg: &mut Svg, layout: &Layout, labels: &[Label]) -> usize {
    let ends = (layout.depth.start + 4.0, layout.depth.end - 8.0);
    let column = Column::fitting(labels.len(), ends.1 - ends.0);
    let shown = &labels[..column.shown];
    let wanted: Vec<f64> = shown.iter().map(|label| layout.depth.clamped(label.depth_m)).collect();
    for (label, y) in shown.iter().zip(spread(&wanted, column.apart, ends)) {
        leader(svg, layout, label, y);
        write_one(svg, layout, label, (y, column.two_rows));
    }
    labels.len() - shown.len()
}

fn write_one(svg: &mut Svg, layout: &Layout, label: &Label, row: (f64, bool)) {
    let (y, two_rows) = row;
    let sign = label.mark != Mark::NoLimit;
    let x = layout.labels.0 + if sign { 9.0 } else { 0.0 };
    let room = layout.labels.1 - x;
    if sign {
        mark::draw(svg, label.mark, (layout.labels.0 + 3.0, y), 3.5);
    }
    let style = if width(&label.first(), STRONG.weight, STRONG.size) > room { LABEL } else { STRONG };
    svg.text(&style, (x, y + 2.5), &label.fitted(&style, room));
    if two_rows {
        let fits = |row: &&String| width(row, TICK.weight, TICK.size) <= room;
        let row = label.second.iter().find(fits).or(label.second.last());
        svg.text(&TICK, (x, y + 10.5), &fit(row.map_or("", String::as_str), TICK.weight, TICK.size, room));
    }
}

/// From the thing to the edge of the ground, then aslant to the label.
fn leader(svg: &mut Svg, layout: &Layout, label: &Label, y: f64) {
    let own = layout.depth.clamped(label.depth_m);
    let edge = layout.ground.right() - 12.0;
    let points = [(label.from_x, own), (edge, own), (layout.labels.0 - 3.0, y)];
    svg.polyline(&points, &Pen { width: 1.6, stroke: PAPER, ..LEADER });
    svg.polyline(&points, &LEADER);
}

fn scales(svg: &mut Svg, section: &Section, layout: &Layout, left_out: usize) {
    let words = &section.words;
    let left =
        SideScale { axis: &layout.depth, scale: &section.depth, x: layout.ground.x, word: &words.depth };
    sheet::depth_scale(svg, &left);
    if let Some(zero) = section.zero_elevation_m {
        let right = SideScale { x: layout.labels.1 + 3.0, word: &words.elevation, ..left };
        sheet::elevation_scale(svg, &right, zero);
    }
    let drawn = if layout.factor == 1.0 {
        words.one_scale.clone()
    } else {
        format!("{} × {}", words.widths_drawn, trimmed(layout.factor))
    };
    let below =
        if section.zero_label.is_empty() { String::new() } else { format!(" · 0 = {}", section.zero_label) };
    let missing = if left_out > 0 { format!(" · {left_out} {}", words.not_shown) } else { String::new() };
    let text = fit(&format!("{drawn}{below}{missing}"), NOTE.weight, NOTE.size, layout.room.width);
    svg.text(&NOTE, (layout.room.x, layout.room.bottom() - 2.0), &text);
}

fn trimmed(factor: f64) -> String {
    format!("{factor:.2}").trim_end_matches('0').trim_end_matches('.').to_owned()
}
