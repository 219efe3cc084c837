//! Where the parts of a time–depth sheet stand: scales, strata, lanes, plot, names.

use super::{TimeDepth, lanes, names};
use crate::axis::{Axis, range};
use crate::days::Days;
use crate::section::{Column, blank};
use crate::sheet::{self, SideScale};
use crate::size::Rect;
use crate::style::{GRID, HEAD, NOTE, PAPER, Pen, SOFT, STRONG};
use crate::svg::{Path, Svg};
use quantity::Moment;

const DEPTH_SCALE: f64 = 30.0;
const ELEVATION_SCALE: f64 = 34.0;
const DATE_LANE: f64 = 13.0;
const LANE: f64 = 13.0;
const SPAN_LANE: f64 = 22.0;

/// Places of the parts.
pub(super) struct Plan {
    pub(super) days: Days,
    pub(super) depth: Axis,
    pub(super) plot: Rect,
    pub(super) strata: Rect,
    /// Names of the lines, right of the plot.
    pub(super) names: Rect,
    /// What lasted: cleaning, cage, interruptions.
    pub(super) spans: Rect,
    /// Loads with their tickets.
    pub(super) loads: Rect,
    /// Tests without a depth.
    pub(super) tests: Rect,
    /// Numbered findings.
    pub(super) flags: Rect,
    /// Said behind a number of labels that found no room.
    pub(super) not_shown: String,
}

impl Plan {
    /// Nothing when the sheet holds no moment or no depth.
    pub(super) fn lay_out(data: &TimeDepth, room: Rect) -> Option<Self> {
        let (top, bottom) = depths(data)?;
        let margin = ((bottom - top) * 0.04).max(0.1);
        let lane = |present: bool, height: f64| if present { height } else { 0.0 };
        let spans = lane(
            !(data.cleaning.is_empty() && data.cages.is_empty() && data.interruptions.is_empty()),
            SPAN_LANE,
        );
        let tests = lane(data.fluid_tests.iter().any(|t| t.depth_m.is_none()), LANE);
        let flags = lane(!data.flags.is_empty(), LANE);
        let strata = (room.width * 0.135).clamp(54.0, 104.0);
        let elevation = if data.zero_elevation_m.is_some() { ELEVATION_SCALE } else { 4.0 };
        let names = (names::width(data) + 10.0).clamp(56.0, (room.width * 0.2).max(72.0));
        let across = (room.x + DEPTH_SCALE + strata, room.right() - names - elevation);
        let days = Days::lay_out(&moments(data), across)?;
        let loads = lanes::load_lane(data, &days, across);
        let above = DATE_LANE + spans + loads + tests + flags;
        let plot = room.inset(DEPTH_SCALE + strata, above, names + elevation, 14.0);
        let row = |y: f64, height: f64| Rect::new(plot.x, y, plot.width, height);
        let first = room.y + DATE_LANE;
        Some(Plan {
            days,
            depth: Axis::new((top - margin, bottom + margin), (plot.y, plot.bottom())),
            plot,
            strata: Rect::new(plot.x - strata, plot.y, strata, plot.height),
            names: Rect::new(plot.right() + 4.0, plot.y, names - 8.0, plot.height),
            spans: row(first, spans),
            tests: row(first + spans, tests),
            loads: row(first + spans + tests, loads),
            not_shown: data.words.not_shown.clone(),
            flags: row(first + spans + tests + loads, flags),
        })
    }

    pub(super) fn at(&self, moment: Moment, depth_m: f64) -> (f64, f64) {
        (self.days.at(moment), self.depth.at(depth_m))
    }

    /// Grid, clock, dates, strata and the scales at both sides.
    pub(super) fn draw_scales(&self, svg: &mut Svg, data: &TimeDepth) {
        sheet::depth_grid(svg, &self.depth, &data.depth, (self.plot.x, self.plot.right()));
        sheet::foot_scale(svg, &self.days.ticks(30.0), self.plot);
        let column =
            Column { axis: &self.depth, scale: &data.depth, room: self.strata, blank: blank(&data.words) };
        column.draw(svg, &data.strata);
        let words = &data.words;
        let left = SideScale { axis: &self.depth, scale: &data.depth, x: self.strata.x, word: &words.depth };
        sheet::depth_scale(svg, &left);
        if let Some(zero) = data.zero_elevation_m {
            let right = SideScale { x: self.names.right() + 4.0, word: &words.elevation, ..left };
            sheet::elevation_scale(svg, &right, zero);
        }
        if !data.zero_label.is_empty() {
            let room = self.plot.x - self.strata.x - 2.0;
            let text = format!("0 = {}", data.zero_label);
            let text = crate::lettering::fit(&text, NOTE.weight, NOTE.size, room);
            svg.text(&NOTE, (self.strata.x, self.plot.bottom() + 9.0), &text);
        }
        self.draw_dates(svg);
    }

    fn draw_dates(&self, svg: &mut Svg) {
        let y = self.spans.y - 4.0;
        for (moment, stretch) in self.days.beginnings() {
            let date = moment.plus_seconds(600).date();
            let room = stretch.end - stretch.start;
            let text = crate::lettering::fit(&date, HEAD.weight, HEAD.size, room);
            svg.text(&HEAD, (stretch.start, y), &text);
            svg.line((stretch.start, y + 2.5), (stretch.end, y + 2.5), &GRID);
        }
    }

    /// Covers the cuts with paper between two torn edges, and says how long nothing was written.
    pub(super) fn draw_cuts(&self, svg: &mut Svg, words: &str) {
        for (from, to, length) in self.days.cuts() {
            let tear = |x: f64| {
                let count = (self.plot.height / 8.0) as i32;
                (0..=count).map(move |k| {
                    let y = self.plot.y + self.plot.height * f64::from(k) / f64::from(count.max(1));
                    (x + if k % 2 == 0 { -1.5 } else { 1.5 }, y)
                })
            };
            let (left, right): (Vec<_>, Vec<_>) = (tear(from + 1.5).collect(), tear(to - 1.5).collect());
            let area: Vec<_> = left.iter().chain(right.iter().rev()).copied().collect();
            svg.polygon(&area, &Pen::area("cut", PAPER));
            let edge = Pen::line("cut", SOFT, 0.6);
            svg.path(left.into_iter().fold(Path::new(), Path::to), &edge);
            svg.path(right.into_iter().fold(Path::new(), Path::to), &edge);
            let x = (from + to) / 2.0 + 2.5;
            let places: Vec<_> =
                (1..10).map(|k| (x, self.plot.y + self.plot.height * f64::from(k) / 10.0)).collect();
            svg.upward_where_free(&STRONG.ink(SOFT), &places, &format!("{length} · {words}"), self.plot);
        }
    }
}

/// Every depth on the sheet.
fn depths(data: &TimeDepth) -> Option<(f64, f64)> {
    let levels = [&data.concrete, &data.tremie, &data.fluid_level, &data.groundwater];
    let levels = levels.into_iter().flatten().map(|level| level.depth_m);
    let casings = data.casings.iter().flat_map(|casing| &casing.shoe).map(|shoe| shoe.depth_m);
    let marks = data.fluid_tests.iter().chain(&data.base_soundings).filter_map(|mark| mark.depth_m);
    let cages = data.cages.iter().flat_map(|cage| [cage.top_m, cage.bottom_m]).flatten();
    let flags = data.flags.iter().filter_map(|flag| flag.depth_m);
    let strata = data.strata.iter().map(|stratum| stratum.top_m);
    let fixed = data.ground_m.into_iter().chain(data.planned_tip_m);
    let runs = data.runs.iter().map(|run| run.to_m);
    let drawn =
        runs.chain(levels).chain(casings).chain(marks).chain(cages).chain(flags).chain(strata).chain(fixed);
    let (top, bottom) = range(drawn)?;
    Some((top.min(data.ground_m.unwrap_or(0.0)), bottom))
}

/// Every moment on the sheet.
fn moments(data: &TimeDepth) -> Vec<Moment> {
    let levels = [&data.concrete, &data.tremie, &data.fluid_level, &data.groundwater];
    let mut all: Vec<Moment> = levels.into_iter().flatten().map(|level| level.at).collect();
    all.extend(data.casings.iter().flat_map(|c| c.shoe.iter().map(|s| s.at).chain(c.out)));
    all.extend(data.fluid_tests.iter().chain(&data.base_soundings).map(|mark| mark.at));
    all.extend(data.runs.iter().flat_map(|run| run.started.into_iter().chain([run.ended])));
    all.extend(data.cages.iter().map(|cage| cage.at));
    let spans = data.cleaning.iter().chain(&data.interruptions);
    all.extend(spans.flat_map(|span| [Some(span.from), span.to]).flatten());
    all.extend(data.loads.iter().flat_map(|load| [Some(load.from), load.to]).flatten());
    all.extend(data.flags.iter().map(|flag| flag.at).chain(data.tremie_out));
    all
}
