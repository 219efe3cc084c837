//! Pressure, density and settling of a fluid. Depths are below its surface at elevation 0.

use calc::fluid_density::{
    Pair, PairErrors, Parts, compare, density_with_bentonite, density_with_sand, quartz,
};
use calc::fluid_pressure::{Balance, Column};
use calc::settling::{FluidStretch, SandSample, Settled, settled_thickness};
use quantity::{Depth, Elevation, Fraction, Length};

use super::{Checks, Given, Outputs, numbers};

pub(super) const CHECKS: Checks = &[
    ("fluid_pressure::excess", excess),
    ("fluid_density::with_sand", with_sand),
    ("fluid_density::with_bentonite", with_bentonite),
    ("fluid_density::pair", pair),
    ("settling::thickness", settled),
];

const SURFACE: Elevation = Elevation(Length::ZERO);

fn level(given: &Given, name: &str) -> Result<Elevation, String> {
    Ok(Elevation::of_depth(SURFACE, given.quantity::<Depth>(name)?))
}

fn excess(given: &Given) -> Result<Outputs, String> {
    let inside = Column { density: given.quantity("fluid")?, surface: SURFACE };
    let outside = Column { density: given.quantity("water")?, surface: level(given, "water_level")? };
    let excess = Balance { inside, outside }.excess(level(given, "depth")?);
    numbers([("excess_psf", excess.to_psf()), ("excess_kpa", excess.to_kilopascals())])
}

fn parts(given: &Given) -> Result<Parts, String> {
    Ok(Parts { clean: given.quantity("clean")?, grains: quartz(given.quantity("water")?) })
}

fn with_sand(given: &Given) -> Result<Outputs, String> {
    let density = density_with_sand(parts(given)?, given.quantity("sand")?);
    numbers([("density_pcf", density.map_err(|error| error.to_string())?.to_pounds_per_cubic_foot())])
}

fn with_bentonite(given: &Given) -> Result<Outputs, String> {
    let water = given.quantity("water")?;
    let parts = Parts { clean: water, grains: quartz(water) };
    let density = density_with_bentonite(parts, given.quantity("bentonite")?);
    numbers([("density_pcf", density.map_err(|error| error.to_string())?.to_pounds_per_cubic_foot())])
}

fn pair(given: &Given) -> Result<Outputs, String> {
    let pair = Pair { density: given.quantity("density")?, sand: given.quantity("sand")? };
    let errors =
        PairErrors { density: given.quantity("density_error")?, sand: given.quantity("sand_error")? };
    let fit = compare(parts(given)?, pair, errors).map_err(|error| error.to_string())?;
    numbers([
        ("difference_pcf", fit.difference.value.to_pounds_per_cubic_foot()),
        ("error_pcf", fit.difference.standard_error.to_pounds_per_cubic_foot()),
        ("sand_implied_percent", fit.sand_implied.to_percent()),
        ("fines_percent", fit.fines.to_percent()),
    ])
}

fn settled(given: &Given) -> Result<Outputs, String> {
    let bottom: Depth = given.quantity("column")?;
    let sample = SandSample { depth: bottom, sand: given.quantity("sand")? };
    let stretch = FluidStretch { top: Depth(Length::ZERO), bottom };
    let settled = Settled { porosity: given.quantity("porosity")?, sand_error: Fraction::part(0.0) };
    let thickness = settled_thickness(&[sample], stretch, settled).map_err(|error| error.to_string())?;
    numbers([("thickness_ft", thickness.value.to_feet())])
}
