//! How long to wait before asking again.
//!
//! After every failure twice as long, so that two hundred tablets do not fall upon a desk that just came
//! back; a part of it by chance, so that they do not come all at once.

/// The wait after the first failure, milliseconds.
const WAIT_FIRST_MS: u64 = 1_000;
/// The longest wait, milliseconds. A person who walks back into range does not want to wait longer.
pub const WAIT_LONGEST_MS: u64 = 60_000;

/// Milliseconds to wait after so many failures in a row; `chance` is a number the caller drew, any number.
///
/// The wait lies between half and all of a span that starts at one second, doubles, and ends at a minute.
pub fn wait_ms(failures: u32, chance: u64) -> u64 {
    let Some(doublings) = failures.checked_sub(1) else { return 0 };
    let span = WAIT_FIRST_MS
        .checked_shl(doublings.min(16))
        .map_or(WAIT_LONGEST_MS, |span| span.min(WAIT_LONGEST_MS));
    span / 2 + chance % (span / 2 + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(failures: u32, shortest: u64, longest: u64) {
        assert_eq!(wait_ms(failures, 0), shortest);
        let all: Vec<u64> = (0..100_000).map(|chance| wait_ms(failures, chance)).collect();
        assert_eq!((all.iter().min(), all.iter().max()), (Some(&shortest), Some(&longest)));
        assert!((shortest..=longest).contains(&wait_ms(failures, u64::MAX)));
    }

    /// Expected: 1 s doubled for every failure after the first, ended at 60 s; half of it certain.
    #[test]
    fn each_failure_doubles_the_wait_up_to_a_minute() {
        check(0, 0, 0);
        check(1, 500, 1_000);
        check(2, 1_000, 2_000);
        check(6, 16_000, 32_000);
        check(7, 30_000, 60_000);
        check(u32::MAX, 30_000, 60_000);
    }
}
