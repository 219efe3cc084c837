//! What one stratum of a shaft took, from the intervals that were sounded.
//!
//! Nobody sounds at the boundaries of strata. An interval that lies half in one and half in the next tells of both,
//! and its ratio is wrong for each by as much as the two differ.
//!
//! Units: cubic metres inside; ratios are plain numbers.
//! Never: tell a ratio where less than half of the stratum was sounded.

use crate::curve::{Interval, VolumeCurve};
use crate::estimate::{Estimate, in_quadrature};
use quantity::{Elevation, Volume};

/// How far the ratios of two neighbouring strata are taken to lie apart: √2 times the spread between strata of
/// [`crate::profile::Prior`]. Judgement.
const NEIGHBOURS: f64 = 0.085;
/// So much of the stratum has to be sounded. Judgement.
const LEAST_PART: f64 = 0.5;

/// What a stratum took, and how much of it that is known of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StratumRatio {
    /// Placed over theoretical.
    pub ratio: Estimate<f64>,
    /// Theoretical volume of the part that was sounded.
    pub theoretical: Volume,
}

/// The ratio of a stretch of the hole, from the intervals that reach into it.
///
/// `r = Σ o rᵢ / Σ o`, `s² = Σ (o sᵢ)² / (Σ o)² + Σ (o (1 − o / tᵢ) d)² / (Σ o)²`, `o = tᵢ · overlap / rise`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `rᵢ`, `sᵢ`, `tᵢ` | `curve` | ratio of an interval, its standard error, its theoretical volume |
/// | `o` | `top`, `bottom` | the part of that volume that lies in the stretch |
/// | `d` | – | how far the next stratum's ratio may lie off |
///
/// **Valid for** intervals short beside the stratum. The errors of two intervals that share a sounding are taken as
/// independent, which makes the sum a little too wide.
///
/// **Errors**: `None` when less than half of the stretch was sounded.
///
/// **Source**: weighted mean, error propagation [GUM]; the error of a straddling interval is ours.
pub fn ratio_within(curve: &VolumeCurve, top: Elevation, bottom: Elevation) -> Option<StratumRatio> {
    let pieces: Vec<[f64; 4]> =
        curve.intervals.iter().filter_map(|interval| piece(interval, top, bottom)).collect();
    let sum: f64 = pieces.iter().map(|[volume, ..]| volume).sum();
    let height: f64 = pieces.iter().map(|[.., height]| height).sum();
    if sum <= 0.0 || height < LEAST_PART * top.above(bottom).to_meters() {
        return None;
    }
    let value = pieces.iter().map(|[volume, ratio, ..]| volume * ratio).sum::<f64>() / sum;
    let errors: Vec<f64> = pieces.iter().map(|[volume, _, error, _]| volume * error / sum).collect();
    Some(StratumRatio {
        ratio: Estimate::new(value, in_quadrature(&errors)),
        theoretical: Volume::cubic_meters(sum),
    })
}

/// Theoretical volume of an interval inside a stretch, its ratio, the error of that for the stretch, and its height.
fn piece(interval: &Interval, top: Elevation, bottom: Elevation) -> Option<[f64; 4]> {
    let (ratio, theoretical) = (interval.ratio?, interval.theoretical?.value.to_cubic_meters());
    let inside = interval.upper.min(top).above(interval.lower.max(bottom)).to_meters();
    let rise = interval.upper.above(interval.lower).to_meters();
    if inside <= 0.0 || rise <= 0.0 || theoretical <= 0.0 {
        return None;
    }
    let part = inside / rise;
    let error = in_quadrature(&[ratio.standard_error, (1.0 - part) * NEIGHBOURS]);
    Some([part * theoretical, ratio.value, error, inside])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::curve::{Cumulative, VolumeCurve};
    use quantity::Length;

    fn level(meters: f64) -> Elevation {
        Elevation(Length::meters(meters))
    }

    /// Intervals as lower and upper level, theoretical volume and ratio with its error.
    fn curve(intervals: &[([f64; 2], f64, [f64; 2])]) -> VolumeCurve {
        let volume = |value: f64| Estimate::new(Volume::cubic_meters(value), Volume::cubic_meters(0.0));
        let interval =
            |&([lower, upper], theoretical, [ratio, error]): &([f64; 2], f64, [f64; 2])| Interval {
                lower: level(lower),
                upper: level(upper),
                rise: Estimate::new(Length::meters(upper - lower), Length::ZERO),
                theoretical: Some(volume(theoretical)),
                placed: volume(theoretical * ratio),
                ratio: Some(Estimate::new(ratio, error)),
                diameter: None,
                departure: None,
                cumulative: Cumulative { placed: volume(0.0), theoretical: None, ratio: None },
            };
        VolumeCurve { intervals: intervals.iter().map(interval).collect() }
    }

    #[track_caller]
    fn check(intervals: &[([f64; 2], f64, [f64; 2])], [bottom, top]: [f64; 2], expected: &str) {
        let told = ratio_within(&curve(intervals), level(top), level(bottom));
        let told = told.map_or("not known".to_owned(), |told| {
            let Estimate { value, standard_error } = told.ratio;
            format!("{value:.4} ± {standard_error:.4} of {:.1} m³", told.theoretical.to_cubic_meters())
        });
        assert_eq!(told, expected);
    }

    /// Two whole intervals: (4 · 1.1 + 2 · 1.4) / 6 = 1.2, errors 4 · 0.03 / 6 and 2 · 0.06 / 6, both 0.02.
    #[test]
    fn a_stratum_of_whole_intervals_is_their_mean() {
        let two = [([0.0, 2.0], 4.0, [1.1, 0.03]), ([2.0, 3.0], 2.0, [1.4, 0.06])];
        check(&two, [0.0, 3.0], "1.2000 ± 0.0283 of 6.0 m³");
        check(&two, [0.0, 2.0], "1.1000 ± 0.0300 of 4.0 m³");
    }

    /// Half of an interval counts with half of its volume, and the other stratum may differ: √(0.03² + (0.5 · 0.085)²).
    #[test]
    fn an_interval_across_a_boundary_tells_of_both_and_is_doubted() {
        check(&[([0.0, 2.0], 4.0, [1.1, 0.03])], [1.0, 2.0], "1.1000 ± 0.0520 of 2.0 m³");
    }

    #[test]
    fn less_than_half_of_a_stratum_is_not_enough() {
        let one = [([0.0, 2.0], 4.0, [1.1, 0.03])];
        check(&one, [0.0, 4.0], "1.1000 ± 0.0300 of 4.0 m³");
        check(&one, [0.0, 4.1], "not known");
        check(&one, [2.0, 3.0], "not known");
        check(&[([2.0, 0.0], 4.0, [1.1, 0.03])], [0.0, 2.0], "not known");
    }
}
