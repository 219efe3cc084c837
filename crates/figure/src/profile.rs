//! The as-built profile: how wide the shaft probably is, how sure that is, and what could hide in it.
//!
//! Volumes and soundings do not show a shape; they leave room for many. So the estimate is never drawn
//! without its band, the plain ratio of each interval stays in sight as what was read, and a lane beside it
//! says how much of the section could be missing at each depth without any reading having shown it.
//!
//! Words: *estimate* = area of the shaft over the area of the hole as drawn; *band* = where it lies with a
//! probability; *blind spots* = the losses of area that these readings would not have revealed.
//! Units: metres of depth; areas and losses as parts. Never: compute an estimate, smooth a band.

mod blind;
mod ratio;

use crate::axis::{Axis, range};
use crate::scale::Scale;
use crate::section::{Column, Stratum, blank};
use crate::sheet::{self, SideScale};
use crate::size::{Rect, Size};
use crate::svg::Svg;
use crate::words::Words;

/// Everything the profile shows.
#[derive(Debug, Clone, PartialEq)]
pub struct ProfileSheet {
    /// Name of the shaft and what is shown.
    pub title: String,
    /// The moment it stands for, and that it is an estimate.
    pub subtitle: String,
    /// Unit of depths.
    pub depth: Scale,
    /// The ground, in any order.
    pub strata: Vec<Stratum>,
    /// The estimate, cell by cell.
    pub cells: Vec<ProfileCell>,
    /// The plain ratio of each interval: what was read, without any assumption.
    pub read: Vec<ReadRatio>,
    /// Where the surface was sounded, metres of depth.
    pub soundings_m: Vec<f64>,
    /// What could hide, one line for each height of a loss.
    pub blind_spots: Vec<BlindSpots>,
    /// What was not recorded.
    pub blanks: Vec<String>,
    /// Captions.
    pub words: Words,
}

/// A cell of the estimate: one ratio of areas with its bands.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ProfileCell {
    /// Depth of its top, metres.
    pub top_m: f64,
    /// Depth of its bottom, metres.
    pub bottom_m: f64,
    /// The estimate.
    pub ratio: f64,
    /// Where it lies with a probability of one half.
    pub half: (f64, f64),
    /// Where it lies with a probability of nine tenths.
    pub most: (f64, f64),
    /// A pipe is the wall there, so that its width is known and no band is drawn.
    pub cased: bool,
}

/// The plain ratio of an interval.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ReadRatio {
    /// Depth of its top, metres.
    pub top_m: f64,
    /// Depth of its bottom, metres.
    pub bottom_m: f64,
    /// Placed over theoretical.
    pub ratio: f64,
}

/// What could hide in a loss of one height.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BlindSpots {
    /// The height as it is told, `2 ft`.
    pub height: String,
    /// From the top down.
    pub points: Vec<BlindPoint>,
}

/// The smallest loss that would have shown at a depth.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BlindPoint {
    /// Depth of its middle, metres.
    pub depth_m: f64,
    /// As a part of the area; `None` where even the loss of all of it would not have shown.
    pub loss: Option<f64>,
}

impl Default for ProfileSheet {
    /// An empty drawing in metres.
    fn default() -> Self {
        ProfileSheet {
            title: String::new(),
            subtitle: String::new(),
            depth: Scale::meters(),
            strata: Vec::new(),
            cells: Vec::new(),
            read: Vec::new(),
            soundings_m: Vec::new(),
            blind_spots: Vec::new(),
            blanks: Vec::new(),
            words: Words::default(),
        }
    }
}

/// Draws the profile: ground, estimate with its bands, and what could hide, on one depth axis.
pub fn profile_svg(sheet: &ProfileSheet, size: Size) -> String {
    let sheet = &sheet.usable();
    let size = size.usable();
    let mut svg = Svg::new(size);
    let foot = sheet::blanks_height(&sheet.blanks, size);
    let room = sheet::title(&mut svg, size, &sheet.title, &sheet.subtitle).inset(30.0, 0.0, 0.0, foot);
    sheet::blanks(&mut svg, size, &sheet.blanks, &sheet.words);
    match depth_range(sheet) {
        Some((top, bottom)) => {
            let margin = ((bottom - top) * 0.03).max(0.05);
            draw(&mut svg, sheet, room, (top - margin, bottom + margin));
        }
        None => sheet::nothing(&mut svg, room, &sheet.words),
    }
    svg.finish("profile", &sheet.title, &description(sheet))
}

/// The depths the estimate covers; nothing without one.
fn depth_range(sheet: &ProfileSheet) -> Option<(f64, f64)> {
    range(sheet.cells.iter().flat_map(|cell| [cell.top_m, cell.bottom_m]))
}

fn draw(svg: &mut Svg, sheet: &ProfileSheet, room: Rect, depths: (f64, f64)) {
    let entries = legend(sheet);
    let legend_height = sheet::legend_height(&entries, room.width);
    let plot = room.inset(0.0, 22.0, 0.0, 14.0 + legend_height.max(1.0));
    let axis = Axis::new(depths, (plot.y, plot.bottom()));
    let [ground, estimate, hidden] = lanes(plot, sheet);
    if let Some(room) = ground {
        let blank = blank(&sheet.words);
        Column { axis: &axis, scale: &sheet.depth, room, blank }.draw(svg, &sheet.strata);
    }
    if let Some(lane) = estimate {
        ratio::draw(svg, sheet, lane, &axis);
    }
    if let Some(lane) = hidden {
        blind::draw(svg, sheet, lane, &axis);
    }
    let (scale, word) = (&sheet.depth, &sheet.words.depth);
    sheet::depth_scale(svg, &SideScale { axis: &axis, scale, x: room.x, word });
    sheet::legend(svg, &entries, Rect::new(room.x, plot.bottom() + 12.0, room.width, legend_height));
}

/// Room for the ground, the estimate and what could hide; the ground goes first where the paper is narrow.
fn lanes(plot: Rect, sheet: &ProfileSheet) -> [Option<Rect>; 3] {
    let gap = 14.0;
    let ground = if plot.width < 330.0 { 0.0 } else { plot.width * 0.2 };
    let from = if ground > 0.0 { plot.x + ground + gap } else { plot.x };
    let left = plot.right() - from;
    let share = if sheet.blind_spots.is_empty() { 1.0 } else { 0.58 };
    let lane = |x: f64, width: f64| Some(Rect::new(x, plot.y, width, plot.height)).filter(|_| width > 0.0);
    let estimate = if share < 1.0 { left * share - gap / 2.0 } else { left };
    [
        lane(plot.x, ground),
        lane(from, estimate),
        match share < 1.0 {
            true => lane(from + estimate + gap, left - estimate - gap),
            false => None,
        },
    ]
}

fn legend(sheet: &ProfileSheet) -> Vec<(sheet::Sample, &str)> {
    let words = &sheet.words.shape;
    let mut entries: Vec<(sheet::Sample, &str)> = vec![
        (ratio::sample_estimate, &words.estimate),
        (ratio::sample_half, &words.half_band),
        (ratio::sample_most, &words.most_band),
    ];
    if !sheet.read.is_empty() {
        entries.push((ratio::sample_read, &words.ratio_read));
    }
    if !sheet.blind_spots.is_empty() {
        entries.push((blind::sample_hidden, &words.hidden));
    }
    let samples: [sheet::Sample; 3] = blind::SAMPLES;
    entries
        .extend(sheet.blind_spots.iter().zip(samples).map(|(line, sample)| (sample, line.height.as_str())));
    entries
}

fn description(sheet: &ProfileSheet) -> String {
    let told = sheet.read.iter().map(|read| {
        let (top, bottom) = (sheet.depth.figure(read.top_m), sheet.depth.label(read.bottom_m));
        format!("{top} to {bottom}: {:.2}", read.ratio)
    });
    [sheet.subtitle.clone()].into_iter().chain(told).collect::<Vec<_>>().join("; ")
}
