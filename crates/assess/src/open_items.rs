//! Open items: what of a shaft waits for a person, and for whom.
//!
//! A shaft is handed in when somebody decided about each finding that fails, released each hold, answered each
//! question, and signed. Until then it waits, and whoever it waits for has to be told: the inspector goes home while the
//! engineer has not heard that anything is left to say.
//!
//! Order: findings in their defined order, holds, disputes, questions of people, questions of the tool, signatures.
//!
//! Words: *open item* = one thing that waits; *waits for* = the part or the person whose move it is.
//! Never: settle one because time went by; leave one out because it waits for somebody else.

use crate::Assessment;
use crate::ready::{Lack, signatures_lacking};
use quantity::Moment;
use record::choices::Role;
use record::kinds::*;
use record::{EntryId, Line, Log, Record};

/// Whose move it is.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum WaitsFor {
    /// Whoever plays this part on the job.
    Part(Role),
    /// A person, by the name in the record.
    Person(String),
}

/// What waits.
#[derive(Debug, Clone, PartialEq)]
pub enum Open {
    /// A finding fails and nobody decided about it: its place among the findings.
    Finding(usize),
    /// Nobody released the hold that stands in this entry.
    Hold(EntryId),
    /// Nobody closed a dispute: its place among the disputes of the log.
    Dispute(usize),
    /// Nobody answered what a person asked in this entry.
    Asked(EntryId),
    /// Nobody answered the tool: the place of its question among the questions.
    Odd(usize),
    /// A signature is missing for this part, or was given before something was entered.
    Signature {
        /// The part.
        role: Role,
        /// Who signed too early, and the last entry after it.
        again: Option<(String, EntryId)>,
    },
}

/// One thing that waits.
#[derive(Debug, Clone, PartialEq)]
pub struct OpenItem {
    /// What.
    pub open: Open,
    /// For whom.
    pub waits_for: WaitsFor,
    /// Since when; `None` where that cannot be told.
    pub since: Option<Moment>,
}

/// Everything that waits on a shaft, in the defined order.
///
/// `log` and `assessment` have to be of one moment. Signatures wait once the pour is over.
pub fn open_items(record: &Record, shaft: &str, log: &Log<'_>, assessment: &Assessment<'_>) -> Vec<OpenItem> {
    let mut all = findings(assessment);
    all.extend(log.open_holds().into_iter().map(|(line, _)| of_engineer(Open::Hold(line.entry.id), line.at)));
    all.extend(disputes(log));
    all.extend(log.unanswered().into_iter().map(|(line, asked)| question(line, asked, log)));
    all.extend(odd(assessment, log));
    if is_poured(log, assessment) {
        all.extend(signatures_lacking(record, shaft, log).into_iter().filter_map(signature));
    }
    all
}

fn of_engineer(open: Open, since: Moment) -> OpenItem {
    OpenItem { open, waits_for: WaitsFor::Part(Role::Engineer), since: Some(since) }
}

fn findings(assessment: &Assessment<'_>) -> Vec<OpenItem> {
    let open = assessment.findings.iter().enumerate().filter(|(_, finding)| finding.is_open());
    let item = |(place, finding): (usize, &crate::Finding)| OpenItem {
        open: Open::Finding(place),
        waits_for: WaitsFor::Part(Role::Engineer),
        since: finding.at,
    };
    open.map(item).collect()
}

fn disputes<'l>(log: &'l Log<'_>) -> impl Iterator<Item = OpenItem> + 'l {
    log.disputes.iter().enumerate().map(|(place, dispute)| {
        let entered = |id: &EntryId| log.lines.iter().find(|line| line.entry.id == *id);
        let last = dispute.candidates.iter().filter_map(entered).map(|line| line.entry.entered_at).max();
        OpenItem { open: Open::Dispute(place), waits_for: WaitsFor::Part(Role::Engineer), since: last }
    })
}

/// It waits for whom it names, else for whoever wrote the entry, else for the inspector.
fn question(line: &Line<'_>, asked: &QuestionAsked, log: &Log<'_>) -> OpenItem {
    let person = asked.to.clone().or_else(|| author(asked.about, log));
    let waits_for = person.map_or(WaitsFor::Part(Role::Inspector), WaitsFor::Person);
    OpenItem { open: Open::Asked(line.entry.id), waits_for, since: Some(line.at) }
}

fn odd<'l>(assessment: &'l Assessment<'_>, log: &'l Log<'_>) -> impl Iterator<Item = OpenItem> + 'l {
    let open = assessment.questions.iter().enumerate().filter(|(_, question)| question.answer.is_none());
    open.map(|(place, question)| OpenItem {
        open: Open::Odd(place),
        waits_for: author(question.about, log).map_or(WaitsFor::Part(Role::Inspector), WaitsFor::Person),
        since: line_of(question.about, log).map(|line| line.at),
    })
}

fn author(id: EntryId, log: &Log<'_>) -> Option<String> {
    line_of(id, log).map(|line| line.entry.author.clone())
}

fn line_of<'l, 'r>(id: EntryId, log: &'l Log<'r>) -> Option<&'l Line<'r>> {
    log.lines.iter().find(|line| line.entry.id == id)
}

fn signature(lack: Lack) -> Option<OpenItem> {
    let (role, again) = match lack {
        Lack::NotSigned(role) => (role, None),
        Lack::SignedTooEarly { role, name, after } => (role, Some((name, after))),
        _ => return None,
    };
    let open = Open::Signature { role, again };
    Some(OpenItem { open, waits_for: WaitsFor::Part(role), since: None })
}

/// The pour is over: no load is going in, and something was written that comes after it.
fn is_poured(log: &Log<'_>, assessment: &Assessment<'_>) -> bool {
    let after = log.last::<LineOut>().is_some()
        || log.last::<OverPoured>().is_some()
        || log.last::<Curing>().is_some()
        || log.last::<AsBuilt>().is_some()
        || log.last::<Signed>().is_some();
    after && !assessment.picture.loads.iter().any(crate::picture::Load::open)
}
