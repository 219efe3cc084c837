//! Any figure that is a weighted sum of ratios, as a mixture: one part a way.

use super::ProfileError;
use super::fit::{Fit, steady_times, wild_times};
use super::rare::Rare;
use super::unseen;
use crate::dense::dot;
use crate::mixture::{Mixture, Part};

/// A figure before the readings, and how it goes with them.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Figure {
    /// Expected value.
    pub(super) expected: f64,
    /// Covariance with each row from the gentle shape at factor 1.
    pub(super) wild_with: Vec<f64>,
    /// Its variance from that.
    pub(super) wild: f64,
    /// Covariance with each row from shaft and strata.
    pub(super) steady_with: Vec<f64>,
    /// Its variance from those.
    pub(super) steady: f64,
    /// Covariance with each row from errors they share.
    pub(super) errors_with: Vec<f64>,
    /// Its variance from errors.
    pub(super) errors: f64,
    /// By how much each rare thing changes it, per amount.
    pub(super) shares: Vec<f64>,
    /// The same for the things that the readings say nothing about.
    pub(super) unseen: Vec<f64>,
}

impl Figure {
    /// The sum over the cells of their ratio times a weight.
    pub(super) fn weighted(fit: &Fit, weights: &[f64]) -> Self {
        let wild = wild_times(&fit.grid, &fit.prior, weights);
        let steady = steady_times(&fit.grid, &fit.prior, weights);
        let covered = |bottom_m: f64, top_m: f64| {
            fit.grid.covered(bottom_m, top_m).map(|(cell, part)| part * weights[cell]).sum::<f64>()
        };
        Figure {
            expected: dot(weights, &fit.grid.expected),
            wild_with: fit.rows.rows.iter().map(|row| row.dot(&wild)).collect(),
            wild: dot(weights, &wild),
            steady_with: fit.rows.rows.iter().map(|row| row.dot(&steady)).collect(),
            steady: dot(weights, &steady),
            errors_with: vec![0.0; fit.rows.len()],
            errors: 0.0,
            shares: shares(&fit.things, covered),
            unseen: shares(&fit.unseen, covered),
        }
    }

    /// What it is given the readings: one part a way.
    pub(super) fn mixture(&self, fit: &Fit) -> Result<Mixture, ProfileError> {
        Mixture::new(self.parts(fit)).map_err(|_| ProfileError::Unreckonable)
    }

    /// One part a way, and each of them with each of what the unseen things may do.
    pub(super) fn parts(&self, fit: &Fit) -> Vec<Part> {
        let unseen = unseen::parts(&fit.unseen, &self.unseen);
        let seen = self.seen_parts(fit);
        if unseen.len() == 1 {
            return seen;
        }
        let with = |one: &Part, two: &Part| Part {
            weight: one.weight * two.weight,
            mean: one.mean + two.mean,
            sd: (one.sd * one.sd + two.sd * two.sd).sqrt(),
        };
        seen.iter().flat_map(|one| unseen.iter().map(move |two| with(one, two))).collect()
    }

    fn seen_parts(&self, fit: &Fit) -> Vec<Part> {
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
        let square = mode.factor * mode.factor;
        let with: Vec<f64> = (0..fit.rows.len())
            .map(|row| square * self.wild_with[row] + self.steady_with[row] + self.errors_with[row])
            .collect();
        let solved = mode.inverse.times(&with);
        let before = square * self.wild + self.steady + self.errors;
        let taken =
            |thing: usize| fit.things[thing].shows.iter().map(|(row, by)| by * solved[*row]).sum::<f64>();
        OfMode {
            mean: self.expected + dot(&with, &mode.solved),
            variance: before - dot(&with, &solved),
            left: self.shares.iter().enumerate().map(|(thing, share)| share - taken(thing)).collect(),
        }
    }
}

/// By how much each rare thing changes a figure, from what the figure takes of a stretch.
pub(super) fn shares(things: &[Rare], covered: impl Fn(f64, f64) -> f64) -> Vec<f64> {
    let share = |thing: &Rare| if thing.is_shape() { covered(thing.bottom_m, thing.top_m) } else { 0.0 };
    things.iter().map(share).collect()
}

/// A figure given the readings if nothing rare happened, in one mode.
struct OfMode {
    mean: f64,
    variance: f64,
    /// What a rare thing still changes once the gentle shape has taken what it would.
    left: Vec<f64>,
}
