//! The ground of a made-up shaft: layers, and how a hole in each comes out.
//!
//! Words: *habit* = how much wider than drilled a hole in this ground comes out, and how unevenly.
//! Units: metres below the top of the hole; ratios and shares of the area are plain numbers.
//! Never: claim to be measured. The habits are invented to differ from each other as grounds do; they
//! rest on no data, and nothing but rehearsal may use them.

use crate::chance::Chance;

/// What a layer is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Soil {
    /// Stands well.
    StiffClay,
    /// Creeps into the hole.
    SoftClay,
    /// Stands for a while.
    Silt,
    /// Runs where it is loose.
    Sand,
    /// Falls in stone by stone.
    Gravel,
    /// Stands as drilled.
    Rock,
}

/// Every soil, in the order of the declaration.
pub const SOILS: [Soil; 6] =
    [Soil::StiffClay, Soil::SoftClay, Soil::Silt, Soil::Sand, Soil::Gravel, Soil::Rock];

/// How a hole comes out in a soil. *Common practice, no source*: invented for rehearsal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Habit {
    /// Mean ratio of a layer, from … to.
    pub mean: [f64; 2],
    /// Standard deviation of the wander about it, from … to.
    pub wander: [f64; 2],
    /// Distance over which the wander changes, from … to, in metres.
    pub run_m: [f64; 2],
}

impl Soil {
    /// How a hole comes out in it.
    pub fn habit(self) -> Habit {
        let (mean, wander, run_m) = match self {
            Soil::StiffClay => ([0.99, 1.05], [0.004, 0.020], [0.8, 2.5]),
            Soil::SoftClay => ([0.95, 1.08], [0.010, 0.040], [0.8, 2.0]),
            Soil::Silt => ([1.00, 1.12], [0.010, 0.040], [0.6, 2.0]),
            Soil::Sand => ([1.02, 1.20], [0.015, 0.060], [0.4, 1.5]),
            Soil::Gravel => ([1.05, 1.30], [0.020, 0.080], [0.4, 1.2]),
            Soil::Rock => ([1.00, 1.04], [0.003, 0.015], [0.5, 2.0]),
        };
        Habit { mean, wander, run_m }
    }
}

/// A layer of the made-up ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layer {
    /// Its upper boundary, below the top of the hole.
    pub top_m: f64,
    /// Its lower boundary; deeper than `top_m`.
    pub bottom_m: f64,
    /// What it is of.
    pub soil: Soil,
    /// Mean ratio of the hole in it.
    pub mean: f64,
    /// Standard deviation of the wander about the mean, as part of it.
    pub wander: f64,
    /// Distance over which the wander changes.
    pub run_m: f64,
}

/// A layer thinner than this is not made.
const LEAST_LAYER_M: f64 = 1.0;

/// Layers that fill a hole from top to bottom, `count` of them at most, no soil twice in a row.
pub fn layers(length_m: f64, count: usize, chance: &mut Chance) -> Vec<Layer> {
    let most = ((length_m / LEAST_LAYER_M) as usize).clamp(1, count.max(1));
    let shares: Vec<f64> = (0..most).map(|_| chance.exponential()).collect();
    let free_m = length_m - LEAST_LAYER_M * most as f64;
    let whole: f64 = shares.iter().sum();
    let mut made: Vec<Layer> = Vec::new();
    for share in shares {
        let top_m = made.last().map_or(0.0, |above| above.bottom_m);
        let bottom_m = top_m + LEAST_LAYER_M + free_m * share / whole;
        let above = made.last().map(|above| above.soil);
        made.push(layer([top_m, bottom_m], other_soil(above, chance), chance));
    }
    if let Some(lowest) = made.last_mut() {
        lowest.bottom_m = length_m;
    }
    made
}

/// A layer of a soil with a mean and a wander out of its habit.
pub fn layer([top_m, bottom_m]: [f64; 2], soil: Soil, chance: &mut Chance) -> Layer {
    let habit = soil.habit();
    Layer {
        top_m,
        bottom_m,
        soil,
        mean: chance.between(habit.mean),
        wander: chance.between(habit.wander),
        run_m: chance.between(habit.run_m),
    }
}

fn other_soil(above: Option<Soil>, chance: &mut Chance) -> Soil {
    let others: Vec<Soil> = SOILS.into_iter().filter(|soil| Some(*soil) != above).collect();
    others[chance.whole([0, others.len() - 1])]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn layers_fill_the_hole_without_a_gap_and_differ_from_their_neighbours() {
        for seed in 0..200 {
            let made = layers(12.0, 5, &mut Chance::of_seed(seed));
            assert_eq!((made[0].top_m, made[made.len() - 1].bottom_m), (0.0, 12.0));
            for pair in made.windows(2) {
                assert_eq!(pair[0].bottom_m, pair[1].top_m);
                assert_ne!(pair[0].soil, pair[1].soil);
            }
            assert!(made.iter().all(|layer| layer.bottom_m - layer.top_m > 0.999), "{made:?}");
        }
    }

    #[test]
    fn a_short_hole_has_as_many_layers_as_have_room() {
        assert_eq!(layers(2.5, 9, &mut Chance::of_seed(3)).len(), 2);
        assert_eq!(layers(0.4, 9, &mut Chance::of_seed(3)).len(), 1);
    }
}
