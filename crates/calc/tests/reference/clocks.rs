//! Lives of concrete and plans of a pour.

use calc::pour_plan::{PourPlan, TruckRound};
use calc::slump::{SlumpAtAge, SlumpTrial};
use quantity::{Length, Span};

use super::{Checks, Given, Outputs, numbers};

pub(super) const CHECKS: Checks =
    &[("slump::age_at", age_at), ("pour_plan::oldest_age", oldest), ("pour_plan::trucks", trucks)];

fn age_at(given: &Given) -> Result<Outputs, String> {
    let ages: Vec<Span> = given.quantities("ages")?;
    let slumps: Vec<Length> = given.quantities("slumps")?;
    let points: Vec<_> = ages.iter().zip(&slumps).map(|(&age, &slump)| SlumpAtAge { age, slump }).collect();
    let (trial, _) = SlumpTrial::new(&points).map_err(|error| error.to_string())?;
    let age = trial.age_at(given.quantity("limit")?).map_err(|error| error.to_string())?;
    numbers([("age_min", age.to_minutes())])
}

fn oldest(given: &Given) -> Result<Outputs, String> {
    let plan = PourPlan {
        loads: given.number("loads")? as u32,
        interval: given.quantity("interval")?,
        discharge: given.quantity("discharge")?,
        haul: given.quantity("haul")?,
        finish: given.quantity("finish")?,
    };
    let age = plan.oldest_age_at_end().map_err(|error| error.to_string())?;
    numbers([("age_min", age.to_minutes())])
}

fn trucks(given: &Given) -> Result<Outputs, String> {
    let round = TruckRound {
        load: given.quantity("load")?,
        haul: given.quantity("haul")?,
        position: given.quantity("position")?,
        discharge: given.quantity("discharge")?,
        wash: given.quantity("wash")?,
        back: given.quantity("back")?,
    };
    let cycle = round.cycle().map_err(|error| error.to_string())?;
    let trucks = round.trucks_needed().map_err(|error| error.to_string())?;
    numbers([("cycle_min", cycle.to_minutes()), ("trucks", f64::from(trucks))])
}
