//! The site clock: what the watch of somebody at the hole shows.
//!
//! A tablet that was carried over a zone's border still writes in the time of the job. In a demonstration
//! the clock of its job counts, and runs faster; a job that is true keeps the true time beside it. The made-up clock is
//! kept with its job: what was written by it does not lie in the future once the office of the demonstration is gone.
//!
//! Never: alter a time that was written; correct the tablet's clock silently; date a true job by a made-up clock.

use super::Device;
use super::database::Trouble;
use super::time::{every, now_ms, now_seconds, own_offset_seconds};
use leptos::prelude::*;
use notes::Zone;
use quantity::Moment;
use std::collections::BTreeMap;
use std::time::Duration;
use wire::http::SiteClock;

/// Clocks are drawn again this often.
const TICK: Duration = Duration::from_secs(1);
/// In a demonstration this many times in that span.
const TICKS_OF_DEMONSTRATION: u32 = 2;
/// The setting under which made-up clocks are kept.
const CLOCKS: &str = "made-up-clocks";
/// What an office tells again is kept again only where it is this far from what was told before, in seconds of the site.
const APART_SECONDS: u64 = 120;

/// A made-up clock, and when it was told.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct MadeUp {
    clock: SiteClock,
    ours_ms: f64,
}

impl MadeUp {
    fn of(clock: SiteClock) -> Self {
        MadeUp { clock, ours_ms: now_ms() }
    }

    fn passed(&self) -> Duration {
        Duration::from_secs_f64(((now_ms() - self.ours_ms) / 1000.0).max(0.0))
    }

    fn seconds(&self) -> i64 {
        self.clock.after(self.passed()).seconds()
    }

    fn speed(&self) -> f64 {
        self.clock.speed_after(self.passed())
    }

    /// As it is kept: a line without its job. Thousandths of the speed are enough, and whole numbers cost no bytes to read.
    fn line(&self) -> String {
        let SiteClock { site, speed, fast_until, job: _ } = &self.clock;
        format!("{} {site} {} {fast_until}", self.ours_ms as i64, (speed * 1000.0) as i64)
    }

    /// What was kept; `None`: not in this form.
    fn of_line(job: &str, line: &str) -> Option<Self> {
        let mut words = line.split(' ');
        let ours_ms = words.next()?.parse::<i64>().ok()? as f64;
        let site = Moment::parse(words.next()?).ok()?;
        let speed = words.next()?.parse::<i64>().ok().filter(|speed| *speed > 0)? as f64 / 1000.0;
        let fast_until = Moment::parse(words.next()?).ok()?;
        Some(MadeUp { clock: SiteClock { job: job.to_owned(), site, speed, fast_until }, ours_ms })
    }

    /// Whether it is the clock that was told before, still running as it did.
    fn goes_on(&self, before: &MadeUp) -> bool {
        let same_until = self.clock.fast_until == before.clock.fast_until;
        same_until && self.seconds().abs_diff(before.seconds()) < APART_SECONDS
    }
}

impl Device {
    /// Seconds since 1970 on the clock of a job.
    fn site_seconds(self, job: &str) -> i64 {
        let made_up = self.inner().clocks.borrow().get(job).map(MadeUp::seconds);
        made_up.unwrap_or_else(now_seconds)
    }

    /// The site clock of a job. Not tracked: read `tick` to be called again.
    ///
    /// The zone is that of the job; before the job is opened, that of the device. A practice has its own clock.
    pub(crate) fn now(self, job: &str) -> Moment {
        if let Some(at) = self.practice_now(job) {
            return at;
        }
        let seconds = self.site_seconds(job);
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

    /// The desk told of its clock: only a demonstration has one of its own. A job that is no rehearsal keeps a made-up
    /// clock only until a desk is met that does not tell of it: it may be written in for good from then on.
    pub(super) fn follow(self, clock: Option<SiteClock>) {
        let told = clock.filter(|clock| clock.speed > 0.0 && clock.speed.is_finite()).map(MadeUp::of);
        let inner = self.inner();
        let mut clocks = inner.clocks.borrow_mut();
        let known = clocks.len();
        clocks.retain(|job, _| {
            told.as_ref().is_some_and(|told| told.clock.job == *job) || self.is_rehearsal(job)
        });
        let mut changed = clocks.len() != known;
        if let Some(told) = told {
            changed |= clocks.get(&told.clock.job).is_none_or(|before| !told.goes_on(before));
            clocks.insert(told.clock.job.clone(), told);
        }
        let lines = |(job, made_up): (&String, &MadeUp)| (job.clone(), made_up.line());
        let lines = changed.then(|| clocks.iter().map(lines).collect::<BTreeMap<_, _>>());
        drop(clocks);
        self.show_speeds();
        if let Some(lines) = lines {
            self.set_later(CLOCKS, lines);
        }
    }

    fn is_rehearsal(self, job: &str) -> bool {
        self.jobs.with_untracked(|cards| cards.iter().any(|card| card.rehearsal && card.name == job))
    }

    /// The made-up clocks that were kept.
    pub(super) async fn read_clocks(self) -> Result<(), Trouble> {
        if let Some(lines) = self.setting::<BTreeMap<String, String>>(CLOCKS).await? {
            let kept = lines.into_iter().filter_map(|(job, line)| Some((MadeUp::of_line(&job, &line)?, job)));
            *self.inner().clocks.borrow_mut() = kept.map(|(made_up, job)| (job, made_up)).collect();
            self.show_speeds();
        }
        Ok(())
    }

    /// Says which clocks are made up, and how fast each runs.
    fn show_speeds(self) {
        let inner = self.inner();
        let clocks = inner.clocks.borrow();
        let speeds: BTreeMap<String, f64> =
            clocks.iter().map(|(job, made_up)| (job.clone(), made_up.speed())).collect();
        if self.made_up_clocks.with_untracked(|shown| *shown != speeds) {
            self.made_up_clocks.set(speeds);
            // What was reckoned for the other clock must not stand for a moment longer.
            self.tick.set(now_seconds());
        }
    }

    /// Begins to tick.
    pub(super) fn start_clock(self) {
        let mut passed = 0;
        every(TICK / TICKS_OF_DEMONSTRATION, move || {
            passed += 1;
            let whole = passed % TICKS_OF_DEMONSTRATION == 0;
            if whole || self.made_up_clocks.with_untracked(|clocks| !clocks.is_empty()) {
                self.show_speeds();
                self.tick.set(now_seconds());
            }
        });
    }
}
