//! Findings and figures as documented JSON (docs/json.md). Machine words and SI numbers; never a sentence.

use crate::view::View;
use assess::{Finding, Forecast, Outcome, Subject, Urgency};
use criteria::{Difference, Measured, Verdict};
use quantity::{Length, Moment, Volume};
use record::EntryId;
use serde_json::{Map, Value, json};

/// Everything a shaft means at a time.
pub(crate) fn assessment(view: &View<'_>) -> Value {
    let assessment = &view.assessment;
    json!({
        "format": 1,
        "shaft": view.shaft,
        "at": assessment.at.to_string(),
        "criteria": { "set": view.set.about.id, "edition": view.set.about.edition, "sha256": view.set.sha256 },
        "counts": counts(view),
        "findings": assessment.findings.iter().map(finding).collect::<Vec<_>>(),
        "forecasts": assessment.forecasts.iter().map(forecast).collect::<Vec<_>>(),
        "questions": assessment.questions.iter().map(question).collect::<Vec<_>>(),
        "disputes": view.log.disputes.iter().map(dispute).collect::<Vec<_>>(),
        "figures": figures(view),
    })
}

/// How many findings have each outcome.
pub(crate) fn counts(view: &View<'_>) -> Value {
    let count = |wanted: Outcome| view.assessment.findings.iter().filter(|f| f.outcome() == wanted).count();
    json!({
        "fails": count(Outcome::Fails),
        "cannot_say": count(Outcome::CannotSay),
        "not_measured": count(Outcome::NotMeasured),
        "meets": count(Outcome::Meets),
        "no_limit_set": count(Outcome::NoLimitSet),
        "open": view.assessment.findings.iter().filter(|finding| finding.is_open()).count(),
    })
}

fn outcome(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Fails => "fails",
        Outcome::CannotSay => "cannot_say",
        Outcome::NotMeasured => "not_measured",
        Outcome::Meets => "meets",
        Outcome::NoLimitSet => "no_limit_set",
    }
}

fn finding(finding: &Finding) -> Value {
    let criterion = finding.criterion.as_ref();
    let limits = finding.judgement.limits;
    json!({
        "criterion": criterion.map(|c| c.original.id.clone()),
        "title": criterion.map(|c| c.original.title.clone()),
        "fact": finding.fact.name,
        "stage": finding.fact.stage.word(),
        "subject": subject(&finding.subject),
        "outcome": outcome(finding.outcome()),
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

fn ids(entries: &[EntryId]) -> Vec<String> {
    entries.iter().map(ToString::to_string).collect()
}

fn question(question: &record::Question) -> Value {
    json!({ "about": question.about.to_string(), "question": question.suspicion.word(),
        "answer": question.answer.as_ref().map(|(_, answer)| answer.clone()) })
}

fn dispute(dispute: &record::Dispute) -> Value {
    json!({ "about": dispute.about.to_string(), "candidates": ids(&dispute.candidates) })
}

fn forecast(forecast: &Forecast) -> Value {
    let urgency = match forecast.urgency {
        Urgency::Now => "now",
        Urgency::Soon => "soon",
        Urgency::Later => "later",
    };
    let mut told = outlook(&forecast.outlook);
    told.insert("urgency".to_owned(), json!(urgency));
    told.insert("evidence".to_owned(), json!(ids(&forecast.evidence)));
    Value::Object(told)
}

fn outlook(outlook: &assess::Outlook) -> Map<String, Value> {
    use assess::Outlook;
    let meters = |length: &Length| length.to_meters();
    let cubic = |volume: &Volume| volume.to_cubic_meters();
    let at = |moment: &Moment| moment.to_string();
    let told = match outlook {
        Outlook::Embedment { line, now, error, required, limit_set, safe_lift, pieces, after_next } => json!({
            "about": "embedment", "line": line, "now_m": meters(now), "error_m": meters(error),
            "required_m": meters(required), "limit_set": limit_set, "safe_lift_m": meters(safe_lift),
            "pieces_off_now": pieces, "after_next_piece_m": after_next.as_ref().map(meters),
        }),
        Outlook::SlumpLife { ticket, ends, error, left, planned_end } => json!({
            "about": "slump_life", "ticket": ticket, "ends": at(ends), "error_min": error.to_minutes(),
            "left_min": left.to_minutes(), "planned_end": planned_end.as_ref().map(at),
        }),
        Outlook::FluidTestDue { at: due, left } => {
            json!({ "about": "fluid_test_due", "at": at(due), "left_min": left.to_minutes() })
        }
        Outlook::HeadAtNextLift { casing, now, required, limit_set, safe_lift, add } => json!({
            "about": "head_at_next_lift", "casing": casing, "now_m": meters(now), "required_m": meters(required),
            "limit_set": limit_set, "safe_lift_m": meters(safe_lift), "add_m3": add.as_ref().map(cubic),
        }),
        Outlook::Gap { since, lasted, allowed } => json!({
            "about": "gap", "since": at(since), "lasted_min": lasted.to_minutes(),
            "allowed_min": allowed.map(|allowed| allowed.to_minutes()),
        }),
        Outlook::StillToOrder { volume, error, on_the_way } => json!({
            "about": "still_to_order", "volume_m3": cubic(volume), "error_m3": cubic(error),
            "on_the_way_m3": cubic(on_the_way),
        }),
        Outlook::TimeLimit { fact, ticket, ends, left } => json!({
            "about": "time_limit", "fact": fact, "ticket": ticket, "ends": at(ends), "left_min": left.to_minutes(),
        }),
    };
    told.as_object().cloned().unwrap_or_default()
}

/// The computed figures: the hole, the curve interval by interval, embedment, lifts, slump life.
fn figures(view: &View<'_>) -> Value {
    let reckoning = &view.assessment.reckoning;
    json!({
        "hole": reckoning.hole.as_ref().map(|hole| json!({
            "planned_volume_m3": hole.planned.volume().to_cubic_meters(),
            "base_m": hole.base.value.to_meters(),
            "base_error_m": hole.base.standard_error.to_meters(),
        })),
        "curve": reckoning.pour.as_ref().map_or_else(Vec::new, |pour| {
            pour.curve.intervals.iter().zip(&pour.soundings).map(|(i, s)| interval(i, s)).collect()
        }),
        "embedment": reckoning.lines.iter().map(|line| json!({
            "line": line.name,
            "history": line.history.iter().map(|(buried, entry)| json!({
                "at": buried.at.to_string(), "tip_m": buried.tip.to_meters(),
                "embedment_m": buried.embedment.value.to_meters(),
                "error_m": buried.embedment.standard_error.to_meters(), "entry": entry.to_string(),
            })).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "lifts": reckoning.lifts.iter().map(lift).collect::<Vec<_>>(),
        "slump_life": reckoning.slump.as_ref().map_or_else(Vec::new, |slump| slump.loads.iter().map(|load| json!({
            "ticket": load.ticket, "ends": load.ends().map(|ends| ends.to_string()),
            "life_min": load.life.map(|life| life.value.to_minutes()),
            "error_min": load.life.map(|life| life.standard_error.to_minutes()),
        })).collect()),
    })
}

fn interval(interval: &calc::curve::Interval, sounding: &assess::reckon::PourSounding) -> Value {
    json!({
        "at": sounding.at.to_string(), "tickets": sounding.tickets, "entry": sounding.entry.to_string(),
        "lower_m": interval.lower.to_meters(), "upper_m": interval.upper.to_meters(),
        "rise_m": interval.rise.value.to_meters(),
        "placed_m3": interval.placed.value.to_cubic_meters(),
        "theoretical_m3": interval.theoretical.map(|t| t.value.to_cubic_meters()),
        "ratio": interval.ratio.map(|r| r.value), "ratio_error": interval.ratio.map(|r| r.standard_error),
        "diameter_m": interval.diameter.map(|d| d.value.to_meters()),
        "diameter_error_m": interval.diameter.map(|d| d.standard_error.to_meters()),
        "others_ratio": interval.departure.map(|d| d.others.value), "z": interval.departure.and_then(|d| d.z),
        "cumulative_placed_m3": interval.cumulative.placed.value.to_cubic_meters(),
        "cumulative_theoretical_m3": interval.cumulative.theoretical.map(|t| t.value.to_cubic_meters()),
        "cumulative_ratio": interval.cumulative.ratio.map(|r| r.value),
    })
}

fn lift(lift: &assess::reckon::Lift) -> Value {
    let expected = lift.expected.as_ref().and_then(|expected| expected.as_ref().ok());
    json!({
        "casing": lift.casing, "at": lift.at.to_string(), "shoe_before_m": lift.shoe_before.to_meters(),
        "shoe_after_m": lift.shoe_after.map(|shoe| shoe.to_meters()),
        "expected_level_m": expected.map(|e| e.level.value.to_meters()),
        "measured_level_m": lift.measured.map(|(level, _)| level.to_meters()),
        "unexplained_m3": lift.unexplained.map(|u| u.value.to_cubic_meters()),
        "entries": ids(&lift.entries),
    })
}
