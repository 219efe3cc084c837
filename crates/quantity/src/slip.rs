//! A text that cannot be read, in pieces, and the field it was typed into.
//!
//! What the suggestions need to know of it: its digits, its first unit, how many numbers it holds.
//!
//! Words: *slip* = such a text in such a field.

use crate::entered::Reading;
use crate::kind::Kind;
use crate::parts::spelled;
use crate::token::Token;
use crate::unit::{Unit, units};

/// The field a text was typed into, and the text in pieces.
pub(crate) struct Slip {
    /// What the field asks for.
    pub(crate) kind: Kind,
    /// How the field reads.
    pub(crate) reading: Reading,
    /// The text.
    pub(crate) pieces: Vec<Token>,
}

impl Slip {
    pub(crate) fn one_number(&self) -> bool {
        self.pieces.iter().filter(|piece| matches!(piece, Token::Number(_))).count() == 1
    }

    pub(crate) fn minus(&self) -> &'static str {
        if self.pieces.first() == Some(&Token::Mark('-')) { "-" } else { "" }
    }

    /// The digits between points, commas, spaces and marks.
    pub(crate) fn groups(&self) -> Vec<&str> {
        let numbers = self.pieces.iter().filter_map(|piece| match piece {
            Token::Number(text) => Some(text.as_str()),
            _ => None,
        });
        numbers.flat_map(|text| text.split(['.', ','])).filter(|digits| !digits.is_empty()).collect()
    }

    /// The first unit written, a foot mark as `ft`, an inch mark as `in`; empty when the field supplies it.
    pub(crate) fn unit(&self) -> String {
        let word = |piece: &&Token| matches!(piece, Token::Word(_));
        let words: Vec<Token> =
            self.pieces.iter().skip_while(|piece| !word(piece)).take_while(word).cloned().collect();
        let written = spelled(&words);
        match written.as_str() {
            "'" => "ft".to_owned(),
            "\"" => "in".to_owned(),
            _ => written,
        }
    }

    /// The unit written; where there is none and the field has none either, those people mean.
    pub(crate) fn units_to_offer(&self) -> Vec<String> {
        match (self.unit(), self.reading.unit) {
            (written, None) if written.is_empty() => {
                usual(self.kind).iter().map(|unit| unit.symbol.to_owned()).collect()
            }
            (written, _) => vec![written],
        }
    }

    /// `30 min 1 h`, `1 h 30`: nobody writes that for a decimal. After feet, `6'14"`, a decimal may be meant.
    pub(crate) fn two_units(&self) -> bool {
        let written =
            self.pieces.windows(2).filter(|pair| matches!(pair, [Token::Number(_), Token::Word(_)]));
        (written.count() > 1 || self.kind == Kind::Span) && self.unit() != "ft" && !self.one_number()
    }

    /// `12.5' 3"`: the first of several numbers has decimals already.
    pub(crate) fn decimal_before_more(&self) -> bool {
        let numbers = self.pieces.iter().filter_map(|piece| match piece {
            Token::Number(text) => Some(text),
            _ => None,
        });
        !self.one_number() && numbers.take(1).any(|text| text.contains(['.', ',']))
    }
}

/// The units people mean when they leave one out.
pub(crate) fn usual(kind: Kind) -> Vec<&'static Unit> {
    match kind {
        Kind::Length => vec![&units::FOOT, &units::INCH, &units::METER],
        Kind::Volume => vec![&units::CUBIC_YARD, &units::CUBIC_METER, &units::GALLON],
        Kind::Temperature => vec![&units::FAHRENHEIT, &units::CELSIUS],
        Kind::Pressure => vec![&units::PSI, &units::MEGAPASCAL],
        Kind::Span => vec![&units::MINUTE, &units::HOUR],
        Kind::Density => vec![
            &units::POUND_PER_CUBIC_FOOT,
            &units::GRAM_PER_CUBIC_CENTIMETER,
            &units::KILOGRAM_PER_CUBIC_METER,
        ],
        other => units::ALL.iter().copied().filter(|unit| unit.kind == other).take(3).collect(),
    }
}
