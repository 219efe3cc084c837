//! A finding as JSON.

use super::ids;
use assess::{Finding, Subject};
use criteria::{Difference, Measured, Verdict};
use serde_json::{Value, json};

pub(super) fn finding(finding: &Finding) -> Value {
    let criterion = finding.criterion.as_ref();
    let limits = finding.judgement.limits;
    json!({
        "criterion": criterion.map(|c| c.original.id.clone()),
        "title": criterion.map(|c| c.original.title.clone()),
        "fact": finding.fact.name,
        "stage": finding.fact.stage.word(),
        "subject": subject(&finding.subject),
        "outcome": wording::words::outcome(finding.outcome()),
        "value": finding.value.map(measured),
        "limit_low": limits.and_then(|limits| limits.low).map(quantity::Number::to_f64),
        "limit_high": limits.and_then(|limits| limits.high).map(quantity::Number::to_f64),
        "margin": margin(&finding.judgement.verdict),
        "within_accuracy": finding.judgement.within_accuracy,
        "sure": criterion.map(|c| c.sure().word()),
        "source": criterion.and_then(|c| c.original.source.clone()),
        "at": finding.at.map(|at| at.to_string()),
        "evidence": ids(&finding.evidence),
        "disputed": finding.disputed,
        "dispositions": finding.dispositions.iter().map(|d| json!({
            "entry": d.entry.to_string(), "at": d.at.to_string(), "decision": d.decision.word(),
            "reason": d.reason, "by": d.by,
        })).collect::<Vec<_>>(),
    })
}

fn subject(subject: &Subject) -> Value {
    match subject {
        Subject::Shaft => json!({ "of": "shaft" }),
        Subject::Test(entry) => json!({ "of": "test", "entry": entry.to_string() }),
        Subject::Load(ticket) => json!({ "of": "load", "ticket": ticket }),
        Subject::Interval { lower, upper } => {
            json!({ "of": "interval", "lower_m": lower.to_meters(), "upper_m": upper.to_meters() })
        }
        Subject::Lift(number) => json!({ "of": "lift", "number": number }),
        Subject::Tube(tube) => json!({ "of": "tube", "tube": tube }),
        Subject::Bolt(bolt) => json!({ "of": "bolt", "bolt": bolt }),
    }
}

/// A value in SI; a Marsh time with its volume.
fn measured(value: Measured) -> Value {
    match value {
        Measured::Truth(truth) => json!(truth),
        Measured::Funnel(time) => json!({ "seconds": time.to_seconds(), "basis": time.basis().symbol }),
        other => json!(other.number().map(quantity::Number::to_f64)),
    }
}

/// How far inside (positive) or outside (negative), in SI.
fn margin(verdict: &Verdict) -> Option<f64> {
    let size = |difference: &Option<Difference>| difference.as_ref().map(|d| d.number.to_f64());
    match verdict {
        Verdict::Meets { margin } => size(margin),
        Verdict::Fails { excess, .. } => size(excess).map(|excess| -excess),
        _ => None,
    }
}
