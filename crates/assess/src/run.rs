//! The assessment: picture, reckoning, facts, verdicts, forecasts, in that order.

use crate::dispute;
use crate::doubt::{self, Doubt};
use crate::facts::{self, Sources, situation::first_charge_needed, situation::situation};
use crate::finding::{Decided, Finding, Outcome, dispositions};
use crate::forecasts::{self, Forecast, View};
use crate::measure::Measurement;
use crate::own_limits::OwnLimits;
use crate::picture::Picture;
use crate::reckon::Reckoning;
use criteria::{Conditions, Dimension, Dimensions, Fact, InForce, SetInForce, Situation, judge};
use quantity::{InOrder, Length, Moment};
use record::kinds::FindingDisposed;
use record::{Log, Question, plausible};
use std::borrow::Cow;

/// What the record of a shaft means at a time.
#[derive(Debug, Clone)]
pub struct Assessment<'r> {
    /// When.
    pub at: Moment,
    /// The shaft as the log tells it.
    pub picture: Picture<'r>,
    /// What the formulas make of it.
    pub reckoning: Reckoning,
    /// The conditions and dimensions the criteria hang on.
    pub situation: Situation,
    /// Every verdict, in the defined order.
    pub findings: Vec<Finding>,
    /// What is coming, the most urgent first.
    pub forecasts: Vec<Forecast>,
    /// Questions about what was written.
    pub questions: Vec<Question>,
    /// What the formulas found odd, in the order of the work.
    pub issues: Vec<Doubt>,
}

impl Assessment<'_> {
    /// Facts that a criterion asks for and nobody measured, or that cannot be judged yet, in the order of the
    /// findings; each once. Which entries settle one is said by the fact.
    pub fn missing(&self) -> Vec<&'static Fact> {
        let open = |finding: &&Finding| {
            finding.criterion.is_some()
                && matches!(finding.outcome(), Outcome::NotMeasured | Outcome::CannotSay)
        };
        let mut facts: Vec<&'static Fact> = Vec::new();
        for finding in self.findings.iter().filter(open) {
            if !facts.iter().any(|fact| fact.name == finding.fact.name) {
                facts.push(finding.fact);
            }
        }
        facts
    }
}

/// Assesses the log of a shaft by the criteria in force, at a time.
///
/// The log must be that of the same time: `Log::of(record, Some(shaft), Some(at))`.
pub fn assess<'r>(log: &Log<'r>, set: &SetInForce, at: Moment) -> Assessment<'r> {
    let picture = Picture::of(log, at);
    let reckoning = Reckoning::of(log, &picture);
    let sources = Sources { log, picture: &picture, reckoning: &reckoning };
    let situation = with_first_charge(&sources, set, situation(&sources));
    let measured = dispute::marked(log, at, facts::all(&sources));
    let own = OwnLimits::of(log, &picture);
    let decided = log.each::<FindingDisposed>().collect();
    let by = By { set, own: &own, picture: &picture, shaft: &situation, decided };
    let (whole, single): (Vec<_>, Vec<_>) =
        measured.into_iter().partition(|(measurement, _)| facts::is_of_findings(measurement.fact));
    let mut findings = Vec::with_capacity(single.len());
    for (measurement, disputed) in &single {
        by.judge(measurement, *disputed, &mut findings);
    }
    // These are about the findings so far, not about each other.
    let so_far = findings.len();
    for (measurement, disputed) in whole {
        let disputed = disputed || rests_on_dispute(&findings[..so_far], &measurement);
        let measurement = facts::from_findings(measurement, &findings[..so_far]);
        by.judge(&measurement, disputed, &mut findings);
    }
    findings.put_in_order_by_made_key(Finding::order);
    let forecasts = forecasts::all(&View { sources, set, situation: &situation });
    let issues = doubt::all(&sources);
    let questions = plausible::questions(log);
    Assessment { at, findings, forecasts, questions, issues, situation, picture, reckoning }
}

/// What is known of a shaft that decides which criteria apply and what their limits come to, at a time.
///
/// The log must be that of the same time, as for [`assess`].
pub fn situation_of(log: &Log<'_>, set: &SetInForce, at: Moment) -> Situation {
    let picture = Picture::of(log, at);
    let reckoning = Reckoning::of(log, &picture);
    let sources = Sources { log, picture: &picture, reckoning: &reckoning };
    with_first_charge(&sources, set, situation(&sources))
}

/// The first charge the set asks for hangs on the embedment the same set asks for.
fn with_first_charge(sources: &Sources<'_, '_>, set: &SetInForce, mut known: Situation) -> Situation {
    let view = View { sources: *sources, set, situation: &known };
    let embedment = view.least("line.embedment.least").map(Length::meters);
    if let Some(needed) = embedment.and_then(|embedment| first_charge_needed(sources, embedment)) {
        known.dimensions = known.dimensions.with(Dimension::FirstChargeNeeded, needed);
    }
    known
}

/// What a measurement is judged by.
struct By<'j, 'r> {
    set: &'j SetInForce,
    own: &'j OwnLimits,
    picture: &'j Picture<'r>,
    shaft: &'j Situation,
    decided: Vec<Decided<'j, 'r>>,
}

impl By<'_, '_> {
    /// A measurement by every criterion that applies to it.
    fn judge(&self, measurement: &Measurement, disputed: bool, findings: &mut Vec<Finding>) {
        let situation = self.situation(measurement);
        let fact = criteria::facts::named(measurement.fact).expect("checked when it was measured");
        let own: Vec<&InForce> = self.own.for_measurement(self.picture, measurement).collect();
        let mut of_set = self.set.judge(fact.name, measurement.value, &situation);
        // Where the job has a limit of its own, the silence of the set is no finding.
        of_set.retain(|(criterion, _)| criterion.is_some() || own.is_empty());
        let of_job = own.iter().map(|own| (Some(*own), judge(own, measurement.value, &situation.dimensions)));
        // A limit that stands in the set as well is told once.
        let said: Vec<_> = of_set.iter().filter_map(|(_, judgement)| judgement.limits).collect();
        let of_job = of_job.filter(|(_, judgement)| judgement.limits.is_none_or(|own| !said.contains(&own)));
        let of_job: Vec<_> = of_job.collect();
        for (criterion, judgement) in of_set.into_iter().chain(of_job) {
            let decided =
                |c: &criteria::InForce| dispositions(&self.decided, &c.original.id, &measurement.evidence);
            let finding = Finding {
                fact,
                dispositions: criterion.map_or_else(Vec::new, decided),
                criterion: criterion.cloned(),
                subject: measurement.subject.clone(),
                value: measurement.value,
                aside: measurement.aside,
                judgement,
                at: measurement.at,
                disputed,
                evidence: measurement.evidence.clone(),
            };
            stands_on_entries(&finding);
            findings.push(finding);
        }
    }

    /// The situation of the shaft, with what is particular to a measurement.
    fn situation(&self, measurement: &Measurement) -> Cow<'_, Situation> {
        let plain =
            measurement.conditions == Conditions::new() && measurement.dimensions == Dimensions::new();
        if plain {
            return Cow::Borrowed(self.shaft);
        }
        Cow::Owned(Situation {
            conditions: self.shaft.conditions.clone().and(&measurement.conditions),
            dimensions: self.shaft.dimensions.clone().and(&measurement.dimensions),
        })
    }
}

/// A verdict that rests on nothing is a fault of this program, never of the record.
fn stands_on_entries(finding: &Finding) {
    let decided = matches!(finding.outcome(), Outcome::Meets | Outcome::Fails);
    assert!(!decided || !finding.evidence.is_empty(), "`{}` was judged without an entry", finding.fact.name);
}

/// A whole made of findings is disputed when one of them is.
fn rests_on_dispute(findings: &[Finding], measurement: &Measurement) -> bool {
    let part = |finding: &Finding| finding.evidence.iter().any(|entry| measurement.evidence.contains(entry));
    findings.iter().any(|finding| finding.disputed && part(finding))
}
