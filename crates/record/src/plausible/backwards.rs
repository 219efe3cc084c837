//! Written after another on the same device, yet seen before it.
//!
//! A thing noted late says so itself and is not asked about.

use super::Doubt;
use crate::log::{Line, Log};
use crate::question::Suspicion;

/// Entries that go back in time against the one before them on their device, within one shaft.
pub(super) fn time_backwards(log: &Log<'_>) -> Vec<Doubt> {
    let own = |line: &&Line<'_>| line.stands() && line.entry.id == line.origin;
    let mut lines: Vec<&Line<'_>> = log.lines.iter().filter(own).collect();
    lines.sort_by_key(|line| (line.entry.device, &line.entry.shaft, line.entry.seq));
    let mut doubts = Vec::new();
    for pair in lines.windows(2) {
        let (before, after) = (pair[0], pair[1]);
        let alike = before.entry.device == after.entry.device && before.entry.shaft == after.entry.shaft;
        let backwards = after.at.seconds() < before.at.seconds();
        if alike && backwards && after.late_minutes().is_none() {
            let suspicion = Suspicion::TimeBackwards { before: before.at, at: after.at };
            doubts.push((after.entry.id, suspicion));
        }
    }
    doubts
}
