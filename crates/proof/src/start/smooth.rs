//! The logarithm of the ratio as one smooth curve, put to cumulative volumes by Gauss–Newton.
//!
//! `u ~ N(ln 1.08, K)`, `V(z) = ∫ A₀ exp(u) dz`, `u ← m + K Jᵀ (J K Jᵀ + R)⁻¹ (d − V(u) + J (u − m))`
//!
//! `K = s₁² + s² exp(−|Δz| / l)`. `R` has the loads as a random walk with a yield that all share, and the tape as the area at
//! the level times its error, the bottom's being in every row.
//!
//! Its spreads were chosen on the made-up pours of seeds 100001 to 102000, so that its bands hold what they can.

use calc::profile::Ground;
use rehearse::readings::Readings;

/// Spread from shaft to shaft, spread along the shaft, and the length over which it forgets itself, of the logarithm.
const SHAFT: f64 = 0.08;
const ALONG: f64 = 0.13;
const LENGTH_M: f64 = 2.5;
/// Expected ratio, as the prior of ours has it.
const EXPECTED: f64 = 1.08;
/// Aimed length of a cell, metres.
const CELL_M: f64 = 0.15;
/// Times to go round; after three nothing changes any more.
const ROUNDS: usize = 6;

/// The curve given the readings.
pub(super) struct Smooth {
    cell_m: f64,
    /// Cell by cell from the top: the ratio, and what a unit of its logarithm is in cubic metres.
    ratio: Vec<f64>,
    area_m2: f64,
    /// Covariance of the logarithms given the readings, row by row.
    covariance: Vec<Vec<f64>>,
    placed_m3: f64,
    shared: f64,
    each: f64,
    truck_m3: f64,
}

/// A stretch of it.
pub(super) struct Told {
    pub(super) mean: f64,
    pub(super) log_sd: f64,
}

/// What was read: depth, and placed by then, with the squares of the loads and of what was judged by eye.
struct Reading {
    depth_m: f64,
    placed_m3: f64,
    squares_m6: f64,
    judged_m6: f64,
    /// Error of the part of a load that had left its truck at this moment alone.
    part_m3: f64,
}

/// The readings put as a problem of least squares on a grid.
struct Problem {
    cell_m: f64,
    area_m2: f64,
    /// How much of each cell lies below each reading.
    rows: Vec<Vec<f64>>,
    /// Covariance of two logarithms by how many cells they lie apart.
    kernel: Vec<f64>,
    noise: Vec<Vec<f64>>,
    placed_m3: Vec<f64>,
}

/// One time round: the logarithms, and what their covariance is made of.
struct Step {
    log: Vec<f64>,
    with: Vec<Vec<f64>>,
    solved: Vec<Vec<f64>>,
}

impl Problem {
    fn of(readings: &Readings, read: &[Reading]) -> Self {
        let hole = &readings.hole;
        let count = (hole.length_m() / CELL_M).ceil() as usize;
        let cell_m = hole.length_m() / count as f64;
        let area_m2 = std::f64::consts::FRAC_PI_4 * hole.diameter_m * hole.diameter_m;
        let below = |one: &Reading| covers(count, cell_m, [one.depth_m, readings.base_m.max(one.depth_m)]);
        let apart =
            |cells: usize| SHAFT * SHAFT + ALONG * ALONG * (-(cells as f64) * cell_m / LENGTH_M).exp();
        Problem {
            cell_m,
            area_m2,
            rows: read.iter().map(below).collect(),
            kernel: (0..count).map(apart).collect(),
            noise: noise(readings, read, area_m2),
            placed_m3: read.iter().map(|one| one.placed_m3).collect(),
        }
    }

    fn before(&self, one: usize, other: usize) -> f64 {
        self.kernel[one.abs_diff(other)]
    }

    /// What each cell adds to each reading, and to it for a unit of the logarithm: both are `A exp(u) dz`.
    fn slopes(&self, log: &[f64]) -> Vec<Vec<f64>> {
        let slope = |part: &f64, log: &f64| part * self.cell_m * self.area_m2 * log.exp();
        let row = |row: &Vec<f64>| row.iter().zip(log).map(|(part, log)| slope(part, log)).collect();
        self.rows.iter().map(row).collect()
    }

    fn round(&self, log: &[f64]) -> Option<Step> {
        let (slope, count) = (self.slopes(log), self.kernel.len());
        let at =
            |row: &[f64], cell: usize| (0..count).map(|other| self.before(cell, other) * row[other]).sum();
        let with: Vec<Vec<f64>> =
            slope.iter().map(|row| (0..count).map(|cell| at(row, cell)).collect()).collect();
        let seen = |one: usize| -> Vec<f64> {
            (0..slope.len()).map(|other| dot(&slope[one], &with[other]) + self.noise[one][other]).collect()
        };
        let off = |(row, placed): (&Vec<f64>, &f64)| {
            let back: f64 = row.iter().zip(log).map(|(slope, log)| slope * (log - EXPECTED.ln())).sum();
            placed - row.iter().sum::<f64>() + back
        };
        let mut sides = vec![slope.iter().zip(&self.placed_m3).map(off).collect()];
        sides.extend((0..count).map(|cell| with.iter().map(|row| row[cell]).collect::<Vec<f64>>()));
        let solved = solve((0..slope.len()).map(seen).collect(), &sides)?;
        let log = (0..count).map(|cell| EXPECTED.ln() + gain(&with, cell, &solved[0])).collect();
        Some(Step { log, with, solved })
    }
}

fn gain(with: &[Vec<f64>], cell: usize, by: &[f64]) -> f64 {
    with.iter().zip(by).map(|(row, by)| row[cell] * by).sum()
}

impl Smooth {
    /// From so many soundings; `None` without one, or of a hole that is not a plain cylinder.
    pub(super) fn of(readings: &Readings, ground: &Ground, soundings: usize) -> Option<Self> {
        if readings.hole.sleeve.is_some() || soundings == 0 {
            return None;
        }
        let read = placed(readings, ground, soundings);
        let problem = Problem::of(readings, &read);
        let count = problem.kernel.len();
        let mut step = problem.round(&vec![EXPECTED.ln(); count])?;
        for _ in 1..ROUNDS {
            step = problem.round(&step.log)?;
        }
        let given = |one: usize, other: usize| {
            problem.before(one, other) - gain(&step.with, one, &step.solved[other + 1])
        };
        let plant = readings.crew.plant;
        Some(Smooth {
            cell_m: problem.cell_m,
            area_m2: problem.area_m2,
            ratio: step.log.iter().map(|log| log.exp()).collect(),
            covariance: (0..count).map(|one| (0..count).map(|other| given(one, other)).collect()).collect(),
            placed_m3: read.last()?.placed_m3,
            shared: plant.shared,
            each: plant.each,
            truck_m3: readings.crew.truck_m3,
        })
    }

    /// Mean ratio of a stretch, upper and lower depth.
    pub(super) fn stretch(&self, depths_m: [f64; 2]) -> Told {
        let parts = covers(self.ratio.len(), self.cell_m, depths_m);
        let whole: f64 = parts.iter().sum();
        let by: Vec<f64> = parts.iter().zip(&self.ratio).map(|(part, ratio)| part / whole * ratio).collect();
        let mean = by.iter().sum::<f64>();
        Told { mean, log_sd: (self.variance(&by).max(1e-12)).sqrt() / mean }
    }

    /// The lowest ratio of any stretch of a height over that of the shaft.
    pub(super) fn lowest(&self, height_m: f64) -> f64 {
        let length_m = self.cell_m * self.ratio.len() as f64;
        let whole = self.stretch([0.0, length_m]).mean;
        let tops =
            (0..self.ratio.len()).map(|at| at as f64 * self.cell_m).filter(|top| top + height_m <= length_m);
        tops.map(|top| self.stretch([top, top + height_m]).mean / whole).fold(1.0, f64::min)
    }

    /// By the ticket: what the hole takes from here up to its top; mean and deviation.
    pub(super) fn remaining(&self) -> (f64, f64) {
        let by: Vec<f64> = self.ratio.iter().map(|ratio| ratio * self.cell_m * self.area_m2).collect();
        let rest = by.iter().sum::<f64>() - self.placed_m3;
        let to_come = rest.max(0.0);
        // The yield that the loads so far share is part of what they said; that of loads to come adds up.
        let tickets =
            self.shared * self.shared * to_come * to_come + self.each * self.each * to_come * self.truck_m3;
        (rest, (self.variance(&by) + tickets).sqrt())
    }

    fn variance(&self, by: &[f64]) -> f64 {
        by.iter().zip(&self.covariance).map(|(one, row)| one * dot(row, by)).sum()
    }
}

fn dot(one: &[f64], other: &[f64]) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}

/// How much of each cell lies between two depths, from 0 to 1.
fn covers(count: usize, cell_m: f64, [top, bottom]: [f64; 2]) -> Vec<f64> {
    let part = |at: usize| {
        let (from, to) = (at as f64 * cell_m, (at + 1) as f64 * cell_m);
        ((to.min(bottom) - from.max(top)) / cell_m).max(0.0)
    };
    (0..count).map(part).collect()
}

fn placed(readings: &Readings, ground: &Ground, soundings: usize) -> Vec<Reading> {
    let crew = &readings.crew;
    let (mut placed_m3, mut squares_m6, mut judged_m6) = (0.0, 0.0, 0.0);
    let each = readings.soundings[..soundings].iter().enumerate().map(|(at, sounding)| {
        placed_m3 += sounding.tickets_m3.iter().sum::<f64>() - sounding.wasted_m3;
        squares_m6 += sounding.tickets_m3.iter().map(|one| one * one).sum::<f64>();
        let judged = ground.judged.iter().filter(|station| **station == at).count() as f64;
        judged_m6 += judged * crew.left_error_m3 * crew.left_error_m3;
        let part = if ground.part_loads.contains(&at) { crew.part_error * crew.truck_m3 } else { 0.0 };
        Reading {
            depth_m: sounding.read_m,
            placed_m3: placed_m3 - sounding.held_m3,
            squares_m6,
            judged_m6,
            part_m3: part.hypot(crew.held_error_m3),
        }
    });
    each.collect()
}

/// Loads as a random walk with a yield they share, the tape at each level and at the bottom.
fn noise(readings: &Readings, read: &[Reading], area_m2: f64) -> Vec<Vec<f64>> {
    let (plant, tape) = (readings.crew.plant, readings.crew.tape);
    let at_level = area_m2 * EXPECTED * tape.standard_error_m();
    let one = |row: usize, column: usize| {
        let first = &read[row.min(column)];
        let walk = plant.each * plant.each * first.squares_m6 + first.judged_m6;
        let yields = plant.shared * plant.shared * read[row].placed_m3 * read[column].placed_m3;
        let part_m3 = read[row].part_m3;
        let own = if row == column { at_level * at_level + part_m3 * part_m3 } else { 0.0 };
        walk + yields + own + at_level * at_level
    };
    (0..read.len()).map(|row| (0..read.len()).map(|column| one(row, column)).collect()).collect()
}

/// What a symmetric positive matrix times it gives each side; `None` when it is not positive.
fn solve(mut matrix: Vec<Vec<f64>>, sides: &[Vec<f64>]) -> Option<Vec<Vec<f64>>> {
    let size = matrix.len();
    for column in 0..size {
        let left = matrix[column][column] - dot(&matrix[column][..column], &matrix[column][..column]);
        if !(left > 0.0 && left.is_finite()) {
            return None;
        }
        matrix[column][column] = left.sqrt();
        for row in column + 1..size {
            let value = matrix[row][column] - dot(&matrix[row][..column], &matrix[column][..column]);
            matrix[row][column] = value / matrix[column][column];
        }
    }
    Some(sides.iter().map(|side| undone(&matrix, side)).collect())
}

fn undone(lower: &[Vec<f64>], side: &[f64]) -> Vec<f64> {
    let mut solved = side.to_vec();
    for row in 0..solved.len() {
        solved[row] = (solved[row] - dot(&lower[row][..row], &solved[..row])) / lower[row][row];
    }
    for row in (0..solved.len()).rev() {
        let below: f64 = (row + 1..solved.len()).map(|at| lower[at][row] * solved[at]).sum();
        solved[row] = (solved[row] - below) / lower[row][row];
    }
    solved
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_matrix_is_undone() {
        // 4 x + y = 6, x + 3 y = 7: x = 1, y = 2.
        let solved = solve(vec![vec![4.0, 1.0], vec![1.0, 3.0]], &[vec![6.0, 7.0]]).expect("positive");
        assert!((solved[0][0] - 1.0).abs() < 1e-12 && (solved[0][1] - 2.0).abs() < 1e-12);
        assert_eq!(solve(vec![vec![0.0]], &[vec![1.0]]), None);
    }

    #[test]
    fn a_stretch_covers_parts_of_cells() {
        assert_eq!(covers(4, 0.5, [0.25, 1.5]), [0.5, 1.0, 1.0, 0.0]);
    }
}
