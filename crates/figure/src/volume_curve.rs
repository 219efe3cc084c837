//! The volume curve: concrete placed against what the hole should have taken, beside the depth.
//!
//! A cumulative curve that lies above theory everywhere can still hide a neck; so the ratio of every
//! interval is drawn too, with its standard error, against this shaft's own running ratio.
//!
//! Words: *theoretical* = from the nominal geometry; *placed* = delivered less lines and waste.
//! Units: metres of depth, cubic metres. Never: compute a ratio or an error.

mod bars;
mod curve;

use crate::axis::range;
use crate::mark::Mark;
use crate::scale::Scale;
use crate::sheet::{self, SideScale};
use crate::size::{Rect, Size};
use crate::svg::Svg;
use crate::words::Words;
use quantity::units;

/// Everything the volume curve shows.
#[derive(Debug, Clone, PartialEq)]
pub struct VolumeCurve {
    /// Name of the shaft and what is shown.
    pub title: String,
    /// The moment it stands for, and the totals as a sentence.
    pub subtitle: String,
    /// Unit of depths.
    pub depth: Scale,
    /// Unit of volumes.
    pub volume: Scale,
    /// Theoretical volume from the bottom up to each depth, in any order.
    pub theoretical: Vec<CurvePoint>,
    /// What was placed when the concrete was sounded at each depth, in order of time.
    pub placed: Vec<PlacedPoint>,
    /// The intervals between soundings, from the bottom up.
    pub intervals: Vec<Interval>,
    /// What was not recorded.
    pub blanks: Vec<String>,
    /// Captions.
    pub words: Words,
}

/// A point of the theoretical curve.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct CurvePoint {
    /// Depth, metres.
    pub depth_m: f64,
    /// Volume between the bottom and this depth, cubic metres.
    pub volume_m3: f64,
}

/// What had been placed when the surface was sounded.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PlacedPoint {
    /// Depth of the surface, metres.
    pub depth_m: f64,
    /// One standard error of the depth, metres; `None` draws no bar.
    pub depth_error_m: Option<f64>,
    /// Volume placed, cubic metres.
    pub volume_m3: f64,
    /// One standard error of the volume, cubic metres; `None` draws no bar.
    pub volume_error_m3: Option<f64>,
    /// The load after which it was sounded, `3`.
    pub label: String,
    /// What the assessment said about the sounding.
    pub mark: Mark,
}

/// The concrete between two soundings.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Interval {
    /// Depth of its top, metres.
    pub top_m: f64,
    /// Depth of its bottom, metres.
    pub bottom_m: f64,
    /// Placed over theoretical; `None` when one of the two is missing.
    pub ratio: Option<f64>,
    /// One standard error of the ratio; `None` when not known.
    pub standard_error: Option<f64>,
    /// This shaft's own ratio up to here.
    pub running_ratio: Option<f64>,
    /// What the assessment said about the interval.
    pub mark: Mark,
}

impl Default for VolumeCurve {
    /// An empty drawing in metres and cubic metres.
    fn default() -> Self {
        VolumeCurve {
            title: String::new(),
            subtitle: String::new(),
            depth: Scale::meters(),
            volume: Scale::of(&units::CUBIC_METER, 1),
            theoretical: Vec::new(),
            placed: Vec::new(),
            intervals: Vec::new(),
            blanks: Vec::new(),
            words: Words::default(),
        }
    }
}

/// Draws the volume curve with its own depth scale.
pub fn volume_curve_svg(curve: &VolumeCurve, size: Size) -> String {
    let curve = &curve.usable();
    let size = size.usable();
    let mut svg = Svg::new(size);
    let foot = sheet::blanks_height(&curve.blanks, size);
    let room = sheet::title(&mut svg, size, &curve.title, &curve.subtitle).inset(30.0, 0.0, 0.0, foot);
    sheet::blanks(&mut svg, size, &curve.blanks, &curve.words);
    match depth_range(curve) {
        Some((top, bottom)) => {
            let margin = ((bottom - top) * 0.04).max(0.05);
            let axis = draw(&mut svg, curve, room, (top - margin, bottom + margin));
            let (scale, word) = (&curve.depth, &curve.words.depth);
            sheet::depth_scale(&mut svg, &SideScale { axis: &axis, scale, x: room.x, word });
        }
        None => sheet::nothing(&mut svg, room, &curve.words),
    }
    svg.finish("volume-curve", &curve.title, &description(curve))
}

/// The depths the curve needs; nothing when it holds none.
pub(crate) fn depth_range(curve: &VolumeCurve) -> Option<(f64, f64)> {
    let theory = curve.theoretical.iter().map(|p| p.depth_m);
    let intervals = curve.intervals.iter().flat_map(|i| [i.top_m, i.bottom_m]);
    range(theory.chain(curve.placed.iter().map(|p| p.depth_m)).chain(intervals))
}

/// Draws curve and bars into a part of a sheet; returns the depth axis they stand on.
pub(crate) fn draw(svg: &mut Svg, curve: &VolumeCurve, room: Rect, depths: (f64, f64)) -> crate::axis::Axis {
    let entries = legend(curve);
    let legend_height = sheet::legend_height(&entries, room.width);
    let plot = room.inset(0.0, 22.0, 0.0, 14.0 + legend_height.max(1.0));
    let axis = crate::axis::Axis::new(depths, (plot.y, plot.bottom()));
    let gap = 14.0;
    let share = if curve.intervals.is_empty() { 1.0 } else { 0.58 };
    let left = Rect::new(plot.x, plot.y, plot.width * share - gap / 2.0, plot.height);
    svg.open("volume-curve");
    curve::draw(svg, curve, left, &axis);
    if share < 1.0 {
        let right = Rect::new(left.right() + gap, plot.y, plot.right() - left.right() - gap, plot.height);
        bars::draw(svg, curve, right, &axis);
    }
    sheet::legend(svg, &entries, Rect::new(room.x, plot.bottom() + 12.0, room.width, legend_height));
    svg.close();
    axis
}

/// Height below the plots that the curve needs in this width, so that a section beside it can match.
pub(crate) fn foot_height(curve: &VolumeCurve, width: f64) -> f64 {
    14.0 + sheet::legend_height(&legend(curve), width).max(1.0)
}

fn legend(curve: &VolumeCurve) -> Vec<(sheet::Sample, &str)> {
    let words = &curve.words;
    let mut entries: Vec<(sheet::Sample, &str)> =
        vec![(curve::sample_theoretical, &words.theoretical), (curve::sample_placed, &words.placed)];
    if !curve.intervals.is_empty() {
        entries.push((bars::sample_one, &words.one_standard_error));
        entries.push((bars::sample_two, &words.two_standard_errors));
        entries.push((bars::sample_running, &words.running_ratio));
    }
    entries
}

pub(crate) fn description(curve: &VolumeCurve) -> String {
    let placed = curve.placed.iter().map(|p| {
        format!("{} {}: {}", p.label, curve.depth.label(p.depth_m), curve.volume.label(p.volume_m3))
    });
    [curve.subtitle.clone()].into_iter().chain(placed).collect::<Vec<_>>().join("; ")
}
