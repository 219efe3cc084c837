//! Levels, volumes and pressures while a casing comes out. Depths are below the ground at elevation 0.

use calc::casing::{
    HeadRule, Outside, ShoeHeads, Withdrawal, concrete_to_keep_level, drop_per_length, highest_lift,
    least_head, lift, shoe_margin, unexplained_volume,
};
use calc::estimate::Level;
use calc::geometry::{Bore, Casing};
use quantity::{Depth, Elevation, Length, Volume};

use super::{Checks, Given, Outputs, numbers};

pub(super) const CHECKS: Checks = &[
    ("casing::drop_per_length", drop),
    ("casing::lift", lifted),
    ("casing::keep_level", keep_level),
    ("casing::highest_lift", highest),
    ("casing::unexplained", unexplained),
    ("casing::margin", margin),
    ("casing::least_head", head),
];

const GROUND: Elevation = Elevation(Length::ZERO);

fn level(given: &Given, name: &str) -> Result<Elevation, String> {
    Ok(Elevation::of_depth(GROUND, given.quantity::<Depth>(name)?))
}

fn hole(given: &Given) -> Result<Bore, String> {
    Bore::cylinder(given.quantity("hole")?, GROUND, level(given, "bottom")?)
        .map_err(|error| error.to_string())
}

fn standing<'a>(given: &Given, hole: &'a Bore) -> Result<Withdrawal<'a>, String> {
    let casing = Casing {
        inside_diameter: given.quantity("casing_inside")?,
        outside_diameter: given.quantity("casing_outside")?,
        top: GROUND,
        shoe: level(given, "shoe")?,
    };
    Ok(Withdrawal { hole, others: &[], casing, concrete: Level::known(level(given, "concrete")?) })
}

fn drop(given: &Given) -> Result<Outputs, String> {
    let drop = drop_per_length(given.quantity("hole")?, given.quantity("casing_inside")?);
    numbers([("per_length", drop.map_err(|error| error.to_string())?)])
}

fn lifted(given: &Given) -> Result<Outputs, String> {
    let hole = hole(given)?;
    let standing = standing(given, &hole)?;
    let up = level(given, "shoe_after")?.above(standing.casing.shoe);
    let after = lift(&standing, up, given.quantity("added")?).map_err(|error| error.to_string())?;
    let drop = standing.concrete.value.above(after.level.value);
    numbers([
        ("level_ft", -after.level.value.0.to_feet()),
        ("head_ft", after.head.value.to_feet()),
        ("drop_ft", drop.to_feet()),
        ("drop_m", drop.to_meters()),
    ])
}

fn keep_level(given: &Given) -> Result<Outputs, String> {
    let hole = hole(given)?;
    let standing = standing(given, &hole)?;
    let up = level(given, "shoe_after")?.above(standing.casing.shoe);
    let added =
        concrete_to_keep_level(&standing, up, level(given, "kept")?).map_err(|error| error.to_string())?;
    numbers([("added_yd3", added.value.to_cubic_yards())])
}

fn highest(given: &Given) -> Result<Outputs, String> {
    let hole = hole(given)?;
    let rule = HeadRule { required: given.quantity("required")? };
    let lift = highest_lift(&standing(given, &hole)?, rule).map_err(|error| error.to_string())?;
    numbers([("lift_ft", lift.to_feet())])
}

/// A cavity takes concrete: how far the surface sinks for it, and what is found from that.
fn unexplained(given: &Given) -> Result<Outputs, String> {
    let hole = hole(given)?;
    let standing = standing(given, &hole)?;
    let bore = standing.bore_after(Length::ZERO).map_err(|error| error.to_string())?;
    let cavity: Volume = given.quantity("cavity")?;
    let below = bore.volume_below(standing.concrete.value).map_err(|error| error.to_string())?;
    let left = Volume::cubic_meters(below.to_cubic_meters() - cavity.to_cubic_meters());
    let measured = Level::known(bore.level_holding(left).map_err(|error| error.to_string())?);
    let found = unexplained_volume(&bore, standing.concrete, measured).map_err(|error| error.to_string())?;
    numbers([
        ("drop_ft", standing.concrete.value.above(measured.value).to_feet()),
        ("found_yd3", found.value.to_cubic_yards()),
    ])
}

fn margin(given: &Given) -> Result<Outputs, String> {
    let inside = ShoeHeads {
        concrete: given.quantity("concrete_over_shoe")?,
        fluid: given.quantity("fluid_over_concrete")?,
        concrete_density: given.quantity("concrete")?,
        fluid_density: given.quantity("fluid")?,
    };
    let outside = Outside {
        water: given.quantity("water_over_shoe")?,
        water_density: given.quantity("water")?,
        fluid: given.quantity("fluid_outside_over_shoe")?,
        fluid_density: given.quantity("fluid_outside")?,
    };
    let margin = shoe_margin(&inside, &outside).map_err(|error| error.to_string())?;
    numbers([("margin_kpa", margin.to_kilopascals())])
}

fn head(given: &Given) -> Result<Outputs, String> {
    let least =
        least_head(given.quantity("water")?, given.quantity("water_over_shoe")?, given.quantity("concrete")?);
    numbers([("head_ft", least.map_err(|error| error.to_string())?.to_feet())])
}
