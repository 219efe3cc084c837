//! One row per load: batched, discharged, and the end of its life.

use super::{LoadLife, SlumpSheet};
use crate::days::Days;
use crate::lettering::fit;
use crate::mark::{self, Mark};
use crate::size::Rect;
use crate::style::{Anchor, CONCRETE, INK, NOTE, PAPER, Pen, STRONG, TICK};
use crate::svg::{Path, Svg};
use quantity::Moment;

const LIFE: Pen = Pen::line("life", INK, 0.8);
const OPEN_LIFE: Pen = Pen::line("life", INK, 0.8).dashed("2 2");
const DISCHARGE: Pen = Pen::line("discharge", INK, 0.7).filled(CONCRETE);
const BATCHED: Pen = Pen::line("batched", INK, 0.9).filled(PAPER);
const END: Pen = Pen::line("life-end", INK, 1.4);
const PLANNED_END: Pen = Pen::line("planned-end", INK, 1.2).dashed("6 2");

pub(super) fn sample_batched(svg: &mut Svg, at: (f64, f64)) {
    svg.circle(at, 2.2, &BATCHED);
}

pub(super) fn sample_discharged(svg: &mut Svg, at: (f64, f64)) {
    svg.rect(Rect::new(at.0 - 7.0, at.1 - 2.4, 14.0, 4.8), &DISCHARGE);
}

pub(super) fn sample_end(svg: &mut Svg, at: (f64, f64)) {
    svg.line((at.0 - 7.0, at.1), (at.0 + 4.0, at.1), &LIFE);
    svg.line((at.0 + 4.0, at.1 - 3.0), (at.0 + 4.0, at.1 + 3.0), &END);
}

/// The rows below the plot.
pub(super) struct Lives<'a> {
    pub(super) days: &'a Days,
    /// Room of the rows.
    pub(super) lanes: Rect,
}

impl Lives<'_> {
    pub(super) fn draw(&self, svg: &mut Svg, data: &SlumpSheet) {
        let lanes = self.lanes;
        let row = (lanes.height - 4.0) / data.loads.len().max(1) as f64;
        if let Some(end) = data.end {
            let x = self.days.at(end);
            svg.line((x, lanes.y - 4.0), (x, lanes.bottom()), &PLANNED_END);
        }
        let every = (8.0 / row.max(0.1)).ceil().max(1.0) as usize;
        for (k, load) in data.loads.iter().enumerate() {
            let y = lanes.y + (k as f64 + 0.5) * row;
            self.life(svg, load, y, row);
            if k % every == 0 {
                let name = fit(&load.label, STRONG.weight, STRONG.size, 26.0);
                svg.text(&STRONG.end(), (lanes.x - 4.0, y + 2.5), &name);
                self.ending(svg, data, load, y);
            }
        }
    }

    fn life(&self, svg: &mut Svg, load: &LoadLife, y: f64, row: f64) {
        let place = |at: Option<Moment>| at.map(|at| self.days.at(at));
        let times = [load.batched, load.discharge_from, load.discharge_to, load.life_ends];
        let (begin, end) = (times.into_iter().flatten().min(), times.into_iter().flatten().max());
        let (Some(begin), Some(end)) = (place(begin), place(end)) else { return };
        let known = load.batched.is_some() && load.life_ends.is_some();
        svg.line((begin, y), (end, y), if known { &LIFE } else { &OPEN_LIFE });
        let half = (row / 2.0 - 1.0).clamp(0.8, 2.6);
        if let Some(from) = place(load.discharge_from) {
            let to = place(load.discharge_to).unwrap_or(from + 2.0).max(from + 1.0);
            svg.rect(Rect::new(from, y - half, to - from, 2.0 * half), &DISCHARGE);
        }
        if let Some(x) = place(load.batched) {
            svg.circle((x, y), half.min(2.2), &BATCHED);
        }
        if let Some(x) = place(load.life_ends) {
            svg.path(Path::new().stroke((x, y - half - 0.6), (x, y + half + 0.6)), &END);
        }
    }

    /// The clock time at which the life ends, with the sign of the assessment.
    fn ending(&self, svg: &mut Svg, data: &SlumpSheet, load: &LoadLife, y: f64) {
        let times = [load.life_ends, load.discharge_to, load.discharge_from, load.batched];
        let Some(x) = times.into_iter().flatten().max().map(|at| self.days.at(at)) else { return };
        let sign = matches!(load.mark, Mark::Fails | Mark::Doubtful);
        if sign {
            mark::draw(svg, load.mark, (x + 6.5, y), 3.0);
        }
        let off = if sign { 12.0 } else { 4.0 };
        let (style, text) = match load.life_ends {
            Some(end) => (TICK.ink(INK), end.clock()),
            None => (NOTE, data.words.not_estimated.clone()),
        };
        let places = [((x + off, y + 2.5), Anchor::Start), ((x - 4.0, y + 2.5), Anchor::End)];
        svg.text_where_free(&style, &places, &text, self.lanes.inset(0.0, -6.0, -10.0, -4.0));
    }
}
