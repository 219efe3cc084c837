//! Chance from a seed, the same on every machine.
//!
//! Words: *stream* = the numbers of one topic; two topics of one seed do not disturb each other, so a
//! scenario can change the trucks and leave the ground as it was.
//! Never: draw from anything but the seed.

use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::{Rng, SeedableRng};

/// Numbers that look like chance and are the same for the same seed and topic.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chance(Xoshiro256PlusPlus);

/// 2⁻⁵³: the step between the numbers of [`Chance::part`].
const STEP: f64 = 1.0 / 9_007_199_254_740_992.0;

impl Chance {
    /// The chance of a seed.
    ///
    /// **Source**: xoshiro256++, seeded by SplitMix64 as its authors ask; both from the crate
    /// `rand_xoshiro`.
    pub fn of_seed(seed: u64) -> Self {
        Chance(Xoshiro256PlusPlus::seed_from_u64(seed))
    }

    /// The stream of one topic of a seed.
    pub fn of_topic(seed: u64, topic: &str) -> Self {
        // FNV-1a over the name; from memory. It only has to tell topics apart.
        let mix = |hash: u64, byte: u8| (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
        let name = topic.bytes().fold(0xcbf2_9ce4_8422_2325, mix);
        Chance::of_seed(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ name)
    }

    /// A number from 0 up to but not 1, in steps of 2⁻⁵³.
    pub fn part(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 * STEP
    }

    /// A number between two others, all equally likely.
    pub fn between(&mut self, [low, high]: [f64; 2]) -> f64 {
        low + (high - low) * self.part()
    }

    /// A whole number from `low` to `high`, both included; `low` where `high` is below it.
    pub fn whole(&mut self, [low, high]: [usize; 2]) -> usize {
        low + (self.part() * (high.saturating_sub(low) + 1) as f64) as usize
    }

    /// Yes, so many times in one.
    pub fn odds(&mut self, share: f64) -> bool {
        self.part() < share
    }

    /// Normal, mean 0 and standard deviation 1 (Box and Muller's formula; from memory).
    pub fn normal(&mut self) -> f64 {
        let (radius, turn) = (1.0 - self.part(), self.part());
        libm::sqrt(-2.0 * libm::log(radius)) * libm::cos(2.0 * std::f64::consts::PI * turn)
    }

    /// Exponential with mean 1: never negative, with a long tail upward.
    pub fn exponential(&mut self) -> f64 {
        -libm::log(1.0 - self.part())
    }

    /// The sum of two even chances: mean 0, standard deviation 1, never beyond √6. What a person
    /// misreads has an end; a normal distribution has none.
    pub fn bounded(&mut self) -> f64 {
        (self.part() + self.part() - 1.0) * libm::sqrt(6.0)
    }

    /// Even chance with mean 0 and standard deviation 1: never beyond √3.
    pub fn even(&mut self) -> f64 {
        (2.0 * self.part() - 1.0) * libm::sqrt(3.0)
    }

    /// Two exponentials back to back: mean 0, standard deviation 1, with more far readings than a
    /// normal distribution has.
    pub fn peaked(&mut self) -> f64 {
        (self.exponential() - self.exponential()) / libm::sqrt(2.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const DRAWS: usize = 40_000;

    /// Mean, standard deviation and skewness of many draws.
    fn moments(mut draw: impl FnMut(&mut Chance) -> f64) -> [f64; 3] {
        let mut chance = Chance::of_seed(1);
        let drawn: Vec<f64> = (0..DRAWS).map(|_| draw(&mut chance)).collect();
        let mean = drawn.iter().sum::<f64>() / DRAWS as f64;
        let central = |power: i32| {
            let of = |value: &f64| (0..power).fold(1.0, |product, _| product * (value - mean));
            drawn.iter().map(of).sum::<f64>() / DRAWS as f64
        };
        let deviation = central(2).sqrt();
        [mean, deviation, central(3) / (deviation * deviation * deviation)]
    }

    /// Tolerance: four standard errors of the mean of 40,000 draws are 0.02; the skewness of the
    /// exponential has the widest, 0.2.
    #[track_caller]
    fn check(draw: impl FnMut(&mut Chance) -> f64, expected: [f64; 3]) {
        let found = moments(draw);
        for (index, tolerance) in [0.02, 0.03, 0.2].into_iter().enumerate() {
            assert!((found[index] - expected[index]).abs() < tolerance, "{found:?}, not {expected:?}");
        }
    }

    #[test]
    fn each_kind_of_chance_has_the_mean_the_spread_and_the_lean_it_says() {
        check(Chance::normal, [0.0, 1.0, 0.0]);
        check(Chance::bounded, [0.0, 1.0, 0.0]);
        check(Chance::even, [0.0, 1.0, 0.0]);
        check(Chance::peaked, [0.0, 1.0, 0.0]);
        check(Chance::exponential, [1.0, 1.0, 2.0]);
        check(|chance| chance.between([2.0, 4.0]), [3.0, 1.0 / 3f64.sqrt(), 0.0]);
        check(|chance| f64::from(u8::from(chance.odds(0.5))), [0.5, 0.5, 0.0]);
        check(|chance| chance.whole([1, 3]) as f64, [2.0, (2.0f64 / 3.0).sqrt(), 0.0]);
    }

    /// The same numbers on every machine: nothing of the system enters.
    #[test]
    fn a_seed_and_a_topic_name_their_numbers_for_ever() {
        let first = |topic: &str| format!("{:.12}", Chance::of_topic(7, topic).part());
        let expected = ["0.436285814847", "0.142867617701", "0.436285814847"];
        assert_eq!([first("ground"), first("trucks"), first("ground")], expected);
    }
}
