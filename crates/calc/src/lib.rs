//! Engineering formulas of a drilled shaft, one topic per file.
//!
//! Everything that an inspector acts on during a pour is reckoned here, from plain quantities, with its
//! standard error where the readings have one.
//!
//! Words: *theoretical* = from nominal geometry; *placed* = what went into the hole.
//! Units: SI inside; each value comes in and goes out as a type of the `quantity` crate.
//! Never: see an entry, a criterion, a setting or a clock; round; clamp; return NaN for "don't know".

// Topics 1 to 6: the hole and the concrete in it, in the order of the day.
pub mod casing;
pub mod curve;
pub mod estimate;
pub mod geometry;
pub mod order;
pub mod placed;
pub mod sounding;
pub mod tremie;
pub mod volume;
// Topics 7 to 15.
