//! The facts: what the criteria may ask for, measured from log, picture and reckoning.
//!
//! One file a family. A fact that is due and was not measured is given without a value, so that it shows
//! as *not measured*; a fact that cannot be due here is not given at all.
//!
//! Words: *due* = the work has come to the point where the value should exist.
//! Never: judge.

pub mod situation;

use crate::measure::Measurement;
use crate::picture::Picture;
use crate::reckon::Reckoning;
use record::Log;

/// Everything a fact is measured from.
pub struct Sources<'v, 'r> {
    /// The log.
    pub log: &'v Log<'r>,
    /// The picture.
    pub picture: &'v Picture<'r>,
    /// The reckoning.
    pub reckoning: &'v Reckoning,
}

/// One family of facts.
type Family = fn(&Sources<'_, '_>) -> Vec<Measurement>;

/// The families, in the order of the work.
const FAMILIES: &[Family] = &[];

/// Every measurement of a shaft.
pub fn all(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    FAMILIES.iter().flat_map(|family| family(sources)).collect()
}
