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
// Topics 7 to 15: fluid, clocks and tickets, base, cage, strength, the finished shaft.
pub mod around;
pub mod as_built;
pub mod axis;
pub mod bars;
pub mod base;
mod base_share;
pub mod cage;
pub mod chance;
pub mod cover;
mod dense;
pub mod fluid_density;
pub mod fluid_pressure;
pub mod gain;
pub mod instrument;
pub mod integrity;
pub mod maturity;
pub mod mixture;
pub mod payment;
pub mod plane;
pub mod pooled;
pub mod pour_day;
pub mod pour_plan;
pub mod profile;
pub mod settling;
pub mod slump;
pub mod strength;
pub mod ticket;
pub mod waiting;
