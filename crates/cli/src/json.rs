//! Findings and figures as documented JSON (docs/json.md). Machine words and SI numbers; never a sentence.

mod across;
mod ahead;
mod built;
mod figures;
mod finding;
mod forecast;
mod open_items;
mod pour;
mod sealed;
mod shape;

pub(crate) use across::across;
pub(crate) use open_items::open_items;

use crate::view::View;
use assess::Outcome;
use quantity::{Elevation, Length, Moment, Volume};
use record::EntryId;
use serde_json::{Value, json};

/// Everything a shaft means at a time.
pub(crate) fn assessment(view: &View<'_>) -> Value {
    let assessment = &view.assessment;
    json!({
        "format": 1,
        "shaft": view.shaft,
        "at": assessment.at.to_string(),
        "criteria": { "set": view.set.about.id, "edition": view.set.about.edition,
            "sha256": view.set.sha256 },
        "counts": counts(view),
        "findings": assessment.findings.iter().map(finding::finding).collect::<Vec<_>>(),
        "forecasts": assessment.forecasts.iter().map(forecast::forecast).collect::<Vec<_>>(),
        "questions": assessment.questions.iter().map(question).collect::<Vec<_>>(),
        "disputes": view.log.disputes.iter().map(dispute).collect::<Vec<_>>(),
        "figures": figures::figures(&assessment.reckoning),
        "shape": shape::shape(view),
        "order": ahead::order(view),
        "rest_of_pour": ahead::rest_of_pour(view),
        "sealed": sealed::sealed(view),
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

/// A length in metres.
fn meters(length: Length) -> f64 {
    length.to_meters()
}

/// An elevation in metres.
fn level(elevation: Elevation) -> f64 {
    elevation.to_meters()
}

/// A volume in cubic metres.
fn cubic(volume: Volume) -> f64 {
    volume.to_cubic_meters()
}

/// A moment with its offset.
fn moment(moment: Moment) -> String {
    moment.to_string()
}
