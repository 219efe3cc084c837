//! Why a shaft is not sealed, as a person is told it.

use crate::problem::{ALTERED, OPEN, Problem};
use crate::view::View;
use assess::ready;
use record::Record;

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

/// Nobody sealed the shaft yet; says what is lacking.
pub(crate) fn not_sealed(record: &Record, shaft: &str) -> Problem {
    let what = format!("The shaft {shaft} is not sealed.");
    let lacking = || {
        let next = "Nothing is lacking: have it sealed.";
        Problem::new(what.clone(), "There is no sealed package of it.", next)
    };
    refuse_unready(record, shaft, false).err().map_or_else(lacking, |why| Problem {
        what: format!("{what} {}", why.what),
        meaning: "There is no sealed package of it.".to_owned(),
        ..why
    })
}

pub(super) fn refuse_unready(record: &Record, shaft: &str, with_open_findings: bool) -> Result<(), Problem> {
    let lacks: Vec<String> =
        ready::lacks(record, shaft).iter().map(|lack| wording::lack(lack, record)).collect();
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
    let next = "Let the engineer decide about each (the open items list them), or seal with open findings: the pages tell them.";
    Err(Problem::new(what, NOT_YET, next).exit(OPEN))
}
