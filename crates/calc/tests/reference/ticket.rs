//! What a ticket adds up to.

use calc::ticket::{Batch, batch_yield, mass_of_water, relative_yield};
use quantity::{Density, Volume};

use super::{Checks, Given, Outputs, numbers};

pub(super) const CHECKS: Checks = &[("ticket::water_cement", water_cement), ("ticket::yield", yield_of)];

fn water_cement(given: &Given) -> Result<Outputs, String> {
    let batch = Batch {
        cementitious: given.quantity("cementitious")?,
        plant_water: given.quantity("plant_water")?,
        aggregates: vec![],
        added_water: mass_of_water(given.quantity("added")?),
    };
    let ratio = batch.water_cement().map_err(|error| error.to_string())?;
    numbers([("ratio", ratio.to_ratio())])
}

fn yield_of(given: &Given) -> Result<Outputs, String> {
    let weights: Vec<Density> = given.quantities("unit_weights")?;
    let real = batch_yield(given.quantity("batch")?, &weights).map_err(|error| error.to_string())?;
    let ticket: Volume = given.quantity("ticket")?;
    let relative = relative_yield(real, ticket).map_err(|error| error.to_string())?;
    numbers([("volume_yd3", real.volume.to_cubic_yards()), ("off_percent", relative.to_percent() - 100.0)])
}
