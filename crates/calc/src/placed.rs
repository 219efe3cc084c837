//! How much of what was delivered is in the hole.
//!
//! A ticket says what the truck brought. Some of it was wasted, some stays in the truck, and until the
//! end some stands in the tremie, the hopper and the pump line. A ratio that forgets the lines shows a
//! cavity after the first load and a neck after the last.
//!
//! Words: *placed* = delivered − wasted − left in truck − standing in lines; *column* = the concrete
//! that stands in the tremie above the concrete outside it.
//! Units: SI inside.
//! Never: return a negative volume; say that the lines are empty because nobody wrote them down.

use std::fmt;

use quantity::{Area, Density, Length, Volume};

/// What has been delivered, and where it is if it is not in the hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Delivered {
    /// By the tickets.
    pub delivered: Volume,
    /// Spilled, rejected after it was counted, used for cylinders.
    pub wasted: Volume,
    /// Still in the truck.
    pub left_in_truck: Volume,
    /// Standing in tremie, hopper and pump line, see [`Lines`].
    pub in_lines: Volume,
}

/// Concrete that has left the truck and has not reached the shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lines {
    /// In the tremie above the concrete outside it.
    pub tremie: Volume,
    /// In the hopper.
    pub hopper: Volume,
    /// In the pump line.
    pub pump_line: Volume,
}

impl Lines {
    /// No concrete in any line.
    pub fn empty() -> Self {
        let none = Volume::cubic_meters(0.0);
        Lines { tremie: none, hopper: none, pump_line: none }
    }

    /// All of it.
    pub fn total(&self) -> Volume {
        let parts = [self.tremie, self.hopper, self.pump_line];
        Volume::cubic_meters(parts.into_iter().map(Volume::to_cubic_meters).sum())
    }
}

/// Why no answer is possible.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PlacedError {
    /// A volume is negative.
    Negative {
        /// What was given.
        given: Volume,
    },
    /// More is accounted for elsewhere than was delivered.
    MoreThanDelivered {
        /// By how much.
        over: Volume,
    },
    /// The fluid is not lighter than the concrete, or one of them has no weight.
    Densities {
        /// Density of the fluid as given.
        fluid: Density,
        /// Density of the concrete as given.
        concrete: Density,
    },
    /// A length is negative, or a diameter is not greater than zero.
    Length {
        /// What was given.
        given: Length,
    },
}

impl fmt::Display for PlacedError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            PlacedError::Negative { .. } => "a volume is negative",
            PlacedError::MoreThanDelivered { .. } => "more is wasted or in lines than was delivered",
            PlacedError::Densities { .. } => "the fluid is not lighter than the concrete",
            PlacedError::Length { .. } => "a length is too small",
        })
    }
}

impl std::error::Error for PlacedError {}

/// Volume placed in the hole.
///
/// `V = D − W − R − L`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `D` | `delivered` | by the tickets |
/// | `W` | `wasted` | wasted |
/// | `R` | `left_in_truck` | still in the truck |
/// | `L` | `in_lines` | standing in tremie, hopper and pump line |
///
/// **Valid for** any moment of the pour, all four taken at that moment.
///
/// **Errors** when a volume is negative or more is accounted for than was delivered.
///
/// **Source**: [FHWA-CONVOL] (volume placed = delivered − in lines − wasted).
///
/// ```
/// # use calc::placed::{Delivered, volume_placed};
/// # use quantity::Volume;
/// let [delivered, wasted, left_in_truck, in_lines] = [33.0, 0.4, 0.5, 0.6].map(Volume::cubic_yards);
/// let placed = volume_placed(&Delivered { delivered, wasted, left_in_truck, in_lines })?;
/// assert_eq!(format!("{:.1} yd³", placed.to_cubic_yards()), "31.5 yd³");
/// # Ok::<(), calc::placed::PlacedError>(())
/// ```
pub fn volume_placed(account: &Delivered) -> Result<Volume, PlacedError> {
    let Delivered { delivered, wasted, left_in_truck, in_lines } = *account;
    let parts = [delivered, wasted, left_in_truck, in_lines];
    if let Some(&given) = parts.iter().find(|part| part.to_cubic_meters() < 0.0) {
        return Err(PlacedError::Negative { given });
    }
    let elsewhere: f64 = parts[1..].iter().map(|part| part.to_cubic_meters()).sum();
    let placed = delivered.to_cubic_meters() - elsewhere;
    match placed < 0.0 {
        true => Err(PlacedError::MoreThanDelivered { over: Volume::cubic_meters(-placed) }),
        false => Ok(Volume::cubic_meters(placed)),
    }
}

/// Height of the concrete in the tremie above the concrete outside, when nothing flows.
///
/// `h = ρs Hs / ρc`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `ρs` | `fluid` | density of the fluid in the hole |
/// | `ρc` | `concrete` | density of the concrete |
/// | `Hs` | `fluid_over_concrete` | height of the fluid above the concrete outside the pipe |
///
/// **Valid for** an open pipe, no friction: real concrete needs some more to flow. Zero in a dry hole.
///
/// **Errors** when the fluid is not lighter than the concrete or the height is negative.
///
/// **Source**: hydrostatics [HYDROSTATICS]; the check values of `cases/tremie-hydrostatics.toml`.
///
/// ```
/// # use calc::placed::balance_column;
/// # use quantity::{Density, Length};
/// let [fluid, concrete] = [10.8, 23.5].map(Density::kilonewtons_per_cubic_meter);
/// let column = balance_column(fluid, concrete, Length::meters(30.0))?;
/// assert_eq!(format!("{:.3} m", column.to_meters()), "13.787 m");
/// # Ok::<(), calc::placed::PlacedError>(())
/// ```
pub fn balance_column(
    fluid: Density,
    concrete: Density,
    fluid_over_concrete: Length,
) -> Result<Length, PlacedError> {
    let (fluid_kg, concrete_kg) =
        (fluid.to_kilograms_per_cubic_meter(), concrete.to_kilograms_per_cubic_meter());
    if fluid_kg < 0.0 || concrete_kg <= fluid_kg {
        return Err(PlacedError::Densities { fluid, concrete });
    }
    if fluid_over_concrete < Length::ZERO {
        return Err(PlacedError::Length { given: fluid_over_concrete });
    }
    Ok(Length::meters(fluid_kg * fluid_over_concrete.to_meters() / concrete_kg))
}

/// Area inside a pipe, which is also its content per length.
///
/// `A = π d² / 4`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `d` | `inside_diameter` | inside diameter of the pipe |
///
/// **Valid for** a round pipe without build-up.
///
/// **Errors** when the diameter is not greater than zero.
///
/// **Source**: plane geometry [GEOMETRY]; 8, 10 and 12 in pipes in `cases/pipe-content.toml`.
///
/// ```
/// # use calc::placed::pipe_content;
/// # use quantity::Length;
/// let content = pipe_content(Length::inches(10.0))?;
/// assert_eq!(format!("{:.4} ft³ per ft", content.to_square_feet()), "0.5454 ft³ per ft");
/// # Ok::<(), calc::placed::PlacedError>(())
/// ```
pub fn pipe_content(inside_diameter: Length) -> Result<Area, PlacedError> {
    match inside_diameter > Length::ZERO {
        true => Ok(crate::geometry::circle_area(inside_diameter)),
        false => Err(PlacedError::Length { given: inside_diameter }),
    }
}

/// Concrete in a pipe over a length: a full pump line, or the column in a tremie.
///
/// `V = π d² / 4 · l`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `d` | `inside_diameter` | inside diameter of the pipe |
/// | `l` | `filled` | length that is full of concrete |
///
/// **Valid for** a pipe full over that length. What stands in a tremie below the outside level counts
/// as shaft, so `filled` begins at the concrete outside.
///
/// **Errors** when the diameter is not greater than zero or the length is negative.
///
/// **Source**: solid geometry [GEOMETRY].
///
/// ```
/// # use calc::placed::standing_in_pipe;
/// # use quantity::Length;
/// let line = standing_in_pipe(Length::inches(5.0), Length::feet(100.0))?;
/// assert_eq!(format!("{:.3} yd³", line.to_cubic_yards()), "0.505 yd³");
/// # Ok::<(), calc::placed::PlacedError>(())
/// ```
pub fn standing_in_pipe(inside_diameter: Length, filled: Length) -> Result<Volume, PlacedError> {
    if filled < Length::ZERO {
        return Err(PlacedError::Length { given: filled });
    }
    let area = pipe_content(inside_diameter)?.to_square_meters();
    Ok(Volume::cubic_meters(area * filled.to_meters()))
}
