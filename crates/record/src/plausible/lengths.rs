//! Lengths that would be usual in another unit: inches are easily typed as feet, and feet as inches.
//!
//! Every range is a placeholder, to be agreed with a practising inspector. None is an acceptance limit.

use super::Doubt;
use crate::choices::LineType;
use crate::kinds::Body;
use crate::log::Log;
use crate::question::Suspicion;
use quantity::{Elevation, Entered, Length};

/// What most sites would write for a length.
struct Usual {
    field: &'static str,
    low: Length,
    high: Length,
}

const fn usual(field: &'static str, low: Length, high: Length) -> Usual {
    Usual { field, low, high }
}

const fn inches(count: i64) -> Length {
    Length::nanometers(count * 25_400_000)
}

const fn feet(count: i64) -> Length {
    Length::nanometers(count * 304_800_000)
}

// Placeholder ranges: to be agreed with a practising inspector.
const DIAMETER: Usual = usual("diameter", inches(12), feet(16));
const OUTSIDE: Usual = usual("outside", inches(12), feet(16));
const CAGE: Usual = usual("diameter", inches(6), feet(15));
const WALL: Usual = usual("wall", inches(0), inches(4));
const SHAFT: Usual = usual("tip", feet(3), feet(350));
const CASING: Usual = usual("length", feet(2), feet(300));
const CAGE_LENGTH: Usual = usual("length", feet(3), feet(350));
const SLUMP: Usual = usual("slump", inches(0), inches(11));
const FLOW: Usual = usual("flow", inches(8), inches(36));
const SEDIMENT: Usual = usual("thickness", inches(0), inches(24));
const COVER: Usual = usual("cover", inches(1), inches(12));
const LINE: Usual = usual("inside", inches(2), inches(18));
const OFF_BOTTOM: Usual = usual("off_bottom", inches(0), inches(36));
const PIPE: Usual = usual("length", feet(1), feet(60));
const HOOPS: Usual = usual("spacing", inches(1), inches(36));
const AGGREGATE: Usual = usual("aggregate", Length::nanometers(2_000_000), inches(3));
const TUBE: Usual = usual("tube_inside", inches(1), inches(5));
const PROJECTION: Usual = usual("projection", inches(0), inches(48));

/// Lengths outside what is usual for their field; a field is asked about once an entry.
pub(super) fn unusual(log: &Log<'_>) -> Vec<Doubt> {
    let mut doubts: Vec<Doubt> = Vec::new();
    for line in log.lines.iter().filter(|line| line.stands()) {
        let mut asked: Vec<&'static str> = Vec::new();
        for (usual, length) in lengths(line.body) {
            let Usual { field, low, high } = *usual;
            if (low..=high).contains(&length) || asked.contains(&field) {
                continue;
            }
            asked.push(field);
            doubts.push((line.entry.id, Suspicion::LengthUnusual { field, length, low, high }));
        }
    }
    doubts
}

type Found = Vec<(&'static Usual, Length)>;

/// The lengths of a body that have a range.
fn lengths(body: &Body) -> Found {
    let mut found = before_pour(body);
    found.extend(pour(body));
    found
}

fn before_pour(body: &Body) -> Found {
    let mut found = Found::new();
    let mut small = |usual, length: Option<&crate::choices::Small>| {
        found.extend(length.map(|length| (usual, length.value())));
    };
    match body {
        Body::ShaftPlanned(plan) => {
            plan.bore.iter().for_each(|piece| small(&DIAMETER, Some(&piece.diameter)));
            found.extend(apart(&plan.top, &plan.tip).map(|length| (&SHAFT, length)));
        }
        Body::EquipmentChecked(item) => small(&DIAMETER, item.diameter.as_ref()),
        Body::ToolRun(run) => small(&DIAMETER, run.diameter.as_ref()),
        Body::BoreMeasured(bore) => {
            bore.points.iter().for_each(|point| small(&DIAMETER, Some(&point.diameter)))
        }
        Body::CasingSet(casing) => {
            small(&OUTSIDE, casing.outside.as_ref());
            small(&WALL, casing.wall.as_ref());
            found.extend(casing.length.as_ref().map(|length| (&CASING, length.value())));
        }
        Body::CagePlanned(cage) => {
            small(&CAGE, Some(&cage.diameter));
            small(&COVER, cage.cover.as_ref());
            cage.hoops.iter().for_each(|hoops| small(&HOOPS, Some(&hoops.spacing)));
            found.extend(cage.length.as_ref().map(|length| (&CAGE_LENGTH, length.value())));
        }
        Body::CageChecked(cage) => {
            small(&CAGE, cage.diameter.as_ref());
            small(&TUBE, cage.tube_inside.as_ref());
            cage.hoops.iter().for_each(|hoops| small(&HOOPS, Some(&hoops.spacing)));
            found.extend(cage.length.as_ref().map(|length| (&CAGE_LENGTH, length.value())));
        }
        Body::SedimentMeasured(sediment) => {
            sediment.points.iter().for_each(|point| small(&SEDIMENT, Some(&point.thickness)));
        }
        _ => {}
    }
    found
}

fn pour(body: &Body) -> Found {
    let mut found = Found::new();
    let mut small = |usual, length: Option<&crate::choices::Small>| {
        found.extend(length.map(|length| (usual, length.value())));
    };
    match body {
        Body::MixApproved(mix) => {
            small(&AGGREGATE, mix.aggregate.as_ref());
            small(&SLUMP, mix.slump_low.as_ref());
            small(&SLUMP, mix.slump_high.as_ref());
            small(&SLUMP, mix.slump_end.as_ref());
            mix.trial.iter().for_each(|point| small(&SLUMP, Some(&point.slump)));
        }
        Body::ConcreteTest(test) => {
            small(&SLUMP, test.slump.as_ref());
            small(&FLOW, test.flow.as_ref());
        }
        Body::LineMadeUp(line) => {
            small(&LINE, line.inside.as_ref());
            // Concrete that falls freely in a dry hole starts from wherever the line ends.
            if line.line != LineType::FreeFall {
                small(&OFF_BOTTOM, line.off_bottom.as_ref());
            }
            found.extend(line.pieces.iter().map(|pipe| (&PIPE, pipe.length.value())));
        }
        Body::AnchorsSet(anchors) => {
            anchors.bolts.iter().for_each(|bolt| small(&PROJECTION, bolt.projection.as_ref()));
        }
        Body::AsBuilt(built) => small(&DIAMETER, built.diameter.as_ref()),
        _ => {}
    }
    found
}

/// The length of the shaft; `None` when it is longer than any length.
fn apart(top: &Entered<Elevation>, tip: &Entered<Elevation>) -> Option<Length> {
    use super::zero::{length, nanometers};
    length(nanometers(top.value().0) - nanometers(tip.value().0))
}
