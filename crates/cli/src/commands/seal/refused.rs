//! Why a shaft is not sealed, as a person is told it.

use crate::problem::{ALTERED, OPEN, Problem};
use crate::view::View;
use record::Record;
use record::choices::Role;
use seal::Lack;

const NOT_YET: &str = "The shaft cannot be sealed yet; nothing was written.";

/// Entries a seal names are not in this folder.
pub(super) fn gone(missing: usize) -> Problem {
    let what = match missing {
        0 => "The entries that were sealed are not the ones that are here.".to_owned(),
        1 => "One entry that was sealed is not here.".to_owned(),
        _ => format!("{missing} entries that were sealed are not here."),
    };
    let meaning = "This folder lacks a part of what was sealed; nothing was written.";
    Problem::new(what, meaning, "Merge in the record the sealed package holds, or another device's.")
        .exit(ALTERED)
}

/// What was made does not hold.
pub(super) fn unproved(why: &str) -> Problem {
    let what = format!("The package does not prove itself: {why}.");
    let meaning = "The shaft was not sealed; nothing was written.";
    Problem::new(what, meaning, "Keep the record and report what was printed here.")
}

pub(super) fn refuse_unready(record: &Record, shaft: &str, with_open_findings: bool) -> Result<(), Problem> {
    let lacks: Vec<String> = seal::lacks(record, shaft).iter().map(|lack| sentence(lack, record)).collect();
    if !lacks.is_empty() {
        let next = "Enter what is missing, then seal.";
        return Err(Problem::new(lacks.join(" "), NOT_YET, next));
    }
    let view = View::at(record, shaft, None);
    let open = view.assessment.findings.iter().filter(|finding| finding.is_open()).count();
    if open == 0 || with_open_findings {
        return Ok(());
    }
    let what = match open {
        1 => "One finding fails and nobody has decided about it.".to_owned(),
        many => format!("{many} findings fail and nobody has decided about them."),
    };
    let next =
        "Let the engineer decide (finding_disposed), or seal --with-open-findings: the pages tell them.";
    Err(Problem::new(what, NOT_YET, next).exit(OPEN))
}

fn sentence(lack: &Lack, record: &Record) -> String {
    let part = |role: &Role| wording::label::choice(role.word()).to_lowercase();
    match lack {
        Lack::NoEntries => "No entry is about this shaft.".to_owned(),
        Lack::Chain(alarm) => wording::alarm(alarm, record).what,
        Lack::Dispute(about) => format!("The dispute about entry {} is not closed.", about.short()),
        Lack::Loose(id) => format!("Entry {} corrects an entry that is not here.", id.short()),
        Lack::Newer(id) => {
            format!("Entry {} was written by a newer program: update this one first.", id.short())
        }
        Lack::NotSigned(role) => format!("Nobody has signed as {}.", part(role)),
        Lack::SignedTooEarly { role, name, after } => format!(
            "{name} signed as {} before entry {} was made, and has to sign again.",
            part(role),
            after.short()
        ),
    }
}
