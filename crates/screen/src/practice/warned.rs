//! What the tool first showed while a practice went on, and when: the record played again, entry by entry, as far
//! as it was entered.
//!
//! Never: blame the tool for what was written later.

use crate::live::Looked;
use assess::Outcome;
use quantity::Moment;
use record::{Held, Record};
use rehearse::practice::Warning;
use std::collections::BTreeSet;

/// Something the tool showed as outside its limit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Warned {
    /// When it was first shown, and the fact it is about.
    pub warning: Warning,
    /// What it says: `Embedment of the tremie`.
    pub heading: String,
}

/// What was first shown as failing after `since`, in order of time. What failed before is no warning of the practice.
pub fn warned(record: &Record, shaft: &str, since: Moment) -> Vec<Warned> {
    let mut times: Vec<Moment> = record.entries().filter_map(entered).filter(|at| *at >= since).collect();
    times.sort_by_key(|at| at.seconds());
    times.dedup_by_key(|at| at.seconds());
    let mut known: BTreeSet<String> =
        failing(record, shaft, since.plus_seconds(-1)).into_iter().map(|one| one.1).collect();
    let mut all = Vec::new();
    for at in times {
        for (fact, id, heading) in failing(record, shaft, at) {
            if known.insert(id) {
                all.push(Warned { warning: Warning { at, fact: fact.to_owned() }, heading });
            }
        }
    }
    all
}

fn entered(held: &Held) -> Option<Moment> {
    match held {
        Held::Known(entry) => Some(entry.entered_at),
        Held::Newer(_) => None,
    }
}

/// What fails by the entries that were entered by a moment: fact, what tells it from others, heading.
fn failing(record: &Record, shaft: &str, at: Moment) -> Vec<(&'static str, String, String)> {
    let by_then = |held: &&Held| entered(held).is_some_and(|entered| entered <= at);
    let Ok(record) = Record::of(record.entries().filter(by_then).cloned()) else { return Vec::new() };
    let looked = Looked::at(&record, shaft, at);
    let fails = looked.assessment.findings.iter().filter(|finding| finding.outcome() == Outcome::Fails);
    let told = |finding: &assess::Finding| {
        let text = wording::finding(finding, &looked.log, &looked.show);
        (
            finding.fact.name,
            format!("{} {} {}", finding.fact.name, text.criterion, text.subject),
            text.heading,
        )
    };
    fails.map(told).collect()
}
