//! The same digits with other signs between them.
//!
//! `12,5 ft` may be `12.5 ft` or `12'-5"`; `6'14"` may be `7'-2"`. Each function offers one kind of slip
//! put right, or nothing; what does not read in the field is dropped later.
//!
//! Never: add, drop or change a digit, except to carry inches over to feet.

use crate::entered::Reading;
use crate::kind::Kind;
use crate::length::Length;
use crate::parse::read;
use crate::parts::spelled;
use crate::print::{InchFraction, LengthStyle, print_length};
use crate::slip::Slip;
use crate::token::Token;
use crate::unit::units;

impl Slip {
    /// The same digits with other signs between them.
    pub(crate) fn regrouped(&self) -> Vec<String> {
        if self.one_number() {
            let (decimal, feet) = (self.as_decimal(), self.as_feet_inches());
            let first = if self.groups().len() > 2 { [feet, decimal] } else { [decimal, feet] };
            return [first.concat(), self.without_minus()].concat();
        }
        if self.pieces.contains(&Token::Mark('/')) {
            return [self.fraction_as_pair(), self.inches_marked(), self.carried(), self.without_minus()]
                .concat();
        }
        if self.pieces.contains(&Token::Mark(':')) {
            return [self.ratio_turned(), self.clock()].concat();
        }
        let whole = [self.carried(), self.one_part_less(), self.as_feet_inches(), self.finished()].concat();
        [whole, self.without_minus(), self.ends(), self.as_decimal()].concat()
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
    pub(crate) fn raised_as_inches(&self) -> Vec<String> {
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
            ("in", _) => !self.one_number(),
            (written, _) => ["ft", "feet", "foot"].contains(&written),
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

    /// `1 h 30` as `1 h 30 min`, `3 m 20` as `3 m 20 cm`.
    fn finished(&self) -> Vec<String> {
        ["min", "s", "cm"].map(|unit| format!("{} {unit}", spelled(&self.pieces))).into()
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

    /// `12/6` as feet and inches or as a fraction of feet, `1/75` as a slope.
    fn fraction_as_pair(&self) -> Vec<String> {
        match self.pieces.as_slice() {
            [Token::Number(first), Token::Mark('/'), Token::Number(second)] if self.kind == Kind::Slope => {
                vec![format!("{first}:{second}")]
            }
            [Token::Number(first), Token::Mark('/'), Token::Number(second)] => {
                [self.as_feet_inches(), vec![format!("{first}/{second} ft")]].concat()
            }
            _ => Vec::new(),
        }
    }

    /// `5'-6 1/2` as `5'-6 1/2"`.
    fn inches_marked(&self) -> Vec<String> {
        vec![format!("{}\"", spelled(&self.pieces))]
    }
}
