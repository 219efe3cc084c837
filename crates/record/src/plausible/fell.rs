//! The concrete went down while a load went in.
//!
//! A casing lift lets it down honestly; without one, either a reading is wrong or concrete is going
//! somewhere it should not.

use super::Doubt;
use super::zero::{Reading, Zeros, corrected};
use crate::choices::Place;
use crate::kinds::{Body, ConcreteSounded};
use crate::log::{Line, Log};
use crate::question::Suspicion;
use quantity::Depth;

/// Two soundings one after the other, a load between them, no casing moved, and the second is deeper.
pub(super) fn concrete_fell(log: &Log<'_>) -> Vec<Doubt> {
    let zeros = Zeros::of(log);
    let mut before: Option<(&Line<'_>, &ConcreteSounded)> = None;
    let mut between = Between::default();
    let mut doubts = Vec::new();
    for line in log.lines.iter().filter(|line| line.stands()) {
        let Body::ConcreteSounded(after) = line.body else {
            between.see(line.body);
            continue;
        };
        let load = between.load.take().or_else(|| after.after.clone());
        let same = before.is_some_and(|(_, before)| before.after == after.after);
        let poured = between.poured || (!same && after.after.is_some());
        if let (Some(first), true, false) = (before, poured, between.casing_moved) {
            let fall = greatest_fall(&zeros, first, (line, after));
            let suspicion =
                fall.map(|(before, after)| Suspicion::ConcreteFell { before, after, ticket: load });
            doubts.extend(suspicion.map(|suspicion| (line.entry.id, suspicion)));
        }
        (before, between) = (Some((line, after)), Between::default());
    }
    doubts
}

/// What happened between two soundings.
#[derive(Default)]
struct Between {
    poured: bool,
    load: Option<String>,
    casing_moved: bool,
}

impl Between {
    fn see(&mut self, body: &Body) {
        match body {
            Body::DischargeStarted(discharge) => self.pour(&discharge.ticket),
            Body::DischargeEnded(discharge) => self.pour(&discharge.ticket),
            Body::CasingLifted(_) | Body::CasingOut(_) => self.casing_moved = true,
            _ => {}
        }
    }

    fn pour(&mut self, ticket: &str) {
        self.poured = true;
        self.load = Some(ticket.to_owned());
    }
}

type Sounded<'a, 'r> = (&'a Line<'r>, &'a ConcreteSounded);

/// The depths before and after at the place that fell most; `None` when none fell. Only readings at the
/// same place compare.
fn greatest_fall(
    zeros: &Zeros<'_>,
    before: Sounded<'_, '_>,
    after: Sounded<'_, '_>,
) -> Option<(Depth, Depth)> {
    let earlier = places(zeros, before);
    let mut falls = Vec::new();
    for (place, down, depth) in places(zeros, after) {
        let same = earlier.iter().filter(|(other, ..)| *other == place);
        falls.extend(same.map(|(_, was, was_depth)| (down - was, *was_depth, depth)));
    }
    let most = falls.into_iter().max_by_key(|(fall, ..)| *fall)?;
    (most.0 > 0).then_some((most.1, most.2))
}

fn places(zeros: &Zeros<'_>, (line, sounding): Sounded<'_, '_>) -> Vec<(Option<Place>, i128, Depth)> {
    let reference = sounding.reference.as_deref();
    let place = |point: &crate::kinds::bottom::DepthPoint| {
        let depth = corrected(point.depth.value(), sounding.tape_correction.as_ref())?;
        Some((point.place, zeros.down(&Reading { depth, reference, at: line.at })?, depth))
    };
    sounding.points.iter().filter_map(place).collect()
}
