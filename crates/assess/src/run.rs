//! The assessment: picture, reckoning, facts, verdicts, forecasts, in that order.

use crate::facts::{self, Sources, situation::situation};
use crate::finding::{Finding, dispositions};
use crate::forecasts::{self, Forecast, View};
use crate::measure::Measurement;
use crate::picture::Picture;
use crate::reckon::Reckoning;
use criteria::{SetInForce, Situation};
use quantity::Moment;
use record::{EntryId, Log, Question, plausible};

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
}

/// Assesses the log of a shaft by the criteria in force, at a time.
///
/// The log must be that of the same time: `Log::of(record, Some(shaft), Some(at))`.
pub fn assess<'r>(log: &Log<'r>, set: &SetInForce, at: Moment) -> Assessment<'r> {
    let picture = Picture::of(log, at);
    let reckoning = Reckoning::of(log, &picture);
    let sources = Sources { log, picture: &picture, reckoning: &reckoning };
    let situation = situation(&sources);
    let measured = facts::all(&sources);
    let judge = |measurement: &Measurement| judged(log, set, &situation, measurement);
    let (whole, single): (Vec<Measurement>, Vec<Measurement>) =
        measured.into_iter().partition(|measurement| facts::is_of_findings(measurement.fact));
    let mut findings: Vec<Finding> = single.iter().flat_map(judge).collect();
    let whole = whole.into_iter().map(|measurement| facts::from_findings(measurement, &findings));
    let whole: Vec<Finding> = whole.collect::<Vec<_>>().iter().flat_map(judge).collect();
    findings.extend(whole);
    findings.sort_by(|a, b| a.order().cmp(&b.order()));
    let forecasts = forecasts::all(&View { sources, set, situation: &situation });
    let questions = plausible::questions(log);
    Assessment { at, findings, forecasts, questions, situation, picture, reckoning }
}

/// A measurement by every criterion that applies to it.
fn judged(log: &Log<'_>, set: &SetInForce, shaft: &Situation, measurement: &Measurement) -> Vec<Finding> {
    let situation = Situation {
        conditions: shaft.conditions.clone().and(&measurement.conditions),
        dimensions: shaft.dimensions.clone().and(&measurement.dimensions),
    };
    let fact = criteria::facts::named(measurement.fact).expect("checked when it was measured");
    let judged = set.judge(fact.name, measurement.value, &situation);
    judged
        .into_iter()
        .map(|(criterion, judgement)| Finding {
            fact,
            dispositions: criterion
                .map_or_else(Vec::new, |c| dispositions(log, &c.original.id, &measurement.evidence)),
            criterion: criterion.cloned(),
            subject: measurement.subject.clone(),
            value: measurement.value,
            judgement,
            at: measurement.at,
            disputed: touches_dispute(log, &measurement.evidence),
            evidence: measurement.evidence.clone(),
        })
        .collect()
}

fn touches_dispute(log: &Log<'_>, evidence: &[EntryId]) -> bool {
    log.disputes.iter().any(|dispute| evidence.contains(&dispute.about))
}
