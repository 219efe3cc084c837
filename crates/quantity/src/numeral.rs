//! Numbers as people write them, read without a float.
//!
//! `12.54`, `2,500`, `2 500`, `6 1/2`, `6-1/2`, `1/4`. Where the job writes a decimal comma, points and
//! commas change places; where a point could be either there, nobody guesses.
//!
//! Words: *point* = the decimal sign in force; *grouping* = thousands set off by the other sign.
//! Never: use a float; guess between a decimal sign and a grouping.

use crate::misread::Problem;
use crate::number::Exact;
use crate::token::Token;
use Token::{Mark, Number};

/// More digits than this are no measurement.
const DIGITS_MAX: usize = 15;

/// Reads the pieces of one number.
pub(crate) fn numeral(pieces: &[Token], comma: bool) -> Result<Exact, Problem> {
    match pieces {
        [Number(text)] => decimal(text, comma),
        [Number(top), Mark('/'), Number(bottom)] => fraction(top, bottom),
        [Number(whole), Number(top), Mark('/'), Number(bottom)]
        | [Number(whole), Mark('-'), Number(top), Mark('/'), Number(bottom)] => mixed(whole, top, bottom),
        [Number(_), Number(_), ..] => spaced(pieces, comma),
        [] => Err(Problem::NoNumber),
        _ => Err(Problem::Ambiguous),
    }
}

/// `12.54`, `2,500.75`; with a decimal comma `12,54`, `2.500,75`.
fn decimal(text: &str, comma: bool) -> Result<Exact, Problem> {
    let (point, group) = if comma { (',', '.') } else { ('.', ',') };
    match (text.matches(point).count(), text.matches(group).count()) {
        (0, 1) if comma => lone_point(text),
        (0, _) => Ok((ungrouped(text, group)?, "".to_owned())),
        (1, _) => split_at_point(text, point, group),
        _ => Err(Problem::Ambiguous),
    }
    .and_then(|(whole, part)| exact(&whole, &part))
}

/// A single point where the decimal sign is a comma: `2.500` may be either, `3.82` can only be decimal.
fn lone_point(text: &str) -> Result<(String, String), Problem> {
    if ungrouped(text, '.').is_ok() {
        return Err(Problem::Ambiguous);
    }
    split_at_point(text, '.', ',')
}

fn split_at_point(text: &str, point: char, group: char) -> Result<(String, String), Problem> {
    let (whole, part) = text.split_once(point).unwrap_or((text, ""));
    if part.contains(group) {
        return Err(Problem::Ambiguous);
    }
    Ok((ungrouped(whole, group)?, part.to_owned()))
}

/// The digits of `2,500` when every group after the first holds three and the first does not begin with 0.
fn ungrouped(whole: &str, group: char) -> Result<String, Problem> {
    let mut groups = whole.split(group);
    let first = groups.next().unwrap_or("");
    let rest: Vec<&str> = groups.collect();
    let right = rest.is_empty()
        || ((1..=3).contains(&first.len())
            && !first.starts_with('0')
            && rest.iter().all(|digits| digits.len() == 3));
    if right { Ok(whole.replace(group, "")) } else { Err(Problem::Ambiguous) }
}

/// `2 500.75`: groups set off by spaces.
fn spaced(pieces: &[Token], comma: bool) -> Result<Exact, Problem> {
    let point = if comma { ',' } else { '.' };
    let texts: Option<Vec<&str>> = pieces
        .iter()
        .map(|piece| match piece {
            Number(text) => Some(text.as_str()),
            _ => None,
        })
        .collect();
    let joined = texts.ok_or(Problem::Ambiguous)?.join(" ");
    let (whole, part) = joined.split_once(point).unwrap_or((&joined, ""));
    let all_digits = |text: &str| text.chars().all(|sign| sign.is_ascii_digit());
    if !all_digits(part) || !all_digits(&whole.replace(' ', "")) {
        return Err(Problem::Ambiguous);
    }
    exact(&ungrouped(whole, ' ')?, part)
}

fn exact(whole: &str, part: &str) -> Result<Exact, Problem> {
    let digits = format!("{whole}{part}");
    let significant = digits.trim_start_matches('0');
    if digits.is_empty() {
        return Err(Problem::NoNumber);
    }
    if significant.len() > DIGITS_MAX || part.len() > DIGITS_MAX {
        return Err(Problem::OutOfRange);
    }
    let scale = 10_i128.pow(part.len() as u32);
    let count = if significant.is_empty() { 0 } else { integer(significant)? };
    Ok(Exact::new(count, scale))
}

fn fraction(top: &str, bottom: &str) -> Result<Exact, Problem> {
    match (integer(top)?, integer(bottom)?) {
        (_, 0) => Err(Problem::Impossible),
        (top, bottom) => Ok(Exact::new(top, bottom)),
    }
}

/// `6 1/2`: the fraction has to be less than one.
fn mixed(whole: &str, top: &str, bottom: &str) -> Result<Exact, Problem> {
    let part = fraction(top, bottom)?;
    if part >= Exact::from_integer(1) {
        return Err(Problem::Impossible);
    }
    Ok(Exact::from_integer(integer(whole)?) + part)
}

/// Plain digits, few enough that no later step can overflow.
fn integer(digits: &str) -> Result<i128, Problem> {
    if !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return Err(Problem::Impossible);
    }
    if digits.len() > DIGITS_MAX {
        return Err(Problem::OutOfRange);
    }
    digits.parse().map_err(|_| Problem::NoNumber)
}

#[cfg(test)]
mod tests {
    use super::numeral;
    use crate::text::plain;
    use crate::token::tokens;

    #[track_caller]
    fn check(text: &str, comma: bool, expected: &str) {
        let got = match numeral(&tokens(&plain(text)), comma) {
            Ok(value) => value.to_string(),
            Err(problem) => format!("{problem:?}"),
        };
        assert_eq!(got, expected, "for `{text}`");
    }

    #[test]
    fn decimal_point() {
        check("12.54", false, "627/50");
        check("2,500", false, "2500");
        check("2,500.75", false, "10003/4");
        check("1,234,567", false, "1234567");
        check("2 500", false, "2500");
        check("2\u{202f}500.5", false, "5001/2");
        check("5.", false, "5");
        check(".5", false, "1/2");
        check("007", false, "7");
    }

    #[test]
    fn decimal_comma() {
        check("3,82", true, "191/50");
        check("2.500,75", true, "10003/4");
        check("1.234.567", true, "1234567");
        check("3.82", true, "191/50");
        check("0.500", true, "1/2");
        check("2 500,5", true, "5001/2");
        check("2.500", true, "Ambiguous");
        check("1,2,3", true, "Ambiguous");
    }

    #[test]
    fn fractions() {
        check("6 1/2", false, "13/2");
        check("6-1/2", false, "13/2");
        check("6½", false, "13/2");
        check("¼", false, "1/4");
        check("5/4", false, "5/4");
        check("1 5/4", false, "Impossible");
        check("1/0", false, "Impossible");
        check("1.5/2", false, "Impossible");
        check("1.5 1/2", false, "Impossible");
    }

    #[test]
    fn nobody_guesses() {
        check("12,5", false, "Ambiguous");
        check("1,20", false, "Ambiguous");
        check("0,125", false, "Ambiguous");
        check("12.6.5", false, "Ambiguous");
        check("1.2,345", false, "Ambiguous");
        check("12 6", false, "Ambiguous");
        check("5-6", false, "Ambiguous");
    }

    #[test]
    fn sixteen_digits_are_no_measurement() {
        check("123456789012345", false, "123456789012345");
        check("1234567890123456", false, "OutOfRange");
        check("0.0000000000000001", false, "OutOfRange");
        check("1/1234567890123456", false, "OutOfRange");
    }
}
