//! Which stretches of the estimate are worth telling a person about.
//!
//! Never: call a possible neck a neck; the probability is told with it.

use super::Band;
use crate::assumed;
use crate::layers::CASED_MOST;
use calc::curve::{Interval, VolumeCurve};
use calc::profile::{Profile, ProfileError};
use quantity::{Elevation, Fraction, Length};

/// A stretch worth telling about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Told {
    /// It took more than the shaft does elsewhere, beyond what tape and tickets can feign.
    Wide {
        /// Its ends, from the top.
        ends: [Elevation; 2],
        /// Its ratio.
        ratio: Band,
        /// That of the whole shaft.
        whole: f64,
    },
    /// It took less than the shaft does elsewhere, and the readings do not say whether that is a neck.
    TookLess {
        /// Its ends, from the top.
        ends: [Elevation; 2],
        /// Its ratio.
        ratio: Band,
        /// That of the whole shaft.
        whole: f64,
        /// The height of a loss.
        height: Length,
        /// The share of the shaft's own area that would be missing over that height if all that is missing were missing
        /// in one place; above 1 where that height is too little for it.
        at_once: f64,
    },
    /// A neck may be in it.
    NeckPossible {
        /// Its ends, from the top.
        ends: [Elevation; 2],
        /// Its ratio.
        ratio: Band,
        /// That of the whole shaft.
        whole: f64,
        /// The height of the loss.
        height: Length,
        /// The share of the area that would be lost.
        share: Fraction,
        /// How probable it is that somewhere in it more than that share is lost over that height.
        probability: f64,
    },
}

/// The ratio of a stretch from its lower to its upper end, with its 90 % band.
pub(super) fn band(profile: &Profile, [lower, upper]: [Elevation; 2]) -> Result<Band, ProfileError> {
    let ratio = profile.stretch(upper, lower)?;
    let ends = ratio.band(0.90).map_err(|_| ProfileError::Unreckonable)?;
    Ok(Band { mean: ratio.mean(), ends })
}

/// Each interval between soundings that is high enough to be read and stands out, for losses of one height.
///
/// # Errors
/// When the estimate cannot say how a stretch is distributed.
pub fn told(profile: &Profile, curve: &VolumeCurve, height: Length) -> Result<Vec<Told>, ProfileError> {
    let read: Vec<&Interval> = curve
        .intervals
        .iter()
        .filter(|one| one.rise.value >= assumed::least_rise() && inside(profile, one))
        .collect();
    let Some(highest) = read.iter().map(|interval| interval.upper).max() else { return Ok(Vec::new()) };
    let whole = profile.stretch(highest, profile.cells()[0].bottom)?.mean();
    let mut told = Vec::new();
    for interval in read {
        let ends = [interval.upper, interval.lower];
        let ratio = band(profile, [interval.lower, interval.upper])?;
        let share = assumed::neck_share();
        let probability = profile.loss_probability(ends, height, share)?;
        if ratio.ends[0] > whole * assumed::wide_beyond() {
            told.push(Told::Wide { ends, ratio, whole });
        }
        if probability >= assumed::neck_told_from() {
            told.push(Told::NeckPossible { ends, ratio, whole, height, share, probability });
        } else if ratio.ends[1] < whole * assumed::less_below() && cased(profile, ends) < CASED_MOST {
            let missing = (whole - ratio.mean) / whole * interval.rise.value.to_meters();
            told.push(Told::TookLess { ends, ratio, whole, height, at_once: missing / height.to_meters() });
        }
    }
    Ok(told)
}

/// The share of a stretch that stood in a pipe.
fn cased(profile: &Profile, [upper, lower]: [Elevation; 2]) -> f64 {
    let within =
        |top: Elevation, bottom: Elevation| top.min(upper).above(bottom.max(lower)).to_meters().max(0.0);
    let pipe = profile.cells().iter().filter(|cell| cell.cased);
    pipe.map(|cell| within(cell.top, cell.bottom)).sum::<f64>() / upper.above(lower).to_meters()
}

fn inside(profile: &Profile, interval: &Interval) -> bool {
    let cells = profile.cells();
    cells[0].bottom <= interval.lower && interval.upper <= cells[cells.len() - 1].top
}
