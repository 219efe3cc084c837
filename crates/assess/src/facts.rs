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
mod over;
mod placing;
mod pouring;
mod slump;
mod withdrawal;
mod worst;

pub(crate) use fluid::last_round;
pub(crate) use over::pour_over;
pub(crate) use slump::{casing_stands, finished};
pub(crate) use withdrawal::balancing_head;

use crate::finding::Finding;
use crate::measure::Measurement;
use crate::picture::Picture;
use crate::reckon::Reckoning;
use criteria::Measured;
use quantity::Moment;
use record::kinds::{DrillingStarted, EntryKind};
use record::{EntryId, Log};

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

    /// When concrete last went in, with the entry that says so, once the pour is over: see [`pour_over`].
    fn pour_over(&self) -> Option<(Moment, EntryId)> {
        pour_over(self.log, self.picture)
    }

    /// When concrete last went in, once the pour is over.
    fn pour_finished(&self) -> Option<Moment> {
        self.pour_over().map(|(at, _)| at)
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
