//! How much concrete is still to be ordered.
//!
//! The last truck is ordered before the hole is full. What is left to fill is known from the drawing;
//! how much of it the ground takes is known from the same hole a few yards further down.
//!
//! Words: *to order* = what still has to leave trucks until the final level is reached; *service level* = the
//! probability that an order is enough.
//! Units: SI inside.
//! Never: promise more than this shaft's own curve has shown.

mod earlier;
mod service;
mod stratum;
mod trucks;

pub use earlier::{Ahead, Beliefs, EarlierRatio, USUAL_BELIEFS, from_earlier};
pub use service::{Need, Order, Outcome};
pub use stratum::{StratumRatio, ratio_within};
pub use trucks::Trucks;

use quantity::{Elevation, Fraction, Volume};

use crate::curve::VolumeCurve;
use crate::estimate::{Estimate, Level, in_quadrature};
use crate::geometry::{Bore, GeometryError};
use crate::mixture::MixtureError;

/// What is still needed, and what it rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToOrder {
    /// Volume still to be discharged into the hole.
    pub volume: Estimate<Volume>,
    /// The ratio it was reckoned with, from the whole curve so far.
    pub ratio: Estimate<f64>,
    /// How many intervals of the curve told how much the ratio wanders.
    pub intervals: usize,
}

/// Why there is no order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OrderError {
    /// A service level outside of 0 to 1, ends excluded.
    Level,
    /// A truck or a step of nothing.
    Truck,
    /// A volume or an error below zero, or a belief out of its range.
    Negative,
    /// Nothing of the new shaft was named.
    NothingAhead,
    /// What comes is too uncertain.
    NeverEnough,
    /// A figure is not finite.
    Mixture(MixtureError),
}

impl std::fmt::Display for OrderError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            OrderError::Level => write!(f, "a service level lies between 0 and 1"),
            OrderError::Truck => write!(f, "a truck and the step of a part load are greater than zero"),
            OrderError::Negative => write!(f, "an ordered volume or an error is below zero"),
            OrderError::NothingAhead => write!(f, "nothing of the shaft lies ahead"),
            OrderError::NeverEnough => write!(f, "what comes is too uncertain for any order to be enough"),
            OrderError::Mixture(error) => write!(f, "{error}"),
        }
    }
}

impl std::error::Error for OrderError {}

/// Theoretical volume from the surface to the final level.
///
/// `T = V(surface … final)`, `sT = A s`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `V`, `A` | `bore` | volume between the levels, area at the surface |
/// | `s` | `surface` | mean level of the surface with its standard error |
/// | – | `target` | the final level, over-pour included |
///
/// **Valid for** a surface below the final level.
///
/// **Errors** when a level lies outside the hole or the surface is above the final level.
///
/// **Source**: solid geometry [GEOMETRY], error propagation [GUM].
///
/// ```
/// # use calc::estimate::Estimate;
/// # use calc::geometry::Bore;
/// # use calc::order::theoretical_remaining;
/// # use quantity::{Elevation, Length};
/// let at = |feet| Elevation(Length::feet(feet));
/// let shaft = Bore::cylinder(Length::feet(4.0), at(0.0), at(-60.0))?;
/// let surface = Estimate::new(at(-7.9), Length::feet(0.1));
/// let left = theoretical_remaining(&shaft, surface, at(0.0))?;
/// assert_eq!(format!("{:.3} yd³", left.value.to_cubic_yards()), "3.677 yd³");
/// # Ok::<(), calc::geometry::GeometryError>(())
/// ```
pub fn theoretical_remaining(
    bore: &Bore,
    surface: Level,
    target: Elevation,
) -> Result<Estimate<Volume>, GeometryError> {
    let left = bore.volume_between(surface.value, target)?;
    let error = bore.area_at(surface.value)?.to_square_meters() * surface.standard_error.to_meters();
    Ok(Estimate::new(left, Volume::cubic_meters(error)))
}

/// Concrete still to be placed above the last sounding.
///
/// `V = T R`, `s² = (R sT)² + (T sR)² + T v`, `v = Σ t (r − R)² / (n − 1)`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `T` | `remaining` | theoretical volume from the surface to the final level, with its error |
/// | `R`, `sR` | `curve` | cumulative ratio so far and its standard error |
/// | `r`, `t`, `n` | `curve` | ratio and theoretical volume of each interval, and their number |
/// | – | `waste` | part of the placed volume to add for waste and the last line content |
///
/// **Valid for** ground above like the ground below; with fewer than two intervals the wander is not
/// known and left out, which `intervals` tells. The errors of the last sounding and of the ratio are taken
/// as independent.
///
/// **Errors**: `None` when the curve has no cumulative ratio yet.
///
/// **Source**: error propagation [GUM]; the wander of the ratio as white along the shaft is ours, computed.
pub fn still_to_order(curve: &VolumeCurve, remaining: Estimate<Volume>, waste: Fraction) -> Option<ToOrder> {
    let ratio = curve.intervals.last()?.cumulative.ratio?;
    let (theory, theory_error) =
        (remaining.value.to_cubic_meters(), remaining.standard_error.to_cubic_meters());
    let judged: Vec<(f64, f64)> = curve
        .intervals
        .iter()
        .filter_map(|interval| Some((interval.theoretical?.value.to_cubic_meters(), interval.ratio?.value)))
        .collect();
    let wander = match judged.len() > 1 {
        true => {
            judged.iter().map(|(t, r)| t * (r - ratio.value) * (r - ratio.value)).sum::<f64>()
                / (judged.len() - 1) as f64
        }
        false => 0.0,
    };
    let parts =
        [ratio.value * theory_error, theory * ratio.standard_error, (theory.max(0.0) * wander).sqrt()];
    let with_waste = 1.0 + waste.to_part();
    let volume = Estimate::new(
        Volume::cubic_meters(theory * ratio.value * with_waste),
        Volume::cubic_meters(in_quadrature(&parts) * with_waste),
    );
    Some(ToOrder { volume, ratio, intervals: judged.len() })
}
