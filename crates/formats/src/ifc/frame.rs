//! The frame of a shaft: its cut-off at its place, its axis upward.
//!
//! The plan gives lengths of a raked shaft as elevations, so along its axis they are longer; the log counts them
//! upright, as the formulas do.

use super::model::Model;
use super::site::within;
use super::solid::{Stretch, axes};
use super::step::{Ref, Value};
use crate::place::{Lean, Place};
use quantity::Elevation;

/// Where a shaft stands in the model.
#[derive(Debug, Clone, Copy)]
pub(super) struct Frame {
    pub(super) placement: Ref,
    zero: Elevation,
    stretch: f64,
}

impl Frame {
    /// At a place, its zero at a level, leaning.
    pub(super) fn at(
        model: &mut Model<'_, '_, '_>,
        place: Option<Place>,
        zero: Elevation,
        lean: Lean,
    ) -> Self {
        let at = within(model, place, zero.to_meters());
        let turned = (lean != Lean::default()).then(|| directions(lean));
        let axes = axes(&mut model.step, at, turned);
        let values = [Value::Ref(model.site.placement), Value::Ref(axes)];
        let placement = model.step.add("IFCLOCALPLACEMENT", &values);
        Frame { placement, zero, stretch: lean.stretch() }
    }

    /// The height of a level along the axis.
    pub(super) fn height(&self, level: Elevation) -> f64 {
        level.above(self.zero).to_meters() * self.stretch
    }

    /// From one level up to another.
    pub(super) fn stretch(&self, bottom: Elevation, top: Elevation) -> Stretch {
        Stretch { low: self.height(bottom), high: self.height(top) }
    }
}

/// Up along the axis, and a direction across it that is east as nearly as can be.
fn directions(lean: Lean) -> [[f64; 3]; 2] {
    let length = lean.stretch();
    let up = [-lean.east / length, -lean.north / length, 1.0 / length];
    let across = [1.0 - up[0] * up[0], -up[0] * up[1], -up[0] * up[2]];
    let size = (across[0] * across[0] + across[1] * across[1] + across[2] * across[2]).sqrt();
    [up, across.map(|part| part / size)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_foot_of_a_leaning_shaft_moves_the_way_it_leans() {
        let [up, across] = directions(Lean { east: 0.25, north: 0.0 });
        // A metre down the axis goes toward east.
        assert!(-up[0] > 0.0 && up[2] > 0.0, "{up:?}");
        assert!((up[0] / up[2] + 0.25).abs() < 1e-12, "{up:?}");
        let together: f64 = up.iter().zip(across).map(|(one, other)| one * other).sum();
        assert!(together.abs() < 1e-12, "{together}");
    }
}
