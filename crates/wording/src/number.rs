//! Numbers as text: rounded once, only here, halves away from zero.
//!
//! A value beside its limit is told with as many digits as it takes to see on which side it lies: `1.004
//! in` against `1 in` is not told as `1 in`.
//!
//! Never: print a float with noise behind it.

use criteria::LimitUnit;
use quantity::{Exact, Fraction, Kind, Number, Quantity, Unit, print_number, units};

/// More digits than this never help.
const EXTRA_DIGITS_MAX: u8 = 5;

/// A plain number with so many digits after the point.
pub(crate) fn decimal(number: Number, decimals: u8) -> String {
    let part = match number {
        Number::Exact(exact) => Fraction::from_unit(exact, &units::PART).expect("a plain number is a part"),
        Number::Computed(value) => Fraction::part(value),
    };
    print_number(part, &units::PART, decimals)
}

/// The same, without the zeros at its end: `1.50` is `1.5`.
pub(crate) fn trimmed(number: Number, decimals: u8) -> String {
    let text = decimal(number, decimals);
    match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.').to_owned(),
        false => text,
    }
}

/// An SI number as a reading in a unit of a limit.
pub(crate) fn reading(si: Number, unit: LimitUnit) -> Number {
    match (unit, si) {
        (LimitUnit::Plain(_), number) => number,
        (LimitUnit::Unit(unit), Number::Exact(si)) => {
            unit.checked_from_si(si).map_or_else(|| computed(unit, Number::Exact(si)), Number::Exact)
        }
        (LimitUnit::Unit(unit), number) => computed(unit, number),
        (LimitUnit::Step(_), number) => size(number, unit),
    }
}

/// An SI number as a difference in a unit of a limit.
pub(crate) fn size(si: Number, unit: LimitUnit) -> Number {
    let factor = match unit {
        LimitUnit::Plain(_) => return si,
        LimitUnit::Unit(unit) | LimitUnit::Step(unit) => unit.factor(),
    };
    match si.exact().and_then(|exact| checked_div(exact, factor)) {
        Some(exact) => Number::Exact(exact),
        None => Number::computed(unit.size_from_si(si)),
    }
}

fn checked_div(a: Exact, b: Exact) -> Option<Exact> {
    let numerator = a.numer().checked_mul(*b.denom())?;
    Some(Exact::new(numerator, a.denom().checked_mul(*b.numer())?))
}

fn computed(unit: &Unit, number: Number) -> Number {
    Number::computed(unit.from_si(number.to_f64()))
}

/// How many digits after the point a unit is usually told with.
pub(crate) fn usual_decimals(unit: &Unit) -> u8 {
    if *unit == units::METER {
        return 2;
    }
    match unit.kind {
        Kind::Length if *unit == units::MILLIMETER => 0,
        Kind::Length if *unit == units::INCH => 2,
        Kind::Volume | Kind::WaterCement => 2,
        Kind::Density if *unit == units::GRAM_PER_CUBIC_CENTIMETER => 2,
        Kind::Pressure if *unit == units::MEGAPASCAL => 1,
        Kind::Pressure | Kind::Temperature | Kind::Mass => 0,
        Kind::Slope if *unit == units::METER_PER_METER => 4,
        Kind::Slope => 2,
        _ => 1,
    }
}

/// One digit more than none where the number was written with it: a filter cake of 1.5 mm is not told as 2 mm. Where a
/// digit is usual, a second one would be that of a mean.
pub(crate) fn written_decimals(number: Number, usual: u8) -> u8 {
    let fits = |decimals: u8| {
        number.exact().is_some_and(|exact| 10_i128.pow(u32::from(decimals)) % exact.denom() == 0)
    };
    usual + u8::from(usual == 0 && !fits(0) && fits(1))
}

/// Digits with which two different numbers also look different.
pub(crate) fn telling_decimals(value: Number, limits: &[Number], usual: u8) -> u8 {
    let apart = |decimals: u8| {
        let text = trimmed(value, decimals);
        limits.iter().all(|limit| same(value, *limit) || text != trimmed(*limit, decimals.max(usual)))
    };
    (usual..=usual + EXTRA_DIGITS_MAX).find(|decimals| apart(*decimals)).unwrap_or(usual)
}

fn same(a: Number, b: Number) -> bool {
    quantity_equal(a.to_f64(), b.to_f64())
}

fn quantity_equal(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(value: f64, limit: f64, expected: &str) {
        let (value, limit) = (Number::computed(value), Number::computed(limit));
        assert_eq!(trimmed(value, telling_decimals(value, &[limit], 1)), expected);
    }

    #[test]
    fn a_value_close_to_its_limit_shows_its_side() {
        check(1.5, 1.0, "1.5");
        check(1.004, 1.0, "1.004");
        check(0.996, 1.0, "0.996");
        check(1.0, 1.0, "1");
    }

    #[test]
    fn a_digit_that_was_written_is_told() {
        let tenths = |tenths: i128| Number::Exact(Exact::new(tenths, 10));
        assert_eq!(written_decimals(tenths(15), 0), 1);
        assert_eq!(written_decimals(tenths(20), 0), 0);
        assert_eq!(written_decimals(Number::Exact(Exact::new(2448, 100)), 1), 1);
        assert_eq!(written_decimals(Number::Exact(Exact::new(1, 3)), 0), 0);
        assert_eq!(written_decimals(Number::computed(1.5), 0), 0);
    }

    #[test]
    fn halves_go_away_from_zero() {
        assert_eq!(decimal(Number::Exact(Exact::new(1, 8)), 2), "0.13");
        assert_eq!(decimal(Number::computed(-2.675), 2), "-2.68");
    }
}
