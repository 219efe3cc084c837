//! Puts readings and prior together.

use super::cells::Grid;
use super::rare::{Rare, rare_things};
use super::rows::Rows;
use super::search::{Mode, Way, weighed};
use super::unseen::parted;
use super::{Ground, Prior, ProfileError};
use crate::curve::{LoadError, Pour};
use crate::dense::{Square, dot};

/// The area that turns a tape error into a volume is taken between these ratios.
const RATIOS: [f64; 2] = [0.5, 2.0];

/// Everything known once the readings were weighed.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Fit {
    pub(super) prior: Prior,
    pub(super) load_error: LoadError,
    pub(super) grid: Grid,
    pub(super) rows: Rows,
    /// Per row: covariance of each cell with it from the gentle shape at factor 1.
    pub(super) cell_wild: Vec<Vec<f64>>,
    /// Per row: covariance of each cell with it from shaft and strata.
    pub(super) cell_steady: Vec<Vec<f64>>,
    /// Covariance of the rows from the gentle shape at factor 1.
    pub(super) wild: Square,
    /// Covariance of the rows from shaft and strata.
    pub(super) steady: Square,
    /// Covariance of the rows from tape and tickets.
    pub(super) noise: Square,
    /// What the rows differ from their expectation.
    pub(super) residual: Vec<f64>,
    /// Ratio of each cell if nothing rare happened, at factor 1.
    pub(super) plain: Vec<f64>,
    /// Rare things that the readings speak about.
    pub(super) things: Vec<Rare>,
    /// Rare things that they say nothing about.
    pub(super) unseen: Vec<Rare>,
    pub(super) modes: Vec<Mode>,
    pub(super) ways: Vec<(f64, Way)>,
}

impl Fit {
    pub(super) fn new(pour: &Pour, ground: &Ground, prior: &Prior) -> Result<Self, ProfileError> {
        let grid = Grid::new(pour, ground, prior)?;
        let rows = Rows::new(pour, ground, prior, &grid);
        let dense: Vec<Vec<f64>> = rows.rows.iter().map(|row| row.dense(grid.len())).collect();
        let cell_wild: Vec<Vec<f64>> = dense.iter().map(|row| wild_times(&grid, prior, row)).collect();
        let cell_steady: Vec<Vec<f64>> = dense.iter().map(|row| steady_times(&grid, prior, row)).collect();
        let of_rows =
            |cells: &[Vec<f64>]| Square::from_fn(rows.len(), |one, other| rows.rows[one].dot(&cells[other]));
        let (wild, steady) = (of_rows(&cell_wild), of_rows(&cell_steady));
        let residual = (0..rows.len())
            .map(|row| rows.placed_m3[row] - rows.known_m3[row] - rows.rows[row].dot(&grid.expected))
            .collect();
        let mut fit = Fit {
            prior: prior.clone(),
            load_error: pour.load_error,
            noise: Square::from_fn(0, |_, _| 0.0),
            plain: grid.expected.clone(),
            things: Vec::new(),
            unseen: Vec::new(),
            modes: Vec::new(),
            ways: Vec::new(),
            grid,
            rows,
            cell_wild,
            cell_steady,
            wild,
            steady,
            residual,
        };
        fit.settle()?;
        fit.weigh()?;
        Ok(fit)
    }

    /// Finds the area at each level, on which the error of the tape depends, by going round twice.
    fn settle(&mut self) -> Result<(), ProfileError> {
        for _ in 0..2 {
            self.noise = self.rows.noise(self.load_error, &self.prior, &self.ratios_at_levels());
            let inverse = self.covariance(1.0).inverse().ok_or(ProfileError::Unreckonable)?;
            self.plain = self.plain_given(&inverse.matrix.times(&self.residual));
        }
        self.noise = self.rows.noise(self.load_error, &self.prior, &self.ratios_at_levels());
        let things = rare_things(&self.grid, &self.rows, &self.prior, &self.ratios_at_levels());
        let inverse = self.covariance(1.0).inverse().ok_or(ProfileError::Unreckonable)?;
        (self.things, self.unseen) = parted(things, &inverse.matrix);
        Ok(())
    }

    fn weigh(&mut self) -> Result<(), ProfileError> {
        let mut ways = Vec::new();
        for scale in self.prior.scales.clone().iter().filter(|scale| scale.weight > 0.0) {
            let inverse = self.covariance(scale.factor).inverse().ok_or(ProfileError::Unreckonable)?;
            let mut mode = Mode::new(scale.factor, inverse.matrix, &self.residual, &self.things);
            mode.log_weight = libm::log(scale.weight)
                - inverse.half_log_determinant
                - 0.5 * dot(&self.residual, &mode.solved);
            ways.extend(mode.ways(self.modes.len(), &self.things));
            self.modes.push(mode);
        }
        if ways.iter().any(|way| !way.log_weight.is_finite()) {
            return Err(ProfileError::Unreckonable);
        }
        self.ways = weighed(ways);
        Ok(())
    }

    /// Covariance of the rows without rare things.
    pub(super) fn covariance(&self, factor: f64) -> Square {
        Square::from_fn(self.rows.len(), |one, other| {
            factor * factor * self.wild.at(one, other)
                + self.steady.at(one, other)
                + self.noise.at(one, other)
        })
    }

    /// Ratio at each sounded level, the base first.
    pub(super) fn ratios_at_levels(&self) -> Vec<f64> {
        let ratio = |level_m: f64| self.plain[self.grid.holding(level_m)].clamp(RATIOS[0], RATIOS[1]);
        self.rows.sounded.iter().map(|sounded| ratio(sounded.level_m)).collect()
    }

    fn plain_given(&self, solved: &[f64]) -> Vec<f64> {
        let mut plain = self.grid.expected.clone();
        for cells in [&self.cell_wild, &self.cell_steady] {
            for (row, solved) in cells.iter().zip(solved) {
                plain.iter_mut().zip(row).for_each(|(ratio, with)| *ratio += with * solved);
            }
        }
        plain
    }

    /// Probability that a rare thing of a sort happened.
    pub(super) fn probability(&self, sort: impl Fn(&Rare) -> bool) -> f64 {
        let holds = |way: &Way| way.things.iter().any(|thing| sort(&self.things[*thing]));
        self.ways.iter().filter(|(_, way)| holds(way)).map(|(weight, _)| weight).sum()
    }
}

/// Covariance of each cell with a weighted sum of cells from the gentle shape at factor 1.
///
/// The correlation of the gentle shape is a product along the way, so one pass up and one down do it.
pub(super) fn wild_times(grid: &Grid, prior: &Prior, weights: &[f64]) -> Vec<f64> {
    let size = grid.len();
    let gentle = prior.gentle_spread * prior.gentle_spread;
    let mut upward = weights.to_vec();
    for cell in 1..size {
        upward[cell] += grid.carried[cell] * upward[cell - 1];
    }
    let mut downward = weights.to_vec();
    for cell in (1..size).rev() {
        downward[cell - 1] += grid.carried[cell] * downward[cell];
    }
    (0..size).map(|cell| gentle * (upward[cell] + downward[cell] - weights[cell])).collect()
}

/// Covariance of each cell with a weighted sum of cells from shaft and strata.
pub(super) fn steady_times(grid: &Grid, prior: &Prior, weights: &[f64]) -> Vec<f64> {
    let mut in_stratum = vec![0.0; grid.stratum.iter().max().map_or(0, |last| last + 1)];
    for (stratum, weight) in grid.stratum.iter().zip(weights) {
        in_stratum[*stratum] += weight;
    }
    let shaft = prior.shaft_spread * prior.shaft_spread * in_stratum.iter().sum::<f64>();
    let strata = grid.stratum.iter().zip(&grid.offset_variance);
    strata.map(|(stratum, variance)| shaft + variance * in_stratum[*stratum]).collect()
}
