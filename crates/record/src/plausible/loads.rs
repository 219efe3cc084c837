//! A load batched after it arrived, or discharged before.

use super::Doubt;
use crate::kinds::{DischargeEnded, DischargeStarted, LoadArrived};
use crate::log::{Line, Log};
use crate::question::Suspicion;

/// Loads whose times cannot follow one another as written.
pub(super) fn out_of_order(log: &Log<'_>) -> Vec<Doubt> {
    let mut doubts = Vec::new();
    for (line, load) in log.each::<LoadArrived>() {
        if let Some(batched) = load.batched.filter(|batched| batched.seconds() > line.at.seconds()) {
            let ticket = load.ticket.clone();
            let suspicion = Suspicion::BatchedAfterArrival { ticket, batched, arrived: line.at };
            doubts.push((line.entry.id, suspicion));
        }
    }
    let started = log.each::<DischargeStarted>().map(|(line, started)| (line, started.ticket.as_str()));
    let ended = log.each::<DischargeEnded>().map(|(line, ended)| (line, ended.ticket.as_str()));
    doubts.extend(started.chain(ended).filter_map(|(line, ticket)| too_early(log, line, ticket)));
    doubts
}

fn too_early(log: &Log<'_>, line: &Line<'_>, ticket: &str) -> Option<Doubt> {
    let (arrival, load) = log.each::<LoadArrived>().find(|(_, load)| load.ticket.trim() == ticket.trim())?;
    let odd = line.at.seconds() < arrival.at.seconds();
    let suspicion = Suspicion::DischargedBeforeArrival {
        ticket: load.ticket.clone(),
        arrived: arrival.at,
        discharged: line.at,
    };
    odd.then_some((line.entry.id, suspicion))
}
