//! Which values hang on a dispute that nobody has closed.
//!
//! Entries in dispute count for nothing, and no rule picks a winner. So that a value does not look firm when
//! it is not, the log is measured once more with each candidate in force: what comes out differently is
//! marked, and what only a candidate tells is given without a value.
//!
//! Words: *candidate* = an entry that a dispute offers to keep.
//! Never: let a candidate decide a value.

use crate::facts::{self, Sources};
use crate::measure::{Measurement, Subject};
use crate::picture::Picture;
use crate::reckon::Reckoning;
use quantity::Moment;
use record::{Dispute, EntryId, Log, Standing};

/// The measurements, each with whether a dispute touches it.
pub(crate) fn marked(log: &Log<'_>, at: Moment, all: Vec<Measurement>) -> Vec<(Measurement, bool)> {
    let mut marked: Vec<(Measurement, bool)> = all.into_iter().map(|one| (one, false)).collect();
    for dispute in &log.disputes {
        let others: Vec<Vec<Measurement>> = dispute
            .candidates
            .iter()
            .map(|candidate| measured_with(log, at, dispute.about, *candidate))
            .collect();
        for other in &others {
            mark(&mut marked, other);
        }
        for one in others.into_iter().flatten() {
            add_unknown(&mut marked, one, dispute);
        }
    }
    marked
}

/// The measurements if a candidate were kept.
fn measured_with(log: &Log<'_>, at: Moment, about: EntryId, keeps: EntryId) -> Vec<Measurement> {
    let mut other = log.clone();
    for line in &mut other.lines {
        if line.entry.id == keeps && line.standing == (Standing::Disputed { about }) {
            line.standing = Standing::Stands;
        }
    }
    let picture = Picture::of(&other, at);
    let reckoning = Reckoning::of(&other, &picture);
    facts::all(&Sources { log: &other, picture: &picture, reckoning: &reckoning })
}

/// Marks what a candidate would change.
fn mark(marked: &mut [(Measurement, bool)], other: &[Measurement]) {
    for (one, disputed) in marked {
        let same =
            other.iter().any(|o| o.fact == one.fact && o.subject == one.subject && o.value == one.value);
        *disputed |= !same;
    }
}

/// Adds a value that only a candidate gives, without the value, once for the entry in dispute.
fn add_unknown(marked: &mut Vec<(Measurement, bool)>, one: Measurement, dispute: &Dispute) {
    let subject = match one.subject {
        Subject::Test(entry) if dispute.candidates.contains(&entry) => Subject::Test(dispute.about),
        // Other soundings make other intervals; those that stand are marked.
        Subject::Interval { .. } | Subject::Lift(_) => return,
        subject => subject,
    };
    let evidence = dispute.candidates.clone();
    let there = marked.iter_mut().find(|(other, _)| other.fact == one.fact && other.subject == subject);
    match there {
        // Not measured, because what was measured is in dispute: that is where to look.
        Some((there, true)) if there.value.is_none() && there.evidence.is_empty() => {
            there.evidence = evidence;
        }
        Some(_) => {}
        None => marked.push((Measurement { subject, value: None, evidence, ..one }, true)),
    }
}
