//! The sentence for a mistake: what was found, what was expected, what may have been meant.
//!
//! Never: repeat more than a short piece of what was found, however long it is.

use crate::clock::TimeProblem;
use crate::mistake::{Mistake, Place, Wrong};
use std::fmt;

/// How much of a text is repeated in a sentence.
const REPEATED_MAX: usize = 60;

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Place::File => Ok(()),
            Place::Text { line, column } => write!(f, ", line {line}, column {column}"),
            Place::Cell { row, column, heading } if heading.is_empty() => {
                write!(f, ", row {row}, column {column}")
            }
            Place::Cell { row, column, heading } => {
                write!(f, ", row {row}, column {column} ({})", quoted(heading))
            }
        }
    }
}

impl fmt::Display for Mistake {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}: ", self.file, self.place)?;
        let named = matches!(
            self.wrong,
            Wrong::Sort { .. }
                | Wrong::Word { .. }
                | Wrong::Count(_)
                | Wrong::Time { .. }
                | Wrong::Quantity(_)
                | Wrong::Long { .. }
                | Wrong::File(_)
        );
        if named && !self.path.is_empty() {
            write!(f, "{}: ", quoted(&self.path))?;
        }
        write!(f, "{}", self.wrong)
    }
}

impl std::error::Error for Mistake {}

/// A found text between marks, cut where it is long.
pub(crate) fn quoted(text: &str) -> String {
    let plain: String = text.trim().chars().map(|sign| if sign.is_control() { ' ' } else { sign }).collect();
    match plain.char_indices().nth(REPEATED_MAX) {
        Some((at, _)) => format!("`{}…`", &plain[..at]),
        None => format!("`{plain}`"),
    }
}

/// `a, b or c`, each between marks.
fn either<T: AsRef<str>>(words: &[T]) -> String {
    let words: Vec<String> = words.iter().map(|word| quoted(word.as_ref())).collect();
    match words.split_last() {
        None => String::new(),
        Some((last, [])) => last.clone(),
        Some((last, others)) => format!("{} or {last}", others.join(", ")),
    }
}

/// The nearest words as a question, or everything there is.
fn meant<T: AsRef<str>>(near: &[String], all: &[T], what: &str) -> String {
    match (near, all) {
        ([], []) => String::new(),
        ([], all) => format!("; {what} {}", either(all)),
        (near, _) => format!("; did you mean {}?", either(near)),
    }
}

impl fmt::Display for TimeProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TimeProblem::Form => write!(
                f,
                "is no time; expected one such as `07:10`, `2:30 pm`, `+1 00:10` for the next day, \
                 or `2026-05-04 07:10`"
            ),
            TimeProblem::NoDate => write!(f, "has no date; expected one such as `2026-05-04 07:10`"),
            TimeProblem::Early { local } => write!(
                f,
                "lies before 2000, where the table of the clocks begins; write it with its offset from UTC, such \
                 as `{local} -06:00`"
            ),
            TimeProblem::Skipped { local } => {
                write!(f, "never was: on {local} the clocks were put forward over it; which time was meant?")
            }
            TimeProblem::Twice { local, first, second } => write!(
                f,
                "came twice: at {local} the clocks were put back; write `{hour} {first}` for the first or \
                 `{hour} {second}` for the second",
                hour = local.rsplit(' ').next().unwrap_or(local)
            ),
            TimeProblem::Offset { written, there } => {
                write!(f, "says {written} from UTC, but the clocks of the job stood at {there}")
            }
        }
    }
}

impl fmt::Display for Wrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Wrong::NotUtf8 { byte } => write!(
                f,
                "the byte {byte:#04x} is not UTF-8; save the file again with the encoding UTF-8 and try \
                 once more"
            ),
            Wrong::Utf16 => {
                write!(
                    f,
                    "this looks like UTF-16; save the file again with the encoding UTF-8 and try once more"
                )
            }
            Wrong::Empty => write!(f, "nothing is written in this file"),
            Wrong::Syntax { hint: Some(hint), .. } => write!(f, "{hint}"),
            Wrong::Syntax { says, hint: None } => write!(f, "this is not written as TOML: {says}"),
            Wrong::QuoteOpen => write!(f, "a quotation mark is opened here and never closed"),
            _ => self.in_the_file(f),
        }
    }
}

impl Wrong {
    fn in_the_file(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Wrong::NoJob => write!(
                f,
                "no job is open and no [job] stands in the file; expected [job] with key, date, author, \
                 name, time_zone, units and lengths"
            ),
            Wrong::OpenAlready => write!(
                f,
                "the job is open already, so [job] may hold its key and nothing else; what was written of it \
                 is changed by a correction"
            ),
            Wrong::OtherJob { found, open } => {
                write!(f, "these notes are for the job {}, but {} is open", quoted(found), quoted(open))
            }
            Wrong::Key(found) => write!(
                f,
                "{} is no key; expected 1 to 40 small letters, digits and hyphens such as `harlow-creek`",
                quoted(found)
            ),
            Wrong::RehearsalKey(found) => write!(
                f,
                "{} is a key of rehearsals, and no job may have one; choose another, or say `rehearsal = true`",
                quoted(found)
            ),
            Wrong::UnknownName { found, within, near, all } => {
                write!(f, "{} has no place in {within}{}", quoted(found), meant(near, all, "expected"))
            }
            Wrong::KindElsewhere { word, place } => {
                write!(f, "{} is not written here but as {place}", quoted(word))
            }
            Wrong::UnknownKind { found, near } if near.is_empty() => {
                write!(
                    f,
                    "{} is no kind of entry; what fits none of them is written as `remark`",
                    quoted(found)
                )
            }
            Wrong::UnknownKind { found, near } => {
                write!(f, "{} is no kind of entry{}", quoted(found), meant::<&str>(near, &[], ""))
            }
            Wrong::UnknownShaft { found, near, planned } if planned.is_empty() => {
                let _ = near;
                write!(f, "the shaft {} is not planned; open it with [[shaft]] and its id", quoted(found))
            }
            Wrong::UnknownShaft { found, near, planned } => {
                let few = if planned.len() <= 12 { planned.as_slice() } else { &[] };
                let near = meant(near, few, "planned are");
                write!(f, "the shaft {} is not planned{near}", quoted(found))
            }
            Wrong::ShaftTwice { id, first: Some(first) } => {
                write!(f, "the shaft {} is planned in line {first} already", quoted(id))
            }
            Wrong::ShaftTwice { id, first: None } => write!(
                f,
                "the shaft {} is planned in the record already; a changed plan is a correction of that entry",
                quoted(id)
            ),
            _ => self.in_a_reference(f),
        }
    }

    fn in_a_reference(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Wrong::LabelTwice { label, first } => {
                write!(f, "the label {} is given to line {first} already", quoted(label))
            }
            Wrong::LabelUnknown { found, near } => {
                write!(
                    f,
                    "no line of this file is labelled {}{}",
                    quoted(found),
                    meant::<&str>(near, &[], "")
                )
            }
            Wrong::LabelLater { label, line } => write!(
                f,
                "{} is the label of line {line}, which is written later; only lines further up can be \
                 spoken of",
                quoted(label)
            ),
            Wrong::NoEntry(found) => write!(
                f,
                "{} names no entry; expected a label such as `#s3`, or the first eight digits of an \
                 entry's id",
                quoted(found)
            ),
            Wrong::EntryUnclear(found) => {
                write!(f, "more than one entry begins with {}; write more of its digits", quoted(found))
            }
            _ => self.in_a_field(f),
        }
    }

    fn in_a_field(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Wrong::Blank { field, of, meaning } => {
                write!(f, "{} is blank, and {of} needs it", quoted(field))?;
                let meaning = meaning.trim().trim_end_matches('.');
                if meaning.is_empty() { Ok(()) } else { write!(f, " ({meaning})") }
            }
            Wrong::UnknownField { found, of, near, elsewhere, fields } => {
                write!(f, "{} is no field of {of}", quoted(found))?;
                if near.is_empty() && !elsewhere.is_empty() {
                    return write!(f, "; it belongs to {}", either(elsewhere));
                }
                write!(f, "{}", meant(near, fields, "its fields are"))
            }
            Wrong::Sort { found, expected } => write!(f, "found {found}, expected {expected}"),
            Wrong::Word { found, near, allowed } => {
                write!(f, "{} is none of the words here{}", quoted(found), meant(near, allowed, "expected"))
            }
            Wrong::Count(found) => {
                write!(f, "{} is no whole number; expected one from 0 to 1000000", quoted(found))
            }
            Wrong::Time { found, problem } => write!(f, "{} {problem}", quoted(found)),
            Wrong::Date(found) => {
                write!(f, "{} is no date; expected year, month and day such as 2026-05-04", quoted(found))
            }
            Wrong::File(found) => write!(
                f,
                "{} is neither a file beside the notes nor the 64 hexadecimal digits of a SHA-256",
                quoted(found)
            ),
            Wrong::Criteria(found) => {
                write!(f, "{} is no criteria set that can be found here", quoted(found))
            }
            Wrong::Zone { found, near } => write!(
                f,
                "{} is no time zone of the IANA table; expected one such as `America/Denver`{}",
                quoted(found),
                meant::<&str>(near, &[], "")
            ),
            Wrong::Quantity(misread) => write!(f, "{misread}"),
            Wrong::Long { characters } => {
                write!(f, "{characters} characters are written here, far more than such a field holds")
            }
            _ => self.in_a_table(f),
        }
    }

    fn in_a_table(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Wrong::UnknownHeading { found, .. } if found.is_empty() => {
                write!(f, "something is written in this column, but the column has no heading")
            }
            Wrong::UnknownHeading { found, table, near } => write!(
                f,
                "{} is no heading of the table {table}{}",
                quoted(found),
                meant::<&str>(near, &[], "")
            ),
            Wrong::HeadingTwice { field } => {
                write!(f, "another column fills the same field as {}; keep one of them", quoted(field))
            }
            Wrong::NoTable => write!(
                f,
                "the headings fit none of the tables; expected those of tool_runs, fluid_tests, loads, \
                 soundings, shaft_schedule or of one kind of entry"
            ),
            Wrong::CellsBeyond { headings } => write!(
                f,
                "something is written beyond the last of the {headings} headings; does a comma in a text \
                 stand without quotation marks?"
            ),
            Wrong::IndexHigh => write!(f, "a list in a table goes from 1 to 99"),
            _ => unreachable!("every other mistake has its sentence above"),
        }
    }
}
