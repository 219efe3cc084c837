//! A value with its standard error.
//!
//! Half a foot of doubt in a sounding can be a third of a sack or a truck: a figure that somebody acts
//! on says how well it is known.
//!
//! Words: *standard error* = one standard deviation of the value, from the errors of its readings.
//! Units: the error has the unit of the value; an elevation has a length as its error.
//! Never: hide an unknown error as zero; zero means "taken as known".

use quantity::{Elevation, Length};

/// A value and its standard error.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate<Q, E = Q> {
    /// The value, not rounded.
    pub value: Q,
    /// One standard deviation of it. Not negative.
    pub standard_error: E,
}

/// A level in the hole with the error of the tape it was read with.
pub type Level = Estimate<Elevation, Length>;

impl<Q, E> Estimate<Q, E> {
    /// A value with its standard error.
    pub const fn new(value: Q, standard_error: E) -> Self {
        Estimate { value, standard_error }
    }
}

impl Level {
    /// A level taken as known: a plan elevation, a figure of a worked example.
    pub const fn known(value: Elevation) -> Self {
        Estimate { value, standard_error: Length::ZERO }
    }
}

/// The square root of a sum of squares.
pub(crate) fn in_quadrature(parts: &[f64]) -> f64 {
    parts.iter().map(|part| part * part).sum::<f64>().sqrt()
}
