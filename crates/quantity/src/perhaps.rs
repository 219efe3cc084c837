//! What may have been meant by a text that cannot be read.
//!
//! Suggestions are made generously and then read back: only those that the same field reads without a
//! question are offered, at most three, the likeliest first.
//!
//! Never: offer a text that would raise a question again.

use crate::entered::Reading;
use crate::kind::Kind;
use crate::length::Length;
use crate::misread::Problem;
use crate::parse::read;
use crate::parts::spelled;
use crate::print::{InchFraction, LengthStyle, print_length};
use crate::spelling::near;
use crate::text::plain;
use crate::token::{Token, tokens};
use crate::unit::{Unit, units};

const OFFERED_MAX: usize = 3;

/// The field a text was typed into, and the text in pieces.
struct Slip {
    kind: Kind,
    reading: Reading,
    pieces: Vec<Token>,
}

/// Readings that may have been meant, likeliest first.
pub(crate) fn perhaps(typed: &str, kind: Kind, reading: Reading, problem: &Problem) -> Vec<String> {
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

    /// The same digits with other signs between them.
    fn regrouped(&self) -> Vec<String> {
        if self.one_number() {
            let (decimal, feet) = (self.as_decimal(), self.as_feet_inches());
            let first = if self.groups().len() > 2 { [feet, decimal] } else { [decimal, feet] };
            return [first.concat(), self.without_minus()].concat();
        }
        if self.pieces.contains(&Token::Mark('/')) {
            return [self.fraction_as_pair(), self.carried(), self.without_minus()].concat();
        }
        if self.pieces.contains(&Token::Mark(':')) {
            return [self.ratio_turned(), self.clock()].concat();
        }
        let first = [self.carried(), self.one_part_less(), self.as_feet_inches(), self.without_minus()];
        [first.concat(), self.ends(), self.as_decimal()].concat()
    }

    fn one_number(&self) -> bool {
        self.pieces.iter().filter(|piece| matches!(piece, Token::Number(_))).count() == 1
    }

    fn minus(&self) -> &'static str {
        if self.pieces.first() == Some(&Token::Mark('-')) { "-" } else { "" }
    }

    /// The digits between points, commas, spaces and marks.
    fn groups(&self) -> Vec<&str> {
        let numbers = self.pieces.iter().filter_map(|piece| match piece {
            Token::Number(text) => Some(text.as_str()),
            _ => None,
        });
        numbers.flat_map(|text| text.split(['.', ','])).filter(|digits| !digits.is_empty()).collect()
    }

    /// The first unit written, a foot mark as `ft`; empty when the field supplies it.
    fn unit(&self) -> String {
        let word = |piece: &&Token| matches!(piece, Token::Word(_));
        let words: Vec<Token> =
            self.pieces.iter().skip_while(|piece| !word(piece)).take_while(word).cloned().collect();
        let written = spelled(&words);
        if written == "'" { "ft".to_owned() } else { written }
    }

    /// The unit written; where there is none and the field has none either, those people mean.
    fn units_to_offer(&self) -> Vec<String> {
        match (self.unit(), self.reading.unit) {
            (written, None) if written.is_empty() => {
                usual(self.kind).iter().map(|unit| unit.symbol.to_owned()).collect()
            }
            (written, _) => vec![written],
        }
    }

    /// `12,5 ft` as `12.5 ft`; with a decimal comma `2.500 psi` as `2,500 psi` and `2500 psi`.
    fn as_decimal(&self) -> Vec<String> {
        let groups = self.groups();
        let [whole, part @ ..] = groups.as_slice() else { return Vec::new() };
        if part.is_empty() || self.decimal_before_more() || self.two_units() {
            return Vec::new();
        }
        let point = if self.reading.comma { ',' } else { '.' };
        let decimal = format!("{whole}{point}{}", part.concat());
        let thousands = part.iter().all(|digits| digits.len() == 3) && !whole.starts_with('0');
        let whole = (thousands && self.one_number()).then(|| groups.concat());
        let texts = [Some(decimal), whole].into_iter().flatten();
        let minus = self.minus();
        let offered = self.units_to_offer();
        let with_units = |text: String| {
            let spelled = |unit: &String| format!("{minus}{text} {unit}").trim_end().to_owned();
            offered.iter().map(spelled).collect::<Vec<_>>()
        };
        texts.flat_map(with_units).collect()
    }

    /// `30 min 1 h`: nobody writes that for `30.1 min`. After feet, `6'14"`, a decimal may be meant.
    fn two_units(&self) -> bool {
        let written =
            self.pieces.windows(2).filter(|pair| matches!(pair, [Token::Number(_), Token::Word(_)]));
        written.count() > 1 && self.unit() != "ft"
    }

    /// `12.5' 3"`: the first of several numbers has decimals already.
    fn decimal_before_more(&self) -> bool {
        let numbers = self.pieces.iter().filter_map(|piece| match piece {
            Token::Number(text) => Some(text),
            _ => None,
        });
        !self.one_number() && numbers.take(1).any(|text| text.contains(['.', ',']))
    }

    /// `12.5' 3"` as `12.5 ft`.
    fn one_part_less(&self) -> Vec<String> {
        match self.pieces.iter().find(|piece| matches!(piece, Token::Number(_))) {
            Some(Token::Number(text)) if self.decimal_before_more() => {
                vec![format!("{}{text} {}", self.minus(), self.unit()).trim_end().to_owned()]
            }
            _ => Vec::new(),
        }
    }

    /// `5ft3`, which reads as cubic feet, as `5'-3"`.
    fn raised_as_inches(&self) -> Vec<String> {
        match self.pieces.as_slice() {
            [Token::Number(feet), Token::Word(unit)] => {
                let inches = unit.strip_prefix("ft").filter(|rest| ["2", "3"].contains(rest));
                inches.map(|inches| format!("{feet}'-{inches}\"")).into_iter().collect()
            }
            _ => Vec::new(),
        }
    }

    /// `12,5`, `12.6.5` and `5 ft 3` as feet and inches, where feet are in play.
    fn as_feet_inches(&self) -> Vec<String> {
        let unit = self.unit();
        let feet = match (unit.as_str(), self.reading.unit) {
            ("", supplied) => supplied == Some(&units::FOOT),
            (written, _) => ["ft", "feet", "foot"].contains(&written) || written.starts_with("ft"),
        };
        let groups = self.groups();
        if self.decimal_before_more() {
            return Vec::new();
        }
        let point = if self.reading.comma { ',' } else { '.' };
        let inches = match groups.as_slice() {
            [_, inches] => (*inches).to_owned(),
            [_, inches, part] => format!("{inches}{point}{part}"),
            _ => return Vec::new(),
        };
        let padded = inches.len() > 1 && inches.starts_with('0') && !inches.contains(point);
        if !feet || padded || self.kind != Kind::Length {
            return Vec::new();
        }
        vec![format!("{}{}'-{inches}\"", self.minus(), groups[0])]
    }

    /// `6'14"` as `7'-2"`, and `5 in 3 ft` as `3'-5"`.
    fn carried(&self) -> Vec<String> {
        let [Token::Number(feet), Token::Word(mark), rest @ ..] = self.pieces.as_slice() else {
            return Vec::new();
        };
        let second = spelled(rest.strip_prefix(&[Token::Mark('-')]).unwrap_or(rest));
        if self.kind != Kind::Length || second.ends_with(mark.as_str()) || mark == "m" {
            return Vec::new();
        }
        let bare = !rest.iter().any(|piece| matches!(piece, Token::Word(_)));
        let inches = if bare { format!("{second}\"") } else { second };
        let style = LengthStyle::FeetInches(InchFraction::Sixteenth);
        let (Some(whole), Some(part)) = (self.length(&format!("{feet} {mark}")), self.length(&inches)) else {
            return Vec::new();
        };
        let foot = Length::nanometers(304_800_000);
        let total = whole.to_exact() + part.to_exact();
        let total = Length::exact(total).filter(|_| part >= foot);
        total.map(|total| print_length(total, style, 0)).into_iter().collect()
    }

    fn length(&self, text: &str) -> Option<Length> {
        let found = read(text, Kind::Length, Reading { unit: None, ..self.reading }).ok()?;
        Length::exact(found.unit.checked_si_of(found.number)?)
    }

    /// `-3 %` as `3 %`.
    fn without_minus(&self) -> Vec<String> {
        let rest = self.pieces.strip_prefix(&[Token::Mark('-')]);
        rest.map(spelled).into_iter().collect()
    }

    /// `75:1` as `1:75`.
    fn ratio_turned(&self) -> Vec<String> {
        match self.pieces.as_slice() {
            [Token::Number(run), Token::Mark(':'), Token::Number(rise)] if rise != "0" => {
                vec![format!("{rise}:{run}")]
            }
            _ => Vec::new(),
        }
    }

    /// `1:30` as hours and minutes, or minutes and seconds.
    fn clock(&self) -> Vec<String> {
        match self.pieces.as_slice() {
            [Token::Number(more), Token::Mark(':'), Token::Number(less)] => {
                vec![format!("{more} h {less} min"), format!("{more} min {less} s")]
            }
            _ => Vec::new(),
        }
    }

    /// `5-6 ft` as either end.
    fn ends(&self) -> Vec<String> {
        let joined = self.pieces.iter().skip(1).any(|piece| *piece == Token::Mark('-'));
        let groups = self.groups();
        if !joined || groups.len() != 2 {
            return Vec::new();
        }
        groups.iter().map(|number| format!("{number} {}", self.unit()).trim_end().to_owned()).collect()
    }

    /// `12/6` as feet and inches, `1/75` as a slope.
    fn fraction_as_pair(&self) -> Vec<String> {
        match self.pieces.as_slice() {
            [Token::Number(first), Token::Mark('/'), Token::Number(second)] if self.kind == Kind::Slope => {
                vec![format!("{first}:{second}")]
            }
            [Token::Number(_), Token::Mark('/'), Token::Number(_)] => self.as_feet_inches(),
            _ => Vec::new(),
        }
    }
}

/// The units people mean when they leave one out.
fn usual(kind: Kind) -> Vec<&'static Unit> {
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
        other => units::ALL.iter().copied().filter(|unit| unit.kind == other).take(OFFERED_MAX).collect(),
    }
}
