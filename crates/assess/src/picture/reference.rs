//! The points depths are measured from, and the only way from a depth to an elevation.

use super::plan::Plan;
use quantity::{Depth, Elevation, Moment};
use record::kinds::ReferenceSet;
use record::{EntryId, Log};

/// Every reference point, in the order they were set.
#[derive(Debug, Clone, PartialEq)]
pub struct References {
    set: Vec<(Moment, String, Elevation, EntryId)>,
    /// Ground or top of the plan, for depths written before any reference was set.
    planned: Option<(Elevation, EntryId)>,
}

impl References {
    /// The reference points a log holds, with the ground of its plan for depths written before any was set.
    pub fn of_log(log: &Log<'_>) -> Self {
        Self::of(log, Plan::of(log).as_ref())
    }

    pub(super) fn of(log: &Log<'_>, plan: Option<&Plan<'_>>) -> Self {
        let set = log.each::<ReferenceSet>().map(|(line, reference)| {
            (line.at, reference.name.clone(), reference.elevation.value(), line.entry.id)
        });
        let planned = plan.map(|plan| (plan.ground.unwrap_or(plan.top), plan.entry));
        References { set: set.collect(), planned }
    }

    /// The reference in force at a moment: the one named, or the one set last before it.
    ///
    /// A depth written before any reference was set is measured from the first one; where none was ever
    /// set, from the ground of the plan.
    pub fn in_force(&self, name: Option<&str>, at: Moment) -> Option<(Elevation, EntryId)> {
        let named = |row: &&(Moment, String, Elevation, EntryId)| {
            name.is_none_or(|name| row.1.trim().eq_ignore_ascii_case(name.trim()))
        };
        let mut rows = self.set.iter().filter(named);
        let first = rows.clone().next();
        let row = rows.rfind(|row| row.0 <= at).or(first);
        row.map(|row| (row.2, row.3)).or(if name.is_none() { self.planned } else { None })
    }

    /// The name of the reference in force at a moment; `None` when none was ever set.
    pub fn name(&self, at: Moment) -> Option<&str> {
        let row = self.set.iter().rfind(|row| row.0 <= at).or(self.set.first());
        row.map(|row| row.1.as_str())
    }

    /// A depth as an elevation; `None` when its reference is not known.
    pub fn elevation(&self, depth: Depth, at: Moment) -> Option<Elevation> {
        Some(Elevation::of_depth(self.in_force(None, at)?.0, depth))
    }

    /// An elevation as a depth below the reference in force.
    pub fn depth(&self, elevation: Elevation, at: Moment) -> Option<Depth> {
        Some(Depth::of_elevation(self.in_force(None, at)?.0, elevation))
    }

    /// Whether a reference was set in the record.
    pub fn is_set(&self) -> bool {
        !self.set.is_empty()
    }

    /// The entries that set them.
    pub fn entries(&self) -> Vec<EntryId> {
        self.set.iter().map(|row| row.3).collect()
    }

    /// The highest point anything is measured from.
    pub fn highest(&self) -> Option<Elevation> {
        self.set.iter().map(|row| row.2).max()
    }
}
