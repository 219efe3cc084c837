//! The site clock: what the watch of somebody at the hole shows.
//!
//! A tablet that was carried over a zone's border still writes in the time of the job. In a demonstration
//! the desk's clock counts, and runs faster.
//!
//! Never: alter a time that was written; correct the tablet's clock silently.

use super::time::{every, now_ms, now_seconds, own_offset_seconds};
use super::{Demonstration, Device};
use leptos::prelude::*;
use notes::Zone;
use quantity::Moment;
use std::time::Duration;
use wire::http::SiteClock;

/// Clocks are drawn again this often.
const TICK: Duration = Duration::from_secs(1);
/// In a demonstration this many times in that span.
const TICKS_OF_DEMONSTRATION: u32 = 2;

/// Where the faster clock stood, and when.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Anchor {
    site_seconds: f64,
    ours_ms: f64,
    speed: f64,
}

impl Anchor {
    fn of(clock: &SiteClock) -> Self {
        Anchor { site_seconds: clock.site.seconds() as f64, ours_ms: now_ms(), speed: clock.speed }
    }

    fn seconds(self) -> i64 {
        (self.site_seconds + (now_ms() - self.ours_ms) / 1000.0 * self.speed).floor() as i64
    }
}

impl Device {
    /// Seconds since 1970 on the site clock.
    pub(super) fn site_seconds(self) -> i64 {
        self.inner().site.get().map_or_else(now_seconds, Anchor::seconds)
    }

    /// The site clock of a job. Not tracked: read `tick` to be called again.
    ///
    /// The zone is that of the job; before the job is opened, that of the device. A practice has its own clock.
    pub(crate) fn now(self, job: &str) -> Moment {
        if let Some(at) = self.practice_now(job) {
            return at;
        }
        let seconds = self.site_seconds();
        let inner = self.inner();
        let zones = inner.zones.borrow();
        zones
            .get(job)
            .map_or_else(|| Moment::at(seconds, own_offset_seconds()), |zone| zone.moment_at(seconds))
    }

    /// The clocks of a job are in this zone. One the table does not have leaves the device's own.
    pub(super) fn learn_zone(self, job: &str, name: &str) {
        if let Ok(zone) = Zone::named(name) {
            self.inner().zones.borrow_mut().insert(job.to_owned(), zone);
        }
    }

    /// The desk told of its clock: only a demonstration has one of its own.
    pub(super) fn follow(self, clock: Option<SiteClock>) {
        let clock = clock.filter(|clock| clock.speed > 0.0 && clock.speed.is_finite());
        self.inner().site.set(clock.as_ref().map(Anchor::of));
        let demonstration = clock.map(|clock| Demonstration { speed: clock.speed });
        if self.demonstration.get_untracked() != demonstration {
            self.demonstration.set(demonstration);
            // What was reckoned for the other clock must not stand for a moment longer.
            self.tick.set(self.site_seconds());
        }
    }

    /// Begins to tick.
    pub(super) fn start_clock(self) {
        let mut passed = 0;
        every(TICK / TICKS_OF_DEMONSTRATION, move || {
            passed += 1;
            if self.demonstration.get_untracked().is_some() || passed % TICKS_OF_DEMONSTRATION == 0 {
                self.tick.set(self.site_seconds());
            }
        });
    }
}
