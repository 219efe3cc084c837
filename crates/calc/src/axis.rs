//! The axis of a hole or a cage: where it is at a depth, and how far it leans.
//!
//! Plumbness is read as offsets of a line at several depths. A straight axis through them gives the lean with
//! its error, and carries a position from the level it was measured at to the level a tolerance is meant for.
//!
//! Words: *offset* = sideways from the design axis; *lean* = change of offset per depth; *bearing* = degrees
//! clockwise from north.
//! Units: SI inside. Never: know how far an axis may lean.

use quantity::{Depth, Length, Slope};

/// Sideways from the design axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Offset {
    /// Toward east, or the first direction of the job.
    pub east: Length,
    /// Toward north, or the second direction of the job.
    pub north: Length,
}

/// An offset read at a depth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AxisReading {
    /// Where.
    pub depth: Depth,
    /// How far off.
    pub offset: Offset,
}

/// A straight axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axis {
    /// A depth of the axis.
    pub depth: Depth,
    /// Its offset there.
    pub offset: Offset,
    /// Change of the east offset per depth.
    pub lean_east: Slope,
    /// Change of the north offset per depth.
    pub lean_north: Slope,
}

/// Standard errors of a straight axis, the same in each direction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxisErrors {
    /// The depth at which offset and lean are independent.
    pub depth: Depth,
    /// Of the offset there.
    pub offset: Length,
    /// Of the lean.
    pub lean: Slope,
}

/// The straight axis through a set of readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FittedAxis {
    /// The axis, given at the mean depth of the readings.
    pub axis: Axis,
    /// Its standard errors from the error of one reading.
    pub errors: AxisErrors,
    /// The greatest distance of a reading from the axis: a hole that bends shows here.
    pub greatest_bend: Length,
}

/// Why there is no axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AxisError {
    /// An axis needs readings at two depths.
    OneDepth,
}

impl std::fmt::Display for AxisError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            AxisError::OneDepth => write!(f, "an axis needs readings at two depths"),
        }
    }
}

impl std::error::Error for AxisError {}

impl Offset {
    /// How far off, in whatever direction.
    ///
    /// `√(e² + n²)`
    ///
    /// **Source**: [GEOMETRY].
    pub fn distance(self) -> Length {
        Length::meters(libm::hypot(self.east.to_meters(), self.north.to_meters()))
    }

    /// In which direction, degrees clockwise from north, 0 to below 360; `None` when it is not off at all.
    ///
    /// **Source**: [GEOMETRY].
    pub fn bearing_degrees(self) -> Option<f64> {
        if self.east == Length::ZERO && self.north == Length::ZERO {
            return None;
        }
        let angle = libm::atan2(self.east.to_meters(), self.north.to_meters()).to_degrees();
        Some(if angle < 0.0 { angle + 360.0 } else { angle })
    }

    /// From another offset to this one.
    ///
    /// **Source**: difference of two places.
    pub fn from(self, other: Offset) -> Offset {
        Offset { east: self.east - other.east, north: self.north - other.north }
    }
}

impl Axis {
    /// The offset at a depth.
    ///
    /// `e(z) = e0 + m (z − z0)`, the same for north
    ///
    /// **Valid for** a straight axis.
    ///
    /// **Source**: a straight line.
    ///
    /// ```
    /// # use calc::axis::{Axis, Offset};
    /// # use quantity::{Depth, Length, Slope};
    /// # let axis = Axis {
    /// #     depth: Depth(Length::feet(10.0)),
    /// #     offset: Offset { east: Length::inches(2.0), north: Length::ZERO },
    /// #     lean_east: Slope::inches_per_foot(0.125),
    /// #     lean_north: Slope::part(0.0),
    /// # };
    /// // 2 in east at 10 ft, leaning 1/8 in per foot.
    /// let offset = axis.offset_at(Depth(Length::feet(40.0)));
    /// assert_eq!(format!("{:.2} in", offset.distance().to_inches()), "5.75 in");
    /// ```
    pub fn offset_at(&self, depth: Depth) -> Offset {
        let below = depth.below(self.depth).to_meters();
        let carried =
            |offset: Length, lean: Slope| Length::meters(offset.to_meters() + lean.to_part() * below);
        Offset {
            east: carried(self.offset.east, self.lean_east),
            north: carried(self.offset.north, self.lean_north),
        }
    }

    /// How far the axis leans, in whatever direction.
    ///
    /// `√(me² + mn²)`
    ///
    /// **Source**: [GEOMETRY].
    pub fn lean(&self) -> Slope {
        Slope::part(libm::hypot(self.lean_east.to_part(), self.lean_north.to_part()))
    }
}

impl AxisErrors {
    /// Standard error of the offset at a depth, in any one direction.
    ///
    /// `σ² = σe² + σm² (z − z0)²`
    ///
    /// **Source**: [GUM], 5.1.2.
    ///
    /// ```
    /// # use calc::axis::AxisErrors;
    /// # use quantity::{Depth, Length, Slope};
    /// let errors = AxisErrors {
    ///     depth: Depth(Length::feet(10.0)),
    ///     offset: Length::inches(0.5),
    ///     lean: Slope::percent(0.1),
    /// };
    /// let at = Depth(Length::feet(40.0));
    /// assert_eq!(format!("{:.2} in", errors.offset_error_at(at).to_inches()), "0.62 in");
    /// ```
    pub fn offset_error_at(&self, depth: Depth) -> Length {
        let from_lean = self.lean.to_part() * depth.below(self.depth).to_meters();
        Length::meters(libm::hypot(self.offset.to_meters(), from_lean))
    }
}

/// Fits a straight axis to offsets over depth by least squares, each direction by itself.
///
/// `m = Σ (z − z̄)(e − ē) / Σ (z − z̄)²`; `σm = σ / √Σ (z − z̄)²`, `σe = σ / √n` at `z̄`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `σ` | `reading_error` | standard error of one offset in one direction |
///
/// **Valid for** readings with equal, independent errors. The lean in the direction of leaning has the error
/// of one direction.
///
/// **Errors** when all readings lie at one depth.
///
/// **Source**: least squares; checked against `numpy.linalg.lstsq`.
///
/// ```
/// use calc::axis::{AxisReading, Offset, fit_axis};
/// use quantity::{Depth, Length};
/// let reading = |feet, inches| AxisReading {
///     depth: Depth(Length::feet(feet)),
///     offset: Offset { east: Length::inches(inches), north: Length::ZERO },
/// };
/// let fitted = fit_axis(&[reading(0.0, 1.0), reading(40.0, 7.0)], Length::inches(0.5)).unwrap();
/// assert_eq!(format!("{:.2} %", fitted.axis.lean().to_percent()), "1.25 %");
/// ```
pub fn fit_axis(readings: &[AxisReading], reading_error: Length) -> Result<FittedAxis, AxisError> {
    let count = readings.len() as f64;
    let mean = |read: fn(&AxisReading) -> f64| readings.iter().map(read).sum::<f64>() / count;
    let depth = mean(|reading| reading.depth.to_meters());
    let spread: f64 = readings.iter().map(|reading| square(reading.depth.to_meters() - depth)).sum();
    if readings.windows(2).all(|pair| pair[0].depth == pair[1].depth) {
        return Err(AxisError::OneDepth);
    }
    let lean = |read: fn(&AxisReading) -> f64| {
        let products = readings.iter().map(|reading| (reading.depth.to_meters() - depth) * read(reading));
        Slope::part(products.sum::<f64>() / spread)
    };
    let axis = Axis {
        depth: Depth(Length::meters(depth)),
        offset: Offset { east: Length::meters(mean(east)), north: Length::meters(mean(north)) },
        lean_east: lean(east),
        lean_north: lean(north),
    };
    let error = reading_error.to_meters();
    let errors = AxisErrors {
        depth: axis.depth,
        offset: Length::meters(error / count.sqrt()),
        lean: Slope::part(error / spread.sqrt()),
    };
    let bends = readings.iter().map(|reading| reading.offset.from(axis.offset_at(reading.depth)).distance());
    Ok(FittedAxis { axis, errors, greatest_bend: bends.max().unwrap_or(Length::ZERO) })
}

fn east(reading: &AxisReading) -> f64 {
    reading.offset.east.to_meters()
}

fn north(reading: &AxisReading) -> f64 {
    reading.offset.north.to_meters()
}

fn square(value: f64) -> f64 {
    value * value
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reading(depth_ft: f64, east_in: f64, north_in: f64) -> AxisReading {
        let offset = Offset { east: Length::inches(east_in), north: Length::inches(north_in) };
        AxisReading { depth: Depth(Length::feet(depth_ft)), offset }
    }

    #[track_caller]
    fn check(readings: &[AxisReading], expected: &str) {
        let got = match fit_axis(readings, Length::inches(0.5)) {
            Ok(fitted) => format!(
                "lean {:.3} ± {:.3} %, bend {:.2} in",
                fitted.axis.lean().to_percent(),
                fitted.errors.lean.to_percent(),
                fitted.greatest_bend.to_inches()
            ),
            Err(error) => error.to_string(),
        };
        assert_eq!(got, expected);
    }

    /// 3 in east and 4 in north over 40 ft: 5 in over 480 in = 1.042 %. Σ(z − z̄)² = 2 · 20² ft², so
    /// σ = 0.5 / 12 / √800 = 0.147 %.
    #[test]
    fn two_readings_make_a_lean_with_a_wide_error() {
        check(&[reading(0.0, 0.0, 0.0), reading(40.0, 3.0, 4.0)], "lean 1.042 ± 0.147 %, bend 0.00 in");
    }

    /// 0, 0, 6 in at 0, 20, 40 ft: slope 6/480 = 1.25 %; the mean line runs −1, 2, 5, off by 1, −2, 1.
    #[test]
    fn a_hole_that_bends_shows_what_the_line_leaves() {
        let readings = [reading(0.0, 0.0, 0.0), reading(20.0, 0.0, 0.0), reading(40.0, 6.0, 0.0)];
        check(&readings, "lean 1.250 ± 0.147 %, bend 2.00 in");
    }

    #[test]
    fn one_depth_makes_no_axis() {
        check(&[reading(5.0, 0.0, 0.0), reading(5.0, 1.0, 0.0)], "an axis needs readings at two depths");
        check(&[reading(5.0, 0.0, 0.0)], "an axis needs readings at two depths");
        check(&[], "an axis needs readings at two depths");
    }

    /// From 2 in at 10 ft, leaning 1 in in 8 ft: 5.75 in at 40 ft. Errors 0.5 in and 0.1 % of 360 in: 0.616 in.
    #[test]
    fn an_offset_is_carried_to_another_level() {
        let axis = Axis {
            depth: Depth(Length::feet(10.0)),
            offset: Offset { east: Length::inches(2.0), north: Length::ZERO },
            lean_east: Slope::inches_per_foot(0.125),
            lean_north: Slope::part(0.0),
        };
        let at = Depth(Length::feet(40.0));
        assert_eq!(format!("{:.3}", axis.offset_at(at).distance().to_inches()), "5.750");
        let errors = AxisErrors { depth: axis.depth, offset: Length::inches(0.5), lean: Slope::percent(0.1) };
        assert_eq!(format!("{:.3}", errors.offset_error_at(at).to_inches()), "0.616");
    }

    #[test]
    fn bearings_go_clockwise_from_north() {
        let bearing = |east, north| {
            let offset = Offset { east: Length::inches(east), north: Length::inches(north) };
            offset.bearing_degrees().map(|degrees| format!("{degrees:.0}"))
        };
        assert_eq!(bearing(0.0, 1.0).as_deref(), Some("0"));
        assert_eq!(bearing(1.0, 0.0).as_deref(), Some("90"));
        assert_eq!(bearing(-1.0, -1.0).as_deref(), Some("225"));
        assert_eq!(bearing(0.0, 0.0), None);
    }
}
