//! The first charge, and the level at which concrete in the pipe stands still.
//!
//! The plug is cut once. What is in the pipe, the hopper and the truck at that moment must bury the tip
//! by the required embedment, or the second charge goes through water.
//!
//! Words: *stand-off* = from the base to the tip when the plug is cut; *balance height* = height of the
//! concrete in the pipe above its outlet when nothing flows.
//! Units: SI inside.
//! Never: subtract bars from the first charge; leaving them in is the safe side.

use std::fmt;

use quantity::{Area, Density, Elevation, Length, Volume};

use crate::geometry::{Bore, GeometryError};
use crate::placed::{PlacedError, balance_column, pipe_content};

/// The moment before the plug is cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Start {
    /// Elevation of the tip.
    pub tip: Elevation,
    /// Embedment that the first charge has to reach.
    pub embedment: Length,
    /// Inside diameter of the pipe.
    pub pipe_inside: Length,
    /// Level of the fluid in the hole; at the tip or below for a dry hole.
    pub fluid_level: Elevation,
    /// Density of that fluid.
    pub fluid: Density,
    /// Density of the concrete.
    pub concrete: Density,
    /// What the hole takes per theoretical volume, 1 without over-break.
    pub overbreak: f64,
}

/// What the first charge is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FirstCharge {
    /// In the hole, from the base to the required level.
    pub shaft: Volume,
    /// In the pipe above the concrete outside.
    pub pipe_above: Volume,
    /// In the pipe below the concrete outside: the hole counts it already, and it is added once more as
    /// a reserve.
    pub pipe_below: Volume,
}

impl FirstCharge {
    /// What has to be on site: all three together, which errs to the safe side by `pipe_below`.
    pub fn total(&self) -> Volume {
        let parts = [self.shaft, self.pipe_above, self.pipe_below];
        Volume::cubic_meters(parts.map(Volume::to_cubic_meters).iter().sum())
    }

    /// The least that can do: without the reserve.
    pub fn least(&self) -> Volume {
        Volume::cubic_meters(self.shaft.to_cubic_meters() + self.pipe_above.to_cubic_meters())
    }
}

/// Why no answer is possible.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TremieError {
    /// A level has no place in the hole.
    Geometry(GeometryError),
    /// The pipe or the densities make no sense.
    Pipe(PlacedError),
    /// The over-break is below one.
    Overbreak {
        /// What was given.
        given: f64,
    },
}

impl fmt::Display for TremieError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TremieError::Geometry(error) => error.fmt(f),
            TremieError::Pipe(error) => error.fmt(f),
            TremieError::Overbreak { .. } => f.write_str("the over-break factor is below one"),
        }
    }
}

impl std::error::Error for TremieError {}

impl From<GeometryError> for TremieError {
    fn from(error: GeometryError) -> Self {
        TremieError::Geometry(error)
    }
}

impl From<PlacedError> for TremieError {
    fn from(error: PlacedError) -> Self {
        TremieError::Pipe(error)
    }
}

/// Height of the concrete in the pipe above its outlet, when nothing flows.
///
/// `ht = hc + ρs Hs / ρc`, `Hs = Z − hc`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `hc` | `concrete_over_outlet` | concrete in the hole above the outlet |
/// | `Z` | `fluid_over_outlet` | depth of the outlet below the fluid level |
/// | `ρs`, `ρc` | `fluid`, `concrete` | densities |
///
/// **Valid for** an open pipe without friction; concrete needs some more to flow.
///
/// **Errors** when the fluid is not lighter than the concrete or the concrete stands above the fluid.
///
/// **Source**: hydrostatics [HYDROSTATICS]; check values in `cases/tremie-hydrostatics.toml`.
///
/// ```
/// # use calc::tremie::balance_height;
/// # use quantity::{Density, Length};
/// let [fluid, concrete] = [10.8, 23.5].map(Density::kilonewtons_per_cubic_meter);
/// let height = balance_height(fluid, concrete, Length::meters(29.8), Length::meters(2.5))?;
/// assert_eq!(format!("{:.3} m", height.to_meters()), "15.046 m");
/// # Ok::<(), calc::placed::PlacedError>(())
/// ```
pub fn balance_height(
    fluid: Density,
    concrete: Density,
    fluid_over_outlet: Length,
    concrete_over_outlet: Length,
) -> Result<Length, PlacedError> {
    let column = balance_column(fluid, concrete, fluid_over_outlet - concrete_over_outlet)?;
    Ok(concrete_over_outlet + column)
}

/// Elevation at which the concrete in the pipe stands, when nothing flows.
///
/// As [`balance_height`], from the levels in the hole: concrete that stands higher flows, concrete seen
/// higher that does not flow is a blockage, concrete that stands lower lets fluid in.
///
/// **Errors** when the fluid is not lighter than the concrete or lies below it.
///
/// **Source**: hydrostatics [HYDROSTATICS].
///
/// ```
/// # use calc::tremie::balance_level;
/// # use quantity::{Density, Elevation, Length};
/// let [fluid, concrete] = [10.8, 23.5].map(Density::kilonewtons_per_cubic_meter);
/// let at = |meters| Elevation(Length::meters(meters));
/// let level = balance_level(fluid, concrete, at(0.0), at(-30.0))?;
/// assert_eq!(format!("{:.3} m", level.to_meters()), "-16.213 m");
/// # Ok::<(), calc::placed::PlacedError>(())
/// ```
pub fn balance_level(
    fluid: Density,
    concrete: Density,
    fluid_level: Elevation,
    concrete_level: Elevation,
) -> Result<Elevation, PlacedError> {
    let column = balance_column(fluid, concrete, fluid_level.above(concrete_level))?;
    Ok(Elevation(concrete_level.0 + column))
}

/// Volume needed on site before the plug is cut.
///
/// `V = k · V(base … tip + e) + a (ht − e) + a e`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `k` | `start.overbreak` | what the hole takes per theoretical volume |
/// | `V(…)` | `bore` | volume of the hole without steel from the base to the level to be reached |
/// | `e` | `start.embedment` | embedment to reach |
/// | `a` | `start.pipe_inside` | area inside the pipe |
/// | `ht` | – | balance height at that level, see [`balance_height`] |
///
/// **Valid for** a tip above the base. In a dry hole only the embedded part of the pipe counts.
///
/// **Errors** when the level lies outside the hole, pipe or densities make no sense, the fluid does not
/// reach that level though it reaches the tip, or the over-break is below one.
///
/// **Source**: [TREMIE-FIRST-CHARGE], worked in `cases/tremie-hydrostatics.toml`.
///
/// ```
/// # use calc::geometry::Bore;
/// # use calc::tremie::{Start, first_charge};
/// # use quantity::{Density, Elevation, Length};
/// let at = |meters| Elevation(Length::meters(meters));
/// let pile = Bore::cylinder(Length::meters(1.5), at(0.0), at(-30.0))?;
/// let charge = first_charge(&pile, &Start {
///     tip: at(-29.8),
///     embedment: Length::meters(2.5),
///     pipe_inside: Length::meters(0.254),
///     fluid_level: at(0.0),
///     fluid: Density::kilonewtons_per_cubic_meter(10.8),
///     concrete: Density::kilonewtons_per_cubic_meter(23.5),
///     overbreak: 1.0,
/// })?;
/// assert_eq!(format!("{:.3} m³", charge.total().to_cubic_meters()), "5.534 m³");
/// # Ok::<(), calc::tremie::TremieError>(())
/// ```
pub fn first_charge(bore: &Bore, start: &Start) -> Result<FirstCharge, TremieError> {
    if start.overbreak < 1.0 {
        return Err(TremieError::Overbreak { given: start.overbreak });
    }
    let reached = Elevation(start.tip.0 + start.embedment);
    let shaft = bore.gross().volume_below(reached)?.to_cubic_meters() * start.overbreak;
    let column = match start.fluid_level <= start.tip {
        true => Length::ZERO,
        false => balance_column(start.fluid, start.concrete, start.fluid_level.above(reached))?,
    };
    let pipe = pipe_content(start.pipe_inside)?;
    let filled =
        |area: Area, length: Length| Volume::cubic_meters(area.to_square_meters() * length.to_meters());
    Ok(FirstCharge {
        shaft: Volume::cubic_meters(shaft),
        pipe_above: filled(pipe, column),
        pipe_below: filled(pipe, start.embedment),
    })
}
