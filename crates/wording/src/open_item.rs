//! Open items in words: what waits, for whom, and what to do.
//!
//! Never: say of a person that they are late; say only whose move it is.

use crate::entry::{entry_reference, line_of};
use crate::label;
use crate::notice::Notice;
use crate::show::Show;
use assess::Assessment;
use assess::open_items::{Open, OpenItem, WaitsFor};
use record::choices::Role;
use record::kinds::{EntryKind, HoldPlaced, QuestionAsked};
use record::{EntryId, Log};

/// An open item, worded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenItemText {
    /// Stable word of what waits: `finding`, `hold`, `dispute`, `asked`, `odd`, `signature`.
    pub word: &'static str,
    /// What is to be done, in two words: `To decide`.
    pub lead: &'static str,
    /// For whom: `the engineer`, `R. Quill`.
    pub waits_for: String,
    /// What happened, what it means, what to do now.
    pub notice: Notice,
}

/// An open item as text; `None` where log and assessment are not those it was found in.
pub fn open_item(
    item: &OpenItem,
    assessment: &Assessment<'_>,
    log: &Log<'_>,
    show: &Show,
) -> Option<OpenItemText> {
    let (word, lead) = words(&item.open);
    let notice = match &item.open {
        Open::Finding(place) => assessment.findings.get(*place).map(|finding| decide(finding, log, show)),
        Open::Hold(id) => of::<HoldPlaced>(*id, log).map(|(line, placed)| crate::hold(line, placed, show)),
        Open::Dispute(place) => log.disputes.get(*place).map(|dispute| crate::dispute(dispute, log, show)),
        Open::Asked(id) => {
            of::<QuestionAsked>(*id, log).map(|(line, asked)| crate::asked(line, asked, log, show))
        }
        Open::Odd(place) => assessment.questions.get(*place).map(|odd| crate::question(odd, show, log)),
        Open::Signature { role, again } => Some(sign(*role, again.as_ref(), log, show)),
    };
    Some(OpenItemText { word, lead, waits_for: waits_for(&item.waits_for), notice: notice? })
}

/// For whom something waits: `the engineer`, `R. Quill`.
pub fn waits_for(whom: &WaitsFor) -> String {
    match whom {
        WaitsFor::Part(Role::Other) => "somebody else".to_owned(),
        WaitsFor::Part(Role::ContractorQuality) => "the contractor's quality staff".to_owned(),
        WaitsFor::Part(role) => format!("the {}", label::choice(role.word()).to_lowercase()),
        WaitsFor::Person(name) => name.clone(),
    }
}

fn words(open: &Open) -> (&'static str, &'static str) {
    match open {
        Open::Finding(_) => ("finding", "To decide"),
        Open::Hold(_) => ("hold", "To release"),
        Open::Dispute(_) => ("dispute", "To settle"),
        Open::Asked(_) => ("asked", "To answer"),
        Open::Odd(_) => ("odd", "To look at"),
        Open::Signature { .. } => ("signature", "To sign"),
    }
}

fn decide(finding: &assess::Finding, log: &Log<'_>, show: &Show) -> Notice {
    Notice::new(
        "to_decide",
        crate::finding(finding, log, show).sentence,
        "Nobody has decided about it.",
        "Accept it as it is and say why, have it repaired or tested, or reject it.",
    )
}

fn sign(role: Role, again: Option<&(String, EntryId)>, log: &Log<'_>, show: &Show) -> Notice {
    let part = label::choice(role.word()).to_lowercase();
    let (what, next) = match again {
        None => (format!("Nobody has signed as {part}."), "Read the record of the shaft, then sign it."),
        Some((name, after)) => (
            format!("{name} signed as {part} before {} was entered.", entry_reference(*after, log, show)),
            "Read what came after the signature, then sign again.",
        ),
    };
    Notice::new("to_sign", what, "The shaft is not sealed before.", next)
}

/// The line of an entry of a kind.
fn of<'l, 'r, K: EntryKind + 'r>(id: EntryId, log: &'l Log<'r>) -> Option<(&'l record::Line<'r>, &'r K)> {
    let line = line_of(id, log)?;
    Some((line, K::of(line.body)?))
}
