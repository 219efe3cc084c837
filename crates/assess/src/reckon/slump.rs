//! Slump life: how long each load stays workable, from the mix's trial and the tests of the day.

use crate::assumed;
use crate::picture::{Load, Picture};
use calc::estimate::Estimate;
use calc::slump::{Adjustment, DayCurve, SlumpAtAge, SlumpError, SlumpErrors, SlumpIssue, SlumpTrial};
use quantity::{Length, Moment, Span};
use record::kinds::MixApproved;
use record::{EntryId, Log};

/// Slump life of the loads of a pour.
#[derive(Debug, Clone)]
pub struct SlumpReckoning {
    /// The trial.
    pub trial: SlumpTrial,
    /// The mix it belongs to.
    pub mix: String,
    /// Entry of the mix.
    pub mix_entry: EntryId,
    /// Least slump until casing is out and inserts are in, as the mix says.
    pub limit: Option<Length>,
    /// Loads in the order they arrived.
    pub loads: Vec<LoadLife>,
    /// What is odd about trial or tests.
    pub issues: Vec<SlumpIssue>,
}

/// The life of one load.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadLife {
    /// Its ticket.
    pub ticket: String,
    /// When it was batched.
    pub batched: Option<Moment>,
    /// Age at which it reaches the limit; `None` without a limit, when the trial does not reach so far, or
    /// when it was below the limit from the start.
    pub life: Option<Estimate<Span>>,
    /// The trial was still above the limit at its end: at least this age is sure.
    pub sure_until: Option<Span>,
    /// It was below the limit from the start: there is no life to speak of.
    pub below_from_start: bool,
    /// The entries behind it.
    pub entries: Vec<EntryId>,
    /// Slump tests of the load, by age.
    pub tests: Vec<SlumpAtAge>,
}

impl LoadLife {
    /// When it reaches the limit; for a load that was below it from the start, when it was batched.
    pub fn ends(&self) -> Option<Moment> {
        let seconds = match self.life {
            Some(life) => life.value.to_seconds(),
            None if self.below_from_start => 0.0,
            None => return None,
        };
        Some(self.batched?.plus_seconds(seconds as i64))
    }
}

/// How long a load keeps more than a slump.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Life {
    /// Up to this age.
    Until(Estimate<Span>),
    /// At least up to the last age of the trial.
    AtLeast(Span),
    /// It never had it.
    Never,
}

impl SlumpReckoning {
    pub(super) fn of(log: &Log<'_>, picture: &Picture<'_>) -> Option<Self> {
        let name = picture.loads.iter().find_map(|load| load.arrival.mix.as_deref());
        let mix = picture.mix(log, name)?;
        let mix_entry = log.each::<MixApproved>().find(|(_, other)| other.mix == mix.mix)?.0.entry.id;
        let points: Vec<SlumpAtAge> =
            mix.trial.iter().map(|p| SlumpAtAge { age: p.age.value(), slump: p.slump.value() }).collect();
        let (trial, mut issues) = SlumpTrial::new(&points).ok()?;
        let limit = mix.slump_end.as_ref().map(|slump| slump.value());
        let of_mix = |load: &&Load<'_>| load.arrival.mix.as_deref().is_none_or(|other| other == mix.mix);
        let loads: Vec<&Load<'_>> = picture.loads.iter().filter(|load| load.used()).filter(of_mix).collect();
        let tests: Vec<Vec<SlumpAtAge>> = loads.iter().map(|load| tests_of(load)).collect();
        let (curve, more) = DayCurve::fit(&trial, &tests, Adjustment::Offset, errors()).ok()?;
        issues.extend(more);
        let lives = loads.iter().enumerate().map(|(index, load)| life(&curve, index, load, limit)).collect();
        Some(SlumpReckoning {
            mix: mix.mix.clone(),
            mix_entry,
            limit,
            loads: lives,
            issues,
            trial: trial.clone(),
        })
    }

    /// Slump of a load at an age: the trial, shifted by the load's own tests or else by the mean of the day;
    /// `None` at an age the trial does not cover.
    pub fn slump_of(&self, ticket: &str, age: Span) -> Option<Length> {
        self.slump_at(ticket, age).map(|slump| slump.value)
    }

    /// The same with its standard error.
    pub fn slump_at(&self, ticket: &str, age: Span) -> Option<Estimate<Length>> {
        let place = self.loads.iter().position(|load| load.ticket == ticket).unwrap_or(self.loads.len());
        self.with_curve(|curve| curve.slump_at(place, age).ok())?
    }

    /// How long each load keeps more than a slump, in the order of the loads; empty when the day gives no
    /// curve.
    pub fn lives_above(&self, slump: Length) -> Vec<Option<Life>> {
        let lives =
            self.with_curve(|curve| (0..self.loads.len()).map(|load| life_of(curve, load, slump)).collect());
        lives.unwrap_or_default()
    }

    /// How long a load that nobody tested keeps more than a slump: the trial, and the mean of the day's tests.
    pub fn life_of_another(&self, slump: Length) -> Option<Life> {
        self.with_curve(|curve| life_of(curve, self.loads.len(), slump))?
    }

    /// The moments between which a load comes down to a slump with a probability; `None` for an end the trial does not
    /// see, or a load without a batch time.
    pub fn ends_between(&self, ticket: &str, slump: Length, probability: f64) -> [Option<Moment>; 2] {
        let place = self.loads.iter().position(|load| load.ticket == ticket);
        let between = place.and_then(|place| {
            let batched = self.loads[place].batched?;
            let interval = self.with_curve(|curve| curve.life_interval(place, slump, probability).ok())??;
            Some(interval.moments(batched))
        });
        between.unwrap_or_default()
    }

    /// The slump of each load at a moment, in the order of the loads; `None` for one whose age is not known
    /// or not covered by the trial.
    pub fn slumps_on(&self, at: Moment) -> Vec<Option<Estimate<Length>>> {
        let slump = |curve: &DayCurve<'_>, place: usize, load: &LoadLife| {
            curve.slump_at(place, Span::minutes(at.minutes_since(load.batched?))).ok()
        };
        let loads = self.loads.iter().enumerate();
        let slumps = self.with_curve(|curve| loads.map(|(place, load)| slump(curve, place, load)).collect());
        slumps.unwrap_or_default()
    }

    /// Slump life of the mix by its trial alone; `None` without a limit, or where the trial does not tell.
    pub fn trial_life(&self) -> Option<Span> {
        self.trial.age_at(self.limit?).ok()
    }

    /// The day's curve; after the loads stands one that nobody tested, for a ticket that is none of them.
    fn with_curve<T>(&self, ask: impl FnOnce(&DayCurve<'_>) -> T) -> Option<T> {
        let mut tests: Vec<Vec<SlumpAtAge>> = self.loads.iter().map(|load| load.tests.clone()).collect();
        tests.push(Vec::new());
        let (curve, _) = DayCurve::fit(&self.trial, &tests, Adjustment::Offset, errors()).ok()?;
        Some(ask(&curve))
    }

    /// The load whose concrete reaches the limit first.
    pub fn first_to_end(&self) -> Option<&LoadLife> {
        self.loads.iter().filter(|load| load.ends().is_some()).min_by_key(|load| load.ends())
    }
}

fn life_of(curve: &DayCurve<'_>, load: usize, slump: Length) -> Option<Life> {
    match curve.life(load, slump) {
        Ok(life) => Some(Life::Until(life)),
        Err(SlumpError::NotReached { sure_until }) => Some(Life::AtLeast(sure_until)),
        Err(SlumpError::BelowFromTheStart) => Some(Life::Never),
        Err(_) => None,
    }
}

fn errors() -> SlumpErrors {
    SlumpErrors { test: assumed::slump_test_error(), between_loads: assumed::slump_between_loads() }
}

fn tests_of(load: &Load<'_>) -> Vec<SlumpAtAge> {
    let Some(batched) = load.batched else { return Vec::new() };
    let test = |test: &crate::picture::FreshTest| {
        let age = Span::minutes(test.at.minutes_since(batched));
        Some(SlumpAtAge { age, slump: test.slump? })
    };
    load.tests.iter().filter_map(test).collect()
}

fn life(curve: &DayCurve<'_>, index: usize, load: &Load<'_>, limit: Option<Length>) -> LoadLife {
    let found = limit.map(|limit| curve.life(index, limit));
    let sure_until = match &found {
        Some(Err(SlumpError::NotReached { sure_until })) => Some(*sure_until),
        _ => None,
    };
    LoadLife {
        ticket: load.ticket.to_owned(),
        batched: load.batched,
        below_from_start: matches!(found, Some(Err(SlumpError::BelowFromTheStart))),
        life: found.and_then(Result::ok),
        sure_until,
        entries: load.entries.clone(),
        tests: tests_of(load),
    }
}
