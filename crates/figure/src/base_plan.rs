//! Plan of the base: how thick the sediment is and where, seen from above.
//!
//! One deep spot at the edge matters to some rules and not to others; the plan shows where each reading
//! was taken instead of a single number.
//!
//! Words: *point* = one place of the base that was sounded.
//! Units: metres from the centre, x to the right (east when the plan is set to north), y up (north).
//! Never: draw a thickness at a place nobody sounded.

use crate::around::around;
use crate::axis::{known, range};
use crate::lettering::{fit, width};
use crate::mark::{self, Mark};
use crate::scale::Scale;
use crate::sheet;
use crate::size::{Rect, Size};
use crate::spread::spread;
use crate::style::{DOUBT, EARTH, INK, LABEL, NOTE, PAPER, PLANNED, Pen, SOFT, STRONG, TICK, Type};
use crate::svg::{Path, Svg};
use crate::words::Words;

/// Everything the plan of the base shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BasePlan {
    /// Name of the shaft and what is shown.
    pub title: String,
    /// When it was sounded, and by whom.
    pub subtitle: String,
    /// Unit of thicknesses.
    pub thickness: Scale,
    /// Diameter of the base, metres; `None` when not recorded.
    pub diameter_m: Option<f64>,
    /// Unit of the diameter.
    pub width: Scale,
    /// The points sounded.
    pub points: Vec<BasePoint>,
    /// Direction of north, degrees clockwise from the top of the paper; `None` draws no arrow.
    pub north_degrees: Option<f64>,
    /// What the top of the plan is, `toward pier 3`, when it was not set to north.
    pub orientation: String,
    /// Statements beside the plan, with their signs: worst, mean, share of the area.
    pub statements: Vec<(Mark, String)>,
    /// What was not recorded.
    pub blanks: Vec<String>,
    /// Captions.
    pub words: Words,
}

/// One sounded point of the base.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BasePoint {
    /// To the right of the centre, metres.
    pub x_m: f64,
    /// Above the centre on the paper, metres.
    pub y_m: f64,
    /// Thickness of the sediment, metres; `None` when the point was named but not measured.
    pub thickness_m: Option<f64>,
    /// Name of the point, `C`, `N`, `3`.
    pub label: String,
    /// What the assessment said about it.
    pub mark: Mark,
}

const BASE: Pen = Pen::line("base", INK, 1.4).filled(EARTH);
const UNKNOWN_BASE: Pen = Pen::line("base", INK, 0.8).dashed("3 2").filled(PAPER);
const CROSS: Pen = Pen::line("axis", SOFT, 0.4).dashed("8 2 2 2");
const HEAP: Pen = Pen::line("sediment", DOUBT, 0.8).filled(PAPER);

/// Draws the plan of the base.
pub fn base_plan_svg(plan: &BasePlan, size: Size) -> String {
    let plan = &plan.usable();
    let size = size.usable();
    let mut svg = Svg::new(size);
    let foot = sheet::blanks_height(&plan.blanks, size);
    let room = sheet::title(&mut svg, size, &plan.title, &plan.subtitle).inset(0.0, 4.0, 0.0, foot);
    sheet::blanks(&mut svg, size, &plan.blanks, &plan.words);
    let side = (room.width * 0.34).clamp(80.0, 170.0);
    let view = room.inset(0.0, 0.0, side, 0.0);
    draw_view(&mut svg, plan, view);
    statements(&mut svg, plan, Rect::new(view.right() + 6.0, view.y + 44.0, side - 6.0, view.height - 44.0));
    north(&mut svg, plan, (room.right() - 18.0, view.y + 18.0), side - 24.0);
    svg.finish("base-plan", &plan.title, &description(plan))
}

fn draw_view(svg: &mut Svg, plan: &BasePlan, view: Rect) {
    let radius = (view.width.min(view.height - 16.0) / 2.0 - 6.0).max(20.0);
    let center = (view.x + view.width / 2.0, view.y + radius + 2.0);
    let reach = reach(plan);
    let known_base = known(plan.diameter_m).is_some_and(|d| d > 0.0);
    svg.circle(center, radius, if known_base { &BASE } else { &UNKNOWN_BASE });
    svg.line((center.0 - radius - 4.0, center.1), (center.0 + radius + 4.0, center.1), &CROSS);
    svg.line((center.0, center.1 - radius - 4.0), (center.0, center.1 + radius + 4.0), &CROSS);
    let caption = match known(plan.diameter_m).filter(|d| *d > 0.0) {
        Some(diameter) => format!("Ø {}", plan.width.label(diameter)),
        None => format!("Ø {}", plan.words.not_recorded),
    };
    svg.text(&TICK.middle(), (center.0, center.1 + radius + 13.0), &caption);
    let thickest = plan.points.iter().filter_map(|p| known(p.thickness_m)).fold(0.0, f64::max);
    let points: Vec<&BasePoint> = plan.points.iter().collect();
    let place = |p: &BasePoint| (center.0 + p.x_m / reach * radius, center.1 - p.y_m / reach * radius);
    for point in &points {
        heap(svg, point, place(point), (thickest, radius));
    }
    for point in points {
        name(svg, plan, point, (place(point), view));
    }
}

/// Half the width of the plan in metres: the base, or the farthest point when it lies outside.
fn reach(plan: &BasePlan) -> f64 {
    let radius = known(plan.diameter_m).filter(|d| *d > 0.0).map(|d| d / 2.0);
    let farthest = range(plan.points.iter().map(|p| libm::hypot(p.x_m, p.y_m))).map(|r| r.1 * 1.05);
    radius.into_iter().chain(farthest).fold(0.01, f64::max)
}

/// A ring whose area grows with the thickness, with the sign in its middle.
fn heap(svg: &mut Svg, point: &BasePoint, at: (f64, f64), most: (f64, f64)) {
    let (thickest, radius) = most;
    if let Some(thickness) = known(point.thickness_m).filter(|t| *t > 0.0 && thickest > 0.0) {
        let r = 4.5 + libm::sqrt(thickness / thickest) * (radius * 0.12).min(12.0);
        svg.circle(at, r, &HEAP);
        svg.keep_clear(Rect::new(at.0 - r, at.1 - r, 2.0 * r, 2.0 * r));
    }
    let mark = if known(point.thickness_m).is_none() { Mark::NotMeasured } else { point.mark };
    mark::draw(svg, mark, at, 3.6);
}

fn name(svg: &mut Svg, plan: &BasePlan, point: &BasePoint, place: ((f64, f64), Rect)) {
    let (at, view) = place;
    let places = around(at, 5.5);
    let figure =
        known(point.thickness_m).map_or(plan.words.not_recorded.clone(), |t| plan.thickness.label(t));
    let text = format!("{} {figure}", point.label);
    let style: &Type = if point.thickness_m.is_some() { &STRONG } else { &NOTE };
    if !svg.text_where_free(style, &places, text.trim(), view) {
        svg.text_where_free(style, &places, &point.label, view);
    }
}

fn statements(svg: &mut Svg, plan: &BasePlan, room: Rect) {
    let rows: Vec<f64> = (0..plan.statements.len()).map(|k| room.y + k as f64 * 24.0).collect();
    let places = spread(&rows, 24.0, (room.y, (room.bottom() - 20.0).max(room.y)));
    for ((sign, text), y) in plan.statements.iter().zip(places) {
        if *sign != Mark::NoLimit {
            mark::draw(svg, *sign, (room.x + 4.0, y), 3.6);
        }
        for (row, line) in LABEL.wrapped(text, room.width - 13.0, 2).iter().enumerate() {
            svg.text(&LABEL, (room.x + 12.0, y + 2.6 + row as f64 * 9.0), line);
        }
    }
}

/// An arrow to the north, or what the top of the plan is.
fn north(svg: &mut Svg, plan: &BasePlan, at: (f64, f64), room: f64) {
    if let Some(degrees) = known(plan.north_degrees) {
        arrow(svg, degrees, at, &plan.words.north);
    } else if !plan.orientation.is_empty() {
        let arrow_at = (at.0 + 6.0, at.1 - 12.0);
        svg.path(Path::new().stroke(arrow_at, (arrow_at.0, arrow_at.1 + 18.0)), &PLANNED);
        svg.polygon(
            &[
                (arrow_at.0, arrow_at.1 - 3.0),
                (arrow_at.0 - 2.5, arrow_at.1 + 3.0),
                (arrow_at.0 + 2.5, arrow_at.1 + 3.0),
            ],
            &Pen::area("axis", INK),
        );
        let text = fit(&plan.orientation, LABEL.weight, LABEL.size, room);
        svg.text(&LABEL.end(), (arrow_at.0 - 6.0, arrow_at.1 + 10.0), &text);
    }
}

/// A north arrow: half filled, turned about its middle.
pub(crate) fn arrow(svg: &mut Svg, degrees: f64, at: (f64, f64), letter: &str) {
    let turn = degrees.to_radians();
    let (sin, cos) = (libm::sin(turn), libm::cos(turn));
    let place = |x: f64, y: f64| (at.0 + x * cos - y * sin, at.1 + x * sin + y * cos);
    let (tip, foot) = (place(0.0, -13.0), place(0.0, 5.0));
    svg.polygon(&[tip, place(-6.0, 10.0), foot], &Pen::line("north", INK, 0.8).filled(INK));
    svg.polygon(&[tip, place(6.0, 10.0), foot], &Pen::line("north", INK, 0.8).filled(PAPER));
    let (x, y) = place(-9.0 - width(letter, STRONG.weight, STRONG.size) / 2.0, -9.0);
    svg.text(&STRONG.middle(), (x, y + 2.6), letter);
}

fn description(plan: &BasePlan) -> String {
    let figure = |p: &BasePoint| {
        known(p.thickness_m).map_or(plan.words.not_recorded.clone(), |t| plan.thickness.label(t))
    };
    let points = plan.points.iter().map(|p| format!("{} {}", p.label, figure(p)));
    let statements = plan.statements.iter().map(|s| s.1.clone());
    [plan.subtitle.clone()].into_iter().chain(points).chain(statements).collect::<Vec<_>>().join("; ")
}
