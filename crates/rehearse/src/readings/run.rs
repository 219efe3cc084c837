//! The pour as it goes, truck by truck, until the hole is full and the casing is out.

use super::{Column, Crew, Readings, Sounding};
use crate::chance::Chance;
use crate::hole::Hole;

/// A pour stands still no longer than this; a hole of this many steps is not made.
const STEPS_MAX: usize = 4_000;

/// Each step leaves a few hundredths of the error before it: the area of a tremie in that of a hole.
const BALANCE_STEPS: usize = 8;

/// Less than a litre is nothing.
const NOTHING_M3: f64 = 1e-3;

/// What stands in the hole and what the truck at the chute still holds.
struct Run {
    hole: Hole,
    crew: Crew,
    tape: Chance,
    trucks: Chance,
    lines: Chance,
    shared_m: f64,
    shared_yield: f64,
    yields: Vec<f64>,
    /// True volume in the hole and the line.
    out_m3: f64,
    /// True volume in the line above the concrete.
    held_m3: f64,
    shoe_m: f64,
    /// True volume pushed over the top since the sounding before.
    spilled_m3: f64,
    /// True volume in the truck.
    left_m3: f64,
    /// Parts of the truck still to come before the next one.
    parts_left: usize,
    /// The hole has been full once.
    was_full: bool,
    soundings: Vec<Sounding>,
}

/// The readings of a seed, without the drawings.
pub(super) fn read(seed: u64, hole: Hole, crew: Crew) -> Readings {
    let mut tape = Chance::of_topic(seed, "tape");
    let mut trucks = Chance::of_topic(seed, "trucks");
    let shared_m = crew.tape.shared_m * tape.even();
    let base_m = mean(&crew.tape.read_m(hole.length_m(), shared_m, &mut tape));
    let shared_yield = crew.plant.bias + crew.plant.shared * trucks.even();
    let mut run = Run {
        shoe_m: hole.sleeve.map_or(0.0, |sleeve| sleeve.shoe_m),
        lines: Chance::of_topic(seed, "lines"),
        yields: Vec::new(),
        soundings: Vec::new(),
        out_m3: 0.0,
        held_m3: 0.0,
        left_m3: 0.0,
        spilled_m3: 0.0,
        parts_left: 0,
        was_full: false,
        hole,
        crew,
        tape,
        trucks,
        shared_m,
        shared_yield,
    };
    let _steps = (0..STEPS_MAX).take_while(|_| run.step()).count();
    let Run { hole, crew, yields, soundings, .. } = run;
    Readings { hole, crew, base_m, shared_m, shared_yield, yields, soundings, bores: Vec::new() }
}

fn mean(points_m: &[f64]) -> f64 {
    points_m.iter().sum::<f64>() / points_m.len() as f64
}

/// What stands in a tremie depends on the surface outside, and that on what stands in the tremie.
pub(super) fn balanced_m3(column: Option<Column>, rest_m3: f64, depth_m: impl Fn(f64) -> f64) -> f64 {
    let Some(column) = column else { return rest_m3 };
    let step = |held_m3, _| rest_m3 + column.volume_m3(depth_m(held_m3));
    (0..BALANCE_STEPS).fold(rest_m3, step)
}

impl Run {
    /// One pull or one part of a load, and its sounding; false when the work is done.
    fn step(&mut self) -> bool {
        let full = self.depth_m() <= 0.0;
        self.was_full |= full;
        if self.shoe_m > 0.0 && (full || self.head_m() >= self.crew.head_m + self.crew.lift_m) {
            self.shoe_m = (self.shoe_m - self.crew.lift_m).max(0.0);
            self.spill();
            self.sound(Vec::new(), Vec::new(), 0.0);
            return true;
        }
        if full || (self.was_full && !self.crew.top_up) {
            return false;
        }
        self.discharge();
        true
    }

    fn depth_m(&self) -> f64 {
        self.hole.depth_holding(self.out_m3 - self.held_m3, self.shoe_m)
    }

    fn head_m(&self) -> f64 {
        self.shoe_m - self.depth_m()
    }

    fn balance(&mut self) {
        let depth_m = |held_m3: f64| self.hole.depth_holding(self.out_m3 - held_m3, self.shoe_m);
        self.held_m3 = balanced_m3(self.crew.column, self.held_m3, depth_m);
    }

    /// What has no room runs over the top: where the ground has come in behind the casing a pull pushes it
    /// up, and at the end the line empties into a full hole.
    fn spill(&mut self) {
        let over_m3 =
            self.out_m3 - self.held_m3 - self.hole.volume_m3([0.0, self.hole.length_m()], self.shoe_m);
        self.spilled_m3 = over_m3.max(0.0);
        self.out_m3 -= self.spilled_m3;
    }

    /// The next part of a load goes in; what has no room stays in the truck.
    fn discharge(&mut self) {
        let parts = self.crew.soundings_per_load.max(1);
        if self.parts_left == 0 || self.left_m3 < NOTHING_M3 {
            self.next_truck(parts);
        }
        let truck = self.yields.len() - 1;
        let planned_m3 = self.part_m3(parts);
        let held_m3 = self.lines.between(self.crew.held_m3);
        let full_m3 = self.hole.volume_m3([0.0, self.hole.length_m()], self.shoe_m);
        let room_m3 = (full_m3 + held_m3 - self.out_m3).max(0.0);
        let true_m3 = planned_m3.min(room_m3);
        let ticket_m3 = match true_m3 < planned_m3 {
            true => self.judged_m3(true_m3 / self.yields[truck]),
            false => self.crew.truck_m3 / parts as f64,
        };
        self.left_m3 -= true_m3;
        self.out_m3 += true_m3;
        self.held_m3 = held_m3;
        self.balance();
        self.parts_left -= 1;
        self.spill();
        self.sound(vec![ticket_m3], vec![truck], true_m3);
    }

    fn next_truck(&mut self, parts: usize) {
        let own = 1.0 + self.crew.plant.each * self.trucks.peaked();
        let factor = (1.0 + self.shared_yield) * own.max(0.5);
        self.yields.push(factor);
        self.left_m3 = self.crew.truck_m3 * factor;
        self.parts_left = parts;
    }

    /// The true volume of the part that is to be discharged now: the last part is the rest.
    fn part_m3(&mut self, parts: usize) -> f64 {
        if self.parts_left == 1 {
            return self.left_m3;
        }
        let share = (1.0 / parts as f64 + self.crew.part_error * self.trucks.bounded()).clamp(0.05, 0.95);
        (share * self.crew.truck_m3 * self.yields[self.yields.len() - 1]).min(self.left_m3)
    }

    /// What is written for the part of a truck that is sent home half full.
    fn judged_m3(&mut self, ticket_m3: f64) -> f64 {
        (ticket_m3 + self.crew.left_error_m3 * self.trucks.bounded()).max(0.0)
    }

    fn sound(&mut self, tickets_m3: Vec<f64>, trucks: Vec<usize>, true_m3: f64) {
        let true_m = self.depth_m();
        let points_m = self.crew.tape.read_m(true_m, self.shared_m, &mut self.tape);
        let held_m3 = (self.held_m3 + self.crew.held_error_m3 * self.lines.bounded()).max(0.0);
        let spilled_m3 = std::mem::take(&mut self.spilled_m3);
        let wasted_m3 = if spilled_m3 > 0.0 { self.judged_m3(spilled_m3) } else { 0.0 };
        let sounding = Sounding {
            wasted_m3,
            spilled_m3,
            read_m: mean(&points_m),
            points_m,
            true_m,
            tickets_m3,
            trucks,
            true_m3,
            held_m3,
            true_held_m3: self.held_m3,
            shoe_m: self.shoe_m,
        };
        self.soundings.push(sounding);
    }
}
