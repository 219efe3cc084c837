//! What a shaft will take that is not begun, from the earlier ones of the job.
//!
//! The drawing gives the bore; how much more the ground takes is known from the shafts beside it. Two shafts in
//! one stratum differ by more than their readings do, so one of them says little, and ten say what is usual and
//! how far the next may be off.
//!
//! Words: *ratio* = placed over theoretical, of one stratum of one shaft; *apart* = how far the true ratios of two
//! shafts lie from their common mean, as a standard deviation.
//! Units: cubic metres inside; ratios are of concrete as the tickets tell it, and so is the answer.
//! Never: take one shaft's ratio for the ground's.

use super::OrderError;
use crate::estimate::Estimate;
use crate::mixture::{Mixture, Part};
use quantity::Volume;

/// What an earlier shaft took in one stratum.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EarlierRatio {
    /// Which stratum, by a number of the caller's.
    pub stratum: usize,
    /// Its ratio there, with the error of its readings.
    pub ratio: Estimate<f64>,
}

/// What of the new shaft lies in one stratum.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ahead {
    /// Which stratum, by the same numbers.
    pub stratum: usize,
    /// Theoretical volume there.
    pub theoretical: Volume,
}

/// What is held to be likely before any shaft of the job was poured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beliefs {
    /// Mean ratio of a stratum, and how far strata lie from it.
    pub ratio: Estimate<f64>,
    /// How far apart shafts of one stratum usually lie; half of the jobs are below it.
    pub apart: f64,
    /// How much of that two strata of one shaft have in common: 0 nothing, 1 all.
    pub in_common: f64,
}

/// Before the first shaft: 1.10 ± 0.10, shafts 0.05 apart, half of it in common. Common practice, no source.
pub const USUAL_BELIEFS: Beliefs = Beliefs { ratio: Estimate::new(1.10, 0.10), apart: 0.05, in_common: 0.5 };

/// How many values of *apart* are tried, and the ends of their range over the usual one. Judgement: shafts of one
/// stratum that lie eight times as far apart as usual are not one ground.
const TRIED: usize = 48;
const LEAST: f64 = 1.0 / 50.0;
const GREATEST: f64 = 8.0;

/// What a shaft will take, as a mixture over how far apart shafts may lie; cubic metres.
///
/// Given `τ`: `r ~ N(m, τ² + s²)`, `m ~ N(m0, s0²)` for each stratum, so that `1/v = 1/s0² + Σ 1/(τ² + s²)`,
/// `m̂ = v (m0/s0² + Σ r/(τ² + s²))`. The shaft takes `N(Σ T m̂, Σ T² v + τ² ((1 − c) Σ T² + c (Σ T)²))`. The weight
/// of each `τ` is its density before, half of a Cauchy distribution, times how well it explains the ratios.
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `r`, `s` | `earlier` | ratio of a stratum in an earlier shaft and the error of its readings |
/// | `T` | `ahead` | theoretical volume of the new shaft in each stratum |
/// | `m0`, `s0`, `c` | `beliefs` | as named there; the median of the prior of `τ` is `apart` |
///
/// **Valid for** shafts made by the same crew in the same way. What two strata of an earlier shaft have in common
/// is left out where the weights are made.
///
/// **Errors** when nothing lies ahead, or an error, a volume or a belief is out of its range.
///
/// **Source**: normal hierarchical model [BAYES-NORMAL], half-Cauchy prior [HALF-CAUCHY]; checked against numerical
/// integration with `scipy`.
pub fn from_earlier(
    earlier: &[EarlierRatio],
    ahead: &[Ahead],
    beliefs: &Beliefs,
) -> Result<Mixture, OrderError> {
    check(earlier, ahead, beliefs)?;
    // Each value stands in the middle of its step; steps are alike in their logarithm.
    let step = libm::pow(GREATEST / LEAST, 1.0 / TRIED as f64);
    let mut apart = beliefs.apart * LEAST * step.sqrt();
    let mut tried = Vec::new();
    for _ in 0..TRIED {
        tried.push(given(apart, earlier, ahead, beliefs));
        apart *= step;
    }
    let best = tried.iter().map(|one| one.0).fold(f64::NEG_INFINITY, f64::max);
    let part = |(log_weight, mean, sd)| Part { weight: libm::exp(log_weight - best), mean, sd };
    Mixture::new(tried.into_iter().map(part).collect()).map_err(OrderError::Mixture)
}

fn check(earlier: &[EarlierRatio], ahead: &[Ahead], beliefs: &Beliefs) -> Result<(), OrderError> {
    if ahead.is_empty() {
        return Err(OrderError::NothingAhead);
    }
    let errors = earlier.iter().map(|one| one.ratio.standard_error);
    let volumes = ahead.iter().map(|one| one.theoretical.to_cubic_meters());
    let sound = beliefs.apart > 0.0
        && beliefs.ratio.standard_error > 0.0
        && (0.0..=1.0).contains(&beliefs.in_common)
        && errors.chain(volumes).all(|value| value >= 0.0);
    if sound { Ok(()) } else { Err(OrderError::Negative) }
}

/// Logarithm of the weight of one `τ`, and mean and standard deviation of the volume under it.
fn given(apart: f64, earlier: &[EarlierRatio], ahead: &[Ahead], beliefs: &Beliefs) -> (f64, f64, f64) {
    let mut strata: Vec<usize> = earlier.iter().map(|one| one.stratum).collect();
    strata.sort_unstable();
    strata.dedup();
    let from_prior = apart / beliefs.apart;
    // Tried at equal factors, so that each stands for a stretch in proportion to itself.
    let before = libm::log(apart) - libm::log1p(from_prior * from_prior);
    let explains = strata.iter().map(|stratum| Stratum::of(*stratum, apart, earlier, beliefs).log_fit);
    let log_weight = before + explains.sum::<f64>();
    let (mut mean, mut doubt, mut squares, mut sum) = (0.0, 0.0, 0.0, 0.0);
    for one in merged(ahead) {
        let stratum = Stratum::of(one.0, apart, earlier, beliefs);
        mean += one.1 * stratum.mean;
        doubt += one.1 * one.1 * stratum.variance;
        squares += one.1 * one.1;
        sum += one.1;
    }
    let common = beliefs.in_common;
    let variance = doubt + apart * apart * ((1.0 - common) * squares + common * sum * sum);
    (log_weight, mean, variance.sqrt())
}

/// Theoretical volume of each stratum, once each.
fn merged(ahead: &[Ahead]) -> std::collections::BTreeMap<usize, f64> {
    let mut volumes = std::collections::BTreeMap::new();
    for one in ahead {
        *volumes.entry(one.stratum).or_insert(0.0) += one.theoretical.to_cubic_meters();
    }
    volumes
}

/// What is known of the mean ratio of one stratum, given how far apart shafts lie.
struct Stratum {
    mean: f64,
    variance: f64,
    log_fit: f64,
}

impl Stratum {
    fn of(stratum: usize, apart: f64, earlier: &[EarlierRatio], beliefs: &Beliefs) -> Stratum {
        let (believed, error) = (beliefs.ratio.value, beliefs.ratio.standard_error);
        let (mut precision, mut pull, mut fit) = (1.0 / (error * error), 0.0, 0.0);
        for one in earlier.iter().filter(|one| one.stratum == stratum) {
            let off = one.ratio.value - believed;
            let weight = 1.0 / (apart * apart + one.ratio.standard_error * one.ratio.standard_error);
            precision += weight;
            pull += weight * off;
            fit += libm::log(weight) - weight * off * off;
        }
        let variance = 1.0 / precision;
        let log_fit = (fit + libm::log(variance / (error * error)) + pull * pull * variance) / 2.0;
        Stratum { mean: believed + pull * variance, variance, log_fit }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn earlier(ratios: &[(usize, f64, f64)]) -> Vec<EarlierRatio> {
        let one = |&(stratum, value, error): &(usize, f64, f64)| EarlierRatio {
            stratum,
            ratio: Estimate::new(value, error),
        };
        ratios.iter().map(one).collect()
    }

    fn ahead(volumes: &[(usize, f64)]) -> Vec<Ahead> {
        let one =
            |&(stratum, volume): &(usize, f64)| Ahead { stratum, theoretical: Volume::cubic_meters(volume) };
        volumes.iter().map(one).collect()
    }

    fn told(ratios: &[(usize, f64, f64)], volumes: &[(usize, f64)]) -> String {
        let mixture = from_earlier(&earlier(ratios), &ahead(volumes), &USUAL_BELIEFS);
        let told = |mixture: Mixture| {
            let [low, high] = mixture.band(0.9).expect("a band");
            format!("{:.3}: {low:.2} to {high:.2}", mixture.mean())
        };
        mixture.map_or_else(|error| error.to_string(), told)
    }

    /// Ten cubic metres of one stratum: the more shafts, the nearer to what they took, and the surer.
    #[test]
    fn each_shaft_makes_the_next_surer() {
        let shown = [
            told(&[], &[(0, 10.0)]),
            told(&[(0, 1.2, 0.02)], &[(0, 10.0)]),
            told(&[(0, 1.2, 0.02), (0, 1.22, 0.02), (0, 1.18, 0.02)], &[(0, 10.0)]),
            told(&[(0, 1.2, 0.02); 12], &[(0, 10.0)]),
        ];
        expect_test::expect![[r#"
            11.000: 8.77 to 13.23
            11.733: 9.94 to 13.04
            11.952: 11.32 to 12.52
            11.996: 11.85 to 12.15"#]]
        .assert_eq(&shown.join("\n"));
    }

    /// Shafts that lie far apart leave the next one uncertain; another stratum keeps its own mean.
    #[test]
    fn the_next_shaft_is_as_uncertain_as_the_earlier_ones_differ() {
        let shown = [
            told(&[(0, 1.0, 0.02), (0, 1.3, 0.02), (0, 1.1, 0.02), (0, 1.4, 0.02)], &[(0, 10.0)]),
            told(&[(0, 1.2, 0.02), (0, 1.21, 0.02), (1, 1.02, 0.02), (1, 1.03, 0.02)], &[(0, 5.0), (1, 5.0)]),
            told(&[(0, 1.2, 0.02), (0, 1.21, 0.02)], &[(7, 10.0)]),
        ];
        expect_test::expect![[r#"
            11.570: 8.22 to 14.76
            11.142: 10.72 to 11.55
            11.000: 9.19 to 12.81"#]]
        .assert_eq(&shown.join("\n"));
    }

    /// Two halves of one stratum are the whole of it.
    #[test]
    fn a_stratum_may_come_in_pieces() {
        let ratios = earlier(&[(0, 1.2, 0.02), (1, 1.0, 0.02)]);
        let whole = from_earlier(&ratios, &ahead(&[(0, 10.0), (1, 4.0)]), &USUAL_BELIEFS);
        let pieces = from_earlier(&ratios, &ahead(&[(0, 4.0), (1, 4.0), (0, 6.0)]), &USUAL_BELIEFS);
        assert_eq!(whole, pieces);
        assert!(whole.is_ok());
    }

    #[test]
    fn what_has_no_answer_is_said() {
        assert_eq!(told(&[], &[]), "nothing of the shaft lies ahead");
        assert_eq!(told(&[(0, 1.2, -0.1)], &[(0, 1.0)]), "an ordered volume or an error is below zero");
        assert_eq!(told(&[], &[(0, -1.0)]), "an ordered volume or an error is below zero");
    }
}
