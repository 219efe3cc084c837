//! How far the clock of this device is from the desk's.
//!
//! Concrete ages by the minute, and two people write on two devices. A wrong clock alters no entry: the
//! times stay as they were written, and the person is told.

/// A difference of more than this many seconds is told. Entries are written to the minute.
pub const SKEW_NOTABLE_SECONDS: i64 = 60;

/// How far the clock here is from the desk's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Skew {
    /// Seconds the clock here is ahead of the desk's; negative: it is behind.
    pub ahead: i64,
    /// Seconds either way that the journey of the answer leaves open.
    pub within: i64,
}

impl Skew {
    /// From the clock here when the question left and when the answer came, and the desk's between the two;
    /// all in seconds since 1970. `None` when the clock here was set back in between.
    pub fn between(left: i64, came: i64, desk: i64) -> Option<Self> {
        let journey = came.checked_sub(left).filter(|journey| *journey >= 0)?;
        let middle = left.checked_add(journey / 2)?;
        // Each clock shows whole seconds: up to one more.
        Some(Skew { ahead: middle.checked_sub(desk)?, within: journey / 2 + 1 })
    }

    /// The difference is certain to be more than `SKEW_NOTABLE_SECONDS`.
    pub fn is_notable(self) -> bool {
        self.ahead.saturating_abs().saturating_sub(self.within) > SKEW_NOTABLE_SECONDS
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(left: i64, came: i64, desk: i64, expected: (i64, i64, bool)) {
        let skew = Skew::between(left, came, desk).expect("a difference");
        assert_eq!((skew.ahead, skew.within, skew.is_notable()), expected);
    }

    #[test]
    fn a_difference_is_told_when_the_journey_does_not_explain_it() {
        check(1_000, 1_002, 1_001, (0, 2, false));
        check(1_000, 1_000, 938, (62, 1, true));
        check(1_000, 1_000, 939, (61, 1, false));
        check(1_000, 1_000, 1_062, (-62, 1, true));
        // An answer that was two minutes on its way explains a difference of one.
        check(1_000, 1_120, 1_000, (60, 61, false));
    }

    #[test]
    fn a_clock_ten_years_off_is_told() {
        let ten_years = 10 * 365 * 86_400;
        check(1_900_000_000, 1_900_000_001, 1_900_000_000 + ten_years, (-ten_years, 1, true));
        check(1_900_000_000, 1_900_000_001, 1_900_000_000 - ten_years, (ten_years, 1, true));
    }

    #[test]
    fn a_clock_set_back_in_between_tells_nothing() {
        assert_eq!(Skew::between(1_000, 400, 1_000), None);
        assert_eq!(Skew::between(i64::MIN, i64::MAX, 0), None);
    }
}
