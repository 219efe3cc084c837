//! Cross section through the cage: bars on their circle, hoop, access tubes, spacers, cover to the hole.
//!
//! Whether concrete can flow through the cage and cover it is a matter of two small distances; they are
//! dimensioned on the drawing.
//!
//! Units: metres in the data. Never: place bars differently than evenly around the circle.

use crate::axis::known;
use crate::mark::{self, Mark};
use crate::scale::Scale;
use crate::sheet;
use crate::size::{Rect, Size};
use crate::style::{CASING, CONCRETE, EARTH, INK, LABEL, PAPER, Pen, SOFT, STEEL, STRONG};
use crate::svg::{Path, Svg};
use crate::words::Words;
use std::f64::consts::{PI, TAU};

/// Everything the cross section shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CageSection {
    /// Name of the shaft and what is shown.
    pub title: String,
    /// Where the section is cut, `below the casing`.
    pub subtitle: String,
    /// Unit of diameters and distances.
    pub width: Scale,
    /// Diameter of the hole, metres; `None` when not recorded.
    pub hole_diameter_m: Option<f64>,
    /// Outer diameter of a casing at this level, metres.
    pub casing_diameter_m: Option<f64>,
    /// Outer diameter of the cage over the hoops, metres.
    pub cage_diameter_m: Option<f64>,
    /// Number of longitudinal bars (or bundles).
    pub bars: u32,
    /// Diameter of one bar, metres.
    pub bar_diameter_m: f64,
    /// Diameter of the hoop or spiral bar, metres.
    pub hoop_diameter_m: f64,
    /// Number of access tubes, evenly spaced inside the hoop.
    pub tubes: u32,
    /// Outer diameter of a tube, metres.
    pub tube_diameter_m: f64,
    /// Number of spacers at a level.
    pub spacers: u32,
    /// Clear distance between neighbouring bars, metres, as assessed.
    pub clear_spacing_m: Option<f64>,
    /// What the assessment said about it.
    pub clear_spacing_mark: Mark,
    /// Cover to the hole, metres, as assessed.
    pub cover_m: Option<f64>,
    /// What the assessment said about it.
    pub cover_mark: Mark,
    /// Lines beside the drawing, `12 #9`, `#4 hoops at 12 in`, with their signs.
    pub statements: Vec<(Mark, String)>,
    /// What was not recorded.
    pub blanks: Vec<String>,
    /// Captions.
    pub words: Words,
}

const HOLE: Pen = Pen::line("hole-wall", INK, 1.2).filled(CONCRETE);
const GROUND: Pen = Pen::area("earth", EARTH);
const CASING_RING: Pen = Pen::line("casing", CASING, 2.2);
const BAR: Pen = Pen::line("bar", STEEL, 0.4).filled(STEEL);
const TUBE: Pen = Pen::line("tube", INK, 1.0).filled(PAPER);
const SPACER: Pen = Pen::line("spacer", INK, 0.9).filled(PAPER);
const DIMENSION: Pen = Pen::line("dimension", INK, 0.7);

/// Places of the cross section: centre and points per metre.
struct View {
    center: (f64, f64),
    per_meter: f64,
    edge: f64,
}

impl View {
    fn polar(&self, radius_m: f64, angle: f64) -> (f64, f64) {
        let r = radius_m * self.per_meter;
        (self.center.0 + r * libm::sin(angle), self.center.1 - r * libm::cos(angle))
    }
}

/// Draws the cross section.
pub fn cage_section_svg(cage: &CageSection, size: Size) -> String {
    let cage = &cage.usable();
    let size = size.usable();
    let mut svg = Svg::new(size);
    let foot = sheet::blanks_height(&cage.blanks, size);
    let room = sheet::title(&mut svg, size, &cage.title, &cage.subtitle).inset(0.0, 4.0, 0.0, foot);
    sheet::blanks(&mut svg, size, &cage.blanks, &cage.words);
    let side = (room.width * 0.42).clamp(96.0, 190.0);
    match view(cage, room.inset(0.0, 0.0, side, 0.0)) {
        Some(view) => {
            draw(&mut svg, cage, &view);
            let beside = Rect::new(room.right() - side + 10.0, room.y, side - 10.0, room.height);
            statements(&mut svg, cage, &view, beside);
        }
        None => sheet::nothing(&mut svg, room, &cage.words),
    }
    svg.finish("cage-section", &cage.title, &description(cage))
}

fn positive(value: Option<f64>) -> Option<f64> {
    known(value).filter(|v| *v > 0.0)
}

fn view(cage: &CageSection, room: Rect) -> Option<View> {
    let diameters = [cage.hole_diameter_m, cage.casing_diameter_m, cage.cage_diameter_m];
    let widest = diameters.into_iter().filter_map(positive).reduce(f64::max)?;
    let edge = (room.width.min(room.height) / 2.0 - 2.0).max(30.0);
    let center = (room.x + room.width / 2.0, room.y + edge + 2.0);
    Some(View { center, per_meter: (edge - 12.0) * 2.0 / widest, edge })
}

fn draw(svg: &mut Svg, cage: &CageSection, view: &View) {
    svg.circle(view.center, view.edge, &GROUND);
    if let Some(hole) = positive(cage.hole_diameter_m) {
        svg.circle(view.center, hole / 2.0 * view.per_meter, &HOLE);
    }
    if let Some(casing) = positive(cage.casing_diameter_m) {
        svg.circle(view.center, casing / 2.0 * view.per_meter - 1.1, &CASING_RING);
    }
    if let Some(outer) = positive(cage.cage_diameter_m) {
        spacers(svg, cage, view, outer / 2.0);
        steel(svg, cage, view, outer / 2.0);
    }
}

/// Diameters of bars that were not given are drawn as thin as can be seen.
fn steel(svg: &mut Svg, cage: &CageSection, view: &View, outer: f64) {
    let thickness = |m: f64| known(Some(m)).unwrap_or(0.0).clamp(0.0, outer);
    let (hoop, bar) = (thickness(cage.hoop_diameter_m), thickness(cage.bar_diameter_m));
    let pen = Pen::line("hoop", STEEL, libm::round((hoop * view.per_meter).max(0.8) * 10.0) / 10.0);
    svg.circle(view.center, (outer - hoop / 2.0) * view.per_meter, &pen);
    let circle = (outer - hoop - bar / 2.0).max(0.0);
    let count = cage.bars.min(200);
    for k in 0..count {
        let angle = TAU * f64::from(k) / f64::from(count);
        svg.circle(view.polar(circle, angle), (bar / 2.0 * view.per_meter).max(1.2), &BAR);
    }
    tubes(svg, cage, view, outer - hoop);
}

/// Tubes stand inside the hoop, midway between two bars where the numbers allow.
fn tubes(svg: &mut Svg, cage: &CageSection, view: &View, inside: f64) {
    let tube = known(Some(cage.tube_diameter_m)).unwrap_or(0.0).clamp(0.0, inside);
    let count = cage.tubes.min(60);
    let shift = if cage.bars > 0 { PI / f64::from(cage.bars) } else { 0.0 };
    for k in 0..count {
        let angle = shift + TAU * f64::from(k) / f64::from(count);
        let at = view.polar((inside - tube / 2.0).max(0.0), angle);
        svg.circle(at, (tube / 2.0 * view.per_meter).max(2.0), &TUBE);
    }
}

/// Small blocks between cage and hole.
fn spacers(svg: &mut Svg, cage: &CageSection, view: &View, outer: f64) {
    let hole = positive(cage.hole_diameter_m).map_or(outer * 1.1, |d| d / 2.0);
    let count = cage.spacers.min(60);
    for k in 0..count {
        let angle = TAU * (f64::from(k) + 0.5) / f64::from(count) + 0.06;
        let half = 3.0 / (outer * view.per_meter).max(1.0);
        let reach = outer + (hole - outer).max(0.0) * 0.85;
        let corners = [
            view.polar(outer, angle - half),
            view.polar(reach, angle - half * 0.6),
            view.polar(reach, angle + half * 0.6),
            view.polar(outer, angle + half),
        ];
        svg.polygon(&corners, &SPACER);
    }
}

/// The two dimensions with leaders into the drawing, then the statements.
fn statements(svg: &mut Svg, cage: &CageSection, view: &View, room: Rect) {
    let words = &cage.words;
    let mut y = room.y + 12.0;
    let outer = positive(cage.cage_diameter_m).map(|d| d / 2.0);
    if let (Some(outer), true) = (outer, cage.bars > 1) {
        let value = text(&cage.width, cage.clear_spacing_m, words);
        let from = clear_arc(svg, cage, view, outer);
        leader(svg, from, (room.x, y));
        let line = format!("{} {value}", words.clear_spacing);
        y += statement(svg, cage.clear_spacing_mark, &line, (room.x, y, room.width)) * 9.5 + 5.5;
    }
    if let (Some(outer), Some(hole)) = (outer, positive(cage.hole_diameter_m).map(|d| d / 2.0)) {
        let value = text(&cage.width, cage.cover_m, words);
        let from = cover_line(svg, view, outer, hole);
        leader(svg, from, (room.x, y));
        let line = format!("{} {value}", words.cover);
        y += statement(svg, cage.cover_mark, &line, (room.x, y, room.width)) * 9.5 + 5.5;
    }
    y += 4.0;
    let hole = text(&cage.width, positive(cage.hole_diameter_m), words);
    let lines = [
        format!("{} Ø {hole}", words.hole),
        format!("{} Ø {}", words.cage, text(&cage.width, positive(cage.cage_diameter_m), words)),
    ];
    let lines = lines.into_iter().map(|line| (Mark::NoLimit, line)).chain(cage.statements.iter().cloned());
    for (mark, line) in lines {
        if y < room.bottom() - 2.0 * 9.5 {
            y += statement(svg, mark, &line, (room.x, y, room.width)) * 9.5 + 3.5;
        }
    }
}

fn text(scale: &Scale, value: Option<f64>, words: &Words) -> String {
    known(value).map_or(words.not_recorded.clone(), |v| scale.label(v))
}

/// Writes one line with its sign; returns how many rows it took.
fn statement(svg: &mut Svg, sign: Mark, text: &str, at: (f64, f64, f64)) -> f64 {
    let (x, y, room) = at;
    let signed = sign != Mark::NoLimit;
    if signed {
        mark::draw(svg, sign, (x + 4.0, y), 3.6);
    }
    let style = if signed { STRONG } else { LABEL };
    let lines = style.wrapped(text, room - 12.0, 3);
    for (row, line) in lines.iter().enumerate() {
        svg.text(&style, (x + 12.0, y + 2.6 + row as f64 * 9.5), line);
    }
    lines.len().clamp(1, 3) as f64
}

/// Marks the clear distance between two bars where no tube stands; returns where a leader starts.
fn clear_arc(svg: &mut Svg, cage: &CageSection, view: &View, outer: f64) -> (f64, f64) {
    let step = TAU / f64::from(cage.bars.clamp(2, 200));
    let circle = (outer - cage.hoop_diameter_m - cage.bar_diameter_m / 2.0).clamp(0.0, outer);
    let half = if circle > 0.0 { (cage.bar_diameter_m / 2.0 / circle).clamp(0.0, step / 2.0) } else { 0.0 };
    let begin = f64::from(gap_without_tube(cage)) * step;
    let inner = circle - 7.0 / view.per_meter;
    let angle = |part: f64| begin + half + (step - 2.0 * half) * part;
    let points: Vec<_> = (0..=8).map(|k| view.polar(inner, angle(f64::from(k) / 8.0))).collect();
    svg.polyline(&points, &DIMENSION);
    for part in [0.0, 1.0] {
        svg.line(
            view.polar(inner - 2.5 / view.per_meter, angle(part)),
            view.polar(circle, angle(part)),
            &DIMENSION,
        );
    }
    points[4]
}

/// The first gap right of the top whose middle no tube takes.
fn gap_without_tube(cage: &CageSection) -> u32 {
    let (bars, tubes) = (cage.bars.clamp(2, 200), cage.tubes.min(60));
    let middle = |gap: u32| TAU * (f64::from(gap) + 0.5) / f64::from(bars);
    let tube = |k: u32| TAU * (0.5 / f64::from(bars) + f64::from(k) / f64::from(tubes));
    let free = |gap: &u32| (0..tubes).all(|k| (tube(k) - middle(*gap)).abs() > 0.6 * TAU / f64::from(bars));
    (0..bars / 2).find(free).unwrap_or(0)
}

/// Marks the cover at the right; returns where a leader starts.
fn cover_line(svg: &mut Svg, view: &View, outer: f64, hole: f64) -> (f64, f64) {
    let angle = PI * 0.42;
    let (a, b) = (view.polar(outer, angle), view.polar(hole, angle));
    svg.line(a, b, &Pen { width: 1.4, ..DIMENSION });
    for at in [a, b] {
        svg.path(Path::new().stroke((at.0, at.1 - 2.5), (at.0, at.1 + 2.5)), &DIMENSION);
    }
    ((a.0 + b.0) / 2.0, (a.1 + b.1) / 2.0)
}

fn leader(svg: &mut Svg, from: (f64, f64), to: (f64, f64)) {
    let points = [from, (to.0 - 8.0, to.1), (to.0 - 1.0, to.1)];
    svg.polyline(&points, &Pen::line("leader", PAPER, 1.8));
    svg.polyline(&points, &Pen::line("leader", SOFT, 0.5));
    svg.circle(from, 1.1, &Pen::area("leader", INK));
}

fn description(cage: &CageSection) -> String {
    let words = &cage.words;
    let clear = format!("{} {}", words.clear_spacing, text(&cage.width, cage.clear_spacing_m, words));
    let cover = format!("{} {}", words.cover, text(&cage.width, cage.cover_m, words));
    let statements = cage.statements.iter().map(|s| s.1.clone());
    [cage.subtitle.clone(), format!("{} {}", cage.bars, words.bars), clear, cover]
        .into_iter()
        .chain(statements)
        .collect::<Vec<_>>()
        .join("; ")
}
