//! The entries that would settle an open item, with what is known of them already.
//!
//! Never: fill in a reason, an answer or a name.

use super::super::card::finding_id;
use super::super::looked::Looked;
use super::Step;
use assess::Finding;
use assess::open_items::Open;
use record::choices::Decision;
use record::kinds::HoldPlaced;
use record::log::ASKED;
use record::{EntryId, Question};
use wording::label;

/// What can be decided about a finding, as it stands on the keys.
const DECISIONS: [(Decision, &str); 4] = [
    (Decision::Accepted, "Accept as it is"),
    (Decision::Repair, "Repair"),
    (Decision::Test, "Test"),
    (Decision::Rejected, "Reject"),
];

/// The entries that would settle it.
pub(super) fn steps(open: &Open, looked: &Looked<'_>) -> Vec<Step> {
    match open {
        Open::Finding(place) => looked.assessment.findings.get(*place).map_or_else(Vec::new, decide),
        Open::Hold(id) => vec![step("hold_released", "Release", vec![("hold", hold(*id, looked))])],
        Open::Dispute(place) => {
            let about = looked.log.disputes.get(*place).map(|dispute| dispute.about);
            let known = about.map(|about| ("about", about.to_string())).into_iter().collect();
            vec![step("dispute_closed", "Settle", known)]
        }
        Open::Asked(id) => vec![answer(*id, ASKED)],
        Open::Odd(place) => {
            let odd = looked.assessment.questions.get(*place);
            odd.map(|odd| answer(odd.about, &word(odd))).into_iter().collect()
        }
        Open::Signature { role, .. } => {
            let part = label::choice(role.word()).to_lowercase();
            vec![step("signed", &format!("Sign as {part}"), vec![("role", role.word().to_owned())])]
        }
    }
}

/// The entry an item rests on.
pub(super) fn about(open: &Open, looked: &Looked<'_>) -> Option<EntryId> {
    match open {
        Open::Finding(place) => looked.assessment.findings.get(*place)?.evidence.last().copied(),
        Open::Hold(id) | Open::Asked(id) => Some(*id),
        Open::Dispute(place) => Some(looked.log.disputes.get(*place)?.about),
        Open::Odd(place) => Some(looked.assessment.questions.get(*place)?.about),
        Open::Signature { .. } => None,
    }
}

/// What tells an item from the others of its sort on the shaft.
pub(super) fn key(open: &Open, looked: &Looked<'_>) -> String {
    match open {
        Open::Finding(place) => looked.assessment.findings.get(*place).map_or_else(String::new, finding_id),
        Open::Signature { role, .. } => role.word().to_owned(),
        open => about(open, looked).map_or_else(String::new, |id| id.to_string()),
    }
}

fn decide(finding: &Finding) -> Vec<Step> {
    let criterion = finding.criterion.as_ref().map_or("", |criterion| &criterion.original.id);
    let about = finding.evidence.last().map(EntryId::to_string).unwrap_or_default();
    let decision = |(decision, label): (Decision, &str)| {
        let decided = ("decision", decision.word().to_owned());
        step(
            "finding_disposed",
            label,
            vec![("criterion", criterion.to_owned()), ("about", about.clone()), decided],
        )
    };
    DECISIONS.into_iter().map(decision).collect()
}

fn hold(id: EntryId, looked: &Looked<'_>) -> String {
    let mut placed = looked.log.each::<HoldPlaced>();
    placed.find(|(line, _)| line.entry.id == id).map_or_else(String::new, |(_, placed)| placed.hold.clone())
}

/// The word of a question of the tool; of one field alone with its name.
fn word(odd: &Question) -> String {
    let word = odd.suspicion.word();
    odd.suspicion.field().map_or_else(|| word.to_owned(), |field| format!("{word}.{field}"))
}

fn answer(about: EntryId, question: &str) -> Step {
    let known = vec![("about", about.to_string()), ("question", question.to_owned())];
    step("question_answered", "Answer", known)
}

fn step(kind: &'static str, label: &str, known: Vec<(&'static str, String)>) -> Step {
    Step { kind, label: label.to_owned(), known }
}
