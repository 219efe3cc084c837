//! A run of the tool that does not begin where the one before it ended.

use super::Doubt;
use super::zero::nanometers;
use crate::kinds::{Body, ToolRun};
use crate::log::Log;
use crate::question::Suspicion;
use quantity::{Depth, Length};

/// Half a foot of loose cuttings lies at the foot of a run.
/// Placeholder range: to be agreed with a practising inspector.
const ALLOWANCE: Length = Length::nanometers(152_400_000);

/// Runs that leave a gap or overlap. A tool of another diameter goes over drilled ground on purpose, and
/// caving fills what was drilled; neither is asked about.
pub(super) fn do_not_meet(log: &Log<'_>) -> Vec<Doubt> {
    let mut before: Option<&ToolRun> = None;
    let mut doubts = Vec::new();
    for line in log.lines.iter().filter(|line| line.stands()) {
        let run = match line.body {
            Body::ToolRun(run) => run,
            Body::Caving(_) => {
                before = None;
                continue;
            }
            _ => continue,
        };
        let apart = before.filter(|before| same_tool(before, run)).and_then(|before| apart(before, run));
        let suspicion = apart.map(|(ended, begins)| Suspicion::RunsDoNotMeet { ended, begins });
        doubts.extend(suspicion.map(|suspicion| (line.entry.id, suspicion)));
        before = Some(run);
    }
    doubts
}

fn same_tool(before: &ToolRun, run: &ToolRun) -> bool {
    let diameter = |run: &ToolRun| run.diameter.as_ref().map(|diameter| diameter.value());
    match (diameter(before), diameter(run)) {
        (Some(before), Some(now)) => before == now,
        _ => true,
    }
}

fn apart(before: &ToolRun, run: &ToolRun) -> Option<(Depth, Depth)> {
    let (ended, begins) = (before.to.value(), run.from.as_ref()?.value());
    let distance = (nanometers(begins.0) - nanometers(ended.0)).abs();
    (distance > nanometers(ALLOWANCE)).then_some((ended, begins))
}
