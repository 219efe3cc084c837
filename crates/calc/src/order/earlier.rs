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
use crate::dense::{Square, dot};
use crate::estimate::Estimate;
use crate::mixture::{Mixture, Part};
use quantity::Volume;

/// What an earlier shaft took in one stratum.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EarlierRatio {
    /// Which shaft, by a number of the caller's: what two strata of one shaft have in common is counted once.
    pub shaft: usize,
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

/// Before the first shaft: 1.10 ± 0.15, shafts 0.07 apart, half of it in common. Common practice, no source; the two
/// spreads were chosen on made-up jobs of seeds 200001 to 220000: with 0.10 and 0.05 one order in eight at 90 % ran short.
pub const USUAL_BELIEFS: Beliefs = Beliefs { ratio: Estimate::new(1.10, 0.15), apart: 0.07, in_common: 0.5 };

/// How many values of *apart* are tried, and the ends of their range over the usual one. Judgement: shafts of one
/// stratum that lie eight times as far apart as usual are not one ground.
const TRIED: usize = 48;
const LEAST: f64 = 1.0 / 50.0;
const GREATEST: f64 = 8.0;

/// What a shaft will take, as a mixture over how far apart shafts may lie; cubic metres.
///
/// Given `τ` all ratios are normal together: `cov(r, r') = s0² [same stratum] + τ² (c + (1 − c) [same stratum])
/// [same shaft] + s² [same reading]`, about `m0`. So with `k = s0² Σ T [same stratum]`, `S` that matrix,
/// `T̂ = m0 Σ T + kᵀ S⁻¹ (r − m0)` with variance `(s0² + τ² (1 − c)) Σ T² + τ² c (Σ T)² − kᵀ S⁻¹ k`. The weight of
/// each `τ` is its density before, half of a Cauchy distribution, times how well it explains the ratios.
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `r`, `s` | `earlier` | ratio of a stratum in an earlier shaft and the error of its readings |
/// | `T` | `ahead` | theoretical volume of the new shaft in each stratum |
/// | `m0`, `s0`, `c` | `beliefs` | as named there; the median of the prior of `τ` is `apart` |
///
/// **Valid for** shafts made by the same crew in the same way.
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
        tried.push(given(apart, earlier, ahead, beliefs)?);
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
fn given(
    apart: f64,
    earlier: &[EarlierRatio],
    ahead: &[Ahead],
    beliefs: &Beliefs,
) -> Result<(f64, f64, f64), OrderError> {
    let from_prior = apart / beliefs.apart;
    // Tried at equal factors, so that each stands for a stretch in proportion to itself.
    let before = libm::log(apart) - libm::log1p(from_prior * from_prior);
    let volumes = merged(ahead);
    let off: Vec<f64> = earlier.iter().map(|one| one.ratio.value - beliefs.ratio.value).collect();
    let doubt = beliefs.ratio.standard_error * beliefs.ratio.standard_error;
    let with: Vec<f64> =
        earlier.iter().map(|one| doubt * volumes.get(&one.stratum).copied().unwrap_or(0.0)).collect();
    let seen = covariance(apart, earlier, beliefs);
    let ([solved, gain], half_log) = seen.solved([&off, &with]).ok_or(OrderError::Negative)?;
    let (sum, squares) =
        volumes.values().fold((0.0, 0.0), |(sum, squares), one| (sum + one, squares + one * one));
    let (own, common) = (1.0 - beliefs.in_common, beliefs.in_common);
    let square = apart * apart;
    let variance = (doubt + square * own) * squares + square * common * sum * sum - dot(&with, &gain);
    let mean = beliefs.ratio.value * sum + dot(&with, &solved);
    Ok((before - half_log - dot(&off, &solved) / 2.0, mean, variance.max(0.0).sqrt()))
}

/// How the ratios of the earlier shafts go together, given how far apart shafts lie.
fn covariance(apart: f64, earlier: &[EarlierRatio], beliefs: &Beliefs) -> Square {
    let doubt = beliefs.ratio.standard_error * beliefs.ratio.standard_error;
    Square::from_fn(earlier.len(), |row, column| {
        let (one, other) = (&earlier[row], &earlier[column]);
        let stratum = one.stratum == other.stratum;
        let of_shaft = if stratum { 1.0 } else { beliefs.in_common };
        let shaft = if one.shaft == other.shaft { apart * apart * of_shaft } else { 0.0 };
        let error = one.ratio.standard_error;
        let reading = if row == column { error * error } else { 0.0 };
        shaft + reading + if stratum { doubt } else { 0.0 }
    })
}

/// Theoretical volume of each stratum, once each.
fn merged(ahead: &[Ahead]) -> std::collections::BTreeMap<usize, f64> {
    let mut volumes = std::collections::BTreeMap::new();
    for one in ahead {
        *volumes.entry(one.stratum).or_insert(0.0) += one.theoretical.to_cubic_meters();
    }
    volumes
}

#[cfg(test)]
mod tests {
    use super::*;

    fn earlier(ratios: &[(usize, f64, f64)]) -> Vec<EarlierRatio> {
        // The shafts are told one stratum after the other: the second ratio of a stratum is that of the second shaft.
        let shaft = |at: usize| ratios[..at].iter().filter(|one| one.0 == ratios[at].0).count();
        let one = |(at, &(stratum, value, error)): (usize, &(usize, f64, f64))| EarlierRatio {
            shaft: shaft(at),
            stratum,
            ratio: Estimate::new(value, error),
        };
        ratios.iter().enumerate().map(one).collect()
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
            11.000: 7.74 to 14.26
            11.775: 9.49 to 13.60
            11.972: 11.26 to 12.63
            11.998: 11.84 to 12.15"#]]
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
            11.719: 8.14 to 15.15
            11.144: 10.63 to 11.65
            11.000: 8.35 to 13.65"#]]
        .assert_eq(&shown.join("\n"));
    }

    /// By hand, with one value of τ: two strata of one shaft, `S = [[0.01 + 0.0025 + 0.0004, 0.00125], …]`, one new stratum
    /// of 1 m³ like the first: `k = [0.01, 0]`, `S⁻¹ (0.1, 0.1) = 0.1 / (0.0129 + 0.00125)`, mean `1.1 + 0.01 · 7.0671`.
    #[test]
    fn strata_of_one_shaft_go_together() {
        let ratios = earlier(&[(0, 1.2, 0.02), (1, 1.2, 0.02)]);
        let beliefs = Beliefs { ratio: Estimate::new(1.10, 0.10), ..USUAL_BELIEFS };
        let (_, mean, sd) = given(0.05, &ratios, &ahead(&[(0, 1.0)]), &beliefs).expect("a volume");
        assert_eq!(format!("{mean:.6}"), "1.170671");
        // 0.01 + 0.0025 − 0.01² · 0.0129 / (0.0129² − 0.00125²) = 0.0046746
        assert_eq!(format!("{:.7}", sd * sd), "0.0046746");
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
