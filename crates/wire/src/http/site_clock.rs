//! The clock of a site whose day is lived through again: faster than ours as far as the notes go, then as ours.
//!
//! It is the clock of one job. Whoever writes in another job, a true one beside the made-up one, writes by the true time.
//!
//! Words: *site clock* = what the clock on site would show.
//! Never: read a machine's clock; run backwards.

use super::text;
use quantity::Moment;
use serde::{Deserialize, Serialize};
use std::time::Duration;

/// How the clock of a site runs, as told at some moment.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SiteClock {
    /// The job on whose site it hangs.
    pub job: String,
    /// What it shows as it is told.
    #[serde(with = "text::moment")]
    pub site: Moment,
    /// How many of its seconds pass in one of ours, until `fast_until`; above 0.
    pub speed: f64,
    /// From here on it runs as ours.
    #[serde(with = "text::moment")]
    pub fast_until: Moment,
}

impl SiteClock {
    /// The same clock, told so much of our time later.
    #[must_use]
    pub fn later(&self, passed: Duration) -> Self {
        SiteClock { site: self.after(passed), speed: self.speed_after(passed), ..self.clone() }
    }

    /// What it shows when so much of our time has passed, to the second.
    pub fn after(&self, passed: Duration) -> Moment {
        let fast = self.fast_for().as_secs_f64();
        let passed = passed.as_secs_f64();
        let site = if passed < fast {
            passed * self.speed
        } else {
            self.fast_until.seconds().saturating_sub(self.site.seconds()).max(0) as f64 + (passed - fast)
        };
        self.site.plus_seconds(site.floor() as i64)
    }

    /// How many of its seconds pass in one of ours when so much of our time has passed.
    pub fn speed_after(&self, passed: Duration) -> f64 {
        if passed < self.fast_for() { self.speed } else { 1.0 }
    }

    /// How much of our time passes until it shows a moment.
    pub fn wait_for(&self, moment: Moment) -> Duration {
        let seconds = |later: Moment, earlier: Moment| (later.seconds() - earlier.seconds()).max(0) as f64;
        let fast = seconds(moment.min(self.fast_until), self.site) / self.speed;
        let slow = seconds(moment, self.fast_until.max(self.site));
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
        SiteClock {
            job: "made-up".to_owned(),
            site: moment("10:30:00"),
            speed: 30.0,
            fast_until: moment("11:00:00"),
        }
    }

    #[track_caller]
    fn check(passed_seconds: u64, shows: &str, speed: f64) {
        let passed = Duration::from_secs(passed_seconds);
        assert_eq!(clock().after(passed), moment(shows));
        assert!((clock().speed_after(passed) - speed).abs() < 1e-12);
        let later = clock().later(passed);
        assert_eq!(later.site, moment(shows));
        assert!((later.speed - speed).abs() < 1e-12);
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
        let late = SiteClock { site: moment("12:00:00"), ..clock() };
        assert_eq!(late.after(Duration::from_secs(5)), moment("12:00:05"));
        assert_eq!(late.wait_for(moment("12:00:10")), Duration::from_secs(10));
    }

    #[test]
    fn whoever_hears_of_it_later_sees_it_run_the_same() {
        let told = clock().later(Duration::from_secs(50));
        for passed in [0, 5, 10, 11, 600] {
            let (since_told, since_begun) = (Duration::from_secs(passed), Duration::from_secs(50 + passed));
            assert_eq!(told.after(since_told), clock().after(since_begun));
            assert!((told.speed_after(since_told) - clock().speed_after(since_begun)).abs() < 1e-12);
        }
    }

    #[test]
    fn a_clock_that_is_not_told_whole_is_none() {
        let told = serde_json::to_string(&clock()).expect("a clock is told");
        assert_eq!(serde_json::from_str::<SiteClock>(&told).expect("as told"), clock());
        serde_json::from_str::<SiteClock>(r#"{"site": "2025-05-13T10:30:00-06:00", "speed": 30.0}"#)
            .expect_err("of which job, and until when");
    }
}
