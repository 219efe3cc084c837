//! A reading deeper than the hole was at that time.

use super::Doubt;
use super::zero::{Reading, Zeros, corrected, length, nanometers};
use crate::kinds::Body;
use crate::log::{Line, Log};
use crate::question::Suspicion;
use quantity::{Depth, Length};

/// A tape in fluid is good to half a foot. Placeholder range: to be agreed with a practising inspector.
const ALLOWANCE: Length = Length::nanometers(152_400_000);

/// Soundings, fluid samples and tips that lie deeper than anything drilled so far.
///
/// A bottom that was sounded deeper is asked about once; from then on the hole is that deep.
pub(super) fn deeper_than_hole(log: &Log<'_>) -> Vec<Doubt> {
    let zeros = Zeros::of(log);
    let mut hole: Option<i128> = None;
    let mut doubts = Vec::new();
    for line in log.lines.iter().filter(|line| line.stands()) {
        let drilled = drilled(line).into_iter().filter_map(|reading| zeros.down(&reading));
        hole = drilled.chain(hole).max();
        let known = readings(line).into_iter().filter_map(|reading| Some((zeros.down(&reading)?, reading)));
        let Some((down, reading)) = known.max_by_key(|(down, _)| *down) else { continue };
        if let Some(bottom) = hole.filter(|bottom| down > bottom + nanometers(ALLOWANCE)) {
            let below = nanometers(reading.depth.0) - (down - bottom);
            let suspicion = length(below)
                .map(|below| Suspicion::DeeperThanHole { depth: reading.depth, hole: Depth(below) });
            doubts.extend(suspicion.map(|suspicion| (line.entry.id, suspicion)));
        }
        if matches!(line.body, Body::BottomSounded(_)) {
            hole = hole.max(Some(down));
        }
    }
    doubts
}

/// Depths a line says the hole was made to.
fn drilled<'r>(line: &Line<'r>) -> Vec<Reading<'r>> {
    let depth = match line.body {
        Body::ToolRun(run) => Some(run.to.value()),
        Body::BottomReached(bottom) => Some(bottom.depth.value()),
        Body::OverExcavated(more) => Some(more.to.value()),
        Body::BellCut(bell) => Some(bell.to.value()),
        Body::RockSocket(socket) => socket.to.as_ref().map(|to| to.value()),
        _ => None,
    };
    depth.map(|depth| Reading { depth, reference: None, at: line.at }).into_iter().collect()
}

/// Depths a line says something was found at, inside the hole.
fn readings<'r>(line: &Line<'r>) -> Vec<Reading<'r>> {
    let (depths, reference): (Vec<Depth>, Option<&str>) = match line.body {
        Body::BottomSounded(sounding) => {
            let correction = sounding.tape_correction.as_ref();
            let points = sounding.points.iter();
            (
                points.filter_map(|point| corrected(point.depth.value(), correction)).collect(),
                sounding.reference.as_deref(),
            )
        }
        Body::ConcreteSounded(sounding) => {
            let correction = sounding.tape_correction.as_ref();
            let points = sounding.points.iter();
            (
                points.filter_map(|point| corrected(point.depth.value(), correction)).collect(),
                sounding.reference.as_deref(),
            )
        }
        _ => (single(line.body).into_iter().collect(), None),
    };
    depths.into_iter().map(|depth| Reading { depth, reference, at: line.at }).collect()
}

fn single(body: &Body) -> Option<Depth> {
    let depth = match body {
        Body::FluidTest(test) => test.depth.as_ref(),
        Body::FluidLevel(level) => Some(&level.depth),
        Body::LineMadeUp(line) => line.tip.as_ref(),
        Body::TipMoved(moved) => Some(&moved.tip),
        Body::PiecesRemoved(removed) => removed.tip.as_ref(),
        Body::CasingLifted(lift) => lift.level_after.as_ref(),
        Body::CasingOut(out) => out.level_after.as_ref(),
        Body::Interruption(stop) => stop.level.as_ref(),
        _ => None,
    };
    depth.map(|depth| depth.value())
}
