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
pub(crate) use concrete::finished;

mod concrete;
mod excavation;
mod finish;
mod fluid;
mod placing;

use crate::finding::Finding;
use crate::measure::Measurement;
use crate::picture::Picture;
use crate::reckon::Reckoning;
use criteria::Measured;
use quantity::Moment;
use record::kinds::{DrillingStarted, EntryKind, Family as Kinds};
use record::{EntryId, Log};

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
        let starts = self
            .picture
            .loads
            .iter()
            .filter_map(|load| Some((load.started.or(load.ended)?, *load.entries.get(1)?)));
        starts.min_by_key(|(at, _)| *at)
    }

    /// When concrete last went in, once every load has ended and somebody wrote something later than the
    /// pour, or the concrete stands at the cut-off.
    fn pour_finished(&self) -> Option<Moment> {
        let finished = self.picture.concrete_finished()?;
        let after = |line: &&record::Line<'_>| {
            line.at > finished && line.body.kind().family == Kinds::After && line.stands()
        };
        let cut_off = self.picture.plan.as_ref().map(|plan| plan.cut_off);
        let level = self.picture.concrete.last().map(|level| level.surface.mean.value);
        let full = level.zip(cut_off).is_some_and(|(level, cut_off)| level >= cut_off);
        let later = self.log.lines.iter().any(|line| after(&line));
        (full || later || self.log.last::<record::kinds::OverPoured>().is_some()).then_some(finished)
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
    concrete::measure,
    placing::measure,
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
pub(crate) fn from_findings(measurement: Measurement, findings: &[Finding]) -> Measurement {
    let value = match measurement.fact {
        "fluid.within_limits_for_concrete" => {
            fluid::within_limits(findings, &measurement.evidence, ".before_concrete")
        }
        "fluid.tank_passed_before_use" => match measurement.value {
            Some(Measured::Truth(true)) => {
                fluid::within_limits(findings, &measurement.evidence, ".introduced")
            }
            _ => Some(false),
        },
        _ => finish::tolerances_measured(findings),
    };
    Measurement { value: value.map(Measured::from), ..measurement }
}
