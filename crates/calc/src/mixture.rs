//! A doubtful figure as a mixture of normal distributions.
//!
//! One standard error cannot say "most likely 1.02, but perhaps there is a cavity and then it is 1.4". A mixture can:
//! each part is one way the shaft may be, with its weight, and inside of it the figure is normal.
//!
//! Words: *part* = one normal distribution of the mixture; *weight* = how probable it is that this part holds.
//! Units: those of the figure; weights are plain numbers that sum to 1.
//! Never: draw a random number; hold a NaN, a negative spread or a weight below zero.

use std::f64::consts::{FRAC_1_SQRT_2, PI};

/// One way the figure may be distributed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// How probable it is that this part holds.
    pub weight: f64,
    /// Mean of the figure if it does.
    pub mean: f64,
    /// Standard deviation of the figure if it does; zero when it is then known.
    pub sd: f64,
}

/// A mixture of normal distributions.
///
/// Invariant: at least one part; weights above zero that sum to 1; means and spreads finite, spreads not negative.
#[derive(Debug, Clone, PartialEq)]
pub struct Mixture {
    parts: Vec<Part>,
}

/// Why there is no mixture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MixtureError {
    /// No part has a weight above zero.
    NoWeight,
    /// A weight or spread is negative, or a number is not finite.
    NotANumber,
    /// A probability outside of 0 to 1, ends excluded, was asked for.
    Probability,
}

impl std::fmt::Display for MixtureError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            MixtureError::NoWeight => write!(f, "no part of the mixture has a weight"),
            MixtureError::NotANumber => write!(f, "a part of the mixture is negative or not a number"),
            MixtureError::Probability => write!(f, "a probability lies between 0 and 1"),
        }
    }
}

impl std::error::Error for MixtureError {}

impl Mixture {
    /// A mixture of parts whose weights need not sum to 1 yet; parts without weight are left out.
    ///
    /// # Errors
    /// When no part has weight, a weight or spread is negative, or a number is not finite.
    pub fn new(parts: Vec<Part>) -> Result<Self, MixtureError> {
        let sound = |part: &Part| {
            part.weight.is_finite()
                && part.weight >= 0.0
                && part.mean.is_finite()
                && part.sd.is_finite()
                && part.sd >= 0.0
        };
        if !parts.iter().all(sound) {
            return Err(MixtureError::NotANumber);
        }
        let total: f64 = parts.iter().map(|part| part.weight).sum();
        if total <= 0.0 {
            return Err(MixtureError::NoWeight);
        }
        let weighty = parts.into_iter().filter(|part| part.weight > 0.0);
        Ok(Mixture { parts: weighty.map(|part| Part { weight: part.weight / total, ..part }).collect() })
    }

    /// A single normal distribution.
    ///
    /// # Errors
    /// When the spread is negative or a number is not finite.
    pub fn normal(mean: f64, sd: f64) -> Result<Self, MixtureError> {
        Mixture::new(vec![Part { weight: 1.0, mean, sd }])
    }

    /// The parts, weights summing to 1.
    pub fn parts(&self) -> &[Part] {
        &self.parts
    }

    /// The mean of the figure.
    ///
    /// `m = Σ w μ`
    pub fn mean(&self) -> f64 {
        self.parts.iter().map(|part| part.weight * part.mean).sum()
    }

    /// The standard deviation of the figure, all parts together.
    ///
    /// `s² = Σ w (σ² + (μ − m)²)`
    pub fn sd(&self) -> f64 {
        let mean = self.mean();
        let about = |part: &Part| part.sd * part.sd + (part.mean - mean) * (part.mean - mean);
        self.parts.iter().map(|part| part.weight * about(part)).sum::<f64>().sqrt()
    }

    /// The probability that the figure is not above `value`.
    ///
    /// `F(x) = Σ w Φ((x − μ) / σ)`
    ///
    /// **Source**: definition; compared with `scipy.stats.norm` by the reference check.
    ///
    /// ```
    /// # use calc::mixture::Mixture;
    /// let ratio = Mixture::normal(1.05, 0.02)?;
    /// assert_eq!(format!("{:.3}", ratio.cdf(1.09)), "0.977");
    /// # Ok::<(), calc::mixture::MixtureError>(())
    /// ```
    pub fn cdf(&self, value: f64) -> f64 {
        self.parts.iter().map(|part| part.weight * below(part, value)).sum()
    }

    /// The value that the figure stays below with a probability.
    ///
    /// Found by Newton steps inside a bracket that is halved whenever a step would leave it, until it is
    /// known to a hundred-billionth of the spread of the mixture.
    ///
    /// **Errors** when the probability is not between 0 and 1, ends excluded.
    ///
    /// ```
    /// # use calc::mixture::{Mixture, Part};
    /// let plain = Part { weight: 0.9, mean: 1.02, sd: 0.02 };
    /// let cavity = Part { weight: 0.1, mean: 1.30, sd: 0.10 };
    /// let ratio = Mixture::new(vec![plain, cavity])?;
    /// let band = [0.05, 0.50, 0.95].map(|probability| ratio.quantile(probability));
    /// assert_eq!(format!("{:.3} {:.3} {:.3}", band[0]?, band[1]?, band[2]?), "0.988 1.023 1.300");
    /// # Ok::<(), calc::mixture::MixtureError>(())
    /// ```
    pub fn quantile(&self, probability: f64) -> Result<f64, MixtureError> {
        if !(probability > 0.0 && probability < 1.0) {
            return Err(MixtureError::Probability);
        }
        let reach = |sign: f64| self.parts.iter().map(move |part| part.mean + sign * 40.0 * part.sd);
        let low = reach(-1.0).fold(f64::INFINITY, f64::min);
        let high = reach(1.0).fold(f64::NEG_INFINITY, f64::max);
        Ok(self.found(probability, low, high))
    }

    /// The ends of the band that holds the figure with a probability, as much left out below as above.
    ///
    /// # Errors
    /// When the probability is not between 0 and 1, ends excluded.
    pub fn band(&self, probability: f64) -> Result<[f64; 2], MixtureError> {
        let outside = (1.0 - probability) / 2.0;
        Ok([self.quantile(outside)?, self.quantile(1.0 - outside)?])
    }

    /// The figure times a factor. A factor that is not finite is refused by [`Mixture::new`] of the result.
    ///
    /// # Errors
    /// When the factor is not finite.
    pub fn scaled(&self, factor: f64) -> Result<Self, MixtureError> {
        let scale = |part: &Part| Part { mean: part.mean * factor, sd: part.sd * factor.abs(), ..*part };
        Mixture::new(self.parts.iter().map(scale).collect())
    }

    /// The figure plus a known amount.
    ///
    /// # Errors
    /// When the amount is not finite.
    pub fn shifted(&self, by: f64) -> Result<Self, MixtureError> {
        let shift = |part: &Part| Part { mean: part.mean + by, ..*part };
        Mixture::new(self.parts.iter().map(shift).collect())
    }

    /// The figure plus an independent error of mean zero.
    ///
    /// # Errors
    /// When the spread of the error is not finite.
    pub fn widened(&self, sd: f64) -> Result<Self, MixtureError> {
        let widen = |part: &Part| Part { sd: (part.sd * part.sd + sd * sd).sqrt(), ..*part };
        Mixture::new(self.parts.iter().map(widen).collect())
    }

    /// The figure plus another one that is independent of it: each part of the one with each of the other.
    ///
    /// # Errors
    /// When a sum is not finite.
    pub fn plus(&self, other: &Mixture) -> Result<Self, MixtureError> {
        let with = |one: &Part, two: &Part| Part {
            weight: one.weight * two.weight,
            mean: one.mean + two.mean,
            sd: (one.sd * one.sd + two.sd * two.sd).sqrt(),
        };
        let pairs = self.parts.iter().flat_map(|one| other.parts.iter().map(move |two| with(one, two)));
        Mixture::new(pairs.collect())
    }

    fn density(&self, value: f64) -> f64 {
        let spread = self.parts.iter().filter(|part| part.sd > 0.0);
        spread
            .map(|part| {
                let z = (value - part.mean) / part.sd;
                part.weight * libm::exp(-0.5 * z * z) / (part.sd * (2.0 * PI).sqrt())
            })
            .sum()
    }

    fn found(&self, probability: f64, mut low: f64, mut high: f64) -> f64 {
        let close = 1e-11 * self.sd();
        let mut value = self.mean().clamp(low, high);
        // A bracket halved 200 times is narrower than the numbers are apart.
        for _ in 0..200 {
            let excess = self.cdf(value) - probability;
            match excess < 0.0 {
                true => low = value,
                false => high = value,
            }
            let step = value - excess / self.density(value);
            let next = if low < step && step < high { step } else { low + (high - low) / 2.0 };
            if (next - value).abs() <= close || high - low <= close {
                return next;
            }
            value = next;
        }
        value
    }
}

/// The probability that one part is not above a value.
fn below(part: &Part, value: f64) -> f64 {
    if part.sd > 0.0 {
        return standard_normal_cdf((value - part.mean) / part.sd);
    }
    f64::from(u8::from(part.mean <= value))
}

/// The probability that a standard normal figure is not above `z`.
///
/// `Φ(z) = erfc(−z / √2) / 2`
///
/// **Source**: definition.
///
/// ```
/// assert_eq!(format!("{:.4}", calc::mixture::standard_normal_cdf(1.96)), "0.9750");
/// ```
pub fn standard_normal_cdf(z: f64) -> f64 {
    0.5 * libm::erfc(-z * FRAC_1_SQRT_2)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn mixture(parts: &[(f64, f64, f64)]) -> Mixture {
        let parts = parts.iter().map(|&(weight, mean, sd)| Part { weight, mean, sd });
        Mixture::new(parts.collect()).expect("sound parts")
    }

    #[track_caller]
    fn check(mixture: &Mixture, probability: f64, expected: f64) {
        let found = mixture.quantile(probability).expect("a probability");
        assert!((found - expected).abs() < 1e-9, "{found} instead of {expected}");
    }

    #[test]
    fn a_single_normal_has_the_quantiles_of_the_tables() {
        // Printed in every table of the normal distribution, here with ten digits.
        let standard = mixture(&[(1.0, 0.0, 1.0)]);
        check(&standard, 0.5, 0.0);
        check(&standard, 0.95, 1.644_853_626_9);
        check(&standard, 0.025, -1.959_963_984_5);
        check(&mixture(&[(3.0, 1.1, 0.1)]), 0.95, 1.1 + 0.164_485_362_69);
    }

    #[test]
    fn a_known_figure_is_where_it_is() {
        let known = mixture(&[(1.0, 2.5, 0.0)]);
        check(&known, 0.01, 2.5);
        check(&known, 0.99, 2.5);
        assert_eq!((known.cdf(2.49), known.cdf(2.5)), (0.0, 1.0));
    }

    #[test]
    fn mean_and_spread_count_the_distance_between_the_parts() {
        let two = mixture(&[(0.5, -1.0, 0.0), (0.5, 1.0, 0.0)]);
        assert_eq!((two.mean(), two.sd()), (0.0, 1.0));
        let sum = two.plus(&two).expect("finite");
        assert!((sum.sd() - std::f64::consts::SQRT_2).abs() < 1e-12);
        assert_eq!(sum.parts().len(), 4);
    }

    #[test]
    fn what_is_no_mixture_is_refused() {
        let part = |weight, mean, sd| Mixture::new(vec![Part { weight, mean, sd }]);
        assert_eq!(Mixture::new(vec![]), Err(MixtureError::NoWeight));
        assert_eq!(part(0.0, 1.0, 1.0), Err(MixtureError::NoWeight));
        assert_eq!(part(1.0, f64::NAN, 1.0), Err(MixtureError::NotANumber));
        assert_eq!(part(1.0, 1.0, -1.0), Err(MixtureError::NotANumber));
        let standard = mixture(&[(1.0, 0.0, 1.0)]);
        assert_eq!(standard.quantile(1.0), Err(MixtureError::Probability));
        assert_eq!(standard.scaled(f64::INFINITY), Err(MixtureError::NotANumber));
        assert_eq!(MixtureError::Probability.to_string(), "a probability lies between 0 and 1");
        assert_eq!(MixtureError::NoWeight.to_string(), "no part of the mixture has a weight");
        assert_eq!(MixtureError::NotANumber.to_string(), "a part of the mixture is negative or not a number");
    }

    proptest! {
        #[test]
        fn a_quantile_is_where_its_probability_is_reached(
            parts in prop::collection::vec((0.01..1.0, -5.0..5.0, 0.01..3.0), 1..8),
            probability in 0.001..0.999,
        ) {
            let mixture = mixture(&parts);
            let value = mixture.quantile(probability).expect("a probability");
            prop_assert!((mixture.cdf(value) - probability).abs() < 1e-8);
        }

        #[test]
        fn quantiles_move_with_the_figure(
            parts in prop::collection::vec((0.01..1.0, -5.0..5.0, 0.01..3.0), 1..8),
            factor in 0.1..10.0,
            by in -5.0..5.0,
        ) {
            let mixture = mixture(&parts);
            let moved = mixture.scaled(factor).and_then(|one| one.shifted(by)).expect("finite");
            let [one, two] = [&mixture, &moved].map(|one| one.quantile(0.9).expect("a probability"));
            prop_assert!((one * factor + by - two).abs() < 1e-7);
        }
    }
}
