//! A day that is over, lived through again: the notes of it come one by one, as its own clock passes them.
//!
//! Whoever tries the program out sees a shaft being poured, and can step in at any minute: the clocks, the
//! forecasts and the drawings are those somebody at the hole would have had.
//!
//! Words: *replay* = the notes of a day as steps, and the clock that passes them.
//! Never: mix a replay with a record that is something else.

mod plan;

pub(crate) use plan::Step;

use crate::folder::{Folder, shaft_of};
use crate::moment::moment_of;
use crate::problem::{MISUNDERSTOOD, NOT_SERVED, Problem};
use notes::Notes;
use quantity::Moment;
use record::kinds::LoadArrived;
use record::{DeviceId, EntryId, Held, Log, Record};
use rehearse::day::Campaign;
use std::collections::BTreeSet;
use wire::http::SiteClock;

/// How long before the first load a replay begins, where nobody says when: long enough to look around.
const LEAD_SECONDS: i64 = 10 * 60;

/// What a person asked for.
pub(crate) struct Ask<'a> {
    /// The shaft whose day it is.
    pub(crate) shaft: &'a str,
    /// When to begin, as typed.
    pub(crate) from: Option<&'a str>,
    /// How many times faster than ours the clock runs.
    pub(crate) speed: f64,
}

/// The notes of a day as steps, and the clock that passes them.
#[derive(Debug)]
pub(crate) struct Replay {
    /// The job.
    pub(crate) job: String,
    /// The shaft.
    pub(crate) shaft: String,
    /// What was written before the clock starts, and is not kept yet.
    pub(crate) before: Vec<Held>,
    /// What comes while it runs.
    pub(crate) steps: Vec<Step>,
    /// The clock.
    pub(crate) clock: SiteClock,
}

impl Replay {
    /// When the clock starts.
    pub(crate) fn begins(&self) -> Moment {
        self.clock.site
    }

    /// The replay of some notes. `kept` is what the folder holds of their job.
    pub(crate) fn of(
        folder: &Folder,
        notes: &[Notes],
        kept: &Record,
        ask: &Ask<'_>,
    ) -> Result<Self, Problem> {
        Replay::of_steps(plan::plan(folder, notes)?, kept, ask)
    }

    /// The replay of the last day of a made-up job.
    pub(crate) fn of_made_up(
        folder: &Folder,
        campaign: &Campaign,
        kept: &Record,
        ask: &Ask<'_>,
    ) -> Result<Self, Problem> {
        Replay::of_steps(plan::plan_made_up(folder, campaign)?, kept, ask)
    }

    fn of_steps(steps: Vec<Step>, kept: &Record, ask: &Ask<'_>) -> Result<Self, Problem> {
        let whole = Record::of(steps.iter().map(|step| Held::Known(step.entry.clone())));
        let whole = whole.map_err(|error| {
            let what = format!("The notes cannot be one record: {error}.");
            Problem::new(what, NOT_SERVED, "Check that all are of one job.")
        })?;
        same_replay(&steps, kept)?;
        let shaft = shaft_of(&whole, ask.shaft)?;
        let log = Log::of(&whole, Some(&shaft), None);
        let asked = moment_of(&log, ask.from, "--from")?;
        let begins = begin(&steps, kept, asked.or_else(|| before_first_load(&log)));
        let begins = begins.ok_or_else(|| no_pour(&shaft))?;
        let last = last_of_day(&steps, &shaft, begins);
        let (before, after): (Vec<Step>, Vec<Step>) = steps.into_iter().partition(|step| step.at <= begins);
        let before = before.into_iter().map(|step| Held::Known(step.entry));
        let before = before.filter(|held| kept.get(&held.id()).is_none()).collect();
        let job = whole.job().unwrap_or_default().to_owned();
        let fast_until = last.unwrap_or(begins);
        let clock = SiteClock { job: job.clone(), site: begins, speed: ask.speed, fast_until };
        Ok(Replay { job, shaft, before, steps: after, clock })
    }
}

/// What is kept of the job is this replay, as far as it came, and what other devices added to it.
fn same_replay(steps: &[Step], kept: &Record) -> Result<(), Problem> {
    if kept.is_empty() {
        return Ok(());
    }
    let ours: BTreeSet<EntryId> = steps.iter().map(|step| step.entry.id).collect();
    let devices: BTreeSet<DeviceId> = steps.iter().map(|step| step.entry.device).collect();
    let begun = kept.entries().any(|held| ours.contains(&held.id()));
    let stranger = |held: &Held| devices.contains(&held.place().0) && !ours.contains(&held.id());
    if begun && !kept.entries().any(stranger) {
        return Ok(());
    }
    let job = kept.job().unwrap_or_default();
    let next = "Name a new folder, or leave --relive away to serve what is there.";
    let what = format!("The folder holds the job `{job}` already, and not as these notes tell it.");
    Err(Problem::new(what, NOT_SERVED, next))
}

/// The clock starts when it was asked to, or where it was when the program was stopped.
fn begin(steps: &[Step], kept: &Record, asked: Option<Moment>) -> Option<Moment> {
    let came = steps.iter().filter(|step| kept.get(&step.entry.id).is_some()).map(|step| step.at).max();
    asked.map(|asked| came.map_or(asked, |came| came.max(asked)))
}

fn before_first_load(log: &Log<'_>) -> Option<Moment> {
    log.each::<LoadArrived>().map(|(line, _)| line.at).min().map(|load| load.plus_seconds(-LEAD_SECONDS))
}

/// When the last thing about a shaft was written on the day of a moment.
fn last_of_day(steps: &[Step], shaft: &str, begins: Moment) -> Option<Moment> {
    let own = steps.iter().filter(|step| step.entry.shaft.as_deref() == Some(shaft));
    own.map(|step| step.at).filter(|at| at.date() == begins.date()).max()
}

fn no_pour(shaft: &str) -> Problem {
    let what = format!("The notes tell of no load of concrete for {shaft}.");
    let next = "Say when to begin: --from \"2026-05-04 07:00\".";
    Problem::new(what, NOT_SERVED, next).exit(MISUNDERSTOOD)
}
