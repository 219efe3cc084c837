//! Pressure at the casing shoe: concrete inside against water and fluid outside.
//!
//! If the water outside presses harder than the concrete inside, it comes in under the shoe and leaves
//! a layer that no test finds easily.
//!
//! Words: *margin* = pressure inside less the larger pressure outside.
//! Units: SI inside; standard gravity 9.806 65 m/s².
//! Never: say how large a margin has to be.

use quantity::{Density, Length, Pressure};

use crate::placed::PlacedError;

/// Exact. [NIST-SP-811], App. B.8: standard acceleration of free fall 9.806 65 m/s².
const STANDARD_GRAVITY: f64 = 9.806_65;

/// What stands over the shoe inside the casing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShoeHeads {
    /// Concrete over the shoe.
    pub concrete: Length,
    /// Fluid over the concrete.
    pub fluid: Length,
    /// Density of the concrete.
    pub concrete_density: Density,
    /// Density of the fluid.
    pub fluid_density: Density,
}

/// What stands over the shoe outside the casing; zero where there is none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outside {
    /// Groundwater over the shoe.
    pub water: Length,
    /// Density of the groundwater.
    pub water_density: Density,
    /// Fluid over the shoe in the annulus.
    pub fluid: Length,
    /// Density of that fluid.
    pub fluid_density: Density,
}

/// Pressure at the shoe inside the casing less the larger one outside.
///
/// `M = g (ρc hc + ρs hs) − max(g ρw hw, g ρo ho)`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `ρc hc`, `ρs hs` | `inside` | concrete over the shoe and fluid over the concrete |
/// | `ρw hw` | `outside` | groundwater over the shoe |
/// | `ρo ho` | `outside` | fluid in the annulus over the shoe |
///
/// **Valid for** concrete that still flows; stiffened concrete presses less.
///
/// **Errors** when a height is negative.
///
/// **Source**: hydrostatics [HYDROSTATICS]; check value in `cases/casing-pressure.toml`.
///
/// ```
/// # use calc::casing::{Outside, ShoeHeads, shoe_margin};
/// # use quantity::{Density, Length};
/// let [concrete_density, fluid_density, water_density] =
///     [23.5, 10.8, 9.81].map(Density::kilonewtons_per_cubic_meter);
/// let inside = ShoeHeads {
///     concrete: Length::meters(3.0),
///     fluid: Length::meters(5.0),
///     concrete_density,
///     fluid_density,
/// };
/// let outside = Outside { water: Length::meters(9.0), water_density, fluid: Length::ZERO, fluid_density };
/// let margin = shoe_margin(&inside, &outside)?;
/// assert_eq!(format!("{:.1} kPa", margin.to_kilopascals()), "36.2 kPa");
/// # Ok::<(), calc::placed::PlacedError>(())
/// ```
pub fn shoe_margin(inside: &ShoeHeads, outside: &Outside) -> Result<Pressure, PlacedError> {
    let heights = [inside.concrete, inside.fluid, outside.water, outside.fluid];
    if let Some(&given) = heights.iter().find(|height| **height < Length::ZERO) {
        return Err(PlacedError::Length { given });
    }
    let within =
        pascals(inside.concrete_density, inside.concrete) + pascals(inside.fluid_density, inside.fluid);
    let water = pascals(outside.water_density, outside.water);
    let annulus = pascals(outside.fluid_density, outside.fluid);
    Ok(Pressure::pascals(within - water.max(annulus)))
}

/// Concrete over the shoe that just balances a column of water or fluid outside.
///
/// `h = ρw hw / ρc`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `ρw`, `hw` | `outside`, `outside_over_shoe` | density and height of what stands outside |
/// | `ρc` | `concrete` | density of the concrete |
///
/// **Valid for** no fluid on the concrete inside, which is the safe side.
///
/// **Errors** when what stands outside is not lighter than concrete or the height is negative.
///
/// **Source**: hydrostatics [HYDROSTATICS]; check value in `cases/casing-pressure.toml`.
///
/// ```
/// # use calc::casing::least_head;
/// # use quantity::{Density, Length};
/// let [water, concrete] = [62.4, 145.0].map(Density::pounds_per_cubic_foot);
/// let head = least_head(water, Length::feet(19.0), concrete)?;
/// assert_eq!(format!("{:.1} ft", head.to_feet()), "8.2 ft");
/// # Ok::<(), calc::placed::PlacedError>(())
/// ```
pub fn least_head(
    outside: Density,
    outside_over_shoe: Length,
    concrete: Density,
) -> Result<Length, PlacedError> {
    crate::placed::balance_column(outside, concrete, outside_over_shoe)
}

fn pascals(density: Density, height: Length) -> f64 {
    density.to_kilograms_per_cubic_meter() * STANDARD_GRAVITY * height.to_meters()
}
