//! Where the parts of a section stand on the paper.
//!
//! From left to right: depth scale, ground with its descriptions, the hole, ground, labels, elevation scale.
//!
//! Units: metres for depths and widths, points for places.

use super::Section;
use crate::axis::{Axis, range};
use crate::size::Rect;

const SCALE_WIDTH: f64 = 30.0;
const HEAD_HEIGHT: f64 = 22.0;
const FOOT_HEIGHT: f64 = 14.0;
/// Factors of exaggeration that can be read off: widths drawn so many times larger than depths.
const FACTORS: &[f64] =
    &[0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0];

/// Places of the parts of one section.
pub(crate) struct Layout {
    /// Depth, metres, downward on the paper.
    pub(crate) depth: Axis,
    /// Middle of the hole.
    pub(crate) center: f64,
    /// Widths are drawn this many times larger than depths.
    pub(crate) factor: f64,
    /// The ground: everything between the scales and the labels.
    pub(crate) ground: Rect,
    /// Left and right edge of the labels.
    pub(crate) labels: (f64, f64),
    /// Everything, with the scales.
    pub(crate) room: Rect,
    /// Room for the hole, points across.
    hole: f64,
}

impl Layout {
    pub(crate) fn of(section: &Section, room: Rect, depths: (f64, f64)) -> Self {
        let depth = Axis::new(depths, (room.y + HEAD_HEIGHT, room.bottom() - FOOT_HEIGHT));
        let label_width = (room.width * 0.31).clamp(70.0, 150.0);
        let elevation_width = if section.zero_elevation_m.is_some() { SCALE_WIDTH + 2.0 } else { 0.0 };
        let ground_width = (room.width - SCALE_WIDTH - elevation_width - label_width).max(40.0);
        let ground = Rect::new(room.x + SCALE_WIDTH, depth.start, ground_width, depth.end - depth.start);
        let labels = (ground.right() + 5.0, room.right() - elevation_width - 3.0);
        let beside = (ground.width * 0.22).clamp(24.0, 60.0);
        let hole = (ground.width - beside - 60.0).clamp(ground.width * 0.42, ground.width * 0.5);
        let factor = factor(section, hole, depth.points_per_unit());
        let widest = widest(section).unwrap_or(0.0) * factor * depth.points_per_unit();
        let center = ground.right() - beside - widest.min(hole) / 2.0;
        Layout { depth, center, factor, ground, labels, room, hole }
    }

    /// Left and right place of a width about the middle of the hole.
    pub(crate) fn sides(&self, diameter_m: f64) -> (f64, f64) {
        let half = (diameter_m / 2.0 * self.factor * self.depth.points_per_unit()).abs();
        let half = half.min(self.hole * 0.52);
        (self.center - half, self.center + half)
    }
}

/// The largest readable factor with which the widest part of the hole still fits.
fn factor(section: &Section, room: f64, points_per_meter: f64) -> f64 {
    let Some(widest) = widest(section) else { return 1.0 };
    let fits = |factor: &&f64| *factor * widest * points_per_meter <= room;
    FACTORS.iter().rev().find(fits).copied().unwrap_or(FACTORS[0])
}

/// The widest diameter drawn, metres.
pub(super) fn widest(section: &Section) -> Option<f64> {
    let bores = section.planned.iter().chain(&section.drilled);
    let widths = bores.flat_map(|b| [b.top_diameter_m, b.bottom_diameter_m]);
    let profile = section.profile.iter().flat_map(|p| [p.estimate_m, p.high_m]);
    let casings = section.casings.iter().map(|c| c.diameter_m);
    let cage = section.cage.iter().map(|c| c.diameter_m);
    let all = widths.chain(profile).chain(casings).chain(cage);
    range(all.filter(|d| *d > 0.0)).map(|range| range.1)
}

/// The depths a section needs, with a little ground above and below; nothing when it holds no depth.
pub(crate) fn depth_range(section: &Section) -> Option<(f64, f64)> {
    let bores = section.planned.iter().chain(&section.drilled).flat_map(|b| [b.top_m, b.bottom_m]);
    let casings = section.casings.iter().flat_map(|c| [c.top_m, c.shoe_m]);
    let strata = section.strata.iter().flat_map(|s| [Some(s.top_m), s.bottom_m]).flatten();
    let cage = section.cage.iter().flat_map(|c| [c.top_m, c.bottom_m]);
    let tremie = section.tremie.iter().map(|t| t.tip_m);
    let levels = section.levels.iter().map(|l| l.depth_m);
    let profile = section.profile.iter().map(|p| p.depth_m);
    let all = bores.chain(casings).chain(strata).chain(cage).chain(tremie).chain(levels).chain(profile);
    let (top, bottom) = range(all.chain(section.ground_m))?;
    let margin = ((bottom - top) * 0.05).max(0.15);
    let above = if section.tremie.is_some() { 2.0 * margin } else { margin };
    Some((top - above, bottom + margin))
}
