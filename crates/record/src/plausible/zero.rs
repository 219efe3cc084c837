//! The level depths are measured from, so that two depths can be compared.
//!
//! A sounding from the top of a casing and a run measured from a stake are not comparable as they stand.
//!
//! Units: whole nanometres, in 128 bits: a misread length must not overflow here.

use crate::kinds::{ReferenceSet, ShaftPlanned};
use crate::log::Log;
use quantity::{Depth, Elevation, Entered, Length, Moment};

/// Every reference point that was set, and the ground of the plan for depths written before.
pub(super) struct Zeros<'r> {
    set: Vec<(Moment, &'r str, Elevation)>,
    planned: Option<Elevation>,
}

/// A depth as it was read, with what has to be known to compare it.
pub(super) struct Reading<'r> {
    pub(super) depth: Depth,
    pub(super) reference: Option<&'r str>,
    pub(super) at: Moment,
}

impl<'r> Zeros<'r> {
    pub(super) fn of(log: &Log<'r>) -> Self {
        let set = log.each::<ReferenceSet>();
        let plan = log.last::<ShaftPlanned>();
        Zeros {
            set: set.map(|(line, point)| (line.at, point.name.trim(), point.elevation.value())).collect(),
            planned: plan.map(|(_, plan)| plan.ground.as_ref().unwrap_or(&plan.top).value()),
        }
    }

    /// The elevation of a reading's zero; `None` when its reference is not known.
    fn elevation(&self, reference: Option<&str>, at: Moment) -> Option<Elevation> {
        let named = |row: &&(Moment, &str, Elevation)| {
            reference.is_none_or(|name| row.1.eq_ignore_ascii_case(name.trim()))
        };
        let mut rows = self.set.iter().filter(named);
        let first = rows.clone().next();
        let row = rows.rfind(|row| row.0 <= at).or(first);
        row.map(|row| row.2).or(self.planned.filter(|_| reference.is_none()))
    }

    /// The elevation of a reading, in nanometres; `None` when its reference is not known.
    pub(super) fn level(&self, reading: &Reading<'_>) -> Option<i128> {
        let zero = self.elevation(reading.reference, reading.at)?;
        Some(nanometers(zero.0) - nanometers(reading.depth.0))
    }

    /// How far a reading lies below one fixed level. Where no reference was ever set, that level is the
    /// unnamed zero all depths share; `None` when the reading names a point nobody set.
    pub(super) fn down(&self, reading: &Reading<'_>) -> Option<i128> {
        match self.level(reading) {
            Some(level) => Some(-level),
            None if reading.reference.is_none() => Some(nanometers(reading.depth.0)),
            None => None,
        }
    }
}

pub(super) fn nanometers(length: Length) -> i128 {
    i128::from(length.to_nanometers())
}

/// A length of so many nanometres; `None` when no length is that long.
pub(super) fn length(nanometers: i128) -> Option<Length> {
    let count = i64::try_from(nanometers).ok().filter(|count| *count != i64::MIN)?;
    Some(Length::nanometers(count))
}

/// A depth with the correction of the tape that read it.
pub(super) fn corrected(depth: Depth, correction: Option<&Entered<Length>>) -> Option<Depth> {
    let added = correction.map_or(0, |correction| nanometers(correction.value()));
    length(nanometers(depth.0) + added).map(Depth)
}
