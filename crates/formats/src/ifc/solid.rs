//! Solids: cylinders, rings and what a line gives when it is turned around the axis.
//!
//! Units: metres; heights along the axis of the shaft, upward.

use super::step::{Ref, Step, Value};
use std::f64::consts::TAU;

/// A stretch of an axis, from its lower to its upper end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stretch {
    pub(super) low: f64,
    pub(super) high: f64,
}

/// A point of two or three coordinates.
pub(super) fn point(step: &mut Step, at: &[f64]) -> Ref {
    step.share("IFCCARTESIANPOINT", &[Value::reals(at)])
}

fn direction(step: &mut Step, along: &[f64]) -> Ref {
    step.share("IFCDIRECTION", &[Value::reals(along)])
}

/// Axes at a point: upright, or with these directions of z and x.
pub(super) fn axes(step: &mut Step, at: [f64; 3], turned: Option<[[f64; 3]; 2]>) -> Ref {
    let at = Value::Ref(point(step, &at));
    let values = match turned {
        None => [at, Value::Blank, Value::Blank],
        Some([z, x]) => [at, Value::Ref(direction(step, &z)), Value::Ref(direction(step, &x))],
    };
    step.share("IFCAXIS2PLACEMENT3D", &values)
}

/// A cylinder around the axis.
pub(super) fn cylinder(step: &mut Step, radius: f64, along: Stretch) -> Ref {
    let circle = [Value::Word("AREA"), Value::Blank, Value::Blank, Value::Real(radius)];
    let circle = step.add("IFCCIRCLEPROFILEDEF", &circle);
    extruded(step, circle, along)
}

/// A ring around the axis, from one radius to another.
pub(super) fn ring(step: &mut Step, radii: [f64; 2], along: Stretch) -> Ref {
    let [inner, outer] = radii;
    let area = [Value::Word("AREA"), Value::Blank, Value::Blank];
    let sizes = [Value::Real(outer), Value::Real(outer - inner)];
    let hollow = step.add("IFCCIRCLEHOLLOWPROFILEDEF", &[&area[..], &sizes[..]].concat());
    extruded(step, hollow, along)
}

fn extruded(step: &mut Step, profile: Ref, along: Stretch) -> Ref {
    let foot = axes(step, [0.0, 0.0, along.low], None);
    let up = direction(step, &[0.0, 0.0, 1.0]);
    let values = [Value::Ref(profile), Value::Ref(foot), Value::Ref(up), Value::Real(along.high - along.low)];
    step.add("IFCEXTRUDEDAREASOLID", &values)
}

/// What a line of (radius, height) gives when it is turned around the axis, from the bottom up.
///
/// The line is closed along the axis; a point that repeats the one before is left out.
pub(super) fn turned(step: &mut Step, line: &[[f64; 2]]) -> Option<Ref> {
    let (first, last) = (line.first()?, line.last()?);
    let mut ring = vec![[0.0, first[1]]];
    for at in line.iter().chain([&[0.0, last[1]]]) {
        if ring.last() != Some(at) {
            ring.push(*at);
        }
    }
    let mut corners: Vec<Ref> = ring.iter().map(|at| point(step, at)).collect();
    corners.push(corners[0]);
    let line = step.add("IFCPOLYLINE", &[Value::refs(&corners)]);
    let area = [Value::Word("AREA"), Value::Blank, Value::Ref(line)];
    let area = step.add("IFCARBITRARYCLOSEDPROFILEDEF", &area);
    // Across is x, up the shaft is y of the area and z of the shaft.
    let upright = axes(step, [0.0, 0.0, 0.0], Some([[0.0, -1.0, 0.0], [1.0, 0.0, 0.0]]));
    let (foot, up) = (point(step, &[0.0, 0.0, 0.0]), direction(step, &[0.0, 1.0, 0.0]));
    let axis = step.share("IFCAXIS1PLACEMENT", &[Value::Ref(foot), Value::Ref(up)]);
    let values = [Value::Ref(area), Value::Ref(upright), Value::Ref(axis), Value::Real(TAU)];
    Some(step.add("IFCREVOLVEDAREASOLID", &values))
}
