//! How probable it is that somewhere a neck takes away area.

use quantity::{Elevation, Fraction, Length};

use super::fit::Fit;
use super::rare::Rare;
use super::search::Way;
use super::{Profile, ProfileError};
use crate::mixture::standard_normal_cdf;

/// The neck that is asked for.
struct Asked {
    range_m: [f64; 2],
    height_m: f64,
    /// Change of the mean ratio over that height.
    change: f64,
}

impl Profile {
    /// The probability that somewhere in a range a stretch of some height has lost more than a share of its area, against
    /// what the shaft has elsewhere.
    ///
    /// `P = Σ w (1 − Π (1 − Φ((−λ r − a f) / (σ f))))`, over the ways and the necks in each
    ///
    /// | symbol | argument | meaning |
    /// |---|---|---|
    /// | `λ` | `share` | the share lost |
    /// | `r` | – | ratio of the shaft as a whole |
    /// | `a`, `σ` | – | change of ratio of a neck given the readings, and its standard error |
    /// | `f` | `height` | part of that height which the neck fills |
    ///
    /// **Valid for** necks as the prior knows them; a slow narrowing over many metres is not a neck, and shows in
    /// [`Profile::stretch`].
    ///
    /// **Errors** when the height or the range is empty.
    ///
    /// **Source**: computed.
    pub fn loss_probability(
        &self,
        range: [Elevation; 2],
        height: Length,
        share: Fraction,
    ) -> Result<f64, ProfileError> {
        let [bottom, top] = [range[0].min(range[1]), range[0].max(range[1])];
        if height <= Length::ZERO {
            return Err(ProfileError::NotPositive);
        }
        if top <= bottom {
            return Err(ProfileError::Stretch { top, bottom });
        }
        let asked = Asked {
            range_m: [bottom.0.to_meters(), top.0.to_meters()],
            height_m: height.to_meters(),
            change: -share.to_part() * self.fit.whole_ratio(),
        };
        Ok(self.fit.ways.iter().map(|(weight, way)| weight * in_way(&self.fit, way, &asked)).sum())
    }
}

impl Fit {
    /// Ratio of the shaft as a whole if nothing rare happened.
    pub(super) fn whole_ratio(&self) -> f64 {
        let nominal: f64 = self.grid.nominal_m3.iter().sum();
        let volume: f64 = self.grid.nominal_m3.iter().zip(&self.plain).map(|(one, ratio)| one * ratio).sum();
        volume / nominal
    }
}

fn in_way(fit: &Fit, way: &Way, asked: &Asked) -> f64 {
    let size = way.things.len();
    let spared: f64 = (0..size)
        .map(|at| {
            let fills = fills(&fit.things[way.things[at]], asked);
            let error = way.covariance[at * size + at].max(0.0).sqrt() * fills;
            let beyond = asked.change - way.amounts[at] * fills;
            match fills > 0.0 && error > 0.0 {
                true => 1.0 - standard_normal_cdf(beyond / error),
                false => 1.0,
            }
        })
        .product();
    1.0 - spared
}

/// Which part of the height asked for a thing fills at best.
fn fills(thing: &Rare, asked: &Asked) -> f64 {
    if !thing.is_shape() {
        return 0.0;
    }
    let inside_m = thing.top_m.min(asked.range_m[1]) - thing.bottom_m.max(asked.range_m[0]);
    (inside_m / asked.height_m).clamp(0.0, 1.0)
}
