//! The sentence for a field that cannot be taken in: what was found, what was expected.
//!
//! It stands beside the field while the thumb is still on the keypad, so it is short and names no type of
//! the program.
//!
//! Never: blame; repeat more than a short piece of what was found.

use quantity::Misread;
use record::field::{Fault, FaultKind};

/// How much of a text is repeated in a sentence.
const REPEATED_MAX: usize = 60;

/// The sentence for a fault of a field.
pub fn fault(fault: &Fault) -> String {
    match &fault.kind {
        FaultKind::Missing => "This is needed and blank.".to_owned(),
        FaultKind::UnknownField(_) => "There is no such field here.".to_owned(),
        FaultKind::Sort { found, expected } => format!("Found {found}, expected {expected}."),
        FaultKind::Word { found, allowed } => {
            format!("{} is none of the words here: {}.", quoted(found), either(allowed))
        }
        FaultKind::Count(found) => format!("{} is no whole number from 0 to 1000000.", quoted(found)),
        FaultKind::Moment(found) => {
            format!("{} is no time; expected one such as 10:41 or 2026-05-04 10:41.", quoted(found))
        }
        FaultKind::Hash(found) => {
            format!("{} is no id or hash: 64 digits 0 to 9 and a to f are needed.", quoted(found))
        }
        FaultKind::UnknownKind(found) => format!("{} is no kind of entry.", quoted(found)),
        FaultKind::Quantity(found) => misread(found),
    }
}

/// The sentence for a quantity that cannot be read.
pub fn misread(misread: &Misread) -> String {
    let text = misread.to_string();
    let mut signs = text.chars();
    let first = signs.next().map(|sign| sign.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}.", signs.as_str())
}

/// A found text between marks, cut where it is long.
fn quoted(text: &str) -> String {
    let plain: String = text.trim().chars().map(|sign| if sign.is_control() { ' ' } else { sign }).collect();
    match plain.char_indices().nth(REPEATED_MAX) {
        Some((at, _)) => format!("`{}…`", &plain[..at]),
        None => format!("`{plain}`"),
    }
}

fn either(words: &[&str]) -> String {
    match words.split_last() {
        None => String::new(),
        Some((last, [])) => (*last).to_owned(),
        Some((last, others)) => format!("{} or {last}", others.join(", ")),
    }
}
