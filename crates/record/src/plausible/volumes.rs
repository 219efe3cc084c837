//! A ticket volume far beyond the other loads, or beyond any truck.

use super::Doubt;
use crate::kinds::{LoadArrived, PourPlanned};
use crate::log::Log;
use crate::question::Suspicion;
use quantity::{InOrder, Volume};

/// No truck on the road carries more, cubic metres; about 14 yd³.
/// Placeholder range: to be agreed with a practising inspector.
const LARGEST_TRUCK: f64 = 11.0;
/// A load this many times the usual one is asked about.
/// Placeholder range: to be agreed with a practising inspector.
const TIMES: f64 = 2.0;
/// Fewer other loads than this say nothing about what is usual.
const OTHERS: usize = 2;

/// Loads beyond any truck, at least twice the planned truck, or at least twice the middle one of the others.
pub(super) fn load_volume(log: &Log<'_>) -> Vec<Doubt> {
    let loads: Vec<_> = log.each::<LoadArrived>().collect();
    let volumes: Vec<f64> = loads.iter().map(|(_, load)| load.volume.value().to_cubic_meters()).collect();
    let plan = log.last::<PourPlanned>();
    let truck = plan.and_then(|(_, plan)| plan.truck.as_ref()).map(|truck| truck.value().to_cubic_meters());
    let mut doubts = Vec::new();
    for (index, (line, load)) in loads.iter().enumerate() {
        let (ticket, volume) = (load.ticket.clone(), load.volume.value());
        let usual = usual(&volumes, index, truck).map(Volume::cubic_meters);
        let suspicion = usual.map(|usual| Suspicion::LoadVolume { ticket, volume, usual });
        doubts.extend(suspicion.map(|suspicion| (line.entry.id, suspicion)));
    }
    doubts
}

/// What a load is here, where this one is far beyond it.
fn usual(volumes: &[f64], index: usize, truck: Option<f64>) -> Option<f64> {
    let volume = volumes[index];
    let others = volumes.iter().enumerate().filter(|(other, _)| *other != index).map(|(_, volume)| *volume);
    let usual = truck.or_else(|| middle(others.collect()));
    match usual.filter(|usual| volume >= TIMES * usual) {
        Some(usual) => Some(usual),
        None => (volume > LARGEST_TRUCK).then_some(usual.unwrap_or(LARGEST_TRUCK)),
    }
}

/// The median; `None` when there are too few to call anything usual.
fn middle(mut volumes: Vec<f64>) -> Option<f64> {
    volumes.put_in_order_by(f64::total_cmp);
    let half = volumes.len() / 2;
    match volumes.len() {
        ..OTHERS => None,
        even if even % 2 == 0 => Some((volumes[half - 1] + volumes[half]) / 2.0),
        _ => Some(volumes[half]),
    }
}
