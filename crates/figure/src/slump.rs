//! Slump against time: how long each load stays workable, and when the work has to be done.
//!
//! The oldest concrete has to be workable until the casing is out; the sheet shows for every load when it
//! was batched, tested and discharged, and when its slump is expected to reach the job's least value.
//!
//! Words: *life* = from batching to the moment the slump is expected to reach the limit.
//! Units: metres of slump. Never: compute a life; it comes in with the data.

mod lives;
mod plot;

use crate::axis::range;
use crate::days::Days;
use crate::mark::Mark;
use crate::scale::Scale;
use crate::sheet;
use crate::size::{Rect, Size};
use crate::svg::Svg;
use crate::words::Words;
use quantity::Moment;

/// Everything the sheet of slumps shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SlumpSheet {
    /// Name of the shaft and what is shown.
    pub title: String,
    /// The mix, and where the expectation comes from.
    pub subtitle: String,
    /// Unit of slump.
    pub slump: Scale,
    /// Least slump until the work is done, metres; `None` when no limit is set.
    pub limit_m: Option<f64>,
    /// When the last casing is out and the last insert in, or should be; `None` when neither is known.
    pub end: Option<Moment>,
    /// What stands at that end: `planned end`, `all done`.
    pub end_label: String,
    /// The loads in order of time.
    pub loads: Vec<LoadLife>,
    /// What was not recorded.
    pub blanks: Vec<String>,
    /// Captions.
    pub words: Words,
}

/// One load and its slump.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadLife {
    /// Number of the load or its ticket.
    pub label: String,
    /// When it was batched; `None` when the ticket does not say.
    pub batched: Option<Moment>,
    /// When its discharge began.
    pub discharge_from: Option<Moment>,
    /// When its discharge ended.
    pub discharge_to: Option<Moment>,
    /// When its slump is expected to reach the limit; `None` when there is no trial to tell.
    pub life_ends: Option<Moment>,
    /// Tests of this load.
    pub tests: Vec<SlumpPoint>,
    /// The expected slump over time, from the trial of the mix and the tests of the day.
    pub expected: Vec<SlumpPoint>,
    /// What the assessment said about this load.
    pub mark: Mark,
}

/// A slump at a moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlumpPoint {
    /// When.
    pub at: Moment,
    /// Slump, metres.
    pub slump_m: f64,
    /// What the assessment said about it.
    pub mark: Mark,
}

/// Draws the sheet of slumps.
pub fn slump_svg(data: &SlumpSheet, size: Size) -> String {
    let data = &data.usable();
    let size = size.usable();
    let mut svg = Svg::new(size);
    let foot = sheet::blanks_height(&data.blanks, size);
    let room = sheet::title(&mut svg, size, &data.title, &data.subtitle).inset(0.0, 4.0, 0.0, foot);
    sheet::blanks(&mut svg, size, &data.blanks, &data.words);
    let entries = legend();
    let named: Vec<_> = entries.iter().map(|(sample, word)| (*sample, word(&data.words))).collect();
    let legend_height = sheet::legend_height(&named, room.width);
    let rows = (data.loads.len() as f64 * 9.0 + 6.0).min(room.height * 0.4);
    let plot = room.inset(28.0, 12.0, 10.0, 14.0 + legend_height + 6.0 + rows);
    match Days::lay_out(&moments(data), (plot.x, plot.right())) {
        Some(days) => {
            let lanes = Rect::new(plot.x, plot.bottom() + 16.0, plot.width, rows);
            plot::draw(&mut svg, data, plot, &days);
            lives::Lives { days: &days, lanes }.draw(&mut svg, data);
            sheet::legend(
                &mut svg,
                &named,
                Rect::new(room.x, room.bottom() - legend_height, room.width, legend_height),
            );
        }
        None => sheet::nothing(&mut svg, room, &data.words),
    }
    svg.finish("slump", &data.title, &description(data))
}

type Word = fn(&Words) -> &str;

fn legend() -> Vec<(sheet::Sample, Word)> {
    vec![
        (plot::sample_test, |words| &words.measured),
        (plot::sample_expected, |words| &words.estimated),
        (lives::sample_batched, |words| &words.batched),
        (lives::sample_discharged, |words| &words.discharged),
        (lives::sample_end, |words| &words.life_ends),
    ]
}

fn moments(data: &SlumpSheet) -> Vec<Moment> {
    let mut all = Vec::new();
    for load in &data.loads {
        all.extend(
            [load.batched, load.discharge_from, load.discharge_to, load.life_ends].into_iter().flatten(),
        );
        all.extend(load.tests.iter().chain(&load.expected).map(|p| p.at));
    }
    all.extend(data.end);
    all
}

/// From zero (or the lowest value, were one below it) to a little above the highest.
fn slump_range(data: &SlumpSheet) -> (f64, f64) {
    let points = data.loads.iter().flat_map(|l| l.tests.iter().chain(&l.expected)).map(|p| p.slump_m);
    let (low, high) = range(points.chain(data.limit_m)).unwrap_or((0.0, 0.2));
    let high = high.max(0.05);
    (low.min(0.0), high + (high - low.min(0.0)) * 0.15)
}

fn description(data: &SlumpSheet) -> String {
    let tests = data.loads.iter().flat_map(|load| {
        load.tests.iter().map(|t| format!("{} {}: {}", load.label, t.at.clock(), data.slump.label(t.slump_m)))
    });
    let ends = data.loads.iter().filter_map(|load| {
        load.life_ends.map(|end| format!("{} {} {}", load.label, data.words.life_ends, end.clock()))
    });
    [data.subtitle.clone()].into_iter().chain(tests).chain(ends).collect::<Vec<_>>().join("; ")
}
