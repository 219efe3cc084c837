//! A finding as text: what was found, what is asked, by how much, and how far the limit can be trusted.
//!
//! The sentence stands alone: torn out of its table it still says the thing, its value, the limit, and
//! whether somebody has to open a document before relying on it.
//!
//! Never: leave out that a limit is from memory.

mod about;
mod limit;
mod sentence;
mod verdict;

use crate::entry::entry_reference;
use crate::label;
use crate::phrase::{no_stop, small};
use crate::show::Show;
use crate::words;
use assess::{Finding, Subject};
use criteria::Verdict;
use record::Log;

/// A finding, worded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FindingText {
    /// Stable word of the outcome, for machines: `fails`.
    pub outcome: &'static str,
    /// The verdict as people read it: `fails`, `not measured`.
    pub verdict: &'static str,
    /// What was checked, with the load, test or lift it is about.
    pub heading: String,
    /// The whole finding in one or a few sentences.
    pub sentence: String,
    /// The value; empty when it was not measured.
    pub value: String,
    /// What the value was made of, as a sentence; empty where it needs none.
    pub made_of: String,
    /// The limit in force; empty when none is set.
    pub limit: String,
    /// How far inside or outside: `0.5 in over`; empty where there is no number.
    pub margin: String,
    /// What it is about: `load 4411`; empty for the shaft as a whole.
    pub subject: String,
    /// The stage of the work.
    pub stage: &'static str,
    /// The id of the criterion; empty when none is in force.
    pub criterion: String,
    /// Document and clause; empty when no limit is set.
    pub source: String,
    /// How far the limit can be relied on.
    pub sure_note: String,
    /// Concrete waits until this is settled.
    pub holds: bool,
    /// The entries it rests on: `10:41 Concrete sounded (a1b2c3d4)`.
    pub evidence: Vec<String>,
    /// What was decided about it, one text for each decision.
    pub dispositions: Vec<DispositionText>,
    /// Why the criterion matters; empty when none is in force.
    pub why: String,
    /// What is usually done when it fails: `Usually: the bottom is cleaned and sounded again.`; empty unless it fails.
    pub if_fails: String,
}

/// A decision about a finding, worded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DispositionText {
    /// The decision: `accepted`.
    pub decision: &'static str,
    /// `Accepted by R. Vale, 14:22: sounded again after cleaning.`
    pub sentence: String,
}

/// A finding as text.
pub fn finding(finding: &Finding, log: &Log<'_>, show: &Show) -> FindingText {
    let subject = about::subject(finding, log, show);
    let criterion = finding.criterion.as_ref().map(|in_force| &in_force.original);
    let fails = matches!(finding.judgement.verdict, Verdict::Fails { .. });
    FindingText {
        outcome: words::verdict(&finding.judgement.verdict),
        verdict: verdict::word(finding),
        heading: heading(finding, &subject),
        sentence: sentence::sentence(finding, &heading(finding, &subject), log, show),
        value: verdict::value(finding, show),
        made_of: sentence::made_of(finding, show),
        limit: limit::limit(finding, show),
        margin: verdict::margin(finding, show),
        stage: label::stage(finding.fact.stage),
        criterion: criterion.map_or_else(String::new, |criterion| criterion.id.clone()),
        source: finding.criterion.as_ref().map_or_else(String::new, limit::source),
        sure_note: finding.criterion.as_ref().map_or_else(String::new, |one| limit::sure_note(one, show)),
        holds: criterion.is_some_and(|criterion| criterion.holds),
        evidence: finding.evidence.iter().map(|id| entry_reference(*id, log, show)).collect(),
        dispositions: finding.dispositions.iter().map(|one| about::disposition(one, show)).collect(),
        why: criterion.map_or_else(String::new, |criterion| criterion.why.clone()),
        if_fails: criterion.filter(|_| fails).map_or_else(String::new, |one| usually(&one.if_fails)),
        subject,
    }
}

/// The words of a criterion say what is done; whoever reads them beside the hole must not take it for done already.
fn usually(done: &str) -> String {
    if done.is_empty() { String::new() } else { format!("Usually: {}", small(done)) }
}

/// What was checked: the title of the criterion, else what the fact means, and what it is about.
fn heading(finding: &Finding, subject: &str) -> String {
    let title = match &finding.criterion {
        Some(in_force) => no_stop(&in_force.original.title),
        None => no_stop(finding.fact.meaning),
    };
    match finding.subject {
        Subject::Shaft => title.to_owned(),
        _ => format!("{title}, {subject}"),
    }
}
