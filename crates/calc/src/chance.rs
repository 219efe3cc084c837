//! Quantiles of the normal distribution, and draws that a seed repeats.
//!
//! A probability told beside the rig has to be the same on the tablet, in the browser and in the office. So
//! nothing here asks the machine for chance: the seed is an argument, and the same seed gives the same draws
//! on every platform.
//!
//! Words: *draw* = one random number; *quantile* = the value that a given part of the draws stays below.
//! Never: draw without a seed; use the machine's own logarithm.

use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::{Rng, SeedableRng};

/// Density of the standard normal distribution.
///
/// `φ(z) = exp(−z² / 2) / √(2π)`
///
/// **Source**: definition.
pub fn normal_density(z: f64) -> f64 {
    const ROOT_OF_TWO_PI: f64 = 2.506_628_274_631_000_7;
    libm::exp(-z * z / 2.0) / ROOT_OF_TWO_PI
}

/// The value that a standard normal draw stays below with probability `p`.
///
/// **Valid for** `0 < p < 1`; the ends give minus and plus infinity.
///
/// **Source**: algorithm AS 241, PPND16 [AS-241]; checked against `scipy` to 1e-14.
///
/// ```
/// # use calc::chance::normal_quantile;
/// assert_eq!(format!("{:.6}", normal_quantile(0.9)), "1.281552");
/// assert_eq!(normal_quantile(0.5), 0.0);
/// ```
pub fn normal_quantile(p: f64) -> f64 {
    let from_middle = p - 0.5;
    if from_middle.abs() <= 0.425 {
        let r = 0.180_625 - from_middle * from_middle;
        return from_middle * polynomial(&MIDDLE_ABOVE, r) / polynomial(&MIDDLE_BELOW, r);
    }
    let tail = if from_middle < 0.0 { p } else { 1.0 - p };
    from_tail(tail).copysign(from_middle)
}

/// How far out a tail of this probability begins.
fn from_tail(tail: f64) -> f64 {
    if tail <= 0.0 {
        return f64::INFINITY;
    }
    let r = (-libm::log(tail)).sqrt();
    match r <= 5.0 {
        true => polynomial(&NEAR_ABOVE, r - 1.6) / polynomial(&NEAR_BELOW, r - 1.6),
        false => polynomial(&FAR_ABOVE, r - 5.0) / polynomial(&FAR_BELOW, r - 5.0),
    }
}

/// By Horner's rule, the highest power first.
fn polynomial(factors: &[f64; 8], at: f64) -> f64 {
    factors.iter().fold(0.0, |sum, factor| sum * at + factor)
}

// The eight rational approximations of AS 241, numerator above denominator, highest power first. [AS-241]
const MIDDLE_ABOVE: [f64; 8] = [
    2.509_080_928_730_122_7e3,
    3.343_057_558_358_813e4,
    6.726_577_092_700_87e4,
    4.592_195_393_154_987e4,
    1.373_169_376_550_946e4,
    1.971_590_950_306_551_3e3,
    1.331_416_678_917_843_8e2,
    3.387_132_872_796_366_5,
];
const MIDDLE_BELOW: [f64; 8] = [
    5.226_495_278_852_854e3,
    2.872_908_573_572_194_3e4,
    3.930_789_580_009_271e4,
    2.121_379_430_158_66e4,
    5.394_196_021_424_751e3,
    6.871_870_074_920_579e2,
    4.231_333_070_160_091e1,
    1.0,
];
const NEAR_ABOVE: [f64; 8] = [
    7.745_450_142_783_414e-4,
    2.272_384_498_926_918_4e-2,
    2.417_807_251_774_506e-1,
    1.270_458_252_452_368_4,
    3.647_848_324_763_204_5,
    5.769_497_221_460_691,
    4.630_337_846_156_546,
    1.423_437_110_749_683_5,
];
const NEAR_BELOW: [f64; 8] = [
    1.050_750_071_644_416_9e-9,
    5.475_938_084_995_345e-4,
    1.519_866_656_361_645_7e-2,
    1.481_039_764_274_800_8e-1,
    6.897_673_349_851e-1,
    1.676_384_830_183_803_8,
    2.053_191_626_637_759,
    1.0,
];
const FAR_ABOVE: [f64; 8] = [
    2.010_334_399_292_288_1e-7,
    2.711_555_568_743_487_6e-5,
    1.242_660_947_388_078_4e-3,
    2.653_218_952_657_612_4e-2,
    2.965_605_718_285_048_7e-1,
    1.784_826_539_917_291_3,
    5.463_784_911_164_114,
    6.657_904_643_501_103,
];
const FAR_BELOW: [f64; 8] = [
    2.044_263_103_389_939_8e-15,
    1.421_511_758_316_446e-7,
    1.846_318_317_510_054_8e-5,
    7.868_691_311_456_133e-4,
    1.487_536_129_085_061_5e-2,
    1.369_298_809_227_358e-1,
    5.998_322_065_558_88e-1,
    1.0,
];

/// Draws that a seed repeats: xoshiro256++, seeded through SplitMix64.
#[derive(Debug, Clone)]
pub struct Draws(Xoshiro256PlusPlus);

impl Draws {
    /// The draws of a seed.
    pub fn seeded(seed: u64) -> Self {
        Draws(Xoshiro256PlusPlus::seed_from_u64(seed))
    }

    /// Between zero and one, neither of them.
    ///
    /// **Source**: the upper 52 bits, in the middle of their step.
    pub fn part(&mut self) -> f64 {
        ((self.0.next_u64() >> 12) as f64 + 0.5) / (1_u64 << 52) as f64
    }

    /// A standard normal draw.
    ///
    /// **Source**: inverse of the distribution, one draw each, so that draws stay in step between two plans.
    pub fn normal(&mut self) -> f64 {
        normal_quantile(self.part())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mixture::standard_normal_cdf;

    /// Values of `statistics.NormalDist().inv_cdf` of Python and `scipy.stats.norm.ppf`, to 1e-14.
    #[test]
    fn quantiles_of_the_normal_distribution() {
        let check = |p: f64, expected: f64| {
            let got = normal_quantile(p);
            assert!((got - expected).abs() <= 2e-14 * expected.abs(), "{p}: {got} beside {expected}");
        };
        check(1e-300, -37.0470962993612);
        check(1e-12, -7.034483825301132);
        check(1e-05, -4.2648907939228256);
        check(0.001, -3.090232306167813);
        check(0.025, -1.9599639845400538);
        check(0.05, -1.6448536269514726);
        check(0.1, -1.2815515655446008);
        check(0.3, -0.5244005127080407);
        check(0.7, 0.5244005127080407);
        check(0.9, 1.2815515655446008);
        check(0.95, 1.6448536269514715);
        check(0.99, 2.3263478740408408);
        check(0.999999, 4.753424308817089);
    }

    #[test]
    fn a_quantile_leads_back_to_its_probability() {
        for step in 1..1000 {
            let p = f64::from(step) / 1000.0;
            assert!((standard_normal_cdf(normal_quantile(p)) - p).abs() < 1e-15, "{p}");
        }
        assert_eq!(normal_quantile(0.0), f64::NEG_INFINITY);
        assert_eq!(normal_quantile(1.0), f64::INFINITY);
    }

    /// The same words on every machine; whoever changes the generator changes every pour that was told.
    #[test]
    fn a_seed_repeats_its_draws() {
        let three = |seed| {
            let mut draws = Draws::seeded(seed);
            [(); 3].map(|()| format!("{:.12}", draws.part()))
        };
        assert_eq!(three(7), three(7));
        assert_ne!(three(7), three(8));
        expect_test::expect![["0.055360436478 0.172115854448 0.717576128359"]].assert_eq(&three(7).join(" "));
    }

    /// Mean, variance and the part below one of 40,000 draws, within four of their standard errors.
    #[test]
    fn draws_are_normal() {
        let mut draws = Draws::seeded(1);
        let all: Vec<f64> = (0..40_000).map(|_| draws.normal()).collect();
        let count = all.len() as f64;
        let mean = all.iter().sum::<f64>() / count;
        let variance = all.iter().map(|z| z * z).sum::<f64>() / count;
        let below_one = all.iter().filter(|z| **z < 1.0).count() as f64 / count;
        assert!(mean.abs() < 4.0 / count.sqrt(), "{mean}");
        assert!((variance - 1.0).abs() < 4.0 * (2.0 / count).sqrt(), "{variance}");
        assert!(
            (below_one - standard_normal_cdf(1.0)).abs() < 4.0 * (0.8413 * 0.1587 / count).sqrt(),
            "{below_one}"
        );
    }
}
