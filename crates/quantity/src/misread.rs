//! Why a text could not be read, and what may have been meant.
//!
//! An inspector with gloves on corrects a slip in one tap when the likely readings stand beside the
//! question; a guess taken silently would stay in the record for ever.
//!
//! Never: choose one of the readings.

use crate::kind::Kind;
use crate::unit::Unit;

/// Why a text could not be read, with what was understood of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Misread {
    /// The text as it was typed.
    pub typed: String,
    /// What the field asked for.
    pub expected: Kind,
    /// What is wrong with it.
    pub problem: Problem,
    /// Readings that could have been meant, in the field's own spelling, most likely first. Each of them
    /// reads without a question in the same field. At most three.
    pub perhaps: Vec<String>,
}

/// What is wrong with a text.
#[derive(Debug, Clone, PartialEq)]
pub enum Problem {
    /// Nothing was written.
    Empty,
    /// No number where one should begin.
    NoNumber,
    /// A number, and then something that is no unit of any kind.
    UnknownUnit(String),
    /// A bare number where the field has no unit of its own, or half a unit (`38 s` for a funnel time).
    NoUnit,
    /// A unit of another kind.
    OtherKind(&'static Unit),
    /// More than one reading is possible.
    Ambiguous,
    /// No reading is possible: fourteen inches after a foot mark, a fraction over zero, a negative volume.
    Impossible,
    /// Too many digits, or beyond every site.
    OutOfRange,
}

impl std::fmt::Display for Misread {
    /// One plain sentence: what was found, what was expected, what may be meant.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.found(f)?;
        write!(f, "; expected {} such as {}", self.expected.noun(), self.expected.example())?;
        match self.perhaps.split_last() {
            None => Ok(()),
            Some((last, [])) => write!(f, "; perhaps {last}"),
            Some((last, others)) => write!(f, "; perhaps {} or {last}", others.join(", ")),
        }
    }
}

impl std::error::Error for Misread {}

impl Misread {
    fn found(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let typed = self.typed.trim();
        match &self.problem {
            Problem::Empty => write!(f, "nothing is written"),
            Problem::NoNumber => write!(f, "`{typed}` does not begin with a number"),
            Problem::UnknownUnit(unit) => write!(f, "`{typed}`: `{unit}` is no unit known here"),
            Problem::NoUnit if self.expected == Kind::FunnelTime => {
                write!(f, "`{typed}` does not say for which volume")
            }
            Problem::NoUnit => write!(f, "`{typed}` has no unit"),
            Problem::OtherKind(unit) => {
                write!(f, "`{typed}` is {}, because of `{}`", unit.kind.noun(), unit.symbol)
            }
            Problem::Ambiguous => write!(f, "`{typed}` can be read in more than one way"),
            Problem::Impossible => write!(f, "`{typed}` cannot be right as it is written"),
            Problem::OutOfRange => write!(f, "`{typed}` has too many digits or lies beyond every site"),
        }
    }
}
