//! Who reads, with what, and how far each is off.

use crate::chance::Chance;

/// What a tape is divided into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Marks {
    /// Tenths of a foot.
    TenthFoot,
    /// Every five centimetres.
    FiveCentimeters,
}

impl Marks {
    /// Distance of two marks.
    pub fn step_m(self) -> f64 {
        match self {
            Marks::TenthFoot => 0.03048,
            Marks::FiveCentimeters => 0.05,
        }
    }

    /// A length to the nearest mark.
    pub fn round_m(self, length_m: f64) -> f64 {
        libm::round(length_m / self.step_m()) * self.step_m()
    }
}

/// A weighted tape in somebody's hands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tape {
    /// Standard deviation of one reading at one point: hand, weight, and the slope of the surface.
    pub each_m: f64,
    /// Standard deviation of what all readings of a day share: the reference, the length of the tape.
    pub shared_m: f64,
    /// What readings are rounded to.
    pub marks: Marks,
    /// Points at which the surface is read each time, 1 or more; their mean is used.
    pub points: usize,
}

impl Tape {
    /// Standard error of the mean of one sounding, rounding counted, without what all readings share.
    pub fn standard_error_m(&self) -> f64 {
        let step_m = self.marks.step_m();
        libm::sqrt((self.each_m * self.each_m + step_m * step_m / 12.0) / self.points.max(1) as f64)
    }

    /// What the tape shows: the mean over the points, each with an error of its own and rounded.
    pub(super) fn read_m(&self, true_m: f64, shared_m: f64, chance: &mut Chance) -> f64 {
        let points = self.points.max(1);
        let one =
            |chance: &mut Chance| self.marks.round_m(true_m + shared_m + self.each_m * chance.bounded());
        (0..points).map(|_| one(chance)).sum::<f64>() / points as f64
    }
}

/// A plant and its tickets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plant {
    /// Yield that every shaft of this plant has: −0.01 when a ticket says a hundredth too much.
    pub bias: f64,
    /// Standard deviation of what the loads of one day share beside the bias, as part of the volume.
    pub shared: f64,
    /// Standard deviation of each load on its own, as part of the volume.
    pub each: f64,
}

/// Everything about how a pour is read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crew {
    /// The tape.
    pub tape: Tape,
    /// The plant.
    pub plant: Plant,
    /// Volume on the ticket of a truck.
    pub truck_m3: f64,
    /// Soundings a load: 1 after it, 2 also at half of it, and so on.
    pub soundings_per_load: usize,
    /// Standard deviation of the part of a load that has left when it is judged by eye.
    pub part_error: f64,
    /// Standard deviation of the volume left in the last truck as it is judged.
    pub left_error_m3: f64,
    /// Volume that stands in the line above the concrete, from … to; it changes with each sounding.
    pub held_m3: [f64; 2],
    /// Standard deviation of the recorded volume in the line.
    pub held_error_m3: f64,
    /// One pull of the casing.
    pub lift_m: f64,
    /// Concrete kept above the shoe of the casing before and after a pull.
    pub head_m: f64,
}

impl Default for Crew {
    /// A tape in tenths of a foot read at two points, trucks of 7 m³ from a plant that is true to 1 %
    /// over all and 1.5 % each load, one sounding a load.
    fn default() -> Self {
        Crew {
            tape: Tape { each_m: 0.03, shared_m: 0.015, marks: Marks::TenthFoot, points: 2 },
            plant: Plant { bias: 0.0, shared: 0.01, each: 0.015 },
            truck_m3: 7.0,
            soundings_per_load: 1,
            part_error: 0.04,
            left_error_m3: 0.1,
            held_m3: [0.02, 0.12],
            held_error_m3: 0.01,
            lift_m: 1.5,
            head_m: 2.0,
        }
    }
}
