//! Concrete comes in trucks.
//!
//! Words: *step* = what a part load can be ordered in.
//! Never: split a step.

use super::OrderError;
use quantity::Volume;

/// What can be ordered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trucks {
    /// A full truck.
    pub full: Volume,
    /// The step of a part load, such as half a cubic yard.
    pub step: Volume,
}

/// A truck holds so many whole steps, a hair of a step short of the next one counted as there.
const HAIR: f64 = 1e-9;

impl Trucks {
    pub(super) fn check(&self) -> Result<(), OrderError> {
        match self.full.to_cubic_meters() > 0.0 && self.step.to_cubic_meters() > 0.0 {
            true => Ok(()),
            false => Err(OrderError::Truck),
        }
    }

    /// So many steps as full trucks and a part load. A truck that is no whole number of steps is filled up to
    /// the last whole one.
    pub(super) fn loads(&self, steps: u32) -> (u32, Volume) {
        let step = self.step.to_cubic_meters();
        let in_a_truck = (libm::floor(self.full.to_cubic_meters() / step + HAIR) as u32).max(1);
        let part = step * f64::from(steps % in_a_truck);
        (steps / in_a_truck, Volume::cubic_meters(part))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(full: f64, step: f64, steps: u32, expected: (u32, &str)) {
        let trucks = Trucks { full: Volume::cubic_yards(full), step: Volume::cubic_yards(step) };
        let (loads, part) = trucks.loads(steps);
        assert_eq!((loads, format!("{:.2}", part.to_cubic_yards()).as_str()), expected);
    }

    #[test]
    fn steps_fill_trucks() {
        check(9.0, 0.5, 0, (0, "0.00"));
        check(9.0, 0.5, 17, (0, "8.50"));
        check(9.0, 0.5, 18, (1, "0.00"));
        check(9.0, 0.5, 37, (2, "0.50"));
        // 0.3 and 0.1 are no exact floats; three steps are a truck all the same.
        check(0.3, 0.1, 4, (1, "0.10"));
        // 9.25 yd³ in half yards: 9.0 go into a truck.
        check(9.25, 0.5, 18, (1, "0.00"));
    }
}
