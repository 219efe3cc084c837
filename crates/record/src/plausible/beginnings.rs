//! A run of the tool that says no depth it began at, where the others do.
//!
//! Many logs hold the depth reached and nothing else; there every run begins where the one before ended, and nobody
//! is asked. Where the beginnings are written, one that is missing is a slip, and the shaft is paid by the foot.

use super::Doubt;
use crate::kinds::ToolRun;
use crate::log::{Line, Log};
use crate::question::Suspicion;
use quantity::Depth;

/// Runs without a beginning among runs that have one.
pub(super) fn unwritten(log: &Log<'_>) -> Vec<Doubt> {
    let runs: Vec<(&Line<'_>, &ToolRun)> = log.each::<ToolRun>().collect();
    if runs.iter().all(|(_, run)| run.from.is_none()) {
        return Vec::new();
    }
    let mut ended: Option<Depth> = None;
    let mut doubts = Vec::new();
    for (line, run) in runs {
        let reached = run.to.value();
        if run.from.is_none() {
            doubts.push((line.entry.id, Suspicion::RunWithoutBeginning { reached, ended }));
        }
        ended = Some(reached);
    }
    doubts
}
