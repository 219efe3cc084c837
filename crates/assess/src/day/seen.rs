//! What was written of the pour by now.
//!
//! Never: guess a time that nobody wrote down.

use super::TrucksFrom;
use crate::forecasts::View;
use calc::pour_day::{PourDay, SoFar};
use calc::waiting::LoadMoments;
use quantity::{InOrder, Moment, Span};
use std::collections::BTreeSet;

/// The pour by now.
pub(super) struct Seen {
    now: Moment,
    loads: Vec<LoadMoments>,
    tested: usize,
    /// Different trucks that were named.
    named: u32,
    /// One of them came a second time: until then more may be on the road than were seen.
    came_back: bool,
    sections: Vec<Span>,
}

impl Seen {
    pub(super) fn of(view: &View<'_, '_>) -> Self {
        let picture = view.sources.picture;
        let loads: Vec<_> = picture.loads.iter().filter(|load| load.refused.is_none()).collect();
        let names = loads.iter().filter_map(|load| load.arrival.truck.as_deref()).map(str::trim);
        let names: Vec<&str> = names.filter(|name| !name.is_empty()).collect();
        let different: BTreeSet<&str> = names.iter().copied().collect();
        let moments = loads.iter().map(|load| LoadMoments {
            batched: load.batched,
            arrived: Some(load.arrived),
            discharge_started: load.started,
            discharge_finished: load.done.map(|(at, _)| at),
        });
        let took = picture.lines.iter().flat_map(|line| &line.steps).filter_map(|step| step.took);
        Seen {
            now: picture.now,
            loads: moments.collect(),
            tested: loads.iter().filter(|load| !load.tests.is_empty()).count(),
            named: different.len() as u32,
            came_back: different.len() < names.len(),
            sections: took.collect(),
        }
    }

    /// As the formulas want it.
    pub(super) fn so_far(&self) -> SoFar<'_> {
        SoFar { now: self.now, loads: &self.loads, sections: &self.sections, lifts: &[] }
    }

    /// Loads batched or arrived that are not in the hole.
    pub(super) fn under_way(&self) -> u32 {
        self.loads.iter().filter(|load| load.discharge_finished.is_none()).count() as u32
    }

    /// A load was written down.
    pub(super) fn begun(&self) -> bool {
        !self.loads.is_empty()
    }

    /// Loads that are in.
    pub(super) fn ended(&self) -> u32 {
        self.loads.len() as u32 - self.under_way()
    }

    /// Every so many loads was tested so far; zero: none.
    pub(super) fn test_every(&self) -> u32 {
        (self.loads.len().checked_div(self.tested).unwrap_or(0)) as u32
    }

    /// Minutes between the two batches that followed each other most closely.
    pub(super) fn closest_batches(&self) -> Option<f64> {
        let mut batched: Vec<Moment> = self.loads.iter().filter_map(|load| load.batched).collect();
        batched.put_in_order();
        batched.windows(2).map(|pair| pair[1].minutes_since(pair[0])).reduce(f64::min)
    }

    /// Trucks in the round: as they were named, once one of them came back; before that as many as keep the time between
    /// loads, because those that were seen are only the first. `None` where neither is known.
    pub(super) fn trucks(&self, day: &PourDay) -> Option<(u32, TrucksFrom)> {
        let least = self.named.max(self.under_way()).max(1);
        if self.came_back {
            return Some((least, TrucksFrom::Named));
        }
        let planned = day.headway.map(Span::to_minutes);
        let headway = planned.or_else(|| self.closest_batches())?;
        let parts = [day.durations.haul, day.durations.position, day.durations.discharge, day.durations.back];
        let round: f64 = parts.iter().map(|part| part.usual.to_minutes()).sum();
        let keep = libm::ceil(round / headway - 1e-9);
        (headway > 0.0 && keep < 100.0).then(|| ((keep as u32).max(least), TrucksFrom::Headway))
    }
}
