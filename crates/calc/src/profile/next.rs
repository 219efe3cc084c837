//! Which part of the next load to sound at, so that least stays hidden.

use quantity::{Elevation, Length, Volume};

use super::blind::Null;
use super::cells::Grid;
use super::fit::{Fit, steady_times, wild_times};
use super::rows::{Row, Sounded};
use super::{Profile, ProfileError};
use crate::dense::Square;

/// The parts of a load that can be told by the drum: a quarter, a half, three quarters. Common practice, no source.
const PARTS: [f64; 3] = [0.25, 0.50, 0.75];

/// One more sounding within the next load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// Part of the load discharged at that moment.
    pub part: f64,
    /// Where the surface then stands, most likely.
    pub level: Elevation,
    /// Mean over the places that the load fills of the smallest loss that would show.
    pub loss: f64,
}

/// What one more sounding within the next load would bring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NextSounding {
    /// Where the surface was sounded last.
    pub start: Elevation,
    /// Where the surface stands after the load, most likely.
    pub end: Elevation,
    /// Mean over the places that the load fills of the smallest loss that would show, sounded at its end only.
    pub without: f64,
    /// The part whose sounding shrinks it most; `None` when no part shrinks it, because the share discharged of a
    /// part-emptied truck is too doubtful.
    pub best: Option<Part>,
}

impl Profile {
    /// Which part of the next load to sound at so that the blind spots of a height in what the load fills shrink most,
    /// and from what to what.
    ///
    /// They are told by their mean over the places. The worst place hardly changes: a neck that straddles the new
    /// sounding shows half above and half below it.
    ///
    /// **Valid for** a surface that rises as the estimate so far says, sounded as exactly as the last time; the share
    /// discharged of a part-emptied truck is as doubtful as the prior says.
    ///
    /// **Errors** when the load or the height is not greater than zero, or the load fills less than the height.
    ///
    /// **Source**: as [`Profile::blind_spots`], with one row more.
    pub fn best_next_sounding(&self, load: Volume, height: Length) -> Result<NextSounding, ProfileError> {
        let (load_m3, height_m) = (load.to_cubic_meters(), height.to_meters());
        if load_m3.is_nan() || load_m3 <= 0.0 || height_m <= 0.0 {
            return Err(ProfileError::NotPositive);
        }
        let (without, end_m) = self.fit.loss_after(&[(1.0, load_m3)], height_m)?;
        let mut best: Option<Part> = None;
        for part in PARTS {
            let pieces = [(part, part * load_m3), (1.0, (1.0 - part) * load_m3)];
            let (loss, _) = self.fit.loss_after(&pieces, height_m)?;
            if loss < best.map_or(without, |best| best.loss) {
                let level = Elevation(Length::meters(self.fit.level_after(part * load_m3)));
                best = Some(Part { part, level, loss });
            }
        }
        let [start, end] = [self.fit.surface_m(), end_m].map(|level_m| Elevation(Length::meters(level_m)));
        Ok(NextSounding { start, end, without, best })
    }
}

impl Fit {
    /// Mean blind spot in what the next load fills, with soundings after these pieces of it, and where the last stands.
    fn loss_after(&self, pieces: &[(f64, f64)], height_m: f64) -> Result<(f64, f64), ProfileError> {
        let start_m = self.surface_m();
        let mut longer = self.clone();
        let mut placed_m3 = 0.0;
        for (part, piece_m3) in pieces {
            placed_m3 += piece_m3;
            longer.add_row(self.level_after(placed_m3), *piece_m3, *part < 1.0);
        }
        longer.share_ticket(pieces, self.rows.len());
        longer.noise = longer.rows.noise(self.load_error, &self.prior, &longer.ratios_at_levels());
        let end_m = longer.surface_m();
        let spots = Null::new(&longer, &longer.rows)?.spots(height_m, [start_m, end_m])?;
        if spots.is_empty() {
            let [bottom, top] = [start_m, end_m].map(|level_m| Elevation(Length::meters(level_m)));
            return Err(ProfileError::Stretch { top, bottom });
        }
        Ok((spots.iter().map(|spot| spot.loss).sum::<f64>() / spots.len() as f64, end_m))
    }

    fn surface_m(&self) -> f64 {
        self.rows.sounded[self.rows.len()].level_m
    }

    /// Where the surface most likely stands after more concrete; the top of the hole when it is full.
    fn level_after(&self, placed_m3: f64) -> f64 {
        let (grid, start_m) = (&self.grid, self.surface_m());
        let mut left_m3 = placed_m3;
        for (cell, part) in grid.covered(start_m, grid.edges_m[grid.len()]) {
            let ratio = if grid.cells()[cell].cased { 1.0 } else { self.plain[cell] };
            let takes_m3 = part * grid.nominal_m3[cell] * ratio;
            let (from_m, to_m) = (grid.edges_m[cell].max(start_m), grid.edges_m[cell + 1]);
            if left_m3 < takes_m3 {
                return from_m + (to_m - from_m) * left_m3 / takes_m3;
            }
            left_m3 -= takes_m3;
        }
        grid.edges_m[grid.len()]
    }

    fn add_row(&mut self, level_m: f64, piece_m3: f64, part_empty: bool) {
        let (from_m, last) = (self.surface_m(), self.rows.sounded[self.rows.len()]);
        let weights = free(&self.grid, from_m, level_m);
        let row = Row::of(&weights);
        let size = self.rows.len();
        let wild = wild_times(&self.grid, &self.prior, &weights);
        let steady = steady_times(&self.grid, &self.prior, &weights);
        for (matrix, with) in [(&mut self.wild, wild), (&mut self.steady, steady)] {
            let across: Vec<f64> = self.rows.rows.iter().map(|row| row.dot(&with)).collect();
            *matrix = grown(matrix, &across, row.dot(&with));
        }
        self.rows.judged_m6.push(0.0);
        self.rows.tickets_m6 = grown(&self.rows.tickets_m6, &vec![0.0; size], piece_m3 * piece_m3);
        self.residual.push(0.0);
        self.rows.rows.push(row);
        self.rows.loads_m3.push(piece_m3);
        let cell = self.grid.holding(level_m);
        let height_m = self.grid.edges_m[cell + 1] - self.grid.edges_m[cell];
        let held_m3 = if part_empty { self.prior.part_load_error * piece_m3 } else { 0.0 };
        self.rows.sounded.push(Sounded {
            level_m,
            area_m2: self.grid.nominal_m3[cell] / height_m,
            cased: self.grid.cells()[cell].cased,
            tape_m: last.tape_m,
            held_m3,
        });
    }

    /// The pieces of one truck share its ticket, and the share discharged is a part of the whole load.
    fn share_ticket(&mut self, pieces: &[(f64, f64)], from: usize) {
        let whole: f64 = pieces.iter().map(|piece| piece.1).sum();
        for one in 0..pieces.len() {
            for other in (0..pieces.len()).filter(|other| *other != one) {
                self.rows.tickets_m6.add(from + one, from + other, pieces[one].1 * pieces[other].1);
            }
            if pieces[one].0 < 1.0 {
                self.rows.sounded[from + one + 1].held_m3 = self.prior.part_load_error * whole;
            }
        }
    }
}

/// Volume of the cells between two levels where no casing stands.
fn free(grid: &Grid, from_m: f64, to_m: f64) -> Vec<f64> {
    let mut weights = vec![0.0; grid.len()];
    for (cell, part) in grid.covered(from_m, to_m).filter(|(cell, _)| !grid.cells()[*cell].cased) {
        weights[cell] = part * grid.nominal_m3[cell];
    }
    weights
}

/// A symmetric matrix with one row more.
fn grown(matrix: &Square, across: &[f64], corner: f64) -> Square {
    let size = matrix.size;
    Square::from_fn(size + 1, |row, column| match (row < size, column < size) {
        (true, true) => matrix.at(row, column),
        (true, false) => across[row],
        (false, true) => across[column],
        (false, false) => corner,
    })
}
