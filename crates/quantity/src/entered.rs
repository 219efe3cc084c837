//! What was typed, kept beside what we understood.
//!
//! The record holds the text; the value is derived from it and can always be derived again. Where the
//! person left the unit to the field, or wrote a decimal comma, the stored text says so in braces at its
//! end: `12.54 {ft}`, `3,82 m {,}`, `3,82 {m,}`. Braces are never typed.
//!
//! Words: *typed* = the characters the person wrote; *stored* = typed plus what the field supplied.
//! Never: rewrite, re-round or convert what was typed.

use crate::kinds::Quantity;
use crate::misread::{Misread, Problem};
use crate::parse::read;
use crate::perhaps::perhaps;
use crate::unit::{Unit, units};

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

    /// The same field on a job that writes the decimal sign as a comma, or not.
    pub fn with_comma(self, comma: bool) -> Self {
        Reading { comma, ..self }
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

impl<Q: Quantity> Entered<Q> {
    /// Reads what a person typed.
    ///
    /// # Errors
    /// A [`Misread`] with what was expected and what may have been meant.
    pub fn parse(typed: &str, reading: Reading) -> Result<Self, Misread> {
        let misread = |problem: Problem| {
            let perhaps = perhaps(typed, Q::KIND, reading, &problem);
            Misread { typed: typed.to_owned(), expected: Q::KIND, problem, perhaps }
        };
        let found = read(typed, Q::KIND, reading).map_err(misread)?;
        let value = Q::from_unit(found.number, found.unit).ok_or_else(|| misread(Problem::OutOfRange))?;
        let comma = reading.comma && typed.contains(['.', ',']);
        Ok(Entered { typed: typed.to_owned(), assumed: found.assumed, comma, value })
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
        if unit.is_none() && (!symbol.is_empty() || !comma) {
            let problem = Problem::UnknownUnit(mark.to_owned());
            return Err(Misread {
                typed: stored.to_owned(),
                expected: Q::KIND,
                problem,
                perhaps: Vec::new(),
            });
        }
        Self::parse(typed, Reading { unit, comma })
    }

    /// The stored form.
    pub fn stored(&self) -> String {
        let comma = if self.comma { "," } else { "" };
        match self.assumed {
            None if !self.comma => self.typed.clone(),
            assumed => format!("{} {{{}{comma}}}", self.typed, assumed.map_or("", |unit| unit.symbol)),
        }
    }

    /// What the person wrote, untouched.
    pub fn typed(&self) -> &str {
        &self.typed
    }

    /// The unit the field supplied, where the person wrote none, or wrote `ft` in a field of survey feet.
    pub fn assumed(&self) -> Option<&'static Unit> {
        self.assumed
    }

    /// What was written, with the unit the field supplied: what a report prints first.
    pub fn shown(&self) -> String {
        let typed = self.typed.trim();
        match self.assumed {
            Some(unit) if unit.symbol.is_empty() => typed.to_owned(),
            Some(unit) if typed.contains(|sign: char| sign.is_alphabetic() || sign == '\'') => {
                format!("{typed} ({})", unit.symbol)
            }
            Some(unit) => format!("{typed} {}", unit.symbol),
            None => typed.to_owned(),
        }
    }

    /// What we understood.
    pub fn value(&self) -> Q {
        self.value
    }
}
