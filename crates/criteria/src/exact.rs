//! Numbers of a criteria file, read without a float.
//!
//! A limit is compared as printed: `1.5`, `1/24` and `1 1/2` are exact. A comma is refused, because it is a
//! thousands mark in one country and a decimal sign in the next.

use num_traits::{CheckedAdd, CheckedMul, CheckedSub};
use quantity::{Exact, Number};
use std::cmp::Ordering;

/// Reads `12`, `-0.5`, `1/24` or `1 1/2`; `None` for anything else.
pub(crate) fn number(text: &str) -> Option<Exact> {
    let text = text.trim();
    let (negative, digits) = match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text),
    };
    let value = match digits.rsplit_once(' ') {
        Some((whole, part)) => decimal(whole)?.checked_add(&fraction(part)?)?,
        None if digits.contains('/') => fraction(digits)?,
        None => decimal(digits)?,
    };
    Some(if negative { -value } else { value })
}

/// `3/4`, at most six digits each: with any unit the result still fits 128 bits.
fn fraction(text: &str) -> Option<Exact> {
    let whole = |part: &str| part.parse::<u32>().ok().filter(|_| part.len() <= 6 && !part.starts_with('+'));
    let (over, under) = text.split_once('/')?;
    let (over, under) = (whole(over)?, whole(under)?);
    (under != 0).then(|| Exact::new(over.into(), under.into()))
}

/// `12.50`.
fn decimal(text: &str) -> Option<Exact> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = format!("{whole}{part}");
    let plain = !whole.is_empty() && digits.len() <= 15 && digits.bytes().all(|b| b.is_ascii_digit());
    if !plain || (text.contains('.') && part.is_empty()) {
        return None;
    }
    Some(Exact::new(digits.parse().ok()?, 10_i128.pow(part.len() as u32)))
}

/// `a + b`, exact while both are and the result fits.
pub(crate) fn sum(a: Number, b: Number) -> Number {
    let exact = a.exact().zip(b.exact()).and_then(|(a, b)| a.checked_add(&b));
    exact.map_or_else(|| Number::computed(a.to_f64() + b.to_f64()), Number::Exact)
}

/// `a − b`, exact while both are and the result fits.
pub(crate) fn difference(a: Number, b: Number) -> Number {
    let exact = a.exact().zip(b.exact()).and_then(|(a, b)| a.checked_sub(&b));
    exact.map_or_else(|| Number::computed(a.to_f64() - b.to_f64()), Number::Exact)
}

/// `a · b`, exact while both are and the result fits.
pub(crate) fn product(a: Number, b: Number) -> Number {
    let exact = a.exact().zip(b.exact()).and_then(|(a, b)| a.checked_mul(&b));
    exact.map_or_else(|| Number::computed(a.to_f64() * b.to_f64()), Number::Exact)
}

/// How far two numbers may differ and still count as equal, once a formula has made one of them: this part
/// of the second. Sixteen digits of a float leave room for a million roundings.
const SLACK: f64 = 1e-9;

/// Compares with a limit: exactly while both are exact, otherwise with the stated slack.
pub(crate) fn compare(value: Number, limit: Number) -> Ordering {
    match (value.exact(), limit.exact()) {
        (Some(value), Some(limit)) => value.cmp(&limit),
        _ => compare_floats(value.to_f64(), limit.to_f64()),
    }
}

fn compare_floats(value: f64, limit: f64) -> Ordering {
    if (value - limit).abs() <= SLACK * limit.abs() { Ordering::Equal } else { value.total_cmp(&limit) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: Option<(i128, i128)>) {
        assert_eq!(number(text), expected.map(|(over, under)| Exact::new(over, under)), "{text}");
    }

    #[test]
    fn decimals_and_fractions_are_exact() {
        check("1.5", Some((3, 2)));
        check("-0.25", Some((-1, 4)));
        check("1/24", Some((1, 24)));
        check("1 1/2", Some((3, 2)));
        check("-1 1/2", Some((-3, 2)));
        check("100", Some((100, 1)));
    }

    #[test]
    fn anything_doubtful_is_refused() {
        for text in
            ["", "1,5", "2,500", "1.", ".5", "1e3", "1/0", "--1", "1 2", "1/2/3", "1/2.5", "1/+2", "½", "NaN"]
        {
            check(text, None);
        }
    }

    #[test]
    fn what_does_not_fit_becomes_a_float_and_never_wraps() {
        let large = Number::Exact(Exact::new(i128::MAX, 1));
        assert!(matches!(sum(large, large), Number::Computed(value) if value > 3e38));
        assert!(matches!(product(large, large), Number::Computed(value) if value > 1e76));
    }
}
