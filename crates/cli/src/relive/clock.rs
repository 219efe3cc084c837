//! The clock of a site that is lived through again: faster than ours as far as the notes go, then as ours.
//!
//! Words: *site clock* = what the clock on site would show.
//! Never: read this machine's clock; run backwards.

use quantity::Moment;
use std::time::Duration;

/// How a site clock runs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct SiteClock {
    from: Moment,
    fast_until: Moment,
    speed: f64,
}

impl SiteClock {
    /// A clock that starts at `from` and runs `speed` times as fast as ours until `fast_until`.
    pub(crate) fn new(from: Moment, fast_until: Moment, speed: f64) -> Self {
        SiteClock { from, fast_until, speed }
    }

    /// What it shows when so much of our time has passed, to the second.
    pub(crate) fn after(&self, passed: Duration) -> Moment {
        let fast = self.fast_for().as_secs_f64();
        let passed = passed.as_secs_f64();
        let site = if passed < fast {
            passed * self.speed
        } else {
            self.fast_until.seconds().saturating_sub(self.from.seconds()).max(0) as f64 + (passed - fast)
        };
        self.from.plus_seconds(site.floor() as i64)
    }

    /// How fast it runs when so much of our time has passed.
    pub(crate) fn speed_after(&self, passed: Duration) -> f64 {
        if passed < self.fast_for() { self.speed } else { 1.0 }
    }

    /// How much of our time passes until it shows a moment.
    pub(crate) fn wait_for(&self, moment: Moment) -> Duration {
        let seconds = |later: Moment, earlier: Moment| (later.seconds() - earlier.seconds()).max(0) as f64;
        let fast = seconds(moment.min(self.fast_until), self.from) / self.speed;
        let slow = seconds(moment, self.fast_until.max(self.from));
        Duration::from_secs_f64(fast + slow)
    }

    /// How much of our time it runs fast.
    fn fast_for(&self) -> Duration {
        self.wait_for(self.fast_until)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn moment(text: &str) -> Moment {
        Moment::parse(&format!("2025-05-13T{text}-06:00")).expect("a moment")
    }

    /// Thirty times as fast from half past ten until eleven: that half hour passes in a minute.
    fn clock() -> SiteClock {
        SiteClock::new(moment("10:30:00"), moment("11:00:00"), 30.0)
    }

    #[track_caller]
    fn check(passed_seconds: u64, shows: &str, speed: f64) {
        let passed = Duration::from_secs(passed_seconds);
        assert_eq!(clock().after(passed), moment(shows));
        assert!((clock().speed_after(passed) - speed).abs() < 1e-12);
    }

    #[test]
    fn it_runs_fast_and_then_as_ours() {
        check(0, "10:30:00", 30.0);
        check(1, "10:30:30", 30.0);
        check(59, "10:59:30", 30.0);
        check(60, "11:00:00", 1.0);
        check(61, "11:00:01", 1.0);
        check(3660, "12:00:00", 1.0);
    }

    #[track_caller]
    fn check_wait(shows: &str, seconds: f64) {
        assert!((clock().wait_for(moment(shows)).as_secs_f64() - seconds).abs() < 1e-9);
    }

    #[test]
    fn what_it_waits_for_comes_when_it_shows_it() {
        check_wait("10:00:00", 0.0);
        check_wait("10:30:00", 0.0);
        check_wait("10:45:00", 30.0);
        check_wait("11:00:00", 60.0);
        check_wait("11:00:10", 70.0);
    }

    #[test]
    fn a_clock_that_starts_behind_the_last_entry_runs_as_ours() {
        let late = SiteClock::new(moment("12:00:00"), moment("11:00:00"), 30.0);
        assert_eq!(late.after(Duration::from_secs(5)), moment("12:00:05"));
        assert_eq!(late.wait_for(moment("12:00:10")), Duration::from_secs(10));
    }
}
