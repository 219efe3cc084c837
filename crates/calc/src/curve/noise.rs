//! How much of a wiggle of the curve is only tape and ticket.
//!
//! In an eight-foot shaft a truck lifts the concrete five feet, and two soundings that are half a foot
//! wrong make a perfect cylinder look thirteen per cent out. Who knows that before the pour sounds
//! better, or does not chase a ghost.
//!
//! Words: *noise* = one standard error of what a perfect cylinder would show.
//! Never: say how many standard errors are an alarm.

use quantity::{Length, Volume};

use crate::estimate::in_quadrature;
use crate::geometry::{GeometryError, circle_area};

/// One load into a perfect cylinder, sounded before and after.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlannedInterval {
    /// Diameter of the cylinder.
    pub diameter: Length,
    /// The load.
    pub load: Volume,
    /// Standard error of each of the two soundings.
    pub tape_error: Length,
    /// Standard error of the load, as a part of it.
    pub load_error: f64,
}

/// What such an interval shows by chance, one standard error each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Noise {
    /// How far the load lifts the surface.
    pub rise: Length,
    /// Of the ratio, a plain number.
    pub ratio: f64,
    /// Of the equivalent diameter.
    pub diameter: Length,
}

/// What two soundings and a ticket would make of a perfect cylinder.
///
/// `rise = V / A`, `sr = √((√2 s / rise)² + e²)`, `sD = D sr / 2`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `V`, `A`, `D` | `planned` | load, area and diameter of the cylinder |
/// | `s` | `planned.tape_error` | standard error of each sounding |
/// | `e` | `planned.load_error` | standard error of the load as a part of it |
///
/// **Valid for** errors that are small beside the rise; to first order.
///
/// **Errors** when diameter or load is not greater than zero.
///
/// **Source**: error propagation [GUM]; the table in `cases/curve-noise.toml`.
///
/// ```
/// # use calc::curve::{PlannedInterval, noise};
/// # use quantity::{Length, Volume};
/// let noise = noise(&PlannedInterval {
///     diameter: Length::inches(96.0),
///     load: Volume::cubic_yards(10.0),
///     tape_error: Length::feet(0.5),
///     load_error: 0.02,
/// })?;
/// assert_eq!(format!("{:.1} %", noise.ratio * 100.0), "13.3 %");
/// # Ok::<(), calc::geometry::GeometryError>(())
/// ```
pub fn noise(planned: &PlannedInterval) -> Result<Noise, GeometryError> {
    if planned.diameter <= Length::ZERO {
        return Err(GeometryError::Diameter { given: planned.diameter });
    }
    if planned.load.to_cubic_meters() <= 0.0 {
        return Err(GeometryError::Volume { given: planned.load });
    }
    let rise_m = planned.load.to_cubic_meters() / circle_area(planned.diameter).to_square_meters();
    let tape = std::f64::consts::SQRT_2 * planned.tape_error.to_meters() / rise_m;
    let ratio = in_quadrature(&[tape, planned.load_error]);
    let diameter = Length::meters(planned.diameter.to_meters() * ratio / 2.0);
    Ok(Noise { rise: Length::meters(rise_m), ratio, diameter })
}
