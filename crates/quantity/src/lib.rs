//! Quantities as people write them.
//!
//! An inspector types `12'-6 1/2"`, `9.5 cy` or `40 s/L`. This crate reads such a text without a float
//! in between, keeps the text, and prints the value in the units a job wants.
//!
//! Words: *exact* = a rational number in the SI unit of its kind; *computed* = a float that came out of
//! a formula; *entered* = a value beside the text it was read from.
//! Units: SI inside (m, m³, kg/m³, s, Pa, K); a length is whole nanometres.
//! Never: know what a shaft is, read a clock, hold a limit.

mod arithmetic;
mod gather;
mod kind;
mod kinds;
mod length;
mod moment;
mod number;
mod order;
mod unit;

mod entered;
mod misread;
mod numeral;
mod parse;
mod parts;
mod perhaps;
mod regroup;
mod slip;
mod spelling;
mod text;
mod token;

mod coordinate;
mod print;
mod style;

pub use arithmetic::compare;
pub use coordinate::CoordinateUnit;
pub use entered::{Entered, Reading};
pub use gather::Gather;
pub use kind::Kind;
pub use kinds::{
    Area, Density, Force, Fraction, FunnelTime, Inflow, Mass, Ph, Pressure, Quantity, Slope, Span,
    Temperature, Volume, WaterCement,
};
pub use length::{Depth, Elevation, Length};
pub use misread::{Misread, Problem};
pub use moment::{Moment, MomentError};
pub use number::{Exact, Number};
pub use order::InOrder;
pub use print::{InchFraction, LengthStyle, print, print_length, print_number};
pub use style::{Style, System};
pub use unit::{Unit, units};
