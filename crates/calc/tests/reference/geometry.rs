//! Cylinders, cones, and what concrete says about a diameter.

use calc::geometry::{Bore, circle_area, equivalent_diameter, frustum_volume, steel_volume};
use quantity::{Area, Elevation, Length, Volume};

use super::{Checks, Given, Outputs, numbers};

pub(super) const CHECKS: Checks = &[
    ("geometry::per_length", per_length),
    ("geometry::cylinder", cylinder),
    ("geometry::cone", cone),
    ("geometry::diameter", diameter),
];

/// What a shaft of one diameter takes per length, and how far a load lifts it.
fn per_length(given: &Given) -> Result<Outputs, String> {
    let area = circle_area(given.quantity("diameter")?);
    let cubic_yards_per_foot = area.to_square_feet() / 27.0;
    numbers([
        ("ft3_per_ft", area.to_square_feet()),
        ("yd3_per_ft", cubic_yards_per_foot),
        ("ft_per_yd3", 1.0 / cubic_yards_per_foot),
        ("m3_per_m", area.to_square_meters()),
        ("rise_ft", given.quantity::<Volume>("load")?.to_cubic_yards() / cubic_yards_per_foot),
        ("rise_m", given.quantity::<Volume>("load")?.to_cubic_meters() / area.to_square_meters()),
    ])
}

fn cylinder(given: &Given) -> Result<Outputs, String> {
    let bottom = Elevation(Length::ZERO);
    let top = Elevation(given.quantity("height")?);
    let bore = Bore::cylinder(given.quantity("diameter")?, top, bottom).map_err(|error| error.to_string())?;
    volumes(bore.volume())
}

fn cone(given: &Given) -> Result<Outputs, String> {
    let diameters = [given.quantity("upper_diameter")?, given.quantity("lower_diameter")?];
    volumes(frustum_volume(diameters, given.quantity("height")?).map_err(|error| error.to_string())?)
}

fn volumes(volume: Volume) -> Result<Outputs, String> {
    numbers([
        ("volume_ft3", volume.to_cubic_feet()),
        ("volume_yd3", volume.to_cubic_yards()),
        ("volume_m3", volume.to_cubic_meters()),
    ])
}

fn diameter(given: &Given) -> Result<Outputs, String> {
    let length: Length = given.quantity("length")?;
    let steel = steel_volume(given.quantity::<Area>("steel")?, length).to_cubic_meters();
    let concrete = given.quantity::<Volume>("concrete")?.to_cubic_meters();
    let gross = Volume::cubic_meters(concrete + steel);
    let of = |volume| equivalent_diameter(volume, length).map_err(|error| error.to_string());
    numbers([
        ("steel_yd3", Volume::cubic_meters(steel).to_cubic_yards()),
        ("gross_yd3", gross.to_cubic_yards()),
        ("without_steel_in", of(Volume::cubic_meters(concrete))?.to_inches()),
        ("with_steel_in", of(gross)?.to_inches()),
        ("with_steel_m", of(gross)?.to_meters()),
    ])
}
