//! What the readings could not have shown.
//!
//! A neck shows in the readings only if the volume it keeps out is large beside what tape, tickets and the gentle shape
//! of the hole feign. So for every place the least loss that would have shown is known, before anybody looks.

use quantity::{Elevation, Length};

use super::fit::Fit;
use super::rare::shows;
use super::rows::Rows;
use super::{Profile, ProfileError};
use crate::dense::Square;
use crate::mixture::Mixture;

/// How often a shaft without a neck would raise an alarm somewhere: once in twenty records, not places. Agreed
/// for this tool; there is no source.
pub const FALSE_ALARMS: f64 = 0.05;
/// How often a loss of the stated size would be found. Agreed for this tool; there is no source.
pub const POWER: f64 = 0.90;

/// How calm the gentle shape is where nothing rare happened: the spread of the prior has to cover the flanks of rare
/// things as well. Judgement, chosen on made-up shafts of seeds 104001 to 107000.
const CALM: f64 = 0.72;

/// No loss is greater than the whole area; so much is tried, and halved to less than a millionth.
const MOST_LOSS: f64 = 64.0;
const HALVINGS: usize = 28;

/// What could not have been seen at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlindSpot {
    /// Upper end of the stretch.
    pub top: Elevation,
    /// Lower end of the stretch.
    pub bottom: Elevation,
    /// The smallest loss, as a share of the area there, that would have been found; above 1 where even a
    /// hole closed over the whole height would not have shown.
    pub loss: f64,
}

/// The readings as they scatter when nothing rare happened.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Null<'a> {
    pub(super) fit: &'a Fit,
    pub(super) rows: &'a Rows,
    pub(super) inverse: Square,
}

impl Profile {
    /// For every place along the sounded shaft: the smallest loss of area over a height that this record would have
    /// revealed.
    ///
    /// `λ = (z₁₋α' + z₀.₉) / √(gᵀ C⁻¹ g)`, `α' = 1 − (1 − 0.05)^(1/n)`
    ///
    /// | symbol | argument | meaning |
    /// |---|---|---|
    /// | `g` | `height` | what the loss of the whole area over that height does to the rows |
    /// | `C` | – | covariance of the rows when nothing rare happened, the ground a little calmer than with rare things |
    /// | `n` | – | number of soundings: so many places can be told apart |
    ///
    /// The alarm is one-sided: at most 5 % of *records* without a neck raise one anywhere, not 5 % of places.
    ///
    /// **Valid for** readings without misread tapes and wrong tickets, and a loss that is alike over the height, with the
    /// soundings where they are; with the trucks as given see [`Profile::loss_of_trucks`].
    ///
    /// **Errors** when the height is not greater than zero. Empty when no stretch of that height was sounded.
    ///
    /// **Source**: power of a normal test, closed form; compared with simulation.
    pub fn blind_spots(&self, height: Length) -> Result<Vec<BlindSpot>, ProfileError> {
        if height <= Length::ZERO {
            return Err(ProfileError::NotPositive);
        }
        let null = Null::new(&self.fit, &self.fit.rows)?;
        let highest = self.fit.rows.sounded.iter().map(|sounded| sounded.level_m).fold(f64::MIN, f64::max);
        null.spots(height.to_meters(), [self.fit.grid.edges_m[0], highest])
    }

    /// The smallest loss over one stretch that would have shown if the trucks are taken as given and not the levels.
    ///
    /// `λ √(gᵀ C⁻¹ g) = z₁₋α' + z₀.₉` as for [`Profile::blind_spots`], with the ground's part of `Cᵢⱼ` times
    /// `(1 + λ gᵢ / vᵢ)(1 + λ gⱼ / vⱼ)`
    ///
    /// | symbol | argument | meaning |
    /// |---|---|---|
    /// | `vᵢ` | – | volume of a row: what the ground scatters in it grows with it, what tape and tickets do does not |
    ///
    /// Had the same trucks met the loss, the surface would have risen further past it, and it would have been one of a
    /// longer interval. So it is more than the limit with the levels as given. Infinite where no loss is great enough.
    ///
    /// **Valid for** as [`Profile::blind_spots`].
    ///
    /// **Errors** when the stretch is empty.
    ///
    /// **Source**: power of a normal test, the root by halving; compared with simulation.
    pub fn loss_of_trucks(&self, top: Elevation, bottom: Elevation) -> Result<f64, ProfileError> {
        if top <= bottom {
            return Err(ProfileError::Stretch { top, bottom });
        }
        let null = Null::new(&self.fit, &self.fit.rows)?;
        let loss = null.loss([bottom.0.to_meters(), top.0.to_meters()]);
        null.of_trucks(&loss).ok_or(ProfileError::Unreckonable)
    }

    /// How far the readings point at a loss over one stretch, in standard errors; `None` where they cannot tell.
    ///
    /// `z = −gᵀ C⁻¹ r / √(gᵀ C⁻¹ g)`
    ///
    /// **Valid for**, **source**: as [`Profile::blind_spots`]; an alarm is a value above [`Profile::alarm_limit`].
    ///
    /// **Errors** when the stretch is empty.
    pub fn alarm(&self, top: Elevation, bottom: Elevation) -> Result<Option<f64>, ProfileError> {
        if top <= bottom {
            return Err(ProfileError::Stretch { top, bottom });
        }
        let null = Null::new(&self.fit, &self.fit.rows)?;
        let loss = null.loss([bottom.0.to_meters(), top.0.to_meters()]);
        let strength = null.strength(&loss);
        let solved = null.inverse.times(&self.fit.residual);
        let points: f64 = loss.iter().map(|(row, by)| by * solved[*row]).sum();
        Ok((strength > 0.0).then(|| -points / strength))
    }

    /// From how many standard errors on a loss is an alarm, so that one record in twenty without a neck raises one.
    ///
    /// **Source**: n independent places, each with 1 − 0.95^(1/n).
    pub fn alarm_limit(&self) -> f64 {
        alarm_limit(self.fit.rows.len())
    }
}

impl<'a> Null<'a> {
    pub(super) fn new(fit: &'a Fit, rows: &'a Rows) -> Result<Self, ProfileError> {
        let inverse = fit.covariance(CALM).inverse().ok_or(ProfileError::Unreckonable)?;
        Ok(Null { fit, rows, inverse: inverse.matrix })
    }

    /// What the loss of the whole area over a stretch takes from the rows.
    fn loss(&self, ends_m: [f64; 2]) -> Vec<(usize, f64)> {
        let middle = self.fit.grid.holding((ends_m[0] + ends_m[1]) / 2.0);
        let ratio = self.fit.plain[middle];
        let shows = shows(&self.fit.grid, self.rows, ends_m);
        shows.into_iter().map(|(row, volume)| (row, volume * ratio)).collect()
    }

    /// `√(gᵀ C⁻¹ g)`
    fn strength(&self, loss: &[(usize, f64)]) -> f64 {
        let square: f64 = loss
            .iter()
            .flat_map(|(one, by)| loss.iter().map(move |(other, with)| (one, other, by * with)))
            .map(|(one, other, product)| product * self.inverse.at(*one, *other))
            .sum();
        square.max(0.0).sqrt()
    }

    /// The loss that shows with the trucks as given, found by halving: its strength grows with it. `None` when the readings
    /// cannot be reckoned with.
    fn of_trucks(&self, shows: &[(usize, f64)]) -> Option<f64> {
        let needed = alarm_limit(self.rows.len()) + standard_quantile(POWER);
        let strength = |loss: f64| Some(loss * self.longer(shows, loss)?.strength(shows));
        let (mut low, mut high) = (0.0, MOST_LOSS);
        if strength(high)? < needed {
            return Some(f64::INFINITY);
        }
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if strength(middle)? < needed { low = middle } else { high = middle }
        }
        Some(high)
    }

    /// The readings as they scatter where the rows that show a loss are longer by what it kept out.
    fn longer(&self, shows: &[(usize, f64)], loss: f64) -> Option<Null<'a>> {
        let fit = self.fit;
        let mut factors = vec![1.0; self.rows.len()];
        for (row, by) in shows {
            let volume = self.rows.rows[*row].dot(&fit.plain).max(f64::MIN_POSITIVE);
            factors[*row] += loss * by.abs() / volume;
        }
        let scattered = Square::from_fn(self.rows.len(), |row, column| {
            let ground = CALM * CALM * fit.wild.at(row, column) + fit.steady.at(row, column);
            ground * factors[row] * factors[column] + fit.noise.at(row, column)
        });
        Some(Null { fit, rows: self.rows, inverse: scattered.inverse()?.matrix })
    }

    /// The blind spots about the middle of every cell whose stretch lies between two levels.
    pub(super) fn spots(&self, height_m: f64, within_m: [f64; 2]) -> Result<Vec<BlindSpot>, ProfileError> {
        let needed = alarm_limit(self.rows.len()) + standard_quantile(POWER);
        let middles = self.fit.grid.edges_m.windows(2).map(|ends| (ends[0] + ends[1]) / 2.0);
        let stretches = middles.map(|middle| [middle - height_m / 2.0, middle + height_m / 2.0]);
        let inside = stretches.filter(|ends| within_m[0] <= ends[0] && ends[1] <= within_m[1]);
        Ok(inside
            .map(|ends| {
                let [bottom, top] = ends.map(|level_m| Elevation(Length::meters(level_m)));
                BlindSpot { top, bottom, loss: needed / self.strength(&self.loss(ends)) }
            })
            .filter(|spot| spot.loss.is_finite())
            .collect())
    }
}

fn alarm_limit(places: usize) -> f64 {
    let each = libm::pow(1.0 - FALSE_ALARMS, 1.0 / places.max(1) as f64);
    standard_quantile(each)
}

fn standard_quantile(probability: f64) -> f64 {
    let standard = Mixture::normal(0.0, 1.0).and_then(|standard| standard.quantile(probability));
    standard.expect("the probabilities of this file lie between 0 and 1")
}
