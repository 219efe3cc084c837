//! Weighs the ways a shaft may be: none, one or a few rare things, in calm or wild ground.
//!
//! An amount with a normal prior shifts and spreads the readings along one direction, so how well a rare thing
//! explains them, and what its amount then is, follow in closed form. All single things are weighed; then the
//! likeliest ways are each tried with one thing more.
//!
//! Words: *amount* = by how much a rare thing changed ratio, level or load; *mode* = one possibility for how calm
//! the ground is.

use quantity::InOrder;
use std::collections::BTreeMap;

use super::rare::Rare;
use crate::dense::{Square, dot};

/// So many of the likeliest ways are tried with one thing more.
const TRIED: usize = 12;
/// No way holds more rare things than this.
const MOST_THINGS: usize = 3;
/// A way less likely than the likeliest by this in natural logarithms, one in 3,000, is left out.
const LEAST_LOG: f64 = 8.0;

/// The readings under one possibility for how calm the ground is.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Mode {
    /// Factor on the spreads.
    pub(super) factor: f64,
    /// Inverse of the covariance of the rows without rare things.
    pub(super) inverse: Square,
    /// That inverse times what the rows differ from their expectation.
    pub(super) solved: Vec<f64>,
    /// That inverse times how each rare thing shows.
    pub(super) coupled: Vec<Vec<f64>>,
    /// Natural logarithm of prior weight times likelihood.
    pub(super) log_weight: f64,
}

/// One account of the shaft.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Way {
    pub(super) mode: usize,
    pub(super) log_weight: f64,
    /// The rare things, in order.
    pub(super) things: Vec<usize>,
    /// Their amounts given the readings.
    pub(super) amounts: Vec<f64>,
    /// Covariance of the amounts, row by row.
    pub(super) covariance: Vec<f64>,
}

/// What one more thing would do to a way.
struct Extension {
    thing: usize,
    amount: f64,
    variance: f64,
    log_weight: f64,
    /// What the amounts so far change by, per unit of the new amount.
    pulls: [f64; MOST_THINGS],
}

fn sparse_dot(shows: &[(usize, f64)], dense: &[f64]) -> f64 {
    shows.iter().map(|(row, value)| value * dense[*row]).sum()
}

impl Mode {
    pub(super) fn new(factor: f64, inverse: Square, residual: &[f64], things: &[Rare]) -> Self {
        let coupled = things
            .iter()
            .map(|thing| {
                let mut sum = vec![0.0; inverse.size];
                for (row, value) in &thing.shows {
                    sum.iter_mut().zip(inverse.row(*row)).for_each(|(sum, one)| *sum += value * one);
                }
                sum
            })
            .collect();
        let solved = inverse.times(residual);
        Mode { factor, inverse, solved, coupled, log_weight: 0.0 }
    }

    /// All ways of this mode that are likely enough beside its likeliest.
    pub(super) fn ways(&self, mode: usize, things: &[Rare]) -> Vec<Way> {
        let none = Way {
            mode,
            log_weight: self.log_weight,
            things: Vec::new(),
            amounts: Vec::new(),
            covariance: Vec::new(),
        };
        let mut all = vec![none];
        let mut tried = 0..1;
        for _ in 0..MOST_THINGS {
            let found = self.longer(&all[tried.clone()], things);
            let from = all.len();
            all.extend(found);
            tried = from..(from + TRIED).min(all.len());
        }
        all
    }

    /// The ways with one thing more than these, the likeliest first.
    fn longer(&self, ways: &[Way], things: &[Rare]) -> Vec<Way> {
        let weights: Vec<f64> = ways
            .iter()
            .flat_map(|way| (0..things.len()).map(|thing| self.extension(way, thing, things).log_weight))
            .collect();
        let best = weights.iter().copied().fold(self.log_weight, f64::max);
        let best = ways.iter().map(|way| way.log_weight).fold(best, f64::max);
        let mut found: BTreeMap<Vec<usize>, Way> = BTreeMap::new();
        for (at, _) in weights.iter().enumerate().filter(|(_, weight)| best - LEAST_LOG < **weight) {
            let (way, thing) = (&ways[at / things.len()], at % things.len());
            if !way.things.contains(&thing) {
                let longer = extended(way, &self.extension(way, thing, things));
                found.entry(longer.things.clone()).or_insert(longer);
            }
        }
        let mut found: Vec<Way> = found.into_values().collect();
        found.put_in_order_by(|one, other| other.log_weight.total_cmp(&one.log_weight));
        found
    }

    /// Weighs a way with one thing more. The amounts are jointly normal, so the new one is found by taking away what
    /// the others already explain.
    fn extension(&self, way: &Way, thing: usize, things: &[Rare]) -> Extension {
        let new = &things[thing];
        let size = way.things.len();
        let own = sparse_dot(&new.shows, &self.coupled[thing]);
        let mut left = sparse_dot(&new.shows, &self.solved);
        let (mut with, mut pulls) = ([0.0; MOST_THINGS], [0.0; MOST_THINGS]);
        for (at, other) in way.things.iter().enumerate() {
            with[at] = sparse_dot(&new.shows, &self.coupled[*other]);
            left -= with[at] * way.amounts[at];
        }
        for (at, pull) in pulls.iter_mut().enumerate().take(size) {
            *pull = -dot(&way.covariance[at * size..(at + 1) * size], &with[..size]);
        }
        let taken = -dot(&pulls, &with);
        let precision = 1.0 / new.variance + (own - taken).max(0.0);
        let amount = (new.mean / new.variance + left) / precision;
        let gain = amount * amount * precision - new.mean * new.mean / new.variance;
        let log_weight = way.log_weight + new.log_odds + 0.5 * (gain - libm::log(new.variance * precision));
        Extension { thing, amount, variance: 1.0 / precision, log_weight, pulls }
    }
}

fn extended(way: &Way, extension: &Extension) -> Way {
    let size = way.things.len();
    let mut pulls = extension.pulls[..size].to_vec();
    pulls.push(1.0);
    let mut amounts: Vec<f64> =
        way.amounts.iter().zip(&pulls).map(|(amount, pull)| amount + pull * extension.amount).collect();
    amounts.push(extension.amount);
    let before = |row: usize, column: usize| {
        if row < size && column < size { way.covariance[row * size + column] } else { 0.0 }
    };
    let mut things = way.things.clone();
    things.push(extension.thing);
    let mut order: Vec<usize> = (0..=size).collect();
    order.put_in_order_by_key(|at| things[*at]);
    let covariance = order.iter().flat_map(|row| order.iter().map(move |column| (*row, *column)));
    Way {
        mode: way.mode,
        log_weight: extension.log_weight,
        covariance: covariance
            .map(|(row, column)| before(row, column) + pulls[row] * pulls[column] * extension.variance)
            .collect(),
        amounts: order.iter().map(|at| amounts[*at]).collect(),
        things: order.iter().map(|at| things[*at]).collect(),
    }
}

/// The likely ways of all modes, with weights that sum to 1.
pub(super) fn weighed(ways: Vec<Way>) -> Vec<(f64, Way)> {
    let best = ways.iter().map(|way| way.log_weight).fold(f64::NEG_INFINITY, f64::max);
    let likely = ways.into_iter().filter(|way| best - LEAST_LOG < way.log_weight);
    let weighty: Vec<(f64, Way)> = likely.map(|way| (libm::exp(way.log_weight - best), way)).collect();
    let total: f64 = weighty.iter().map(|(weight, _)| weight).sum();
    weighty.into_iter().map(|(weight, way)| (weight / total, way)).collect()
}
