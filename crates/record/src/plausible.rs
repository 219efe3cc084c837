//! Plausibility: which readings deserve a question.
//!
//! A slip of the pen is cheapest to mend while the person who made it still stands at the hole. Every rule
//! asks and none refuses: what was entered is kept, and a person may answer that it is right. One small
//! rule a file.
//!
//! Words: *doubt* = an entry and what looks odd about it; *usual* = what most sites would write.
//! Never: judge against a limit of the contract. Every range in here is a placeholder, to be agreed with a
//! practising inspector.

mod backwards;
mod beginnings;
mod clock;
mod elevations;
mod ends;
mod fell;
mod hole;
mod lengths;
mod loads;
mod runs;
mod tickets;
mod values;
mod volumes;
mod zero;

use crate::entry::EntryId;
use crate::kinds::QuestionAnswered;
use crate::log::Log;
use crate::question::{Question, Suspicion};
use quantity::{Gather, InOrder};
use std::collections::BTreeMap;

type Doubt = (EntryId, Suspicion);

/// Every rule. A new one is a file of its own and a row here.
const RULES: &[fn(&Log<'_>) -> Vec<Doubt>] = &[
    hole::deeper_than_hole,
    fell::concrete_fell,
    volumes::load_volume,
    lengths::unusual,
    values::unusual,
    backwards::time_backwards,
    clock::seen_after_entered,
    ends::end_before_begin,
    loads::out_of_order,
    tickets::twice,
    tickets::unknown,
    elevations::disagree,
    runs::do_not_meet,
    beginnings::unwritten,
];

/// Every question a log raises, in the order of its lines, with the answers people gave.
///
/// A struck line raises none; the line that took its place does.
pub fn questions(log: &Log<'_>) -> Vec<Question> {
    let places: BTreeMap<EntryId, usize> =
        log.lines.iter().enumerate().map(|(place, line)| (line.entry.id, place)).into_map();
    let mut doubts: Vec<Doubt> = RULES.iter().flat_map(|rule| rule(log)).collect();
    doubts.put_in_order_by_key(|(about, _)| places.get(about).copied());
    let answers: Vec<_> = log.each::<QuestionAnswered>().collect();
    let question = |(about, suspicion): Doubt| {
        let mut fitting = answers.iter().filter(|(_, answer)| answers_it(answer, about, &suspicion));
        let answer = fitting.next_back().map(|(line, answer)| (line.entry.id, answer.answer.clone()));
        Question { about, suspicion, answer }
    };
    doubts.into_iter().map(question).collect()
}

/// An answer names the entry and the word of the question, or the word and the field: `value_unusual.ph`.
fn answers_it(answer: &QuestionAnswered, about: EntryId, suspicion: &Suspicion) -> bool {
    let word = suspicion.word();
    let narrow = suspicion.field().map(|field| format!("{word}.{field}"));
    answer.about == about && (answer.question == word || narrow.as_deref() == Some(&answer.question))
}
