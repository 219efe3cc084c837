//! Any figure that is a weighted sum of ratios, as a mixture: one part a way.

use super::ProfileError;
use super::dense::dot;
use super::fit::{Fit, wild_times};
use crate::mixture::{Mixture, Part};

/// A figure before the readings, and how it goes with them.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Figure {
    /// Expected value.
    pub(super) expected: f64,
    /// Covariance with each row from strata and gentle shape at factor 1.
    pub(super) wild_with: Vec<f64>,
    /// Its variance from those.
    pub(super) wild: f64,
    /// Sum of the weights: how it follows the shaft as a whole.
    pub(super) whole: f64,
    /// Covariance with each row from errors they share.
    pub(super) errors_with: Vec<f64>,
    /// Its variance from errors.
    pub(super) errors: f64,
    /// By how much each rare thing changes it, per amount.
    pub(super) shares: Vec<f64>,
}

impl Figure {
    /// The sum over the cells of their ratio times a weight.
    pub(super) fn weighted(fit: &Fit, weights: &[f64]) -> Self {
        let wild = wild_times(&fit.grid, &fit.prior, weights);
        let covered = |bottom_m: f64, top_m: f64| {
            fit.grid.covered(bottom_m, top_m).map(|(cell, part)| part * weights[cell]).sum::<f64>()
        };
        Figure {
            expected: dot(weights, &fit.grid.expected),
            wild_with: fit.rows.rows.iter().map(|row| row.dot(&wild)).collect(),
            wild: dot(weights, &wild),
            whole: weights.iter().sum(),
            errors_with: vec![0.0; fit.rows.len()],
            errors: 0.0,
            shares: fit
                .things
                .iter()
                .map(|thing| if thing.is_shape() { covered(thing.bottom_m, thing.top_m) } else { 0.0 })
                .collect(),
        }
    }

    /// What it is given the readings: one part a way.
    pub(super) fn mixture(&self, fit: &Fit) -> Result<Mixture, ProfileError> {
        Mixture::new(self.parts(fit)).map_err(|_| ProfileError::Unreckonable)
    }

    pub(super) fn parts(&self, fit: &Fit) -> Vec<Part> {
        let of_modes: Vec<OfMode> = (0..fit.modes.len()).map(|mode| self.of_mode(fit, mode)).collect();
        fit.ways
            .iter()
            .map(|(weight, way)| {
                let plain = &of_modes[way.mode];
                let left = |at: usize| plain.left[way.things[at]];
                let size = way.things.len();
                let mean = plain.mean + (0..size).map(|at| left(at) * way.amounts[at]).sum::<f64>();
                let pairs = (0..size).flat_map(|one| (0..size).map(move |other| (one, other)));
                let things: f64 = pairs
                    .map(|(one, other)| left(one) * left(other) * way.covariance[one * size + other])
                    .sum();
                Part { weight: *weight, mean, sd: (plain.variance + things).max(0.0).sqrt() }
            })
            .collect()
    }

    fn of_mode(&self, fit: &Fit, mode: usize) -> OfMode {
        let mode = &fit.modes[mode];
        let shaft = fit.prior.shaft_spread * fit.prior.shaft_spread * self.whole;
        let square = mode.factor * mode.factor;
        let with: Vec<f64> = (0..fit.rows.len())
            .map(|row| square * self.wild_with[row] + shaft * fit.totals[row] + self.errors_with[row])
            .collect();
        let solved = mode.inverse.times(&with);
        let before = square * self.wild + shaft * self.whole + self.errors;
        let taken =
            |thing: usize| fit.things[thing].shows.iter().map(|(row, by)| by * solved[*row]).sum::<f64>();
        OfMode {
            mean: self.expected + dot(&with, &mode.solved),
            variance: before - dot(&with, &solved),
            left: self.shares.iter().enumerate().map(|(thing, share)| share - taken(thing)).collect(),
        }
    }
}

/// A figure given the readings if nothing rare happened, in one mode.
struct OfMode {
    mean: f64,
    variance: f64,
    /// What a rare thing still changes once the gentle shape has taken what it would.
    left: Vec<f64>,
}
