//! From what the tape said to where the concrete, or the bottom, really is.
//!
//! A weighted tape is read at several points from one reference point. The weight hangs below the zero
//! of the tape, the reference point has an elevation, the surface is not flat: the lowest point says
//! how deep the tremie is buried, the mean says how much concrete is in.
//!
//! Words: *reading* = what the tape showed; *point* = where it was lowered; *sounding* = all points read
//! at one time from one reference; *surface* = the levels that follow from a sounding.
//! Units: depths below the reference point, elevations above the datum.
//! Never: drop a point; decide which limit applies.

mod choice;

pub use choice::{Choice, Purpose, Reason, Rule, USUAL_CHOICES, level_for};

use quantity::{Depth, Elevation, Length};

use crate::estimate::{Estimate, Level};

/// Where in the hole a point was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// On the axis of the shaft.
    Center,
    /// Between the axis and the cage.
    InsideCage,
    /// Between the cage and the wall: the later cover.
    OutsideCage,
    /// Nobody wrote it down.
    Unstated,
}

/// One reading of the tape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// How far out it was read.
    pub place: Place,
    /// Clockwise from north, or from the mark the job uses, in degrees; `None` on the axis or unstated.
    pub bearing_degrees: Option<f64>,
    /// What the tape showed at the reference point.
    pub reading: Depth,
}

/// What has to be added to a reading, and how far a reading can be trusted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tape {
    /// Added to each reading: the weight below the zero mark, less what was cut off the tape.
    pub zero_correction: Length,
    /// Added per length read; positive where the tape has stretched.
    pub stretch: f64,
    /// Standard error of one reading, not negative.
    pub standard_error: Length,
}

/// All points read at one time.
#[derive(Debug, Clone, PartialEq)]
pub struct Sounding {
    /// Elevation of the point the tape was read at.
    pub reference: Elevation,
    /// The tape it was read with.
    pub tape: Tape,
    /// The points, in the order read.
    pub points: Vec<Point>,
}

/// Why a sounding has no surface.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SoundingError {
    /// No point was read.
    NoPoint,
}

impl std::fmt::Display for SoundingError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("the sounding has no points")
    }
}

impl std::error::Error for SoundingError {}

/// One point with the level that follows from it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointLevel {
    /// How far out it was read.
    pub place: Place,
    /// In which direction, as in [`Point`].
    pub bearing_degrees: Option<f64>,
    /// The level.
    pub level: Elevation,
}

/// What a sounding says about the surface.
#[derive(Debug, Clone, PartialEq)]
pub struct Surface {
    /// Each point with its level, in the order read.
    pub levels: Vec<PointLevel>,
    /// The highest point.
    pub highest: Level,
    /// The lowest point.
    pub lowest: Level,
    /// The mean of all points.
    pub mean: Level,
    /// The mean of the points on the axis and inside the cage, if there are any.
    pub inside: Option<Level>,
    /// The mean of the points outside the cage, if there are any.
    pub outside: Option<Level>,
    /// How far the concrete inside stands above the concrete outside; negative when it lags.
    pub inside_above_outside: Option<Estimate<Length>>,
}

/// The depth that a reading stands for.
///
/// `z = r (1 + k) + c`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `r` | `reading` | what the tape showed |
/// | `k` | `tape.stretch` | stretch per length |
/// | `c` | `tape.zero_correction` | length of the weight below the zero mark |
///
/// **Valid for** a taut, vertical tape.
///
/// **Errors** none.
///
/// **Source**: common practice, no source [COMMON-PRACTICE].
///
/// ```
/// # use calc::sounding::{Tape, corrected_depth};
/// # use quantity::{Depth, Length};
/// let weight = Length::feet(0.25);
/// let tape = Tape { zero_correction: weight, stretch: 0.0, standard_error: Length::feet(0.1) };
/// assert_eq!(corrected_depth(Depth(Length::feet(40.0)), &tape), Depth(Length::feet(40.25)));
/// ```
pub fn corrected_depth(reading: Depth, tape: &Tape) -> Depth {
    let stretch = match tape.stretch == 0.0 {
        true => Length::ZERO,
        false => Length::meters(reading.to_meters() * tape.stretch),
    };
    Depth(reading.0 + stretch + tape.zero_correction)
}

/// The surface that a sounding found.
///
/// `mean = Σ z / n`, `s(mean) = max(t, s) / √n`, with `s` the scatter of three or more points
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `z` | `sounding` | level of each point |
/// | `t` | `sounding.tape` | standard error of one reading |
/// | `n` | `sounding` | number of points |
///
/// **Valid for** readings whose errors are independent. An error that all readings of a shaft share,
/// such as a zero mark off by an inch, moves all levels and no rise.
///
/// **Errors** when there is no point.
///
/// **Source**: standard error of a mean [GUM].
///
/// ```
/// # use calc::sounding::{Place, Point, Sounding, Tape, surface};
/// # use quantity::{Depth, Elevation, Length};
/// let tape = Tape { zero_correction: Length::ZERO, stretch: 0.0, standard_error: Length::feet(0.1) };
/// let point = |feet| Point {
///     place: Place::Unstated,
///     bearing_degrees: None,
///     reading: Depth(Length::feet(feet)),
/// };
/// let reference = Elevation(Length::feet(55.0));
/// let found = surface(&Sounding { reference, tape, points: vec![point(40.0), point(42.0)] })?;
/// assert_eq!(found.mean.value, Elevation(Length::feet(14.0)));
/// assert_eq!(found.lowest.value, Elevation(Length::feet(13.0)));
/// # Ok::<(), calc::sounding::SoundingError>(())
/// ```
pub fn surface(sounding: &Sounding) -> Result<Surface, SoundingError> {
    let error = sounding.tape.standard_error;
    let points: Vec<PointLevel> = sounding.points.iter().map(|point| level_of(point, sounding)).collect();
    let all = levels_where(&points, |_| true);
    let inside =
        mean(&levels_where(&points, |place| matches!(place, Place::Center | Place::InsideCage)), error);
    let outside = mean(&levels_where(&points, |place| place == Place::OutsideCage), error);
    let ends = all.iter().max().zip(all.iter().min());
    let Some(((&highest, &lowest), middle)) = ends.zip(mean(&all, error)) else {
        return Err(SoundingError::NoPoint);
    };
    Ok(Surface {
        highest: Estimate::new(highest, error),
        lowest: Estimate::new(lowest, error),
        mean: middle,
        inside_above_outside: inside.zip(outside).map(|(inside, outside)| difference(inside, outside)),
        inside,
        outside,
        levels: points,
    })
}

fn level_of(point: &Point, sounding: &Sounding) -> PointLevel {
    let depth = corrected_depth(point.reading, &sounding.tape);
    PointLevel {
        place: point.place,
        bearing_degrees: point.bearing_degrees,
        level: Elevation::of_depth(sounding.reference, depth),
    }
}

fn levels_where(points: &[PointLevel], wanted: fn(Place) -> bool) -> Vec<Elevation> {
    points.iter().filter(|point| wanted(point.place)).map(|point| point.level).collect()
}

/// The mean of some levels with its standard error; `None` of none.
fn mean(levels: &[Elevation], tape_error: Length) -> Option<Level> {
    let count = levels.len() as i64;
    let total: Length = levels.iter().map(|level| level.0).sum();
    let mean = Length::nanometers(total.to_nanometers().checked_div(count)?);
    let spread: f64 = levels.iter().map(|level| (level.0 - mean).to_meters()).map(|gap| gap * gap).sum();
    let scatter = if count > 2 { (spread / (count - 1) as f64).sqrt() } else { 0.0 };
    let error = tape_error.to_meters().max(scatter) / (count as f64).sqrt();
    Some(Estimate::new(Elevation(mean), Length::meters(error)))
}

fn difference(upper: Level, lower: Level) -> Estimate<Length> {
    let errors = [upper.standard_error.to_meters(), lower.standard_error.to_meters()];
    let error = crate::estimate::in_quadrature(&errors);
    Estimate::new(upper.value.above(lower.value), Length::meters(error))
}

/// An elevation as somebody wrote it, beside the one that follows from the depth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ElevationCheck {
    /// What was written.
    pub written: Elevation,
    /// What follows from the reference and the depth.
    pub follows: Elevation,
    /// How far the written one lies above the one that follows.
    pub difference: Length,
    /// Whether they agree within the allowance.
    pub agrees: bool,
}

/// Holds an elevation as written against the depth beside it.
///
/// `e = e₀ − z`, agrees when `|written − e| ≤ a`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `e₀` | `reference` | elevation of the reference point |
/// | `z` | `depth` | depth below it |
/// | `a` | `allowance` | what rounding may explain; half of the last written digit, or zero |
///
/// **Valid for** a depth and an elevation read at the same point.
///
/// **Errors** none.
///
/// **Source**: definition; two printed elevations of [FHWA-INSPECTOR] do not follow from their depths.
///
/// ```
/// # use calc::sounding::check_elevation;
/// # use quantity::{Depth, Elevation, Length};
/// let at = |feet| Elevation(Length::feet(feet));
/// let printed = check_elevation(at(55.0), Depth(Length::feet(48.7)), at(5.8), Length::ZERO);
/// assert_eq!((printed.follows, printed.agrees), (at(6.3), false));
/// ```
pub fn check_elevation(
    reference: Elevation,
    depth: Depth,
    written: Elevation,
    allowance: Length,
) -> ElevationCheck {
    let follows = Elevation::of_depth(reference, depth);
    let difference = written.above(follows);
    ElevationCheck { written, follows, difference, agrees: difference.abs() <= allowance }
}
