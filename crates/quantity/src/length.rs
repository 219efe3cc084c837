//! Lengths, and the two spaces a length of a shaft lives in.
//!
//! A verdict hangs on a length, so it is exact: 3 in is 76.2 mm. A depth grows downward from a named
//! reference point, an elevation grows upward from the datum of the job; only naming the reference
//! turns one into the other.
//!
//! Words: *depth* = below the reference point; *elevation* = above the datum.
//! Units: whole nanometres inside.
//! Never: mix depths with elevations; round for display.

use num_traits::CheckedMul;

use crate::number::{Exact, f64_of};
use crate::unit::Unit;

/// A length or a distance, signed. Invariant: whole nanometres, less than 9.3 million km either way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(i64);

const NANOMETERS_PER_METER: i128 = 1_000_000_000;

impl Length {
    /// No length at all.
    pub const ZERO: Length = Length(0);

    /// The length of that many whole nanometres. Panics on `i64::MIN`, which has no opposite.
    pub const fn nanometers(count: i64) -> Self {
        assert!(count != i64::MIN, "a length needs an opposite");
        Length(count)
    }

    /// The length nearest to a computed number of metres, to the nanometre. Panics on NaN or beyond range.
    pub fn meters(value: f64) -> Self {
        let nanometers = value * 1e9;
        assert!(nanometers.is_finite() && nanometers.abs() < 9e18, "a length must be finite, got {value} m");
        Length(libm::round(nanometers) as i64)
    }

    /// A computed number of feet, to the nanometre. Panics on NaN or beyond range.
    pub fn feet(value: f64) -> Self {
        Self::meters(value * 0.3048)
    }

    /// A computed number of inches, to the nanometre. Panics on NaN or beyond range.
    pub fn inches(value: f64) -> Self {
        Self::meters(value * 0.0254)
    }

    /// The length of an exact number of metres; `None` beyond range.
    ///
    /// Anything finer than a nanometre (survey feet, odd fractions) goes to the nearest one.
    pub fn exact(meters: Exact) -> Option<Self> {
        let scaled = meters.checked_mul(&Exact::from_integer(NANOMETERS_PER_METER))?;
        let count = i64::try_from(scaled.round().to_integer()).ok()?;
        (count != i64::MIN).then_some(Length(count))
    }

    /// Metres, for formulas.
    pub fn to_meters(self) -> f64 {
        self.0 as f64 / 1e9
    }

    /// International feet.
    pub fn to_feet(self) -> f64 {
        self.0 as f64 / 304_800_000.0
    }

    /// Inches.
    pub fn to_inches(self) -> f64 {
        self.0 as f64 / 25_400_000.0
    }

    /// In any unit of length.
    pub fn to_unit(self, unit: &Unit) -> f64 {
        f64_of(self.to_exact() / unit.factor())
    }

    /// The exact number of metres.
    pub fn to_exact(self) -> Exact {
        Exact::new(i128::from(self.0), NANOMETERS_PER_METER)
    }

    /// Whole nanometres.
    pub fn to_nanometers(self) -> i64 {
        self.0
    }

    /// The length without its sign.
    pub fn abs(self) -> Self {
        Length(self.0.abs())
    }
}

impl std::ops::Add for Length {
    type Output = Length;
    fn add(self, other: Length) -> Length {
        Length::nanometers(self.0.checked_add(other.0).expect("lengths on a site add up within range"))
    }
}

impl std::ops::Sub for Length {
    type Output = Length;
    fn sub(self, other: Length) -> Length {
        Length::nanometers(self.0.checked_sub(other.0).expect("lengths on a site subtract within range"))
    }
}

impl std::ops::Neg for Length {
    type Output = Length;
    fn neg(self) -> Length {
        Length(-self.0)
    }
}

impl std::iter::Sum for Length {
    fn sum<I: Iterator<Item = Length>>(items: I) -> Length {
        items.fold(Length::ZERO, |total, item| total + item)
    }
}

/// Distance below a reference point. Positive downward: `a < b` means `a` is higher in the hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Depth(pub Length);

/// Height above the datum of the job. Positive upward.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Elevation(pub Length);

impl Elevation {
    /// The only way from a depth to an elevation: the reference has to be named.
    pub fn of_depth(reference: Elevation, depth: Depth) -> Self {
        Elevation(reference.0 - depth.0)
    }

    /// How far `self` lies above `lower`; negative when it lies below.
    pub fn above(self, lower: Elevation) -> Length {
        self.0 - lower.0
    }

    /// Metres above the datum.
    pub fn to_meters(self) -> f64 {
        self.0.to_meters()
    }
}

impl Depth {
    /// The only way from an elevation to a depth: the reference has to be named.
    pub fn of_elevation(reference: Elevation, elevation: Elevation) -> Self {
        Depth(reference.0 - elevation.0)
    }

    /// How far `self` lies below `upper`; negative when it lies above.
    pub fn below(self, upper: Depth) -> Length {
        self.0 - upper.0
    }

    /// Metres below the reference point.
    pub fn to_meters(self) -> f64 {
        self.0.to_meters()
    }
}
