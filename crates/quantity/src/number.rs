//! A number that is exact while it can be, and a float once a formula has made it.
//!
//! A verdict hangs on comparing what was typed with a limit: both are exact rationals then, and the
//! comparison is exact too. A value that went through π is computed, and compared as such.
//!
//! Words: *exact* = rational, numerator and denominator 128 bits wide; *computed* = finite `f64`.
//! Never: hold NaN or infinity; round.

use num_rational::Ratio;

/// A rational number in the SI unit of its kind.
pub type Exact = Ratio<i128>;

/// The number inside a quantity. An exact number never equals a computed one; see [`crate::compare`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Number {
    /// Read from a text; no rounding happened.
    Exact(Exact),
    /// Came out of a formula. Invariant: finite.
    Computed(f64),
}

impl Number {
    /// A computed number. Panics when it is not finite: a formula must say "no answer" itself.
    pub fn computed(value: f64) -> Self {
        assert!(value.is_finite(), "a computed quantity must be finite, got {value}");
        Number::Computed(value)
    }

    /// The value as a float, for formulas.
    pub fn to_f64(self) -> f64 {
        match self {
            Number::Exact(ratio) => f64_of(ratio),
            Number::Computed(value) => value,
        }
    }

    /// The exact value, if there is one.
    pub fn exact(self) -> Option<Exact> {
        match self {
            Number::Exact(ratio) => Some(ratio),
            Number::Computed(_) => None,
        }
    }
}

/// The float beside a ratio, right to two units in the last place.
pub(crate) fn f64_of(ratio: Exact) -> f64 {
    *ratio.numer() as f64 / *ratio.denom() as f64
}
