//! The checks that a case file can name, by topic.
//!
//! To add one: a function in the file of its topic, a row in that file's `CHECKS`; to add a topic: a
//! file, a `mod` line, a row in `TOPICS`.

pub(crate) mod case_file;

mod built;
mod casing;
mod clocks;
mod curve;
mod fluid;
mod geometry;
mod given;
mod placed;
mod sounding;
mod steel;
mod strength;
mod ticket;
mod tremie;

use std::collections::BTreeMap;

pub(crate) use given::Given;

/// What a check gives: a name with its unit last, and the value.
pub(crate) type Outputs = BTreeMap<&'static str, Output>;

/// One value that a check gives.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Output {
    /// Compared within the tolerance.
    Number(f64),
    /// Compared letter by letter.
    Text(String),
}

/// Reads what is given, calls the formula, names what came out.
pub(crate) type Check = fn(&Given) -> Result<Outputs, String>;

/// A topic's checks by name.
pub(crate) type Checks = &'static [(&'static str, Check)];

const TOPICS: &[Checks] = &[
    built::CHECKS,
    casing::CHECKS,
    clocks::CHECKS,
    curve::CHECKS,
    fluid::CHECKS,
    geometry::CHECKS,
    placed::CHECKS,
    sounding::CHECKS,
    steel::CHECKS,
    strength::CHECKS,
    ticket::CHECKS,
    tremie::CHECKS,
];

/// The check of a name.
pub(crate) fn check_named(name: &str) -> Option<Check> {
    TOPICS.iter().flat_map(|checks| checks.iter()).find(|(known, _)| *known == name).map(|(_, check)| *check)
}

/// Outputs that are all numbers.
pub(crate) fn numbers<const N: usize>(outputs: [(&'static str, f64); N]) -> Result<Outputs, String> {
    Ok(outputs.into_iter().map(|(name, value)| (name, Output::Number(value))).collect())
}
