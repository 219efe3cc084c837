//! Values as text, rounded once and only here.
//!
//! What was typed is printed as typed; this module prints what was computed or converted. Halves go away
//! from zero, as people round by hand. An exact value is rounded without ever being a float; a computed
//! one is rounded from its shortest decimal form, so that `2.675` becomes `2.68`.
//!
//! Words: *decimals* = digits after the point, at most 9.
//! Never: print a funnel time in a volume it was not measured for.

use num_traits::CheckedMul;

use crate::kinds::Quantity;
use crate::length::Length;
use crate::number::{Exact, Number};
use crate::unit::{Unit, units};

const DECIMALS_MAX: u8 = 9;

/// How lengths read on a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LengthStyle {
    /// `12.54 ft`.
    FeetTenths,
    /// `12'-6 1/2"`.
    FeetInches(InchFraction),
    /// `18 1/2 in`: cover, sediment, slump.
    Inches(InchFraction),
    /// `3.82 m`.
    Meters,
    /// `382 mm`.
    Millimeters,
}

/// The finest part of an inch that is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InchFraction {
    /// Half inches.
    Half,
    /// Quarter inches.
    Quarter,
    /// Eighths of an inch.
    Eighth,
    /// Sixteenths of an inch.
    Sixteenth,
}

impl InchFraction {
    /// How many of them make an inch.
    pub fn per_inch(self) -> i128 {
        match self {
            InchFraction::Half => 2,
            InchFraction::Quarter => 4,
            InchFraction::Eighth => 8,
            InchFraction::Sixteenth => 16,
        }
    }
}

/// A length in a style; `decimals` counts for the decimal styles only.
///
/// ```
/// use quantity::{InchFraction, Length, LengthStyle, print_length};
/// let depth = Length::nanometers(3_822_700_000);
/// assert_eq!(print_length(depth, LengthStyle::FeetTenths, 2), "12.54 ft");
/// assert_eq!(print_length(depth, LengthStyle::FeetInches(InchFraction::Eighth), 0), "12'-6 1/2\"");
/// assert_eq!(print_length(depth, LengthStyle::Meters, 2), "3.82 m");
/// ```
pub fn print_length(length: Length, style: LengthStyle, decimals: u8) -> String {
    match style {
        LengthStyle::FeetTenths => print(length, &units::FOOT, decimals),
        LengthStyle::Meters => print(length, &units::METER, decimals),
        LengthStyle::Millimeters => print(length, &units::MILLIMETER, decimals),
        LengthStyle::FeetInches(fraction) => feet_inches(length, fraction),
        LengthStyle::Inches(fraction) => inches(length, fraction),
    }
}

/// A value in a unit of its kind: `9.5 yd³`. A funnel time is printed in the unit it was measured in,
/// whatever `unit` says. Panics when the unit is of another kind.
pub fn print<Q: Quantity>(value: Q, unit: &Unit, decimals: u8) -> String {
    let unit = value.own_unit().unwrap_or(unit);
    format!("{} {}", print_number(value, unit, decimals), unit.symbol).trim_end().to_owned()
}

/// The number alone, for tables whose head names the unit. Panics when the unit is of another kind.
pub fn print_number<Q: Quantity>(value: Q, unit: &Unit, decimals: u8) -> String {
    assert_eq!(unit.kind, Q::KIND, "a quantity is printed in a unit of its own kind");
    let unit = value.own_unit().unwrap_or(unit);
    let decimals = decimals.min(DECIMALS_MAX);
    let exact = match value.number() {
        Number::Exact(si) => unit.checked_from_si(si),
        Number::Computed(si) => shortest_decimal(unit.from_si(si)),
    };
    let rounded = exact.and_then(|number| fixed(number, decimals));
    rounded.unwrap_or_else(|| format!("{:.*}", usize::from(decimals), unit.from_si(value.number().to_f64())))
}

/// A printed text with a decimal comma; the text must hold no other point.
pub(crate) fn with_comma(text: String) -> String {
    text.replacen('.', ",", 1)
}

/// Halves away from zero; `None` when it does not fit into 128 bits. Minus zero prints as zero.
fn fixed(number: Exact, decimals: u8) -> Option<String> {
    let scale = 10_i128.pow(u32::from(decimals));
    let count = number.checked_mul(&Exact::from_integer(scale))?.round().to_integer();
    let sign = if count < 0 { "-" } else { "" };
    let (whole, part) =
        (count.unsigned_abs() / scale.unsigned_abs(), count.unsigned_abs() % scale.unsigned_abs());
    if decimals == 0 {
        return Some(format!("{sign}{whole}"));
    }
    Some(format!("{sign}{whole}.{part:0width$}", width = usize::from(decimals)))
}

/// The shortest decimal that names this float, as an exact number; `None` for the very large or small.
fn shortest_decimal(value: f64) -> Option<Exact> {
    let text = value.to_string();
    let (whole, part) = text.split_once('.').unwrap_or((&text, ""));
    let scale = 10_i128.checked_pow(u32::try_from(part.len()).ok()?)?;
    Some(Exact::new(format!("{whole}{part}").parse().ok()?, scale))
}

/// `12'-6 1/2"`; eleven inches and sixty-three sixty-fourths carry over to the next foot.
fn feet_inches(length: Length, fraction: InchFraction) -> String {
    let (sign, count) = steps(length, fraction);
    let per_foot = 12 * fraction.per_inch();
    format!("{sign}{}'-{}\"", count / per_foot, mixed(count % per_foot, fraction))
}

fn inches(length: Length, fraction: InchFraction) -> String {
    let (sign, count) = steps(length, fraction);
    format!("{sign}{} in", mixed(count, fraction))
}

/// The sign, and how many of the fraction of an inch, halves away from zero.
fn steps(length: Length, fraction: InchFraction) -> (&'static str, i128) {
    let step = Exact::new(units::INCH.numerator, units::INCH.denominator * fraction.per_inch());
    let count = (length.to_exact() / step).round().to_integer();
    (if count < 0 { "-" } else { "" }, count.abs())
}

/// `6 1/2`, `1/2`, `6`.
fn mixed(count: i128, fraction: InchFraction) -> String {
    let (whole, rest) = (count / fraction.per_inch(), count % fraction.per_inch());
    let part = Exact::new(rest, fraction.per_inch());
    match (whole, rest) {
        (whole, 0) => whole.to_string(),
        (0, _) => part.to_string(),
        (whole, _) => format!("{whole} {part}"),
    }
}
