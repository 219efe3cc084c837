//! What shape the shaft has, how sure that is, and what the readings could not have shown.
//!
//! Nobody sees the area of the hole; cumulative volumes at a few sounded levels are seen. The ratio of the area
//! to the nominal one is estimated along the shaft from them, with a band: a wide band where the readings
//! say little. A neck is not smoothed away: besides the gentle shape, necks, cavities, misread tapes and
//! wrong tickets are each held possible, each by itself and a few together, weighed by how well
//! they explain the readings. Everything is closed form, and nothing is drawn by chance.
//!
//! Words: *ratio* = area that concrete fills over the area of the hole as drawn, steel taken off both;
//! *cell* = a short piece of the hole; *rare thing* = neck, cavity, misread tape, wrong ticket; *way* = one
//! account of the shaft: how calm the ground is, and which rare things happened.
//! Units: SI inside; ratios are plain numbers, 1 when the hole takes what the drawing says.
//! Never: call an estimate a reading; draw a random number; fail on a doubtful reading.

mod account;
mod band;
mod blind;
mod cells;
mod figure;
mod fit;
mod ground;
mod issue;
mod learn;
mod loss;
mod next;
mod prior;
mod rare;
mod rows;
mod search;
mod stretch;
mod unseen;

pub use account::{Account, RareThing};
pub use band::{BANDS, CellBand};
pub use blind::{BlindSpot, FALSE_ALARMS, POWER};
pub use cells::Cell;
pub use ground::{Ground, Stratum};
pub use issue::{Issue, ProfileError};
pub use learn::EarlierInterval;
pub use next::{NextSounding, Part};
pub use prior::{Prior, Scale, Shape};

use crate::curve::Pour;
use fit::Fit;

/// The estimated shape of one shaft.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    fit: Fit,
}

impl Profile {
    /// The cells of the hole from the bottom up.
    pub fn cells(&self) -> &[Cell] {
        self.fit.grid.cells()
    }
}

/// Estimates the ratio of the area to the nominal one along the shaft.
///
/// `d = D x + tape + tickets`, `x = expected + shaft + stratum + gentle + Σ rare`; weights of the ways by their
/// marginal likelihood
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `d`, `D` | `pour` | volume placed between soundings, and what each cell adds to it per unit of ratio |
/// | `x` | – | ratio of each cell |
/// | `expected` … `rare` | `prior`, `ground` | what such shafts are like: see [`Prior`] and [`Ground`] |
///
/// A pour without a station gives what the prior expects.
///
/// **Valid for** ratios whose spread is small beside 1 where nothing rare happened; a strongly funnelled hole has to
/// be drawn as one. Waste is taken as known. Steel is taken off the placed and the nominal area alike.
///
/// **Errors** when the base lies outside the hole, a value of the prior makes no sense, or the readings are so far
/// out that they cannot be reckoned with. A doubtful station is named in the issues and weighed down by the
/// rare thing that explains it; one outside the hole is left out.
///
/// **Source**: least squares with a known covariance [GUM]; model and prior are ours, computed, and tried on made-up
/// shafts.
pub fn profile(pour: &Pour, ground: &Ground, prior: &Prior) -> Result<(Profile, Vec<Issue>), ProfileError> {
    prior.check()?;
    let fit = Fit::new(pour, ground, prior)?;
    let issues = issue::issues(pour, &fit);
    Ok((Profile { fit }, issues))
}

#[cfg(test)]
mod tests;
