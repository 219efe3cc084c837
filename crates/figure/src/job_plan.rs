//! Plan of a job: where its shafts stand, and how far each of them is.
//!
//! Who plans the next day wants to see which holes are open beside each other. Each shaft is a circle that
//! fills as the work goes on, with its name and the word of its stage; shafts nobody gave coordinates for
//! stand in a row below, off the scale.
//!
//! Words: *progress* = how full the circle is drawn.
//! Units: metres; east to the right, north up, one scale both ways.
//! Never: place a shaft nobody gave coordinates for; leave one out without saying so.

use crate::around::around;
use crate::base_plan::arrow;
use crate::lead::Lead;
use crate::lettering::{fit, width};
use crate::mark::{self, Mark};
use crate::scale::Scale;
use crate::sheet;
use crate::size::{Rect, Size};
use crate::style::{CONCRETE, EARTH, HEAD, INK, LABEL, LEADER, NOTE, PAPER, Pen, SOFT, STRONG, TICK};
use crate::svg::{Path, Svg};
use crate::words::Words;

/// Everything the plan of a job shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct JobPlan {
    /// Name of the job.
    pub title: String,
    /// The moment it shows.
    pub subtitle: String,
    /// Unit of the scale bar.
    pub distance: Scale,
    /// The shafts.
    pub shafts: Vec<PlacedShaft>,
    /// Captions.
    pub words: Words,
}

/// One shaft on the plan.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PlacedShaft {
    /// Its name.
    pub name: String,
    /// The word of its stage.
    pub stage: String,
    /// How far the work is.
    pub progress: Progress,
    /// What the assessment said of it, the worst.
    pub mark: Mark,
    /// Where it leads.
    pub lead: Lead,
    /// East and north, metres; `None` when nobody gave coordinates.
    pub place_m: Option<(f64, f64)>,
}

/// How far the work on a shaft is; each has its own shape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Progress {
    /// Nothing was done: a broken ring.
    #[default]
    Planned,
    /// Set out, not drilled: a ring.
    SetOut,
    /// The hole is made, cleaned, caged: a ring within a ring.
    Hole,
    /// Concrete is placed: half full.
    Concrete,
    /// The concrete is in: full.
    Placed,
}

/// Half the width of a shaft on the paper.
const RADIUS: f64 = 7.0;
/// Width of a place in the row of shafts without coordinates.
const CELL: f64 = 76.0;
/// Height of a row of them.
const ROW: f64 = 24.0;
/// No site is farther from the origin of its grid, in metres.
const FARTHEST_M: f64 = 1e8;

const RING: Pen = Pen::line("shaft", INK, 1.1).filled(PAPER);
const TO_COME: Pen = Pen::line("shaft", SOFT, 1.0).dashed("2.2 1.8").filled(PAPER);

/// Draws the plan.
pub fn job_plan_svg(data: &JobPlan, size: Size) -> String {
    let size = size.usable();
    let mut svg = Svg::new(size);
    let room = sheet::title(&mut svg, size, &data.title, &data.subtitle).inset(0.0, 2.0, 0.0, 0.0);
    let entries = legend();
    let keyed = sheet::legend_height(&entries, room.width);
    sheet::legend(&mut svg, &entries, Rect::new(room.x, room.bottom() - keyed, room.width, keyed));
    let (placed, loose): (Vec<&PlacedShaft>, Vec<&PlacedShaft>) =
        data.shafts.iter().partition(|shaft| place(shaft).is_some());
    let rows = rows(&loose, room);
    let below = if loose.is_empty() { 0.0 } else { 14.0 + rows as f64 * ROW };
    let view = room.inset(0.0, 0.0, 0.0, keyed + 6.0 + below);
    match placed.is_empty() {
        true if loose.is_empty() => sheet::nothing(&mut svg, view, &data.words),
        true => {}
        false => plan(&mut svg, data, &placed, view),
    }
    let foot = Rect::new(room.x, view.bottom() + 2.0, room.width, below);
    row_of(&mut svg, data, &loose, foot);
    svg.finish("job-plan", &data.title, &description(data))
}

/// East and north of a shaft that can be drawn.
fn place(shaft: &PlacedShaft) -> Option<(f64, f64)> {
    shaft.place_m.filter(|(east, north)| [east, north].iter().all(|value| value.abs() < FARTHEST_M))
}

fn legend() -> [(sheet::Sample, &'static str); 5] {
    [
        (|svg, at| symbol(svg, at, 4.0, Progress::Planned), "planned"),
        (|svg, at| symbol(svg, at, 4.0, Progress::SetOut), "set out"),
        (|svg, at| symbol(svg, at, 4.0, Progress::Hole), "hole open"),
        (|svg, at| symbol(svg, at, 4.0, Progress::Concrete), "placing"),
        (|svg, at| symbol(svg, at, 4.0, Progress::Placed), "concrete in"),
    ]
}

/// From metres to the paper: one scale both ways, centred.
#[derive(Clone, Copy)]
struct Sight {
    middle_m: (f64, f64),
    middle: (f64, f64),
    per_meter: f64,
}

impl Sight {
    fn of(placed: &[&PlacedShaft], view: Rect) -> Self {
        let places: Vec<(f64, f64)> = placed.iter().filter_map(|shaft| place(shaft)).collect();
        let (west, east) = ends(places.iter().map(|place| place.0));
        let (south, north) = ends(places.iter().map(|place| place.1));
        let inner = view.inset(46.0, 22.0, 46.0, 26.0);
        let fits = [(inner.width, east - west), (inner.height, north - south)];
        let per_meter = fits.iter().filter(|(_, span)| *span > 1e-6).map(|(room, span)| room / span);
        Sight {
            middle_m: (f64::midpoint(west, east), f64::midpoint(south, north)),
            middle: inner.middle(),
            // A single shaft, or shafts in one place, stand in the middle at a scale that says nothing.
            per_meter: per_meter.reduce(f64::min).unwrap_or(0.0).max(0.0),
        }
    }

    fn on_paper(&self, (east, north): (f64, f64)) -> (f64, f64) {
        let x = self.middle.0 + (east - self.middle_m.0) * self.per_meter;
        let y = self.middle.1 - (north - self.middle_m.1) * self.per_meter;
        (x, y)
    }
}

fn ends(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)))
}

fn plan(svg: &mut Svg, data: &JobPlan, placed: &[&PlacedShaft], view: Rect) {
    let sight = Sight::of(placed, view);
    arrow(svg, 0.0, (view.right() - 14.0, view.y + 18.0), &data.words.north);
    svg.keep_clear(Rect::new(view.right() - 36.0, view.y, 36.0, 36.0));
    bar(svg, data, sight, view);
    let at = |shaft: &PlacedShaft| place(shaft).map(|place| sight.on_paper(place));
    let centers: Vec<(f64, f64)> = placed.iter().filter_map(|shaft| at(shaft)).collect();
    for (shaft, center) in placed.iter().zip(&centers) {
        svg.leading(&shaft.lead, |svg| symbol(svg, *center, RADIUS, shaft.progress));
        svg.keep_clear(Rect::new(center.0 - RADIUS, center.1 - RADIUS, 2.0 * RADIUS, 2.0 * RADIUS));
    }
    // The last line belongs to the count of those without room.
    let inside = view.inset(0.0, 0.0, 0.0, 12.0);
    let unnamed = placed.iter().zip(&centers).filter(|(shaft, at)| !named(svg, shaft, **at, inside)).count();
    if unnamed > 0 {
        let text = format!("{unnamed} without room for their names");
        svg.text(&NOTE, (view.x, view.bottom() - 2.0), &fit(&text, NOTE.weight, NOTE.size, view.width));
    }
}

/// Name and stage beside a shaft; false when there is no room.
fn named(svg: &mut Svg, shaft: &PlacedShaft, at: (f64, f64), view: Rect) -> bool {
    let text = label(shaft);
    let Some(room) = svg.bare_where_free(&LABEL, &around(at, RADIUS), &text, view) else {
        return false;
    };
    leader(svg, at, room);
    if shaft.mark != Mark::NoLimit {
        let side = if room.x > at.0 { room.right() + 6.0 } else { room.x - 6.0 };
        // On a small sheet a name may begin at the edge; its mark stays on the paper.
        let side = side.clamp(view.x, view.right());
        mark::draw(svg, shaft.mark, (side, room.middle().1), 3.4);
    }
    true
}

/// A thin line to a name that found no room beside its shaft.
fn leader(svg: &mut Svg, at: (f64, f64), room: Rect) {
    let end = (at.0.clamp(room.x, room.right()), at.1.clamp(room.y, room.bottom()));
    let (dx, dy) = (end.0 - at.0, end.1 - at.1);
    let length = libm::hypot(dx, dy);
    if length > RADIUS + 8.0 {
        let start = (at.0 + dx / length * RADIUS, at.1 + dy / length * RADIUS);
        svg.line(start, (end.0 - dx / length, end.1 - dy / length), &LEADER);
    }
}

fn label(shaft: &PlacedShaft) -> String {
    format!("{} {}", shaft.name, shaft.stage)
}

/// A round distance as a bar; nothing where all shafts stand in one place.
fn bar(svg: &mut Svg, data: &JobPlan, sight: Sight, view: Rect) {
    if sight.per_meter <= 0.0 {
        return;
    }
    let unit = data.distance.si(1.0);
    let longest = view.width * 0.25 / sight.per_meter / unit;
    let ten = libm::pow(10.0, libm::floor(libm::log10(longest)));
    let round = [5.0, 2.0, 1.0].into_iter().map(|step| step * ten).find(|length| *length <= longest);
    let Some(length) = round.filter(|length| length.is_finite()) else { return };
    let (x, y) = (view.x, view.y + 10.0);
    let end = x + length * unit * sight.per_meter;
    let path = Path::new().stroke((x, y), (end, y)).stroke((x, y - 2.5), (x, y + 2.5));
    svg.path(path.stroke((end, y - 2.5), (end, y + 2.5)), &Pen::line("scale-bar", INK, 0.9));
    let decimals = if length < 1.0 { 2 } else { 0 };
    let figure = Scale { decimals, ..data.distance }.label(length * unit);
    svg.text(&TICK, (x, y + 11.0), &figure);
}

/// A shaft as a circle that fills.
fn symbol(svg: &mut Svg, at: (f64, f64), r: f64, progress: Progress) {
    match progress {
        Progress::Planned => svg.circle(at, r, &TO_COME),
        Progress::SetOut => svg.circle(at, r, &RING),
        Progress::Hole => {
            svg.circle(at, r, &RING.filled(EARTH));
            svg.circle(at, r * 0.6, &RING);
        }
        Progress::Concrete => {
            svg.circle(at, r, &RING);
            svg.path(lower_half(at, r), &Pen::line("concrete", INK, 1.1).filled(INK));
        }
        Progress::Placed => {
            svg.circle(at, r, &RING.filled(CONCRETE));
            svg.circle(at, r * 0.6, &Pen::area("concrete", INK));
        }
    }
}

/// The lower half of a circle, as short chords: the same bytes everywhere.
fn lower_half((x, y): (f64, f64), r: f64) -> Path {
    let turn = |step: i32| f64::from(step) / 12.0 * std::f64::consts::PI;
    let point = |step: i32| (x + r * libm::cos(turn(step)), y + r * libm::sin(turn(step)));
    (0..=12).fold(Path::new(), |path, step| path.to(point(step))).close()
}

/// How many rows the shafts without coordinates take: at most a third of the sheet.
fn rows(loose: &[&PlacedShaft], room: Rect) -> usize {
    let most = ((room.height / 3.0) / ROW).floor().max(1.0) as usize;
    loose.len().div_ceil(columns(room)).min(most)
}

fn columns(room: Rect) -> usize {
    (room.width / CELL).floor().max(1.0) as usize
}

/// The shafts nobody gave coordinates for.
fn row_of(svg: &mut Svg, data: &JobPlan, loose: &[&PlacedShaft], foot: Rect) {
    if loose.is_empty() {
        return;
    }
    let columns = columns(foot);
    let fitting = columns * rows_in(foot);
    let shown = if loose.len() > fitting { fitting.saturating_sub(1) } else { loose.len() };
    svg.text(&HEAD, (foot.x, foot.y + 8.0), &format!("Coordinates {}", data.words.not_recorded));
    for (index, shaft) in loose.iter().take(shown).enumerate() {
        let at = cell(foot, columns, index);
        svg.leading(&shaft.lead, |svg| symbol(svg, (at.0 + RADIUS, at.1), RADIUS - 1.0, shaft.progress));
        let room = CELL - 2.0 * RADIUS - 6.0;
        let name = fit(&shaft.name, STRONG.weight, STRONG.size, room);
        svg.text(&STRONG, (at.0 + 2.0 * RADIUS + 3.0, at.1 - 0.5), &name);
        if shaft.mark != Mark::NoLimit {
            let beside = at.0 + 2.0 * RADIUS + 9.0 + width(&name, STRONG.weight, STRONG.size);
            mark::draw(svg, shaft.mark, (beside, at.1 - 3.0), 3.0);
        }
        let stage = fit(&shaft.stage, TICK.weight, TICK.size, room);
        svg.text(&TICK, (at.0 + 2.0 * RADIUS + 3.0, at.1 + 7.0), &stage);
    }
    if shown < loose.len() {
        let at = cell(foot, columns, shown);
        svg.text(&NOTE, (at.0, at.1 + 2.5), &format!("and {} more", loose.len() - shown));
    }
}

fn rows_in(foot: Rect) -> usize {
    ((foot.height - 14.0) / ROW).round().max(1.0) as usize
}

fn cell(foot: Rect, columns: usize, index: usize) -> (f64, f64) {
    let (row, column) = (index / columns, index % columns);
    (foot.x + column as f64 * CELL, foot.y + 14.0 + (row as f64 + 0.5) * ROW)
}

fn description(data: &JobPlan) -> String {
    let shafts = data.shafts.iter().map(label);
    [data.subtitle.clone()].into_iter().chain(shafts).collect::<Vec<_>>().join("; ")
}
