//! Seen after it was entered: one of the clocks is off.
//!
//! A tablet whose date is ten years behind would make every entry look odd; one question a device is
//! enough to have its clock set.

use super::Doubt;
use crate::entry::DeviceId;
use crate::log::Log;
use crate::question::Suspicion;
use std::collections::BTreeSet;

/// Two clocks on one site may differ by this many minutes.
/// Placeholder range: to be agreed with a practising inspector.
const ALLOWANCE_MINUTES: f64 = 10.0;

/// The first entry of each device that claims to have been seen after it was entered.
pub(super) fn seen_after_entered(log: &Log<'_>) -> Vec<Doubt> {
    let mut asked: BTreeSet<DeviceId> = BTreeSet::new();
    let mut doubts = Vec::new();
    for line in log.lines.iter().filter(|line| line.stands()) {
        let (seen, entered) = (line.entry.observed_at, line.entry.entered_at);
        if seen.minutes_since(entered) > ALLOWANCE_MINUTES && asked.insert(line.entry.device) {
            doubts.push((line.entry.id, Suspicion::SeenAfterEntered { seen, entered }));
        }
    }
    doubts
}
