//! A question about what was written: what looks odd, that the entry is kept, what to do.
//!
//! It asks and never refuses. The person who was there knows; the tool only noticed.
//!
//! Never: say that a reading is wrong; blame.

mod readings;
mod times;

use crate::entry::entry_reference;
use crate::notice::Notice;
use crate::show::Show;
use record::{Log, Question, Suspicion};

/// A question as a notice; its code is the word of the suspicion.
pub fn question(question: &Question, show: &Show, log: &Log<'_>) -> Notice {
    let (what, next) = asked(&question.suspicion, show);
    let entry = entry_reference(question.about, log, show);
    let meaning = match &question.answer {
        None => format!("The entry {entry} is kept as written."),
        Some((_, answer)) => format!("The entry {entry} is kept as written. Answered: {answer}"),
    };
    let next = if question.answer.is_some() { "Nothing to do.".to_owned() } else { next };
    Notice { code: question.suspicion.word(), what, meaning: crate::phrase::stop(&meaning), next }
}

/// What looks odd, and what to do about it.
fn asked(suspicion: &Suspicion, show: &Show) -> (String, String) {
    match suspicion {
        Suspicion::TimeBackwards { .. }
        | Suspicion::EndsBeforeItBegins { .. }
        | Suspicion::DischargedBeforeArrival { .. }
        | Suspicion::BatchedAfterArrival { .. }
        | Suspicion::SeenAfterEntered { .. } => times::asked(suspicion, show),
        _ => readings::asked(suspicion, show),
    }
}
