//! A big figure: what is read across the rig.
//!
//! Words: *unit* stands apart from the number so that it can be set smaller; *uncertainty* is the standard
//! error, where the readings have one.
//! Never: hold a number that is no number; show a figure without saying what it is.

use super::sign::{Haste, Sign};

/// One big figure.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Big {
    /// Stable word: `depth_to_concrete`.
    pub word: &'static str,
    /// What it is: `Depth to concrete`.
    pub label: String,
    /// The number, or the words that stand for it: `42.6`, `not sounded yet`.
    pub value: String,
    /// Its unit; empty where the value carries its own or has none.
    pub unit: String,
    /// What a depth is measured from: `below top of casing`; empty where the value is no depth.
    pub zero: String,
    /// `± 0.1`; empty where the readings have no error.
    pub uncertainty: String,
    /// What stands beside it: the plan value, the elevation, when it was read. Short.
    pub note: String,
    /// What was found about it.
    pub sign: Sign,
    /// How soon somebody has to act on it, where a forecast is behind it.
    pub haste: Option<Haste>,
    /// It is the one to look at first in this stage.
    pub main: bool,
}

impl Big {
    /// A figure from a printed value with its unit and, where there is one, its error: `11.4 ft ± 0.1`.
    pub(crate) fn new(word: &'static str, label: &str, printed: &str) -> Self {
        let (whole, error) = printed.split_once(" ± ").unwrap_or((printed, ""));
        let (value, unit) = apart(whole);
        let big = Big { word, label: label.to_owned(), value, unit, ..Big::default() };
        big.uncertain(error)
    }

    /// A figure that is words or carries its own units: `1 h 25 min`.
    pub(crate) fn said(word: &'static str, label: &str, value: impl Into<String>) -> Self {
        Big { word, label: label.to_owned(), value: value.into(), ..Big::default() }
    }

    #[must_use]
    pub(crate) fn note(self, note: impl Into<String>) -> Self {
        Big { note: note.into(), ..self }
    }

    #[must_use]
    pub(crate) fn zero(self, zero: impl Into<String>) -> Self {
        Big { zero: zero.into(), ..self }
    }

    #[must_use]
    pub(crate) fn sign(self, sign: Sign) -> Self {
        Big { sign, ..self }
    }

    /// With a printed error; one that is smaller than the last digit shown is left out.
    #[must_use]
    pub(crate) fn uncertain(self, error: &str) -> Self {
        let seen = error.chars().any(|sign| sign.is_ascii_digit() && sign != '0');
        let uncertainty = if seen { format!("± {error}") } else { String::new() };
        Big { uncertainty, ..self }
    }

    #[must_use]
    pub(crate) fn haste(self, haste: Haste) -> Self {
        Big { haste: Some(haste), ..self }
    }

    #[must_use]
    pub(crate) fn main(self) -> Self {
        Big { main: true, ..self }
    }
}

/// Number and unit of a printed value; one with two units, or none, stays whole.
fn apart(printed: &str) -> (String, String) {
    match printed.rsplit_once(' ') {
        Some((number, unit))
            if is_number(number) && !unit.starts_with(|sign: char| sign.is_ascii_digit()) =>
        {
            (number.to_owned(), unit.to_owned())
        }
        _ => (printed.to_owned(), String::new()),
    }
}

fn is_number(text: &str) -> bool {
    text.chars().all(|sign| sign.is_ascii_digit() || " .,/+-".contains(sign))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(printed: &str, expected: [&str; 3]) {
        let big = Big::new("x", "X", printed);
        assert_eq!([big.value, big.unit, big.uncertainty], expected.map(str::to_owned));
    }

    #[test]
    fn a_printed_value_comes_apart_into_number_unit_and_error() {
        check("11.4 ft ± 0.1", ["11.4", "ft", "± 0.1"]);
        check("1 1/2 in", ["1 1/2", "in", ""]);
        check("+55.0 ft", ["+55.0", "ft", ""]);
        check("-3,20 m ± 0,05", ["-3,20", "m", "± 0,05"]);
        check("12'-6\"", ["12'-6\"", "", ""]);
        check("1.11 ± 0.03", ["1.11", "", "± 0.03"]);
        check("61.0 ft ± 0.0", ["61.0", "ft", ""]);
        check("1 h 25 min", ["1 h 25 min", "", ""]);
        check("12'-6 1/2\"", ["12'-6 1/2\"", "", ""]);
    }
}
