//! Balance in the pipe and the first charge.

use calc::geometry::Bore;
use calc::tremie::{Start, balance_height, first_charge};
use quantity::{Elevation, Length};

use super::{Checks, Given, Outputs, numbers};

pub(super) const CHECKS: Checks = &[("tremie::balance_height", balance), ("tremie::first_charge", charge)];

fn balance(given: &Given) -> Result<Outputs, String> {
    let outlet: Length = given.quantity("fluid_over_outlet")?;
    let height = balance_height(
        given.quantity("fluid")?,
        given.quantity("concrete")?,
        outlet,
        given.quantity("concrete_over_outlet")?,
    )
    .map_err(|error| error.to_string())?;
    numbers([("height_m", height.to_meters()), ("below_fluid_m", (outlet - height).to_meters())])
}

fn charge(given: &Given) -> Result<Outputs, String> {
    let base = Elevation(Length::ZERO);
    let fluid_level = Elevation(given.quantity("depth_of_base_below_fluid")?);
    let bore =
        Bore::cylinder(given.quantity("diameter")?, fluid_level, base).map_err(|error| error.to_string())?;
    let start = Start {
        tip: Elevation(given.quantity("stand_off")?),
        embedment: given.quantity("embedment")?,
        pipe_inside: given.quantity("pipe_inside")?,
        fluid_level,
        fluid: given.quantity("fluid")?,
        concrete: given.quantity("concrete")?,
        overbreak: given.number("overbreak")?,
    };
    let charge = first_charge(&bore, &start).map_err(|error| error.to_string())?;
    numbers([
        ("shaft_m3", charge.shaft.to_cubic_meters()),
        ("pipe_m3", charge.pipe_above.to_cubic_meters() + charge.pipe_below.to_cubic_meters()),
        ("total_m3", charge.total().to_cubic_meters()),
        ("least_m3", charge.least().to_cubic_meters()),
    ])
}
