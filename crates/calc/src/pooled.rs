//! What several shafts tell together: one mean, and how far shafts lie apart.
//!
//! Each shaft has a ratio with an error of its own, and shafts differ by more than their errors. A plain mean would let a
//! shaft that was hardly sounded count like one that was sounded every metre; a mean by the errors alone would be far too
//! sure of itself. So the spread from shaft to shaft is estimated beside the mean, and the interval widens with it.
//!
//! Words: *part* = one shaft's value with its error; *between* = standard deviation from shaft to shaft.
//! Never: tell an interval of one part as if shafts did not differ.

use crate::estimate::Estimate;
use std::fmt;

/// Several values together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pooled {
    /// The mean of shafts like these, and its standard error.
    pub mean: Estimate<f64>,
    /// Standard deviation from shaft to shaft; zero where their errors alone explain how far they lie apart.
    pub between: f64,
    /// The ends of the interval of the mean.
    pub ends: [f64; 2],
}

/// Why nothing can be told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PooledError {
    /// One value alone says nothing of how far shafts lie apart.
    TooFew,
    /// An error that is not greater than zero, or a value that is no number.
    Unusable,
    /// The level is no probability between 0 and 1.
    NoLevel,
}

impl fmt::Display for PooledError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            PooledError::TooFew => "one value alone says nothing of how far shafts lie apart",
            PooledError::Unusable => "a value or an error is no usable number",
            PooledError::NoLevel => "the level is no probability between 0 and 1",
        })
    }
}

impl std::error::Error for PooledError {}

/// The mean of several values, with the spread between them.
///
/// `τ² = max(0, (Q − (k − 1)) / (Σw − Σw² / Σw))`, `w = 1/s²`, `Q = Σ w (y − ȳ)²`; then with `v = 1/(s² + τ²)`
/// `μ = Σ v y / Σ v`, `se² = max(1, Σ v (y − μ)² / (k − 1)) / Σ v`, ends `μ ± t(k − 1) se`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `y`, `s` | `parts` | value and standard error of each of the `k` shafts |
/// | `t` | `level` | quantile of Student's distribution, so that the interval holds the mean so often |
///
/// **Valid for** two parts and more whose errors go their own ways. With two or three the interval is wide, and that
/// is the truth about two or three shafts.
///
/// **Errors** for fewer than two parts, an error that is not greater than zero, a level outside 0 to 1.
///
/// **Source**: moment estimate of DerSimonian and Laird [DL-1986], interval of Hartung and Knapp [HK-2001] that is never
/// taken narrower than the plain one; from memory; the spread is found again with `numpy` and `scipy` from the expectation
/// of `Q` as a trace of matrices, and the interval held over made-up shafts.
///
/// ```
/// # use calc::{estimate::Estimate, pooled::pooled};
/// let clay = [(1.04, 0.02), (1.12, 0.03), (1.07, 0.02)].map(|(ratio, error)| Estimate::new(ratio, error));
/// let told = pooled(&clay, 0.90)?;
/// assert_eq!(format!("{:.3} {:.3}", told.mean.value, told.between), "1.072 0.028");
/// # Ok::<(), calc::pooled::PooledError>(())
/// ```
pub fn pooled(parts: &[Estimate<f64>], level: f64) -> Result<Pooled, PooledError> {
    check(parts, level)?;
    let freedom = (parts.len() - 1) as f64;
    let between_squared = between_squared(parts, freedom);
    let weigh = |part: &Estimate<f64>| 1.0 / (squared(part.standard_error) + between_squared);
    let weighed = Weighed::of(parts, weigh);
    let stretch = (weighed.apart / freedom).max(1.0);
    let error = (stretch / weighed.weight).sqrt();
    let reach = student_quantile(f64::midpoint(1.0, level), parts.len() as u32 - 1) * error;
    Ok(Pooled {
        mean: Estimate::new(weighed.mean, error),
        between: between_squared.sqrt(),
        ends: [weighed.mean - reach, weighed.mean + reach],
    })
}

fn check(parts: &[Estimate<f64>], level: f64) -> Result<(), PooledError> {
    let usable = |part: &Estimate<f64>| {
        part.value.is_finite() && part.standard_error.is_finite() && part.standard_error > 0.0
    };
    match (parts.len(), level) {
        (0 | 1, _) => Err(PooledError::TooFew),
        (_, level) if !(level > 0.0 && level < 1.0) => Err(PooledError::NoLevel),
        _ if !parts.iter().all(usable) => Err(PooledError::Unusable),
        _ => Ok(()),
    }
}

fn between_squared(parts: &[Estimate<f64>], freedom: f64) -> f64 {
    let by_error = |part: &Estimate<f64>| 1.0 / squared(part.standard_error);
    let weighed = Weighed::of(parts, by_error);
    let squares: f64 = parts.iter().map(|part| squared(by_error(part))).sum();
    ((weighed.apart - freedom) / (weighed.weight - squares / weighed.weight)).max(0.0)
}

/// A weighted mean, and how far the parts lie from it.
struct Weighed {
    weight: f64,
    mean: f64,
    apart: f64,
}

impl Weighed {
    fn of(parts: &[Estimate<f64>], weigh: impl Fn(&Estimate<f64>) -> f64) -> Self {
        let sum =
            |of: &dyn Fn(&Estimate<f64>) -> f64| parts.iter().map(|part| weigh(part) * of(part)).sum::<f64>();
        let weight = sum(&|_| 1.0);
        let mean = sum(&|part| part.value) / weight;
        Weighed { weight, mean, apart: sum(&|part| squared(part.value - mean)) }
    }
}

fn squared(value: f64) -> f64 {
    value * value
}

/// The value that a draw from Student's distribution stays below with probability `p`.
///
/// **Valid for** `0.5 ≤ p < 1` and one degree of freedom or more.
///
/// **Source**: the finite sums 26.7.3 and 26.7.4 for the distribution [AS-1964], turned round by halving; from memory,
/// checked against `scipy` to 1e-10.
///
/// ```
/// # use calc::pooled::student_quantile;
/// assert_eq!(format!("{:.4}", student_quantile(0.95, 1)), "6.3138");
/// assert_eq!(format!("{:.4}", student_quantile(0.95, 10)), "1.8125");
/// ```
pub fn student_quantile(p: f64, freedom: u32) -> f64 {
    // The angle arctan(t / √ν) lies between 0 and a quarter turn; 60 halvings leave nothing of it.
    let (mut low, mut high) = (0.0, std::f64::consts::FRAC_PI_2);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        match within(middle, freedom) < 2.0 * p - 1.0 {
            true => low = middle,
            false => high = middle,
        }
    }
    libm::tan(low) * f64::from(freedom).sqrt()
}

/// Probability that a draw lies within ± `t`, for the angle `arctan(t / √ν)`.
fn within(angle: f64, freedom: u32) -> f64 {
    let (sine, cosine) = (libm::sin(angle), libm::cos(angle));
    // Terms cosⁿ with factors 2/3, 4/5, … for odd and 1/2, 3/4, … for even degrees of freedom.
    let odd = freedom % 2 == 1;
    let first = if odd { cosine } else { 1.0 };
    let terms = if odd { (freedom - 1) / 2 } else { freedom / 2 };
    let mut term = first;
    let mut sum = 0.0;
    for number in 0..terms {
        sum += term;
        let n = f64::from(number);
        let factor = if odd { (2.0 * n + 2.0) / (2.0 * n + 3.0) } else { (2.0 * n + 1.0) / (2.0 * n + 2.0) };
        term *= factor * cosine * cosine;
    }
    if odd { (angle + sine * sum) * std::f64::consts::FRAC_2_PI } else { sine * sum }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(parts: &[(f64, f64)], expected: Result<[f64; 4], PooledError>) {
        let parts: Vec<_> = parts.iter().map(|(value, error)| Estimate::new(*value, *error)).collect();
        let told =
            pooled(&parts, 0.90).map(|told| [told.mean.value, told.between, told.ends[0], told.ends[1]]);
        match (told, expected) {
            (Ok(told), Ok(expected)) => {
                assert!(
                    told.iter().zip(&expected).all(|(one, other)| (one - other).abs() < 1e-9),
                    "{told:?}"
                );
            }
            (told, expected) => assert_eq!(told.map(|_| ()), expected.map(|_| ())),
        }
    }

    #[test]
    fn shafts_that_agree_have_no_spread_and_two_that_do_not_are_hardly_known() {
        // Two alike: Q = 0, so the mean has the error 0.02/√2 and t(1) = 6.3137515.
        let reach = 6.313_751_514_675 * 0.02 / 2.0_f64.sqrt();
        check(&[(1.10, 0.02), (1.10, 0.02)], Ok([1.10, 0.0, 1.10 - reach, 1.10 + reach]));
        // 1.00 and 1.20 ± 0.02: Q = 50, τ² = 49 / (5000 − 2500) = 0.0196, stretch Σ v (y − μ)² / 1 = 0.02 / 0.02 = 1.
        let reach = 6.313_751_514_675 * (0.02_f64 / 2.0).sqrt();
        check(&[(1.00, 0.02), (1.20, 0.02)], Ok([1.10, 0.14, 1.10 - reach, 1.10 + reach]));
    }

    /// How often the interval holds the mean of so many shafts that differ and are measured with errors of their own.
    fn held(shafts: usize) -> f64 {
        const JOBS: u32 = 4_000;
        let mut draws = crate::chance::Draws::seeded(7);
        let mut holds = 0;
        for _ in 0..JOBS {
            let mut shaft = || {
                let error = 0.01 + 0.03 * draws.part();
                Estimate::new(1.10 + 0.04 * draws.normal() + error * draws.normal(), error)
            };
            let parts: Vec<_> = (0..shafts).map(|_| shaft()).collect();
            let [low, high] = pooled(&parts, 0.90).expect("two shafts and more").ends;
            holds += u32::from(low <= 1.10 && 1.10 <= high);
        }
        f64::from(holds) / f64::from(JOBS)
    }

    #[test]
    fn the_interval_holds_the_mean_nine_times_in_ten() {
        for shafts in [3, 6, 20] {
            let held = held(shafts);
            // Never narrower than the plain interval, so a little over nine in ten is right.
            assert!((0.885..0.945).contains(&held), "{shafts} shafts: {held}");
        }
    }

    #[test]
    fn what_cannot_be_told() {
        check(&[(1.1, 0.02)], Err(PooledError::TooFew));
        check(&[(1.1, 0.02), (1.1, 0.0)], Err(PooledError::Unusable));
        check(&[(1.1, 0.02), (f64::NAN, 0.1)], Err(PooledError::Unusable));
        let two = [Estimate::new(1.0, 0.1), Estimate::new(1.1, 0.1)];
        assert_eq!(pooled(&two, 1.0), Err(PooledError::NoLevel));
    }
}
