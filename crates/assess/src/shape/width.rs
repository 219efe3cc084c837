//! The estimated width of the shaft, for drawing it: the circle that has the estimated area.
//!
//! Never: take the circle for the shape; a neck on one side has the same area.

use super::Shape;
use calc::geometry::equivalent_diameter;
use calc::profile::{BANDS, CellBand};
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
