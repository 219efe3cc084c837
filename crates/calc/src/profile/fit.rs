//! Puts readings and prior together.

use super::cells::Grid;
use super::dense::{Square, dot};
use super::rare::{Rare, rare_things};
use super::rows::Rows;
use super::search::{Mode, Way, weighed};
use super::{Ground, Prior, ProfileError};
use crate::curve::{LoadError, Pour};

/// The area that turns a tape error into a volume is taken between these ratios.
const RATIOS: [f64; 2] = [0.5, 2.0];

/// Everything known once the readings were weighed.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Fit {
    pub(super) prior: Prior,
    pub(super) load_error: LoadError,
    pub(super) grid: Grid,
    pub(super) rows: Rows,
    /// Per row: covariance of each cell with it, from strata and gentle shape at factor 1.
    pub(super) cell_covariance: Vec<Vec<f64>>,
    /// Per row: sum over the cells of what they add.
    pub(super) totals: Vec<f64>,
    /// Covariance of the rows from strata and gentle shape at factor 1.
    pub(super) wild: Square,
    /// Covariance of the rows from tape and tickets.
    pub(super) noise: Square,
    /// What the rows differ from their expectation.
    pub(super) residual: Vec<f64>,
    /// Ratio of each cell if nothing rare happened, at factor 1.
    pub(super) plain: Vec<f64>,
    pub(super) things: Vec<Rare>,
    pub(super) modes: Vec<Mode>,
    pub(super) ways: Vec<(f64, Way)>,
}

impl Fit {
    pub(super) fn new(pour: &Pour, ground: &Ground, prior: &Prior) -> Result<Self, ProfileError> {
        let grid = Grid::new(pour, ground, prior)?;
        let rows = Rows::new(pour, ground, prior, &grid);
        let cell_covariance: Vec<Vec<f64>> =
            rows.rows.iter().map(|row| wild_times(&grid, prior, &row.dense(grid.len()))).collect();
        let ones = vec![1.0; grid.len()];
        let totals: Vec<f64> = rows.rows.iter().map(|row| row.dot(&ones)).collect();
        let wild = Square::from_fn(rows.len(), |one, other| rows.rows[one].dot(&cell_covariance[other]));
        let residual = (0..rows.len())
            .map(|row| rows.placed_m3[row] - rows.known_m3[row] - rows.rows[row].dot(&grid.expected))
            .collect();
        let mut fit = Fit {
            prior: prior.clone(),
            load_error: pour.load_error,
            noise: Square::from_fn(0, |_, _| 0.0),
            plain: grid.expected.clone(),
            things: Vec::new(),
            modes: Vec::new(),
            ways: Vec::new(),
            grid,
            rows,
            cell_covariance,
            totals,
            wild,
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
        self.things = rare_things(&self.grid, &self.rows, &self.prior, &self.ratios_at_levels());
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
        let shaft = self.prior.shaft_spread * self.prior.shaft_spread;
        Square::from_fn(self.rows.len(), |one, other| {
            factor * factor * self.wild.at(one, other)
                + shaft * self.totals[one] * self.totals[other]
                + self.noise.at(one, other)
        })
    }

    /// Ratio at each sounded level, the base first.
    pub(super) fn ratios_at_levels(&self) -> Vec<f64> {
        let ratio = |level_m: f64| self.plain[self.grid.holding(level_m)].clamp(RATIOS[0], RATIOS[1]);
        self.rows.sounded.iter().map(|sounded| ratio(sounded.level_m)).collect()
    }

    fn plain_given(&self, solved: &[f64]) -> Vec<f64> {
        let shaft = self.prior.shaft_spread * self.prior.shaft_spread * dot(&self.totals, solved);
        (0..self.grid.len())
            .map(|cell| {
                let wild = self.cell_covariance.iter().zip(solved).map(|(row, solved)| row[cell] * solved);
                self.grid.expected[cell] + shaft + wild.sum::<f64>()
            })
            .collect()
    }

    /// Probability that a rare thing of a sort happened.
    pub(super) fn probability(&self, sort: impl Fn(&Rare) -> bool) -> f64 {
        let holds = |way: &Way| way.things.iter().any(|thing| sort(&self.things[*thing]));
        self.ways.iter().filter(|(_, way)| holds(way)).map(|(weight, _)| weight).sum()
    }
}

/// Covariance of each cell with a weighted sum of cells, from strata and gentle shape at factor 1.
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
    let mut in_stratum = vec![0.0; grid.stratum.iter().max().map_or(0, |last| last + 1)];
    for cell in 0..size {
        in_stratum[grid.stratum[cell]] += weights[cell];
    }
    (0..size)
        .map(|cell| {
            gentle * (upward[cell] + downward[cell] - weights[cell])
                + grid.offset_variance[cell] * in_stratum[grid.stratum[cell]]
        })
        .collect()
}
