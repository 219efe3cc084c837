//! From a typed text to one exact number of one unit.
//!
//! A text is a sign, a number and a unit; a length or a span may be written in two or three parts
//! (`12'-6 1/2"`, `1 h 30 min`), a slope as a ratio (`1:75`, `1 in 75`). The field supplies a unit that
//! was left out, never a different one.
//!
//! Words: *part* = a number with the unit written after it; *hyphenated* = joined to the part before it
//! by a hyphen, as on drawings.
//! Never: guess; use a float; panic on any text.

use crate::entered::Reading;
use crate::kind::Kind;
use crate::misread::Problem;
use crate::number::Exact;
use crate::numeral::numeral;
use crate::parts::{Part, parts};
use crate::spelling::named;
use crate::text::plain;
use crate::token::{Token, tokens};
use crate::unit::{Unit, units};

/// No quantity takes a longer text; a pasted page is not read sign by sign.
const TEXT_MAX_BYTES: usize = 200;
/// Half way round the earth: every coordinate is shorter, and hundreds of such lengths add up within 64 bits.
const LENGTH_MAX_METERS: Exact = Exact::new_raw(20_000_000, 1);

/// What a text says.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Found {
    /// How many of the unit.
    pub(crate) number: Exact,
    /// The unit the number counts.
    pub(crate) unit: &'static Unit,
    /// The unit the field had to supply.
    pub(crate) assumed: Option<&'static Unit>,
}

/// Reads a text as a quantity of a kind.
pub(crate) fn read(typed: &str, kind: Kind, reading: Reading) -> Result<Found, Problem> {
    if typed.len() > TEXT_MAX_BYTES {
        return Err(Problem::OutOfRange);
    }
    let pieces = tokens(&plain(typed));
    let (negative, rest) = sign(&pieces);
    let parts = parts(rest)?;
    let found = match parts.as_slice() {
        [only] => single(only, kind, reading)?,
        [one, run] if kind == Kind::Slope => one_in(one, run, reading)?,
        several => compound(several, kind, reading)?,
    };
    let number = if negative { -found.number } else { found.number };
    possible(Found { number, ..found }, kind)
}

fn sign(pieces: &[Token]) -> (bool, &[Token]) {
    match pieces {
        [Token::Mark('-'), rest @ ..] => (true, rest),
        [Token::Mark('+'), rest @ ..] => (false, rest),
        rest => (false, rest),
    }
}

fn single(part: &Part, kind: Kind, reading: Reading) -> Result<Found, Problem> {
    if let [Token::Number(rise), Token::Mark(':'), Token::Number(run)] = part.number {
        return ratio([rise, run], part, kind, reading);
    }
    let number = numeral(part.number, reading.comma)?;
    let (unit, assumed) = named(&part.unit, kind, reading)?;
    if assumed.is_some_and(|unit| bare_fraction(part, number, unit)) {
        return Err(Problem::Ambiguous);
    }
    Ok(Found { number, unit, assumed })
}

/// `12/6` in a field of feet may be feet and inches, and `1/75` a slope or a fraction of a percent.
fn bare_fraction(part: &Part, number: Exact, assumed: &Unit) -> bool {
    let fraction = matches!(part.number, [_, Token::Mark('/'), _]);
    let feet = *assumed == units::FOOT && number >= Exact::from_integer(1);
    fraction && (assumed.kind == Kind::Slope || feet)
}

/// `1:75`.
fn ratio(pair: [&String; 2], part: &Part, kind: Kind, reading: Reading) -> Result<Found, Problem> {
    if kind != Kind::Slope || !part.unit.is_empty() {
        return Err(Problem::Ambiguous);
    }
    let [rise, run] = pair.map(|text| numeral(&[Token::Number(text.clone())], reading.comma));
    slope(rise?, run?)
}

/// `1 in 75`, said of piles and walls.
fn one_in(one: &Part, run: &Part, reading: Reading) -> Result<Found, Problem> {
    if !one.unit.eq_ignore_ascii_case("in") || !run.unit.is_empty() {
        return Err(Problem::UnknownUnit(one.unit.clone()));
    }
    slope(numeral(one.number, reading.comma)?, numeral(run.number, reading.comma)?)
}

/// A hole that leans more than 1:1 is a ratio written the wrong way round.
fn slope(rise: Exact, run: Exact) -> Result<Found, Problem> {
    if run < rise || run == Exact::from_integer(0) {
        return Err(Problem::Impossible);
    }
    let number = num_traits::CheckedDiv::checked_div(&rise, &run).ok_or(Problem::OutOfRange)?;
    Ok(Found { number, unit: &units::METER_PER_METER, assumed: None })
}

/// `12'-6 1/2"`, `3 m 20 cm`, `1 h 30 min`: whole numbers of falling units, each less than one of the
/// unit before it.
fn compound(parts: &[Part], kind: Kind, reading: Reading) -> Result<Found, Problem> {
    let survey = reading.unit == Some(&units::SURVEY_FOOT);
    if !matches!(kind, Kind::Length | Kind::Span) || survey {
        return Err(Problem::Ambiguous);
    }
    let (first, _) = named(&parts[0].unit, kind, Reading { unit: None, ..reading })?;
    let mut unit = first;
    let mut total = numeral(parts[0].number, reading.comma)?;
    let mut last = total;
    for part in &parts[1..] {
        let finer = finer_unit(part, unit, parts, kind)?;
        let number = numeral(part.number, reading.comma)?;
        fits(last, number, unit.factor() / finer.factor())?;
        total = sum(total, number, finer.factor() / first.factor())?;
        (unit, last) = (finer, number);
    }
    Ok(Found { number: total, unit: first, assumed: None })
}

/// The unit of a later part: written out, or the inches after a foot mark (`5'3`). It goes a whole number
/// of times into the one before. `12'.5` may be half an inch or half a foot.
fn finer_unit(part: &Part, before: &Unit, parts: &[Part], kind: Kind) -> Result<&'static Unit, Problem> {
    if matches!(part.number, [Token::Number(text), ..] if text.starts_with(['.', ','])) {
        return Err(Problem::Ambiguous);
    }
    if part.unit.is_empty() {
        let inches = parts.len() == 2 && parts[0].unit == "'" && !part.hyphenated;
        return if inches { Ok(&units::INCH) } else { Err(Problem::Ambiguous) };
    }
    let (unit, _) = named(&part.unit, kind, Reading::default())?;
    let times = before.factor() / unit.factor();
    let finer = times.is_integer() && times > Exact::from_integer(1);
    if finer { Ok(unit) } else { Err(Problem::Impossible) }
}

/// The part before has to be whole, and this one less than one of the unit before.
fn fits(before: Exact, number: Exact, most: Exact) -> Result<(), Problem> {
    if before.is_integer() && number < most { Ok(()) } else { Err(Problem::Impossible) }
}

fn sum(total: Exact, number: Exact, factor: Exact) -> Result<Exact, Problem> {
    use num_traits::{CheckedAdd, CheckedMul};
    let more = number.checked_mul(&factor).ok_or(Problem::OutOfRange)?;
    total.checked_add(&more).ok_or(Problem::OutOfRange)
}

/// Refuses what no site can hold: numbers beyond 128 bits, lengths beyond half way round the earth,
/// negative volumes, colder than absolute zero.
fn possible(found: Found, kind: Kind) -> Result<Found, Problem> {
    let si = found.unit.checked_si_of(found.number).ok_or(Problem::OutOfRange)?;
    if si < Exact::from_integer(0) && !kind.may_be_negative() {
        return Err(Problem::Impossible);
    }
    if kind == Kind::Length && (si > LENGTH_MAX_METERS || si < -LENGTH_MAX_METERS) {
        return Err(Problem::OutOfRange);
    }
    Ok(found)
}
