//! The ratio of each cell with its bands, for drawing.

use super::cells::Cell;
use super::figure::{Figure, shares};
use super::fit::Fit;
use super::{Profile, ProfileError};

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

impl Profile {
    /// Mean and bands of 50, 80, 90 and 95 % of every cell, from the bottom up.
    ///
    /// Accounts that give a cell nearly the same ratio are put together first ([`crate::mixture::Mixture::grouped`]), so
    /// the ends differ a little from those of [`Profile::stretch`] over the same cell.
    ///
    /// **Errors** when the readings are too far out to be reckoned with.
    ///
    /// **Source**: see [`super::profile`].
    pub fn bands(&self) -> Result<Vec<CellBand>, ProfileError> {
        (0..self.cells().len()).map(|at| self.band(at)).collect()
    }

    /// Mean and bands of one cell, counted from the bottom; a drawing needs one in four.
    ///
    /// **Errors**, **source**: as [`Profile::bands`].
    ///
    /// # Panics
    /// When there is no such cell.
    pub fn band(&self, at: usize) -> Result<CellBand, ProfileError> {
        let cell = self.cells()[at];
        if cell.cased { Ok(known(cell)) } else { band(&self.fit, at) }
    }
}

/// The inside of a casing.
fn known(cell: Cell) -> CellBand {
    CellBand { cell, mean: 1.0, ends: [[1.0; 2]; 4] }
}

fn band(fit: &Fit, at: usize) -> Result<CellBand, ProfileError> {
    let mixture = figure(fit, at).mixture(fit)?.grouped();
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
        wild_with: fit.cell_wild.iter().map(|row| row[at]).collect(),
        wild: gentle,
        steady_with: fit.cell_steady.iter().map(|row| row[at]).collect(),
        steady: fit.prior.shaft_spread * fit.prior.shaft_spread + fit.grid.offset_variance[at],
        errors_with: vec![0.0; fit.rows.len()],
        errors: 0.0,
        shares: shares(&fit.things, cover),
        unseen: shares(&fit.unseen, cover),
    }
}
