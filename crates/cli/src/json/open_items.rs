//! Open items as JSON.

use super::{ids, moment};
use crate::view::View;
use assess::open_items::{Open, OpenItem, WaitsFor};
use record::EntryId;
use serde_json::{Value, json};

/// What waits on a shaft.
pub(crate) fn open_items(view: &View<'_>, items: &[OpenItem]) -> Value {
    json!({ "shaft": view.shaft, "items": items.iter().map(|item| one(item, view)).collect::<Vec<_>>() })
}

fn one(item: &OpenItem, view: &View<'_>) -> Value {
    let (part, person) = match &item.waits_for {
        WaitsFor::Part(role) => (Some(role.word()), None),
        WaitsFor::Person(name) => (None, Some(name)),
    };
    json!({
        "open": what(&item.open, view),
        "waits_for": { "part": part, "person": person },
        "since": item.since.map(moment),
    })
}

fn what(open: &Open, view: &View<'_>) -> Value {
    let entry = |id: &EntryId| id.to_string();
    match open {
        Open::Finding(place) => {
            let finding = view.assessment.findings.get(*place).map(super::finding::finding);
            json!({ "is": "finding", "finding": finding })
        }
        Open::Hold(id) => json!({ "is": "hold", "entry": entry(id) }),
        Open::Dispute(place) => {
            let dispute = view.log.disputes.get(*place);
            let candidates = dispute.map_or_else(Vec::new, |one| ids(&one.candidates));
            json!({ "is": "dispute", "about": dispute.map(|one| entry(&one.about)), "candidates": candidates })
        }
        Open::Asked(id) => json!({ "is": "asked", "entry": entry(id) }),
        Open::Odd(place) => {
            let question = view.assessment.questions.get(*place).map(super::question);
            json!({ "is": "odd", "question": question })
        }
        Open::Signature { role, again } => json!({
            "is": "signature", "part": role.word(),
            "signed_by": again.as_ref().map(|(name, _)| name),
            "entered_after": again.as_ref().map(|(_, after)| entry(after)),
        }),
    }
}
