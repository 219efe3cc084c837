//! Slump life: how long each load stays workable, from the mix's trial and the tests of the day.

use crate::assumed;
use crate::picture::{Load, Picture};
use calc::estimate::Estimate;
use calc::slump::{Adjustment, DayCurve, SlumpAtAge, SlumpErrors, SlumpIssue, SlumpTrial};
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
    /// Age at which it reaches the limit; `None` without a limit, or when the trial does not reach so far.
    pub life: Option<Estimate<Span>>,
    /// The trial was still above the limit at its end: at least this age is sure.
    pub sure_until: Option<Span>,
    /// The entries behind it.
    pub entries: Vec<EntryId>,
    /// Slump tests of the load, by age.
    pub tests: Vec<SlumpAtAge>,
}

impl LoadLife {
    /// When it reaches the limit.
    pub fn ends(&self) -> Option<Moment> {
        let seconds = self.life?.value.to_seconds();
        Some(self.batched?.plus_seconds(seconds as i64))
    }
}

impl SlumpReckoning {
    pub(super) fn of(log: &Log<'_>, picture: &Picture<'_>) -> Option<Self> {
        let name = picture.loads.first().and_then(|load| load.arrival.mix.as_deref());
        let mix = picture.mix(log, name)?;
        let mix_entry = log.each::<MixApproved>().find(|(_, other)| other.mix == mix.mix)?.0.entry.id;
        let points: Vec<SlumpAtAge> =
            mix.trial.iter().map(|p| SlumpAtAge { age: p.age.value(), slump: p.slump.value() }).collect();
        let (trial, mut issues) = SlumpTrial::new(&points).ok()?;
        let limit = mix.slump_end.as_ref().map(|slump| slump.value());
        let loads: Vec<&Load<'_>> = picture.loads.iter().filter(|load| load.used()).collect();
        let tests: Vec<Vec<SlumpAtAge>> = loads.iter().map(|load| tests_of(load)).collect();
        let errors =
            SlumpErrors { test: assumed::slump_test_error(), between_loads: assumed::slump_between_loads() };
        let (curve, more) = DayCurve::fit(&trial, &tests, Adjustment::Offset, errors).ok()?;
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
        let own = self.loads.iter().find(|load| load.ticket == ticket).map(|load| self.shifts(load))?;
        let day: Vec<f64> = self.loads.iter().flat_map(|load| self.shifts(load)).collect();
        let shifts = if own.is_empty() { day } else { own };
        let shift = if shifts.is_empty() { 0.0 } else { shifts.iter().sum::<f64>() / shifts.len() as f64 };
        Some(Length::meters(self.trial.slump_at(age).ok()?.to_meters() + shift))
    }

    fn shifts(&self, load: &LoadLife) -> Vec<f64> {
        let shift = |test: &SlumpAtAge| {
            Some(test.slump.to_meters() - self.trial.slump_at(test.age).ok()?.to_meters())
        };
        load.tests.iter().filter_map(shift).collect()
    }

    /// The load whose concrete reaches the limit first.
    pub fn first_to_end(&self) -> Option<&LoadLife> {
        self.loads.iter().filter(|load| load.ends().is_some()).min_by_key(|load| load.ends())
    }
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
        Some(Err(calc::slump::SlumpError::NotReached { sure_until })) => Some(*sure_until),
        _ => None,
    };
    LoadLife {
        ticket: load.ticket.to_owned(),
        batched: load.batched,
        life: found.and_then(Result::ok),
        sure_until,
        entries: load.entries.clone(),
        tests: tests_of(load),
    }
}
