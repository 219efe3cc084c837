//! Learns from the earlier shafts of a job what the next one will be like.
//!
//! Never: believe two shafts as much as twenty; what the prior said counts as a few shafts of its own.

use super::Prior;
use crate::estimate::Estimate;

/// An interval of an earlier shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EarlierInterval {
    /// Its ratio, with the error of its readings.
    pub ratio: Estimate<f64>,
    /// Its share of the shaft: its theoretical volume, in any unit.
    pub size: f64,
}

/// As many shafts as this the prior counts for itself. Judgement.
const PRIOR_SHAFTS: f64 = 3.0;
/// The least spread that is believed. Judgement: no ground is as even as this.
const LEAST_SPREAD: f64 = 0.01;

impl Prior {
    /// The prior with expected ratio and spreads learned from earlier shafts of the job.
    ///
    /// `m' = (k m + Σ rᵢ) / (k + n)`; `s'² = (k s² + Σ ((rᵢ − m')² − eᵢ²)) / (k + n)`
    ///
    /// | symbol | argument | meaning |
    /// |---|---|---|
    /// | `rᵢ`, `eᵢ`, `n` | `shafts` | ratio of each shaft and its standard error, number of shafts |
    /// | `m`, `s`, `k` | – | expected ratio and its spread so far, which count for three shafts |
    ///
    /// The spread between strata goes the same way, from the intervals of each shaft about the shaft's ratio; each shaft is
    /// one look at it. It only grows: it is used for a stratum that no earlier shaft met, and such a stratum is no
    /// more like the others because those were alike.
    ///
    /// **Valid for** shafts made in the same ground by the same crew.
    ///
    /// **Errors** none; a shaft without intervals, or of no size, teaches nothing. No spread falls below 0.01.
    ///
    /// **Source**: method of moments; the weight of the prior is judgement.
    ///
    /// ```
    /// # use calc::estimate::Estimate;
    /// # use calc::profile::{EarlierInterval, Prior};
    /// let shaft = |ratio| vec![EarlierInterval { ratio: Estimate::new(ratio, 0.02), size: 10.0 }; 4];
    /// let learned = Prior::default().learned(&[shaft(1.20), shaft(1.22), shaft(1.21)]);
    /// assert_eq!(format!("{:.3}", learned.ratio), "1.145");
    /// ```
    #[must_use]
    pub fn learned(&self, shafts: &[Vec<EarlierInterval>]) -> Prior {
        let known: Vec<(Estimate<f64>, &Vec<EarlierInterval>)> =
            shafts.iter().filter_map(|shaft| Some((of_shaft(shaft)?, shaft))).collect();
        let count = PRIOR_SHAFTS + known.len() as f64;
        let ratio =
            (PRIOR_SHAFTS * self.ratio + known.iter().map(|(mean, _)| mean.value).sum::<f64>()) / count;
        let between = known.iter().map(|(mean, _)| beyond(*mean, ratio)).sum::<f64>();
        let within: Vec<f64> = known.iter().filter_map(|(mean, shaft)| within(mean.value, shaft)).collect();
        let strata = spread(self.stratum_spread, within.iter().sum(), within.len());
        Prior {
            ratio,
            shaft_spread: spread(self.shaft_spread, between, known.len()),
            stratum_spread: strata.max(self.stratum_spread),
            ..self.clone()
        }
    }
}

/// Ratio of a whole shaft.
fn of_shaft(shaft: &[EarlierInterval]) -> Option<Estimate<f64>> {
    let size: f64 = shaft.iter().map(|interval| interval.size).sum();
    if size.is_nan() || size <= 0.0 {
        return None;
    }
    let part = |interval: &EarlierInterval| interval.size / size;
    let value = shaft.iter().map(|interval| part(interval) * interval.ratio.value).sum();
    let errors: Vec<f64> =
        shaft.iter().map(|interval| part(interval) * interval.ratio.standard_error).collect();
    Some(Estimate::new(value, crate::estimate::in_quadrature(&errors)))
}

/// How far the intervals of one shaft lie from its ratio, squared; `None` for a single one, which tells nothing.
fn within(mean: f64, shaft: &[EarlierInterval]) -> Option<f64> {
    let squares: f64 = shaft.iter().map(|interval| beyond(interval.ratio, mean)).sum();
    (shaft.len() > 1).then(|| squares / (shaft.len() - 1) as f64)
}

/// How far a ratio lies from a mean, squared, less what its readings feign.
fn beyond(ratio: Estimate<f64>, mean: f64) -> f64 {
    (ratio.value - mean) * (ratio.value - mean) - ratio.standard_error * ratio.standard_error
}

fn spread(before: f64, squares: f64, count: usize) -> f64 {
    let variance = (PRIOR_SHAFTS * before * before + squares) / (PRIOR_SHAFTS + count as f64);
    variance.max(LEAST_SPREAD * LEAST_SPREAD).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shaft(ratios: &[f64]) -> Vec<EarlierInterval> {
        let interval = |ratio: &f64| EarlierInterval { ratio: Estimate::new(*ratio, 0.01), size: 10.0 };
        ratios.iter().map(interval).collect()
    }

    /// Bug found on the demo: four even intervals of one shaft in other ground taught the next shaft that no stratum differs,
    /// and its seam that took 1.31 was rather believed a misread tape than over-break.
    #[test]
    fn even_shafts_say_nothing_of_a_stratum_they_did_not_meet() {
        let usual = Prior::default();
        for many in [1, 3, 12] {
            let learned = usual.learned(&vec![shaft(&[1.03, 1.04, 1.03, 1.04]); many]);
            assert_eq!(learned.stratum_spread, usual.stratum_spread, "{many}");
            assert!(learned.ratio < usual.ratio && learned.shaft_spread < usual.shaft_spread, "{many}");
        }
    }

    /// Three shafts of 1.00 and 1.40: 2 · 0.20² about the mean, less the errors, counts as much as the prior does.
    #[test]
    fn strata_that_differ_on_this_job_are_expected_to_differ() {
        let learned = Prior::default().learned(&vec![shaft(&[1.00, 1.40]); 3]);
        let expected: f64 = (0.057 * 0.057 + 2.0 * (0.20 * 0.20 - 0.01 * 0.01)) / 2.0;
        assert!((learned.stratum_spread - expected.sqrt()).abs() < 1e-12, "{}", learned.stratum_spread);
    }
}
