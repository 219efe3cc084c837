//! Chance from a seed.

/// Numbers that look like chance and are the same for the same seed (SplitMix64, public domain; from memory).
#[derive(Debug, Clone)]
pub struct Dice(u64);

impl Dice {
    /// The dice of a seed.
    pub fn of_seed(seed: u64) -> Self {
        Dice(seed)
    }

    /// The next number.
    pub fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number below `end`, which is above 0.
    pub fn below(&mut self, end: usize) -> usize {
        (self.roll() % end as u64) as usize
    }

    /// Yes, so many times in a hundred.
    pub fn percent(&mut self, percent: u32) -> bool {
        self.below(100) < percent as usize
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: the first outputs of SplitMix64 for seed 0, as printed in several libraries' tests
    /// (e220a8397b1dcdaf, 6e789e6aa1b965f4, 06c45d188009454f); from memory.
    #[test]
    fn the_published_numbers() {
        let mut dice = Dice::of_seed(0);
        let rolled = [dice.roll(), dice.roll(), dice.roll()];
        assert_eq!(rolled, [0xe220_a839_7b1d_cdaf, 0x6e78_9e6a_a1b9_65f4, 0x06c4_5d18_8009_454f]);
    }
}
