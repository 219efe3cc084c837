//! An end that lies before its beginning.

use super::Doubt;
use crate::kinds::{Body, DischargeEnded, DischargeStarted};
use crate::log::{Line, Log};
use crate::question::Suspicion;
use quantity::Moment;

/// Runs, passes, stops and discharges that end before they begin.
pub(super) fn end_before_begin(log: &Log<'_>) -> Vec<Doubt> {
    let stands = log.lines.iter().filter(|line| line.stands());
    let mut doubts: Vec<Doubt> = stands.filter_map(|line| doubt(line, span(line)?)).collect();
    for (line, ended) in log.each::<DischargeEnded>() {
        let same = |started: &&DischargeStarted| started.ticket.trim() == ended.ticket.trim();
        let begun = log.each::<DischargeStarted>().find(|(_, started)| same(started));
        doubts.extend(begun.and_then(|(begun, _)| doubt(line, (begun.at, line.at))));
    }
    doubts
}

fn doubt(line: &Line<'_>, (begins, ends): (Moment, Moment)) -> Option<Doubt> {
    let odd = ends.seconds() < begins.seconds();
    odd.then_some((line.entry.id, Suspicion::EndsBeforeItBegins { begins, ends }))
}

/// Beginning and end of what a line tells, where it tells both.
fn span(line: &Line<'_>) -> Option<(Moment, Moment)> {
    let after = match line.body {
        Body::ToolRun(run) => run.out,
        Body::Obstruction(obstruction) => obstruction.cleared,
        Body::FluidTreated(treated) => treated.until,
        Body::Cleaning(cleaning) => cleaning.until,
        Body::Interruption(stop) => stop.until,
        Body::Curing(curing) => curing.until,
        Body::ConcreteOrdered(order) => order.due,
        _ => None,
    };
    let before = match line.body {
        Body::FluidIntroduced(fluid) => fluid.mixed,
        Body::InstallationPlan(plan) => plan.submitted,
        Body::ConcreteTest(test) => test.sampled,
        Body::DrillingStarted(start) => start.rig_moved,
        _ => None,
    };
    after.map(|after| (line.at, after)).or(before.map(|before| (before, line.at)))
}
