//! The assessment: picture, reckoning, facts, verdicts, forecasts, in that order.

use crate::dispute;
use crate::doubt::{self, Doubt};
use crate::facts::{self, Sources, situation::first_charge_needed, situation::situation};
use crate::finding::{Finding, Outcome, dispositions};
use crate::forecasts::{self, Forecast, View};
use crate::measure::Measurement;
use crate::picture::Picture;
use crate::reckon::Reckoning;
use criteria::{Dimension, Fact, SetInForce, Situation};
use quantity::{Length, Moment};
use record::{Log, Question, plausible};

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
    let judge =
        |(measurement, disputed): &(Measurement, bool)| judged(log, set, &situation, measurement, *disputed);
    let (whole, single): (Vec<_>, Vec<_>) =
        measured.into_iter().partition(|(measurement, _)| facts::is_of_findings(measurement.fact));
    let mut findings: Vec<Finding> = single.iter().flat_map(judge).collect();
    let whole = whole.into_iter().map(|(measurement, disputed)| {
        let disputed = disputed || rests_on_dispute(&findings, &measurement);
        (facts::from_findings(measurement, &findings), disputed)
    });
    let whole: Vec<Finding> = whole.collect::<Vec<_>>().iter().flat_map(judge).collect();
    findings.extend(whole);
    findings.sort_by(|a, b| a.order().cmp(&b.order()));
    let forecasts = forecasts::all(&View { sources, set, situation: &situation });
    let issues = doubt::all(&sources);
    let questions = plausible::questions(log);
    Assessment { at, findings, forecasts, questions, issues, situation, picture, reckoning }
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

/// A measurement by every criterion that applies to it.
fn judged(
    log: &Log<'_>,
    set: &SetInForce,
    shaft: &Situation,
    measurement: &Measurement,
    disputed: bool,
) -> Vec<Finding> {
    let situation = Situation {
        conditions: shaft.conditions.clone().and(&measurement.conditions),
        dimensions: shaft.dimensions.clone().and(&measurement.dimensions),
    };
    let fact = criteria::facts::named(measurement.fact).expect("checked when it was measured");
    let judged = set.judge(fact.name, measurement.value, &situation);
    let findings = judged.into_iter().map(|(criterion, judgement)| Finding {
        fact,
        dispositions: criterion
            .map_or_else(Vec::new, |c| dispositions(log, &c.original.id, &measurement.evidence)),
        criterion: criterion.cloned(),
        subject: measurement.subject.clone(),
        value: measurement.value,
        judgement,
        at: measurement.at,
        disputed,
        evidence: measurement.evidence.clone(),
    });
    findings.inspect(stands_on_entries).collect()
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
