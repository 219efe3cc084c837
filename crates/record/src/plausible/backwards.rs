//! Written after another on the same device, yet seen before it.
//!
//! A thing noted later than it was seen says so itself and is not asked about; neither is the beginning of
//! another file that was read in: people keep one sheet for the tool and another for the tape.

use super::Doubt;
use crate::kinds::NotesRead;
use crate::log::{Line, Log};
use crate::question::Suspicion;
use quantity::InOrder;

/// Entries that go back in time against the one before them on their device, within one shaft.
pub(super) fn time_backwards(log: &Log<'_>) -> Vec<Doubt> {
    let own = |line: &&Line<'_>| line.stands() && line.entry.id == line.origin;
    let mut lines: Vec<&Line<'_>> = log.lines.iter().filter(own).collect();
    lines.put_in_order_by_key(|line| (line.entry.device, &line.entry.shaft, line.entry.seq));
    let mut doubts = Vec::new();
    for pair in lines.windows(2) {
        let (before, after) = (pair[0], pair[1]);
        let alike = before.entry.device == after.entry.device && before.entry.shaft == after.entry.shaft;
        let backwards = after.at.seconds() < before.at.seconds();
        let written = after.entry.noted_at.unwrap_or(after.entry.entered_at);
        let noted_later = written >= before.at;
        let one_file = !file_between(log, before, after);
        if alike && backwards && one_file && !noted_later {
            let suspicion = Suspicion::TimeBackwards { before: before.at, at: after.at };
            doubts.push((after.entry.id, suspicion));
        }
    }
    doubts
}

/// Another file was read in between the two.
fn file_between(log: &Log<'_>, before: &Line<'_>, after: &Line<'_>) -> bool {
    let between = before.entry.seq..after.entry.seq;
    log.each::<NotesRead>()
        .any(|(line, _)| line.entry.device == after.entry.device && between.contains(&line.entry.seq))
}
