//! The ratio of each cell with its bands, for drawing.

use super::cells::Cell;
use super::figure::Figure;
use super::fit::Fit;
use super::{Profile, ProfileError};
use crate::mixture::{Mixture, Part};

/// The ratio of one cell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CellBand {
    /// The cell.
    pub cell: Cell,
    /// Mean of its ratio.
    pub mean: f64,
    /// The ends of the bands that hold it with the probabilities asked for are in the same order as those.
    pub ends: [[f64; 2]; 4],
}

/// The probabilities of the bands of a [`CellBand`].
pub const BANDS: [f64; 4] = [0.50, 0.80, 0.90, 0.95];

/// Ways whose figure lies within this part of its spread are drawn as one. It moves an end of a band by less than a
/// hundredth of the spread.
const GROUP_WIDTH: f64 = 0.4;
/// Groups on each side of the mean; what lies further out joins the last.
const GROUPS: f64 = 12.0;

impl Profile {
    /// Mean and bands of 50, 80, 90 and 95 % of every cell, from the bottom up.
    ///
    /// Ways of the shaft that give a cell nearly the same ratio are put together first, so the ends differ a little
    /// from those of [`Profile::stretch`] over the same cell.
    ///
    /// **Errors** when the readings are too far out to be reckoned with.
    ///
    /// **Source**: see [`super::profile`].
    pub fn bands(&self) -> Result<Vec<CellBand>, ProfileError> {
        let cells = self.cells().iter().enumerate();
        cells.map(|(at, cell)| if cell.cased { Ok(known(*cell)) } else { band(&self.fit, at) }).collect()
    }
}

/// The inside of a casing.
fn known(cell: Cell) -> CellBand {
    CellBand { cell, mean: 1.0, ends: [[1.0; 2]; 4] }
}

fn band(fit: &Fit, at: usize) -> Result<CellBand, ProfileError> {
    let mixture = grouped(&figure(fit, at).parts(fit))?;
    let mut ends = [[0.0; 2]; 4];
    for (ends, probability) in ends.iter_mut().zip(BANDS) {
        *ends = mixture.band(probability).map_err(|_| ProfileError::Unreckonable)?;
    }
    Ok(CellBand { cell: fit.grid.cells()[at], mean: mixture.mean(), ends })
}

/// The ratio of one cell.
fn figure(fit: &Fit, at: usize) -> Figure {
    let [bottom_m, top_m] = [fit.grid.edges_m[at], fit.grid.edges_m[at + 1]];
    let gentle = fit.prior.gentle_spread * fit.prior.gentle_spread;
    let cover = |low: f64, high: f64| ((high.min(top_m) - low.max(bottom_m)) / (top_m - bottom_m)).max(0.0);
    Figure {
        expected: fit.grid.expected[at],
        wild_with: fit.cell_covariance.iter().map(|row| row[at]).collect(),
        wild: gentle + fit.grid.offset_variance[at],
        whole: 1.0,
        errors_with: vec![0.0; fit.rows.len()],
        errors: 0.0,
        shares: fit
            .things
            .iter()
            .map(|thing| if thing.is_shape() { cover(thing.bottom_m, thing.top_m) } else { 0.0 })
            .collect(),
    }
}

/// Parts that lie close to each other, put together by their mean and variance.
fn grouped(parts: &[Part]) -> Result<Mixture, ProfileError> {
    let mean: f64 = parts.iter().map(|part| part.weight * part.mean).sum();
    let spread: f64 = parts.iter().map(|part| part.weight * part.sd).sum();
    let mut groups = vec![[0.0; 3]; 2 * GROUPS as usize + 1];
    for part in parts {
        let place = ((part.mean - mean) / (GROUP_WIDTH * spread)).round().clamp(-GROUPS, GROUPS) + GROUPS;
        // A spread of zero makes no place; then all parts are one.
        let group = &mut groups[if place.is_finite() { place as usize } else { 0 }];
        let moments = [1.0, part.mean, part.sd * part.sd + part.mean * part.mean];
        group.iter_mut().zip(moments).for_each(|(sum, moment)| *sum += part.weight * moment);
    }
    let together = |group: &[f64; 3]| {
        let [weight, first, second] = *group;
        let (mean, square) = (first / weight, second / weight);
        Part { weight, mean, sd: (square - mean * mean).max(0.0).sqrt() }
    };
    let groups = groups.iter().filter(|group| group[0] > 0.0);
    Mixture::new(groups.map(together).collect()).map_err(|_| ProfileError::Unreckonable)
}
