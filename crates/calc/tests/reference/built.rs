//! The finished shaft: tolerances and crosshole readings.

use calc::as_built::PositionRule;
use calc::integrity::{Arrival, amplitude_of_decibels, delay_of_reduction, reduction_of_delay, travel_time};
use quantity::{Depth, Length, Slope};

use super::{Checks, Given, Outputs, numbers};

pub(super) const CHECKS: Checks = &[
    ("as_built::allowance", allowance),
    ("integrity::arrival", arrival),
    ("integrity::reduction_of_delay", reduction),
    ("integrity::delay_of_reduction", delay),
    ("integrity::amplitude", amplitude),
    ("integrity::travel_time", travel),
];

fn allowance(given: &Given) -> Result<Outputs, String> {
    let rule = PositionRule {
        position: given.quantity("position")?,
        lean: given.quantity::<Slope>("lean")?,
        defined_at: Depth(Length::ZERO),
        lean_adds: given.text("lean_adds")? == "yes",
    };
    let allowance = rule.allowance(given.quantity("below")?).map_err(|error| error.to_string())?;
    numbers([("allowance_mm", allowance.to_meters() * 1000.0), ("allowance_m", allowance.to_meters())])
}

fn arrival(given: &Given) -> Result<Outputs, String> {
    let arrival = Arrival { read: given.quantity("read")?, reference: given.quantity("reference")? };
    let delay = arrival.delay().map_err(|error| error.to_string())?;
    let reduction = arrival.velocity_reduction().map_err(|error| error.to_string())?;
    numbers([("delay_percent", delay.to_percent()), ("reduction_percent", reduction.to_percent())])
}

fn reduction(given: &Given) -> Result<Outputs, String> {
    let reduction = reduction_of_delay(given.quantity("delay")?).map_err(|error| error.to_string())?;
    numbers([("reduction_percent", reduction.to_percent())])
}

fn delay(given: &Given) -> Result<Outputs, String> {
    let delay = delay_of_reduction(given.quantity("reduction")?).map_err(|error| error.to_string())?;
    numbers([("delay_percent", delay.to_percent())])
}

fn amplitude(given: &Given) -> Result<Outputs, String> {
    let left = amplitude_of_decibels(given.number("loss_db")?).to_percent();
    numbers([("left_percent", left), ("decrease_percent", 100.0 - left)])
}

fn travel(given: &Given) -> Result<Outputs, String> {
    let feet_per_second = given.number("feet_per_second")?;
    let time = travel_time(given.quantity("distance")?, feet_per_second * 0.3048);
    let seconds = time.map_err(|error| error.to_string())?.to_seconds();
    numbers([("time_us", seconds * 1e6)])
}
