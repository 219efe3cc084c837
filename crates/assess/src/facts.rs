//! The facts: what the criteria may ask for, measured from log, picture and reckoning.
//!
//! One file a family. A fact that is due and was not measured is given without a value, so that it shows
//! as *not measured*; a fact that cannot be due here is not given at all.
//!
//! Words: *due* = the work has come to the point where the value should exist.
//! Never: judge.

pub mod situation;

mod before;
mod bottom;
mod cage;
mod concrete;
mod excavation;
mod finish;
mod fluid;
mod loads;
mod placing;
mod pouring;
mod slump;
mod withdrawal;
mod worst;

pub(crate) use fluid::last_round;
pub(crate) use slump::{casing_stands, finished};
pub(crate) use withdrawal::balancing_head;

use crate::finding::Finding;
use crate::measure::Measurement;
use crate::picture::Picture;
use crate::reckon::Reckoning;
use criteria::Measured;
use quantity::{Length, Moment};
use record::choices::LineType;
use record::kinds::{
    AnchorsSet, AsBuilt, ConduitSet, Curing, DrillingStarted, EntryKind, FormRemoved, IntegrityTest,
    OverPoured, TopFormed, Trimmed,
};
use record::{EntryId, Line, Log};

/// Facts that this version cannot measure, each with the reason. A criterion on one of them stays without a
/// value; the program says so rather than guess.
pub const NOT_MEASURED_YET: &[(&str, &str)] = &[
    (
        "neighbor.clear_distance",
        "it needs the times of the other shafts of the job; an assessment sees one shaft",
    ),
    ("loading.strength_share", "no entry says when pole, column or structure was set"),
    ("loading.age", "no entry says when pole, column or structure was set"),
    ("crosshole.velocity", "the record keeps delays of pairs, not first arrival times"),
];

/// Everything a fact is measured from.
#[derive(Clone, Copy)]
pub struct Sources<'v, 'r> {
    /// The log.
    pub log: &'v Log<'r>,
    /// The picture.
    pub picture: &'v Picture<'r>,
    /// The reckoning.
    pub reckoning: &'v Reckoning,
}

impl<'r> Sources<'_, 'r> {
    /// When the hole was begun.
    fn drilling_started(&self) -> Option<(Moment, EntryId)> {
        let said = self.log.each::<DrillingStarted>().next().map(|(line, _)| (line.at, line.entry.id));
        let first = self.picture.hole.iter().min_by_key(|step| step.from).map(|step| (step.from, step.entry));
        said.into_iter().chain(first).min_by_key(|(at, _)| *at)
    }

    /// When the machine first drilled, hand digging left out.
    fn machine_started(&self) -> Option<(Moment, EntryId)> {
        let machine = self.picture.hole.iter().filter(|step| !step.by_hand);
        machine.min_by_key(|step| step.from).map(|step| (step.from, step.entry))
    }

    /// When concrete first went in, with the entry that says so.
    fn concrete_started(&self) -> Option<(Moment, EntryId)> {
        self.picture.first_concrete()
    }

    /// When concrete last went in, with the entry that says so, once the pour is over.
    ///
    /// It is over when no load is going in and somebody wrote of good concrete at the top or of work that only
    /// follows a pour, or when the concrete stands where the plan wants it, no load waits and no line is in.
    fn pour_over(&self) -> Option<(Moment, EntryId)> {
        let (finished, entry) = self.picture.last_concrete()?;
        (self.is_full() || self.followed(finished)).then_some((finished, entry))
    }

    /// When concrete last went in, once the pour is over.
    fn pour_finished(&self) -> Option<Moment> {
        self.pour_over().map(|(at, _)| at)
    }

    /// The concrete stands at the cut-off, with what is to be trimmed above it, no load waits, and no line stands in
    /// it through which more would come: concrete may stand high because a casing is about to be drawn.
    fn is_full(&self) -> bool {
        let Some(plan) = &self.picture.plan else { return false };
        let over = plan.shaft.over_pour.as_ref().map_or(Length::ZERO, |height| height.value());
        let wanted = quantity::Elevation(plan.cut_off.0 + over);
        let level = self.picture.concrete.last().map(|level| level.surface.mean.value);
        let waits = self.picture.loads.iter().any(crate::picture::Load::waiting);
        let more =
            self.picture.lines.iter().any(|line| line.out.is_none() && line.line != LineType::FreeFall);
        level.is_some_and(|level| level >= wanted) && !waits && !more
    }

    /// Somebody wrote of good concrete at the top, or of work that only follows a pour.
    fn followed(&self, finished: Moment) -> bool {
        const FOLLOWS: [&str; 8] = [
            TopFormed::WORD,
            ConduitSet::WORD,
            AnchorsSet::WORD,
            Curing::WORD,
            FormRemoved::WORD,
            IntegrityTest::WORD,
            Trimmed::WORD,
            AsBuilt::WORD,
        ];
        let follows = |line: &Line<'_>| {
            line.at >= finished && FOLLOWS.contains(&line.body.kind().word) && line.stands()
        };
        self.log.last::<OverPoured>().is_some() || self.log.lines.iter().any(follows)
    }

    /// The entries of a kind that count.
    fn entries<K: EntryKind + 'r>(&self) -> Vec<EntryId> {
        self.log.each::<K>().map(|(line, _)| line.entry.id).collect()
    }
}

/// One family of facts.
type Family = fn(&Sources<'_, '_>) -> Vec<Measurement>;

/// The families, in the order of the work.
const FAMILIES: &[Family] = &[
    before::measure,
    excavation::measure,
    fluid::measure,
    bottom::measure,
    cage::measure,
    loads::measure,
    concrete::measure,
    slump::measure,
    pouring::measure,
    placing::measure,
    withdrawal::measure,
    finish::measure,
];

/// Every measurement of a shaft.
pub fn all(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    FAMILIES.iter().flat_map(|family| family(sources)).collect()
}

/// Facts about other findings: known only once those are judged.
const OF_FINDINGS: [&str; 3] =
    ["fluid.within_limits_for_concrete", "asbuilt.tolerances_checked", "fluid.tank_passed_before_use"];

/// Whether a fact is about other findings.
pub(crate) fn is_of_findings(fact: &str) -> bool {
    OF_FINDINGS.contains(&fact)
}

/// The measurement with the value that follows from the findings so far.
///
/// Until then its value is what follows from the record alone.
pub(crate) fn from_findings(measurement: Measurement, findings: &[Finding]) -> Measurement {
    let so_far = measurement.value;
    let judged = |stage| fluid::within_limits(findings, &measurement.evidence, stage).map(Measured::from);
    let value = match measurement.fact {
        "fluid.within_limits_for_concrete" => both(so_far, judged(".before_concrete")),
        "fluid.tank_passed_before_use" if so_far == Some(Measured::Truth(true)) => judged(".introduced"),
        "fluid.tank_passed_before_use" => so_far,
        // Some tolerances are measured before the survey; that all were checked rests on the survey itself.
        _ if measurement.evidence.is_empty() => None,
        _ => finish::tolerances_measured(findings).map(Measured::from),
    };
    Measurement { value, ..measurement }
}

/// Two answers to one question: a no of either is a no.
fn both(one: Option<Measured>, other: Option<Measured>) -> Option<Measured> {
    let no = Some(Measured::Truth(false));
    if one == no || other == no { no } else { one.or(other) }
}
