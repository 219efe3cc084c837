//! Invented shafts for the gallery and the tests. No such shafts exist.

#![allow(dead_code, unreachable_pub, missing_docs, reason = "shared by several tests, each uses a part")]

pub mod day;
pub mod holes;
pub mod job;
pub mod profiles;
pub mod tests_of_the_day;

use quantity::Moment;

/// Feet as metres.
pub fn ft(feet: f64) -> f64 {
    feet * 0.3048
}

/// Inches as metres.
pub fn inch(inches: f64) -> f64 {
    inches * 0.0254
}

/// Cubic yards as cubic metres.
pub fn yd3(yards: f64) -> f64 {
    yards * 0.764_554_857_984
}

/// A clock time of the invented day.
pub fn at(clock: &str) -> Moment {
    on(4, clock)
}

/// A clock time on a day of the invented month.
pub fn on(day: u32, clock: &str) -> Moment {
    Moment::parse(&format!("2031-05-{day:02}T{clock}:00-06:00")).expect("a moment")
}
