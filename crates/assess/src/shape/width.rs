//! The estimated width of the shaft, for drawing it: the circle that has the estimated area.
//!
//! Never: take the circle for the shape; a neck on one side has the same area.

use super::{Shape, tell};
use calc::geometry::equivalent_diameter;
use calc::profile::{BANDS, Cell, CellBand};
use quantity::{Elevation, Length, Volume};

/// The width of a piece of the shaft, as the circle of the estimated area.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Width {
    /// Its upper end.
    pub top: Elevation,
    /// Its lower end.
    pub bottom: Elevation,
    /// The estimate.
    pub estimate: Length,
    /// The ends of the band that holds it with a probability of 90 %.
    pub ends: [Length; 2],
}

impl Shape {
    /// The estimated widths from the bottom up; steel is not counted, as it is not in the ratio.
    pub fn widths(&self) -> Vec<Width> {
        self.bands.iter().filter_map(width).collect()
    }

    /// The same pieces as circles of their mean area, for a solid: up to a level, where the last is cut, their volumes
    /// add up to that of the whole estimate.
    ///
    /// A band is that of the mean area of its piece. A stretch of which nothing can be told is left out.
    pub fn pieces(&self, up_to: Elevation) -> Vec<Width> {
        let below = self.bands.iter().filter(|band| band.cell.bottom < up_to);
        below.filter_map(|band| self.piece(band.cell.bottom, band.cell.top.min(up_to))).collect()
    }

    fn piece(&self, bottom: Elevation, top: Elevation) -> Option<Width> {
        let ratio = tell::band(&self.profile, [bottom, top]).ok()?;
        let nominal_m3: f64 = self.profile.cells().iter().map(|cell| nominal_m3(cell, bottom, top)).sum();
        let circle = |ratio: f64| {
            let volume = Volume::cubic_meters(nominal_m3 * ratio.max(0.0));
            equivalent_diameter(volume, top.above(bottom)).ok()
        };
        let [low, high] = ratio.ends;
        Some(Width {
            top,
            bottom,
            estimate: circle(ratio.mean)?,
            ends: [circle(low).unwrap_or(Length::ZERO), circle(high)?],
        })
    }
}

/// Nominal volume of a cell between two levels.
fn nominal_m3(cell: &Cell, bottom: Elevation, top: Elevation) -> f64 {
    let (low, high) = (cell.bottom.max(bottom), cell.top.min(top));
    if low < high { cell.nominal.to_square_meters() * high.above(low).to_meters() } else { 0.0 }
}

fn width(band: &CellBand) -> Option<Width> {
    let at = BANDS.iter().position(|probability| *probability == 0.90)?;
    let meter = Length::meters(1.0);
    let circle = |ratio: f64| {
        let area_m2 = band.cell.nominal.to_square_meters() * ratio.max(0.0);
        equivalent_diameter(Volume::cubic_meters(area_m2), meter).ok()
    };
    let [low, high] = band.ends[at];
    Some(Width {
        top: band.cell.top,
        bottom: band.cell.bottom,
        estimate: circle(band.mean)?,
        // A band that reaches down to nothing has no circle there.
        ends: [circle(low).unwrap_or(Length::ZERO), circle(high)?],
    })
}
