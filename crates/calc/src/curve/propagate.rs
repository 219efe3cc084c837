//! How the errors of readings reach a figure of the curve.
//!
//! Each figure is, near its value, a sum of the volumes placed and the volumes below the levels, each
//! with a weight. The error of the figure follows from the weights, and what two figures share cancels
//! or adds by itself, because they share the readings and not the errors of each other.
//!
//! Words: *weight* = by how much the figure changes per cubic metre.
//! Never: add the errors of two figures that share a reading.

use super::LoadError;

/// The readings of a curve in SI units.
#[derive(Debug)]
pub(crate) struct Readings {
    /// Per interval: placed volume.
    pub(crate) placed_m3: Vec<f64>,
    /// Per interval: each load.
    pub(crate) loads_m3: Vec<Vec<f64>>,
    /// Per station, the base first: volume below the level; `None` outside the hole.
    pub(crate) below_m3: Vec<Option<f64>>,
    /// Per station: standard error of that volume, from the tape.
    pub(crate) below_error_m3: Vec<f64>,
    /// How far the tickets can be trusted.
    pub(crate) load_error: LoadError,
}

/// How a figure changes with each reading.
#[derive(Debug, Clone)]
pub(crate) struct Weights {
    placed: Vec<f64>,
    below: Vec<f64>,
}

impl Weights {
    pub(crate) fn minus(&self, other: &Weights) -> Weights {
        let minus = |one: &[f64], two: &[f64]| one.iter().zip(two).map(|(a, b)| a - b).collect();
        Weights { placed: minus(&self.placed, &other.placed), below: minus(&self.below, &other.below) }
    }
}

impl Readings {
    fn no_weights(&self) -> Weights {
        Weights { placed: vec![0.0; self.placed_m3.len()], below: vec![0.0; self.below_m3.len()] }
    }

    /// Sum of the volumes placed in some intervals, with its weights.
    pub(crate) fn placed(&self, intervals: &[usize]) -> (f64, Weights) {
        let mut weights = self.no_weights();
        intervals.iter().for_each(|&interval| weights.placed[interval] += 1.0);
        (intervals.iter().map(|&interval| self.placed_m3[interval]).sum(), weights)
    }

    /// Signed sum of the volumes below some stations, with its weights.
    pub(crate) fn below(&self, ends: &[(usize, f64)]) -> Option<(f64, Weights)> {
        let mut weights = self.no_weights();
        let mut sum = 0.0;
        for &(station, sign) in ends {
            sum += sign * self.below_m3[station]?;
            weights.below[station] += sign;
        }
        Some((sum, weights))
    }

    /// Placed over theoretical with its weights; `None` when there is nothing to divide by.
    pub(crate) fn ratio(&self, intervals: &[usize], ends: &[(usize, f64)]) -> Option<(f64, Weights)> {
        let (placed, placed_weights) = self.placed(intervals);
        let (theoretical, below_weights) = self.below(ends)?;
        if intervals.is_empty() || theoretical <= 0.0 {
            return None;
        }
        let ratio = placed / theoretical;
        let scaled =
            |weights: Vec<f64>, factor: f64| weights.into_iter().map(|weight| weight * factor).collect();
        let weights = Weights {
            placed: scaled(placed_weights.placed, 1.0 / theoretical),
            below: scaled(below_weights.below, -ratio / theoretical),
        };
        Some((ratio, weights))
    }

    /// Standard error of the figure with these weights.
    pub(crate) fn standard_error(&self, weights: &Weights) -> f64 {
        let tape = weights.below.iter().zip(&self.below_error_m3).map(|(weight, error)| weight * error);
        let each =
            weights.placed.iter().zip(&self.loads_m3).flat_map(|(weight, loads)| {
                loads.iter().map(move |load| weight * load * self.load_error.each)
            });
        let totals = self.loads_m3.iter().map(|loads| loads.iter().sum::<f64>());
        let together: f64 = weights.placed.iter().zip(totals).map(|(weight, total)| weight * total).sum();
        let parts: Vec<f64> = tape.chain(each).chain([together * self.load_error.shared]).collect();
        crate::estimate::in_quadrature(&parts)
    }
}
