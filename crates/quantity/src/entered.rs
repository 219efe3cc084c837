//! What was typed, kept beside what we understood.
//!
//! The record holds the text; the value is derived from it and can always be derived again. Where the
//! person left the unit to the field, or wrote a decimal comma, the stored text says so in braces at its
//! end: `12.54 {ft}`, `3,82 m {,}`, `3,82 {m,}`. Braces are never typed.
//!
//! Words: *typed* = the characters the person wrote; *stored* = typed plus what the field supplied.
//! Never: rewrite, re-round or convert what was typed.

use crate::kinds::Quantity;
use crate::number::Exact;
use crate::unit::{Kind, Unit, units};

/// How a text is to be read: what the field supplies where the person left it out.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Reading {
    /// The unit of a bare number; `None`: the person has to write one.
    pub unit: Option<&'static Unit>,
    /// The comma is the decimal sign here.
    pub comma: bool,
}

impl Reading {
    /// Bare numbers are in `unit`.
    pub fn unit(unit: &'static Unit) -> Self {
        Reading { unit: Some(unit), comma: false }
    }
}

/// A quantity as somebody typed it, beside what we understood.
///
/// Invariant: reading `stored()` again gives the same value.
#[derive(Debug, Clone, PartialEq)]
pub struct Entered<Q> {
    typed: String,
    assumed: Option<&'static Unit>,
    comma: bool,
    value: Q,
}

/// Why a text could not be read, with what was understood of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Misread {
    /// The text as it was typed.
    pub typed: String,
    /// What the field asked for.
    pub expected: Kind,
    /// What is wrong with it.
    pub problem: Problem,
    /// Readings that could have been meant, in the field's own spelling, most likely first.
    pub perhaps: Vec<String>,
}

/// What is wrong with a text.
#[derive(Debug, Clone, PartialEq)]
pub enum Problem {
    /// Nothing was written.
    Empty,
    /// No number where one should begin.
    NoNumber,
    /// A number, and then something that is no unit of this kind.
    UnknownUnit(String),
    /// A bare number where the field has no unit of its own.
    NoUnit,
    /// A unit of another kind.
    OtherKind(&'static Unit),
    /// More than one reading is possible.
    Ambiguous,
    /// Too many digits, or beyond every site.
    OutOfRange,
}

impl<Q: Quantity> Entered<Q> {
    /// Reads what a person typed.
    ///
    /// # Errors
    /// A [`Misread`] with what was expected and what may have been meant.
    pub fn parse(typed: &str, reading: Reading) -> Result<Self, Misread> {
        let misread =
            |problem| Misread { typed: typed.to_owned(), expected: Q::KIND, problem, perhaps: Vec::new() };
        let text = typed.trim();
        let split = text.find(|c: char| !(c.is_ascii_digit() || "+-.".contains(c))).unwrap_or(text.len());
        let number = decimal(&text[..split]).ok_or_else(|| misread(Problem::NoNumber))?;
        let spelled = text[split..].trim().to_lowercase();
        let found =
            units::ALL.iter().find(|unit| unit.kind == Q::KIND && unit.spellings.contains(&spelled.as_str()));
        let (unit, assumed) = match (found, spelled.is_empty()) {
            (Some(unit), _) => (*unit, None),
            (None, true) => (reading.unit.ok_or_else(|| misread(Problem::NoUnit))?, reading.unit),
            (None, false) => return Err(misread(Problem::UnknownUnit(spelled))),
        };
        let value = Q::from_unit(number, unit).ok_or_else(|| misread(Problem::OutOfRange))?;
        Ok(Entered { typed: typed.to_owned(), assumed, comma: false, value })
    }

    /// Reads the stored form.
    ///
    /// # Errors
    /// A [`Misread`] as for `parse`; an unknown mark in the braces is an unknown unit.
    pub fn from_stored(stored: &str) -> Result<Self, Misread> {
        let Some((typed, mark)) = stored.strip_suffix('}').and_then(|rest| rest.rsplit_once(" {")) else {
            return Self::parse(stored, Reading::default());
        };
        let (symbol, comma) = match mark.strip_suffix(',') {
            Some(symbol) => (symbol, true),
            None => (mark, false),
        };
        let unit = units::ALL.iter().find(|unit| unit.kind == Q::KIND && unit.symbol == symbol).copied();
        Self::parse(typed, Reading { unit, comma })
    }

    /// The stored form.
    pub fn stored(&self) -> String {
        let symbol = self.assumed.map(|unit| unit.symbol);
        match (symbol, self.comma) {
            (None, false) => self.typed.clone(),
            (symbol, comma) => {
                format!("{} {{{}{}}}", self.typed, symbol.unwrap_or(""), if comma { "," } else { "" })
            }
        }
    }

    /// What the person wrote, untouched.
    pub fn typed(&self) -> &str {
        &self.typed
    }

    /// The unit the field supplied, where the person wrote none.
    pub fn assumed(&self) -> Option<&'static Unit> {
        self.assumed
    }

    /// What was written, with the unit the field supplied: what a report prints first.
    pub fn shown(&self) -> String {
        match self.assumed {
            Some(unit) if !unit.symbol.is_empty() => format!("{} {}", self.typed.trim(), unit.symbol),
            _ => self.typed.trim().to_owned(),
        }
    }

    /// What we understood.
    pub fn value(&self) -> Q {
        self.value
    }
}

/// `-12.50` without a float.
fn decimal(text: &str) -> Option<Exact> {
    let (negative, digits) = match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    };
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let all = format!("{whole}{part}");
    if all.is_empty() || all.len() > 15 || !all.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let value = Exact::new(all.parse().ok()?, 10_i128.pow(part.len() as u32));
    Some(if negative { -value } else { value })
}
