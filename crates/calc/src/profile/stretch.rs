//! The ratio of a stretch, and the concrete that the hole still needs.

use quantity::Elevation;

use super::figure::Figure;
use super::rare::Kind;
use super::{Profile, ProfileError};
use crate::mixture::Mixture;

impl Profile {
    /// The mean ratio of a stretch of the hole, weighted by nominal area.
    ///
    /// `X = Σ A₀ x Δz / Σ A₀ Δz`
    ///
    /// **Valid for** any stretch between the base and the top of the hole; where a casing stands, the ratio is 1.
    ///
    /// **Errors** when the stretch is empty or reaches beyond.
    ///
    /// **Source**: definition.
    pub fn stretch(&self, top: Elevation, bottom: Elevation) -> Result<Mixture, ProfileError> {
        let outside = ProfileError::Stretch { top, bottom };
        if top <= bottom || self.check(top).is_err() || self.check(bottom).is_err() {
            return Err(outside);
        }
        let (weights, cased_m3) = self.weights(bottom, top);
        let free_m3: f64 = weights.iter().sum();
        if free_m3 + cased_m3 <= 0.0 {
            return Err(outside);
        }
        let part = 1.0 / (free_m3 + cased_m3);
        let parts: Vec<f64> = weights.iter().map(|weight| weight * part).collect();
        let mut figure = Figure::weighted(&self.fit, &parts);
        figure.expected += cased_m3 * part;
        figure.mixture(&self.fit)
    }

    /// The volume by the tickets that still has to be placed until the surface stands at `top`, in cubic metres.
    ///
    /// `Q = ∫ A₀ x dz (base … top) − placed`
    ///
    /// Negative where more was placed than the hole takes up to there. It counts what the last sounding may be wrong
    /// by, the yield error that later loads share with the earlier ones, and their own errors. What stands in
    /// the lines, over-pour above `top` and waste come on top.
    ///
    /// **Valid for** a hole that stays as it stands at the last station, casings included.
    ///
    /// **Errors** when `top` lies outside the profile.
    ///
    /// **Source**: least squares with a known covariance [GUM].
    pub fn remaining(&self, top: Elevation) -> Result<Mixture, ProfileError> {
        let base = self.cells()[0].bottom;
        if top <= base || self.check(top).is_err() {
            return Err(ProfileError::Stretch { top, bottom: base });
        }
        let (weights, cased_m3) = self.weights(base, top);
        let rows = &self.fit.rows;
        let placed_m3 = rows.placed_m3.iter().sum::<f64>() + rows.after_m3;
        let mut figure = Figure::weighted(&self.fit, &weights);
        figure.expected += cased_m3 - placed_m3;
        let rest_m3 = figure.mixture(&self.fit)?.mean().max(0.0);
        self.add_errors(&mut figure, rest_m3);
        figure.mixture(&self.fit)
    }

    /// The errors of loads so far and loads to come.
    fn add_errors(&self, figure: &mut Figure, rest_m3: f64) {
        let rows = &self.fit.rows;
        let error = self.fit.load_error;
        let (each, shared) = (error.each * error.each, error.shared * error.shared);
        let loads_m3 = rows.loads_m3.iter().sum::<f64>() + rest_m3;
        let tickets: Vec<f64> = (0..rows.len()).map(|row| rows.tickets_m6.row(row).iter().sum()).collect();
        let held_m3 = rows.sounded[rows.len()].held_m3;
        let load_m3 = rows.largest_m3.iter().copied().fold(0.0, f64::max);
        let with =
            |row: usize| shared * loads_m3 * rows.loads_m3[row] + each * tickets[row] + rows.judged_m6[row];
        figure.errors_with = (0..rows.len()).map(with).collect();
        if let Some(last) = figure.errors_with.last_mut() {
            *last += held_m3 * held_m3;
        }
        figure.errors = shared * loads_m3 * loads_m3
            + each * (tickets.iter().sum::<f64>() + rest_m3 * load_m3.min(rest_m3))
            + held_m3 * held_m3
            + rows.judged_m6.iter().sum::<f64>();
        for (share, thing) in figure.shares.iter_mut().zip(&self.fit.things) {
            if matches!(thing.kind, Kind::Ticket(_)) {
                *share = 1.0;
            }
        }
    }

    /// Nominal volume of the free part of each cell of a stretch, and that in casing.
    fn weights(&self, bottom: Elevation, top: Elevation) -> (Vec<f64>, f64) {
        let grid = &self.fit.grid;
        let mut free = vec![0.0; grid.len()];
        let mut cased_m3 = 0.0;
        for (cell, part) in grid.covered(bottom.0.to_meters(), top.0.to_meters()) {
            let volume = part * grid.nominal_m3[cell];
            match grid.cells()[cell].cased {
                true => cased_m3 += volume,
                false => free[cell] = volume,
            }
        }
        (free, cased_m3)
    }

    fn check(&self, level: Elevation) -> Result<(), ProfileError> {
        let (bottom, top) = (self.cells()[0].bottom, self.cells()[self.cells().len() - 1].top);
        match bottom <= level && level <= top {
            true => Ok(()),
            false => Err(ProfileError::Stretch { top: level, bottom: level }),
        }
    }
}
