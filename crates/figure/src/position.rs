//! Where the shaft stands: plan of its centre against the planned one, and its lean beside it.
//!
//! Position at the top and plumbness add up on the way down; seen side by side, the cage's cover at depth
//! is no surprise.
//!
//! Words: *offset* = from the planned to the as-built centre; *plumb profile* = offset of the axis by depth.
//! Units: metres; x east, y north.

mod plumb;

use crate::axis::known;
use crate::base_plan::arrow;
use crate::mark::{self, Mark};
use crate::scale::Scale;
use crate::sheet;
use crate::size::{Rect, Size};
use crate::style::{Anchor, BAD, HEAD, INK, LABEL, NOTE, PAPER, PLANNED, Pen, SOFT, STRONG, TICK};
use crate::svg::{Path, Svg};
use crate::words::Words;

/// Everything the plan of the position shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Position {
    /// Name of the shaft and what is shown.
    pub title: String,
    /// At which level the position was measured.
    pub subtitle: String,
    /// Unit of diameters.
    pub width: Scale,
    /// Unit of offsets.
    pub offset: Scale,
    /// Unit of depths.
    pub depth: Scale,
    /// Planned diameter, metres.
    pub planned_diameter_m: Option<f64>,
    /// Diameter as built at that level, metres.
    pub built_diameter_m: Option<f64>,
    /// Offset of the centre to the east, metres; `None` when not surveyed.
    pub east_m: Option<f64>,
    /// Offset of the centre to the north, metres; `None` when not surveyed.
    pub north_m: Option<f64>,
    /// How far the centre may be off, metres; `None` when no limit is set.
    pub tolerance_m: Option<f64>,
    /// What the assessment said about the position.
    pub mark: Mark,
    /// The lean of the axis, from the top down; empty when not measured.
    pub plumb: Vec<PlumbPoint>,
    /// Greatest lean allowed, as offset over depth; `None` when no limit is set.
    pub plumb_limit: Option<f64>,
    /// What the assessment said about the plumbness.
    pub plumb_mark: Mark,
    /// Direction of north, degrees clockwise from the top of the paper; `None` draws no arrow.
    pub north_degrees: Option<f64>,
    /// Lines below the plan, with their signs.
    pub statements: Vec<(Mark, String)>,
    /// What was not recorded.
    pub blanks: Vec<String>,
    /// Captions.
    pub words: Words,
}

/// The axis of the hole at one depth.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PlumbPoint {
    /// Depth, metres.
    pub depth_m: f64,
    /// Offset from the vertical through the top, metres; its sign tells the side.
    pub offset_m: f64,
}

const BUILT: Pen = Pen::line("as-built", INK, 1.5);
const TOLERANCE: Pen = Pen::line("tolerance", BAD, 0.9).dashed("2 1.6").filled(PAPER);
const VECTOR: Pen = Pen::line("offset", INK, 1.2);

/// Draws plan and plumb profile.
pub fn position_svg(data: &Position, size: Size) -> String {
    let data = &data.usable();
    let size = size.usable();
    let mut svg = Svg::new(size);
    let foot = sheet::blanks_height(&data.blanks, size);
    let room = sheet::title(&mut svg, size, &data.title, &data.subtitle).inset(0.0, 2.0, 0.0, foot);
    sheet::blanks(&mut svg, size, &data.blanks, &data.words);
    let split = (room.width * 0.6).floor();
    let left = Rect::new(room.x, room.y, split - 12.0, room.height);
    let right = Rect::new(room.x + split, room.y, room.width - split, room.height);
    plan(&mut svg, data, left);
    plumb::draw(&mut svg, data, right);
    svg.finish("position", &data.title, &description(data))
}

/// Left: the plan with its key and statements below it.
fn plan(svg: &mut Svg, data: &Position, room: Rect) {
    svg.text(&HEAD, (room.x, room.y + 8.0), &data.words.plan_view);
    let entries: [(sheet::Sample, &str); 3] = [
        (|svg, at| sheet::sample_line(svg, at, &PLANNED), &data.words.planned),
        (|svg, at| sheet::sample_line(svg, at, &BUILT), &data.words.as_built),
        (|svg, at| sheet::sample_line(svg, at, &TOLERANCE), &data.words.tolerance),
    ];
    let keyed = sheet::legend_height(&entries, room.width);
    let below = keyed + 12.0 + data.statements.len() as f64 * 11.0;
    let view = room.inset(0.0, 14.0, 0.0, below.min(room.height * 0.5));
    let legend = Rect::new(room.x, view.bottom() + 4.0, room.width, keyed);
    circles(svg, data, view);
    sheet::legend(svg, &entries, legend);
    for (k, (sign, text)) in data.statements.iter().enumerate() {
        let y = legend.bottom() + 9.0 + k as f64 * 11.0;
        if y > room.bottom() + 1.0 {
            break;
        }
        if *sign != Mark::NoLimit {
            mark::draw(svg, *sign, (room.x + 4.0, y - 2.5), 3.4);
        }
        let text = crate::lettering::fit(text, LABEL.weight, LABEL.size, room.width - 12.0);
        svg.text(&LABEL, (room.x + 12.0, y), &text);
    }
    if let Some(degrees) = known(data.north_degrees) {
        arrow(svg, degrees, (room.right() - 14.0, room.y + 22.0), &data.words.north);
    }
}

/// The offset is small against the diameter, so the plan shows the circles to scale and the offset enlarged.
fn circles(svg: &mut Svg, data: &Position, view: Rect) {
    let radius = (view.width.min(view.height) / 2.0 - 4.0).max(20.0);
    let center = view.middle();
    let offset = known(data.east_m).zip(known(data.north_m));
    let length = offset.map(|(east, north)| libm::hypot(east, north));
    let tolerance = known(data.tolerance_m).filter(|t| *t > 0.0);
    let reach = length.into_iter().chain(tolerance).fold(0.0, f64::max);
    let planned = known(data.planned_diameter_m).filter(|d| *d > 0.0).map(|d| d / 2.0);
    let built = known(data.built_diameter_m).filter(|d| *d > 0.0).map(|d| d / 2.0);
    let widest = planned.into_iter().chain(built).fold(0.0, f64::max);
    if reach == 0.0 && widest == 0.0 {
        return sheet::nothing(svg, view, &data.words);
    }
    let enlarged = enlargement(widest, reach);
    let per_meter = radius / (widest + reach * enlarged).max(1e-6);
    let axes = Path::new().stroke((center.0 - radius, center.1), (center.0 + radius, center.1));
    let axes = axes.stroke((center.0, center.1 - radius), (center.0, center.1 + radius));
    if let Some(tolerance) = tolerance {
        svg.circle(center, tolerance * enlarged * per_meter, &TOLERANCE);
    }
    svg.path(axes, &Pen::line("axis", SOFT, 0.4).dashed("8 2 2 2"));
    if let Some(planned) = planned {
        svg.circle(center, planned * per_meter, &PLANNED);
    }
    let built_center =
        offset.map(|(e, n)| (center.0 + e * enlarged * per_meter, center.1 - n * enlarged * per_meter));
    if let (Some(at), Some(built)) = (built_center, built.or(planned)) {
        let pen = if data.built_diameter_m.is_some() { BUILT } else { BUILT.dashed("3 2") };
        svg.circle(at, built * per_meter, &pen);
    }
    if let Some(at) = built_center {
        vector(svg, center, at);
    }
    captions(svg, data, view, (length, enlarged));
}

/// Offsets are enlarged by a round factor so that the tolerance is about a third of the shaft's radius.
fn enlargement(radius: f64, reach: f64) -> f64 {
    if reach <= 0.0 || radius <= 0.0 {
        return 1.0;
    }
    let wanted = radius * 0.5 / reach;
    [20.0, 10.0, 5.0, 4.0, 3.0, 2.0].into_iter().find(|factor| *factor <= wanted).unwrap_or(1.0)
}

fn vector(svg: &mut Svg, from: (f64, f64), to: (f64, f64)) {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = libm::hypot(dx, dy);
    svg.circle(from, 1.6, &Pen::area("planned", INK));
    if length < 0.5 {
        return;
    }
    let (ux, uy) = (dx / length, dy / length);
    svg.line(from, (to.0 - ux * 3.0, to.1 - uy * 3.0), &VECTOR);
    let base = (to.0 - ux * 5.0, to.1 - uy * 5.0);
    let head = [to, (base.0 - uy * 2.4, base.1 + ux * 2.4), (base.0 + uy * 2.4, base.1 - ux * 2.4)];
    svg.polygon(&head, &Pen::area("offset", INK));
}

/// The offset in figures at the tip of its vector, and how much it was enlarged.
fn captions(svg: &mut Svg, data: &Position, view: Rect, drawn: (Option<f64>, f64)) {
    let (length, enlarged) = drawn;
    let words = &data.words;
    let text = match length {
        Some(length) => format!("{} {}", words.offset, data.offset.label(length)),
        None => format!("{}: {}", words.offset, words.not_recorded),
    };
    if data.mark != Mark::NoLimit {
        mark::draw(svg, data.mark, (view.x + 4.0, view.y + 6.0), 3.6);
    }
    let style = if length.is_some() { STRONG } else { NOTE };
    svg.plated(&style, (view.x + 12.0, view.y + 8.6), &text);
    if let Some(tolerance) = known(data.tolerance_m) {
        let text = format!("{} {}", words.tolerance, data.offset.label(tolerance));
        svg.plated(&TICK, (view.x + 12.0, view.y + 17.6), &text);
    }
    if enlarged > 1.0 {
        let places = [((view.x, view.bottom() - 2.0), Anchor::Start)];
        svg.text_where_free(&NOTE, &places, &format!("{} × {enlarged:.0}", words.offsets_drawn), view);
    }
}

fn description(data: &Position) -> String {
    let statements = data.statements.iter().map(|s| s.1.clone());
    [data.subtitle.clone()].into_iter().chain(statements).collect::<Vec<_>>().join("; ")
}
