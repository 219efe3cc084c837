//! A ticket that arrived twice, or one that no load arrived with.

use super::Doubt;
use crate::kinds::{Body, LoadArrived};
use crate::log::Log;
use crate::question::Suspicion;
use quantity::Gather;
use std::collections::BTreeSet;

/// The second load under one ticket number.
pub(super) fn twice(log: &Log<'_>) -> Vec<Doubt> {
    let mut seen: BTreeSet<&str> = BTreeSet::new();
    let mut doubts = Vec::new();
    for (line, load) in log.each::<LoadArrived>() {
        if !seen.insert(load.ticket.trim()) {
            doubts.push((line.entry.id, Suspicion::TicketTwice { ticket: load.ticket.clone() }));
        }
    }
    doubts
}

/// Entries that speak of a load which is not in the log.
pub(super) fn unknown(log: &Log<'_>) -> Vec<Doubt> {
    let arrived: BTreeSet<&str> = log.each::<LoadArrived>().map(|(_, load)| load.ticket.trim()).into_set();
    let mut doubts = Vec::new();
    for line in log.lines.iter().filter(|line| line.stands()) {
        let missing = ticket(line.body).filter(|ticket| !arrived.contains(ticket.trim()));
        let suspicion = missing.map(|ticket| Suspicion::TicketUnknown { ticket: ticket.to_owned() });
        doubts.extend(suspicion.map(|suspicion| (line.entry.id, suspicion)));
    }
    doubts
}

/// The ticket a line speaks of, other than the arrival itself.
fn ticket(body: &Body) -> Option<&str> {
    match body {
        Body::ConcreteTest(test) => Some(&test.ticket),
        Body::WaterAdded(added) => Some(&added.ticket),
        Body::LoadRefused(refused) => Some(&refused.ticket),
        Body::DischargeStarted(started) => Some(&started.ticket),
        Body::DischargeEnded(ended) => Some(&ended.ticket),
        Body::ConcreteWasted(wasted) => wasted.ticket.as_deref(),
        Body::ConcreteSounded(sounding) => sounding.after.as_deref(),
        Body::CylindersMade(made) => made.ticket.as_deref(),
        _ => None,
    }
}
