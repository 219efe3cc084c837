//! Will the pour end in time? The rest of the day, played some thousand times.
//!
//! Plant, trucks, road, hopper, tests, tremie and casing work wait for each other. A plan adds up what usually
//! happens; this plays what may happen, from the minute the question is asked: how probable it is that casing
//! and inserts are done within the life of the oldest concrete, that placing stops for longer than it may,
//! and how many trucks make it safe.
//!
//! ```text
//!   plant ── loads one truck after the other ──▶ road ──▶ fresh test ──▶ queue ──▶ hopper ──▶ back to the plant
//!                                                                              position, discharge,
//!                                                                              then pipes and casing
//! ```
//!
//! Words: *bay* = where the plant loads one truck at a time; *gap* = from the end of one discharge to the
//! start of the next; *safe* = in time, and no gap over the limit.
//! Units: seconds after `now` inside.
//! Never: read a clock; draw without a seed; know a breakdown, a refused load or a storm, which no duration
//! of the plan holds.

mod duration;
mod outlook;
mod play;
mod seen;

pub use duration::{HowLong, Learned};
pub use outlook::{DayOutlook, Spread};
pub use seen::SoFar;

use crate::estimate::Estimate;
use play::{Played, Stage};
use quantity::Span;

/// How long each part of the round takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Durations {
    /// One truck in the plant's bay.
    pub bay: HowLong,
    /// From batched to the site, as ticket and gate show it; loading is part of it.
    pub haul: HowLong,
    /// Fresh tests on one load, before it may go in.
    pub test: HowLong,
    /// From a free hopper to the first concrete of the next truck.
    pub position: HowLong,
    /// Discharging one load.
    pub discharge: HowLong,
    /// From the end of discharge to the plant, washing down included.
    pub back: HowLong,
    /// Taking one section off the line.
    pub section: HowLong,
    /// One lift of the temporary casing.
    pub lift: HowLong,
    /// From the last lift until the inserts are in.
    pub finish: HowLong,
}

/// Work at the hopper after a load, while nothing can be placed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WorkAfter {
    /// After which load of the pour, the first being one.
    pub load: u32,
    /// How many sections come off the line.
    pub sections: u32,
    /// How many times the casing is lifted.
    pub lifts: u32,
}

/// The pour as it is planned.
#[derive(Debug, Clone, PartialEq)]
pub struct PourDay {
    /// How long each part of the round takes.
    pub durations: Durations,
    /// As how many of today's own loads the planned durations count.
    pub plan_worth: f64,
    /// Loads that are not batched yet.
    pub loads_left: u32,
    /// The plant sends loads no closer than this.
    pub headway: Option<Span>,
    /// Every so many loads one is tested, the first among them; zero: none.
    pub test_every: u32,
    /// Work at the hopper between loads and after the last one.
    pub work: Vec<WorkAfter>,
    /// Slump life of the oldest concrete.
    pub life: Estimate<Span>,
    /// How long placing may stop.
    pub gap_limit: Span,
}

/// How many days are played, and from which seed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sample {
    /// Days.
    pub days: u32,
    /// Same seed, same days.
    pub seed: u64,
}

/// What "safe enough" means.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Safe {
    /// Least probability of ending in time without a gap over the limit.
    pub probability: f64,
    /// More trucks than these are not to be had.
    pub most_trucks: u32,
}

/// Why a day cannot be played.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DayError {
    /// A time below zero, or a slow time that is shorter than the usual one.
    Duration {
        /// As given.
        given: HowLong,
    },
    /// A plan that counts for nothing leaves a duration without a value.
    PlanWorthNothing,
    /// Nothing is left to play: no load on its way or to come, and none seen.
    NoLoad,
    /// Loads are left, and no truck.
    NoTruck,
    /// No day was to be played.
    NoDay,
    /// No load has a batch time, so nobody knows how old the oldest concrete is.
    NoBatchTime,
    /// A load ends something before it begins, or after now.
    Backwards {
        /// Index of the load.
        load: usize,
    },
}

impl std::fmt::Display for DayError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            DayError::Duration { given } => write!(
                f,
                "{:.0} min as usual and {:.0} min as slow are no duration",
                given.usual.to_minutes(),
                given.slow.to_minutes()
            ),
            DayError::PlanWorthNothing => write!(f, "the plan has to count as a part of a load at least"),
            DayError::NoLoad => write!(f, "there is no load to play the day with"),
            DayError::NoTruck => write!(f, "loads are left, and there is no truck"),
            DayError::NoDay => write!(f, "one day at least has to be played"),
            DayError::NoBatchTime => write!(f, "no load has a batch time"),
            DayError::Backwards { load } => {
                write!(f, "the times of load {} do not follow each other", load + 1)
            }
        }
    }
}

impl std::error::Error for DayError {}

impl PourDay {
    /// Plays the rest of the day.
    ///
    /// Each day draws how this day differs from the plan, then every duration, and lets plant, road and hopper
    /// go on from what is seen so far: each serves one truck after the other, as they come. A time that is
    /// going on is drawn from what is left of it.
    ///
    /// | argument | meaning |
    /// |---|---|
    /// | `so_far` | the loads seen by now; without one the pour is begun by the first truck at `now` |
    /// | `trucks` | in the round; loads seen took those that were batched last |
    /// | `sample` | how many days, and the seed |
    ///
    /// **Valid for** one plant with one bay, one hopper, and trucks that stay in the round; the whole pour is
    /// as old as its first batch. A breakdown, a refused load or a storm is not played.
    ///
    /// **Errors** for a duration below zero, times that run backwards, no load, no truck, no day, or loads
    /// none of which has a batch time.
    ///
    /// **Source**: event simulation; equal to [`crate::pour_plan`] where nothing varies, to closed forms where
    /// one duration does, and to an independent simulation in `numpy`.
    pub fn play(&self, so_far: &SoFar<'_>, trucks: u32, sample: Sample) -> Result<DayOutlook, DayError> {
        let stage = Stage::set(self, so_far, trucks)?;
        if sample.days == 0 {
            return Err(DayError::NoDay);
        }
        let played: Vec<Played> = stage.days(sample).collect();
        Ok(outlook::of(&played, self))
    }

    /// The outlook for each number of trucks, up to the first that is safe enough or the most there are.
    ///
    /// The last of them is the answer when it is safe enough; otherwise no number to be had is. Every number
    /// is played with the same draws.
    ///
    /// **Errors** as [`PourDay::play`].
    ///
    /// **Source**: search from one truck up.
    pub fn trucks_until_safe(
        &self,
        so_far: &SoFar<'_>,
        safe: Safe,
        sample: Sample,
    ) -> Result<Vec<(u32, DayOutlook)>, DayError> {
        let mut tried = Vec::new();
        for trucks in 1..=safe.most_trucks {
            let outlook = self.play(so_far, trucks, sample)?;
            tried.push((trucks, outlook));
            if outlook.safe.value >= safe.probability {
                break;
            }
        }
        if tried.is_empty() { Err(DayError::NoTruck) } else { Ok(tried) }
    }
}

#[cfg(test)]
mod tests;
