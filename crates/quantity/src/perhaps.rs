//! What may have been meant by a text that cannot be read.
//!
//! Suggestions are made generously and then read back: only those that the same field reads without a
//! question are offered, at most three, the likeliest first.
//!
//! Never: offer a text that would raise a question again.

use crate::entered::Reading;
use crate::kind::Kind;
use crate::misread::Problem;
use crate::parse::read;
use crate::parts::spelled;
use crate::slip::{Slip, usual};
use crate::spelling::near;
use crate::text::plain;
use crate::token::{Token, tokens};
use crate::unit::Unit;

const OFFERED_MAX: usize = 3;

/// Readings that may have been meant, likeliest first.
pub(crate) fn perhaps(typed: &str, kind: Kind, reading: Reading, problem: &Problem) -> Vec<String> {
    if matches!(problem, Problem::Empty | Problem::OutOfRange) {
        return Vec::new();
    }
    let slip = Slip { kind, reading, pieces: tokens(&plain(typed)) };
    let mut offered: Vec<String> = Vec::new();
    for text in slip.candidates(problem) {
        if offered.len() < OFFERED_MAX && !offered.contains(&text) && read(&text, kind, reading).is_ok() {
            offered.push(text);
        }
    }
    offered
}

impl Slip {
    fn candidates(&self, problem: &Problem) -> Vec<String> {
        match problem {
            Problem::Empty | Problem::OutOfRange => Vec::new(),
            Problem::NoNumber => self.number_first(),
            Problem::NoUnit => self.with_units(&usual(self.kind)),
            Problem::OtherKind(_) => {
                [self.raised_as_inches(), self.with_units(&near(&self.unit(), self.kind))].concat()
            }
            Problem::UnknownUnit(spelled) => self.with_units(&near(spelled, self.kind)),
            Problem::Ambiguous | Problem::Impossible => self.regrouped(),
        }
    }

    /// `pH 8.5` and `about 12 ft`, with the number in front.
    fn number_first(&self) -> Vec<String> {
        let number = |piece: &Token| matches!(piece, Token::Number(_));
        let Some(start) = self.pieces.iter().position(number) else { return Vec::new() };
        let signed = start > 0 && self.pieces[start - 1] == Token::Mark('-');
        let (before, rest) = self.pieces.split_at(start - usize::from(signed));
        let rest = spelled(rest);
        vec![format!("{rest} {}", spelled(before)), rest]
    }

    /// The number as it stands, with other units.
    fn with_units(&self, units: &[&'static Unit]) -> Vec<String> {
        let word = |piece: &Token| matches!(piece, Token::Word(_));
        let end = self.pieces.iter().position(word).unwrap_or(self.pieces.len());
        let number = spelled(&self.pieces[..end]);
        units.iter().map(|unit| format!("{number} {}", unit.symbol).trim_end().to_owned()).collect()
    }
}
