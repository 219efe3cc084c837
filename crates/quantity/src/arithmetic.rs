//! Adding and comparing quantities of one kind.
//!
//! A sum of tickets is as exact as the tickets: 9.5 yd³ nine times is 85.5 yd³, not a hair less. Only when
//! a part came out of a formula, or the exact number no longer fits into 128 bits, is the sum a float.
//!
//! Never: add a temperature, a pH or a funnel time; compare funnel times of different volumes.

use std::cmp::Ordering;
use std::iter::Sum;
use std::ops::{Add, Sub};

use num_traits::{CheckedAdd, CheckedMul, CheckedSub};

use crate::kinds::{Area, Force, Mass, Pressure, Quantity, Span, Volume};
use crate::length::Length;
use crate::number::{Exact, Number};

/// Which of two quantities of one kind is greater: exact when both are, else as floats. `None` for
/// quantities that cannot be compared: funnel times for a quart and for a litre.
pub fn compare<Q: Quantity>(a: Q, b: Q) -> Option<Ordering> {
    if a.own_unit() != b.own_unit() {
        return None;
    }
    match (a.number(), b.number()) {
        (Number::Exact(a), Number::Exact(b)) => Some(a.cmp(&b)),
        (a, b) => a.to_f64().partial_cmp(&b.to_f64()),
    }
}

impl Add for Number {
    type Output = Number;
    /// Exact when both are and the sum fits into 128 bits. Panics when a sum of floats is not finite.
    fn add(self, other: Number) -> Number {
        let exact = both(self, other).and_then(|(a, b)| a.checked_add(&b));
        exact.map_or_else(|| Number::computed(self.to_f64() + other.to_f64()), Number::Exact)
    }
}

impl Sub for Number {
    type Output = Number;
    /// Exact when both are and the difference fits into 128 bits.
    fn sub(self, other: Number) -> Number {
        let exact = both(self, other).and_then(|(a, b)| a.checked_sub(&b));
        exact.map_or_else(|| Number::computed(self.to_f64() - other.to_f64()), Number::Exact)
    }
}

fn both(a: Number, b: Number) -> Option<(Exact, Exact)> {
    Some((a.exact()?, b.exact()?))
}

macro_rules! sums {
    ($($kind:ident),*) => {$(
        impl $kind {
            /// None of it, exact.
            pub const ZERO: $kind = $kind::of(Number::Exact(Exact::new_raw(0, 1)));
        }

        impl Add for $kind {
            type Output = $kind;
            fn add(self, other: $kind) -> $kind {
                $kind::of(self.number() + other.number())
            }
        }

        impl Sub for $kind {
            type Output = $kind;
            fn sub(self, other: $kind) -> $kind {
                $kind::of(self.number() - other.number())
            }
        }

        impl Sum for $kind {
            fn sum<I: Iterator<Item = $kind>>(items: I) -> $kind {
                items.fold($kind::ZERO, |total, item| total + item)
            }
        }
    )*};
}

sums!(Area, Volume, Mass, Force, Pressure, Span);

impl Area {
    /// The area of a rectangle, exact unless it does not fit into 128 bits.
    pub fn of_rectangle(width: Length, length: Length) -> Self {
        Area::of(product(&[width, length]))
    }
}

impl Volume {
    /// The volume of a box, exact unless it does not fit into 128 bits.
    ///
    /// ```
    /// use quantity::{Length, Quantity, Volume, units};
    /// let yard = Length::nanometers(914_400_000);
    /// let one = Volume::from_unit(1.into(), &units::CUBIC_YARD).unwrap();
    /// assert_eq!(Volume::of_box([yard, yard, yard]), one);
    /// ```
    pub fn of_box(sides: [Length; 3]) -> Self {
        Volume::of(product(&sides))
    }
}

fn product(lengths: &[Length]) -> Number {
    let one = Exact::from_integer(1);
    let exact = lengths.iter().try_fold(one, |total, length| total.checked_mul(&length.to_exact()));
    let computed = || Number::computed(lengths.iter().map(|length| length.to_meters()).product());
    exact.map_or_else(computed, Number::Exact)
}
