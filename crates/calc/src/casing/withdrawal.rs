//! Levels and volumes while a casing comes out.
//!
//! One balance stands behind all of it: what is below the surface before a lift, and what is added, is
//! below the surface after it, in a hole that has its casing somewhere else.
//!
//! Words: as in `casing`.
//! Never: assume that the annulus was already filled; a caller who knows so gives a hole as wide as
//! the casing.

use std::fmt;

use quantity::{Elevation, Length, Volume};

use crate::estimate::{Estimate, Level};
use crate::geometry::{Bore, Casing, GeometryError, circle_area};

/// A casing standing in wet concrete.
#[derive(Debug, Clone, PartialEq)]
pub struct Withdrawal<'a> {
    /// The hole as drilled, and as left by casings that are out already.
    pub hole: &'a Bore,
    /// Other casings that stand in it and stay for this lift.
    pub others: &'a [Casing],
    /// The casing as it stands.
    pub casing: Casing,
    /// The concrete surface.
    pub concrete: Level,
}

/// How much concrete has to stay over the shoe, and how far it may be pulled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HeadRule {
    /// Concrete required over the shoe.
    pub required: Length,
}

/// After a lift.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lifted {
    /// Where the shoe is.
    pub shoe: Elevation,
    /// Where the surface is expected, with the error of the sounding before.
    pub level: Level,
    /// Concrete over the shoe; negative when the shoe is above it.
    pub head: Estimate<Length>,
}

/// Why no answer is possible.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CasingError {
    /// A level has no place in the hole, or the casing none.
    Geometry(GeometryError),
    /// The lift is negative.
    Lift {
        /// What was given.
        given: Length,
    },
    /// The head is too small before anything is lifted.
    AlreadyShort {
        /// The head as it is.
        head: Length,
    },
}

impl fmt::Display for CasingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            CasingError::Geometry(error) => error.fmt(f),
            CasingError::Lift { .. } => f.write_str("the lift is negative"),
            CasingError::AlreadyShort { .. } => f.write_str("the head is too small before any lift"),
        }
    }
}

impl std::error::Error for CasingError {}

impl From<GeometryError> for CasingError {
    fn from(error: GeometryError) -> Self {
        CasingError::Geometry(error)
    }
}

impl Withdrawal<'_> {
    /// The hole with the casing pulled by `lift`: the room it left is as wide as the hole, and at least
    /// as wide as the casing was outside.
    ///
    /// # Errors
    /// As [`Bore::with_standing`].
    pub fn bore_after(&self, lift: Length) -> Result<Bore, CasingError> {
        let pulled = self.casing.lifted(lift);
        let hole = self.hole.with_pulled(&[self.casing])?;
        let still_in = (pulled.shoe < hole.top()).then_some(pulled);
        let standing: Vec<Casing> = self.others.iter().copied().chain(still_in).collect();
        Ok(hole.with_standing(&standing)?)
    }
}

/// Drop of the surface inside the casing per length pulled.
///
/// `(A − a) / a`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `A` | `hole` | area of the hole behind the casing |
/// | `a` | `casing_inside` | area inside the casing |
///
/// **Valid for** a surface inside the casing, nothing added, an annulus without concrete.
///
/// **Errors** when a diameter is not greater than zero.
///
/// **Source**: solid geometry [GEOMETRY]; check values in `cases/casing-withdrawal.toml`.
///
/// ```
/// # use calc::casing::drop_per_length;
/// # use quantity::Length;
/// let drop = drop_per_length(Length::inches(50.0), Length::inches(47.0))?;
/// assert_eq!(format!("{drop:.4} ft per ft"), "0.1317 ft per ft");
/// # Ok::<(), calc::geometry::GeometryError>(())
/// ```
pub fn drop_per_length(hole: Length, casing_inside: Length) -> Result<f64, GeometryError> {
    if let Some(&given) = [hole, casing_inside].iter().find(|diameter| **diameter <= Length::ZERO) {
        return Err(GeometryError::Diameter { given });
    }
    let (area, inside) =
        (circle_area(hole).to_square_meters(), circle_area(casing_inside).to_square_meters());
    Ok((area - inside) / inside)
}

/// Where the surface will be after a lift.
///
/// `V after(level after) = V before(level) + added`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `V before`, `V after` | `standing` | volume below a level with the casing as it stands, and lifted |
/// | – | `lift` | how far the casing is pulled |
/// | – | `added` | concrete placed meanwhile |
///
/// **Valid for** concrete that flows and ground that stands as drawn.
///
/// **Errors** when the lift is negative, a level has no place in the hole, or the concrete overflows.
///
/// **Source**: conservation of volume; check values in `cases/casing-withdrawal.toml`.
///
/// ```
/// # use calc::casing::*;
/// # use calc::estimate::Level;
/// # use calc::geometry::{Bore, Casing};
/// # use quantity::{Elevation, Length, Volume};
/// # let at = |feet| Elevation(Length::feet(feet));
/// # let hole = Bore::cylinder(Length::inches(50.0), at(0.0), at(-25.0))?;
/// # let (inside_diameter, outside_diameter) = (Length::inches(47.0), Length::inches(48.0));
/// # let casing = Casing { inside_diameter, outside_diameter, top: at(0.0), shoe: at(-25.0) };
/// let standing = Withdrawal { hole: &hole, others: &[], casing, concrete: Level::known(at(-1.0)) };
/// let after = lift(&standing, Length::feet(5.0), Volume::cubic_yards(0.0))?;
/// assert_eq!(format!("{:.2} ft", after.level.value.0.to_feet()), "-1.66 ft");
/// # Ok::<(), CasingError>(())
/// ```
pub fn lift(standing: &Withdrawal, lift: Length, added: Volume) -> Result<Lifted, CasingError> {
    if lift < Length::ZERO {
        return Err(CasingError::Lift { given: lift });
    }
    let (before, after) = (standing.bore_after(Length::ZERO)?, standing.bore_after(lift)?);
    let volume = before.volume_below(standing.concrete.value)?.to_cubic_meters() + added.to_cubic_meters();
    let level = after.level_holding(Volume::cubic_meters(volume))?;
    let area = |bore: &Bore, level| bore.area_at(level).map(|area| area.to_square_meters());
    let spread = area(&before, standing.concrete.value)? / area(&after, level)?;
    let error = Length::meters(standing.concrete.standard_error.to_meters() * spread);
    let shoe = standing.casing.lifted(lift).shoe;
    Ok(Lifted { shoe, level: Estimate::new(level, error), head: Estimate::new(level.above(shoe), error) })
}

/// Where the surface will be as the shoe goes from place to place, nothing added.
///
/// **Errors** as [`lift`]; a shoe below the present one is a negative lift.
///
/// ```
/// # use calc::casing::*;
/// # use calc::estimate::Level;
/// # use calc::geometry::{Bore, Casing};
/// # use quantity::{Elevation, Length, Volume};
/// # let at = |feet| Elevation(Length::feet(feet));
/// # let hole = Bore::cylinder(Length::inches(50.0), at(0.0), at(-25.0))?;
/// # let (inside_diameter, outside_diameter) = (Length::inches(47.0), Length::inches(48.0));
/// # let casing = Casing { inside_diameter, outside_diameter, top: at(0.0), shoe: at(-25.0) };
/// let standing = Withdrawal { hole: &hole, others: &[], casing, concrete: Level::known(at(-1.0)) };
/// let heads: Vec<String> = lifts(&standing, &[at(-20.0), at(-15.0), at(-10.0), at(-5.0)])?
///     .iter()
///     .map(|after| format!("{:.1}", after.head.value.to_feet()))
///     .collect();
/// assert_eq!(heads, ["18.3", "12.7", "7.0", "1.4"]);
/// # Ok::<(), CasingError>(())
/// ```
pub fn lifts(standing: &Withdrawal, shoes: &[Elevation]) -> Result<Vec<Lifted>, CasingError> {
    let none = Volume::cubic_meters(0.0);
    shoes.iter().map(|shoe| lift(standing, shoe.above(standing.casing.shoe), none)).collect()
}

/// Concrete to add during a lift so that the surface stays at a level.
///
/// `V = V after(kept) − V before(level)`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | – | `lift` | how far the casing is pulled |
/// | – | `kept` | the level the surface has to have afterwards |
///
/// **Valid for** as [`lift`]. Negative when the surface stays above `kept` by itself.
///
/// **Errors** when a level has no place in the hole.
///
/// **Source**: conservation of volume.
///
/// ```
/// # use calc::casing::*;
/// # use calc::estimate::Level;
/// # use calc::geometry::{Bore, Casing};
/// # use quantity::{Elevation, Length, Volume};
/// # let at = |feet| Elevation(Length::feet(feet));
/// # let hole = Bore::cylinder(Length::inches(50.0), at(0.0), at(-25.0))?;
/// # let (inside_diameter, outside_diameter) = (Length::inches(47.0), Length::inches(48.0));
/// # let casing = Casing { inside_diameter, outside_diameter, top: at(0.0), shoe: at(-25.0) };
/// let standing = Withdrawal { hole: &hole, others: &[], casing, concrete: Level::known(at(-1.0)) };
/// let added = concrete_to_keep_level(&standing, Length::feet(25.0), at(-1.0))?;
/// assert_eq!(format!("{:.2} yd³", added.value.to_cubic_yards()), "1.41 yd³");
/// # Ok::<(), CasingError>(())
/// ```
pub fn concrete_to_keep_level(
    standing: &Withdrawal,
    lift: Length,
    kept: Elevation,
) -> Result<Estimate<Volume>, CasingError> {
    let (before, after) = (standing.bore_after(Length::ZERO)?, standing.bore_after(lift)?);
    let level = standing.concrete;
    let needed =
        after.volume_below(kept)?.to_cubic_meters() - before.volume_below(level.value)?.to_cubic_meters();
    let error = before.area_at(level.value)?.to_square_meters() * level.standard_error.to_meters();
    Ok(Estimate::new(Volume::cubic_meters(needed), Volume::cubic_meters(error)))
}

/// Concrete to add during a lift so that the head over the shoe stays what a rule requires.
///
/// As [`concrete_to_keep_level`], with `kept = shoe after + required`.
///
/// **Errors** as [`concrete_to_keep_level`].
///
/// ```
/// # use calc::casing::*;
/// # use calc::estimate::Level;
/// # use calc::geometry::{Bore, Casing};
/// # use quantity::{Elevation, Length, Volume};
/// # let at = |feet| Elevation(Length::feet(feet));
/// # let hole = Bore::cylinder(Length::inches(50.0), at(0.0), at(-25.0))?;
/// # let (inside_diameter, outside_diameter) = (Length::inches(47.0), Length::inches(48.0));
/// # let casing = Casing { inside_diameter, outside_diameter, top: at(0.0), shoe: at(-25.0) };
/// let standing = Withdrawal { hole: &hole, others: &[], casing, concrete: Level::known(at(-1.0)) };
/// let rule = HeadRule { required: Length::feet(5.0) };
/// let added = concrete_to_keep_head(&standing, Length::feet(20.0), rule)?;
/// assert_eq!(format!("{:.2} yd³", added.value.to_cubic_yards()), "1.62 yd³");
/// # Ok::<(), CasingError>(())
/// ```
pub fn concrete_to_keep_head(
    standing: &Withdrawal,
    lift: Length,
    rule: HeadRule,
) -> Result<Estimate<Volume>, CasingError> {
    let shoe = standing.casing.lifted(lift).shoe;
    concrete_to_keep_level(standing, lift, Elevation(shoe.0 + rule.required))
}

/// The farthest lift that keeps the head a rule requires, nothing added, to the nanometre.
///
/// Shoe and surface go towards each other all the way, so there is one lift at which the head just
/// suffices. A lift that takes the casing out of the hole altogether is not considered.
///
/// **Errors** when the head is too small already, or a level has no place in the hole.
///
/// **Source**: [`lift`], by bisection.
///
/// ```
/// # use calc::casing::*;
/// # use calc::estimate::Level;
/// # use calc::geometry::{Bore, Casing};
/// # use quantity::{Elevation, Length, Volume};
/// # let at = |feet| Elevation(Length::feet(feet));
/// # let hole = Bore::cylinder(Length::inches(50.0), at(0.0), at(-25.0))?;
/// # let (inside_diameter, outside_diameter) = (Length::inches(47.0), Length::inches(48.0));
/// # let casing = Casing { inside_diameter, outside_diameter, top: at(0.0), shoe: at(-25.0) };
/// let standing = Withdrawal { hole: &hole, others: &[], casing, concrete: Level::known(at(-1.0)) };
/// let lift = highest_lift(&standing, HeadRule { required: Length::feet(5.0) })?;
/// assert_eq!(format!("{:.2} ft", lift.to_feet()), "16.79 ft");
/// # Ok::<(), CasingError>(())
/// ```
pub fn highest_lift(standing: &Withdrawal, rule: HeadRule) -> Result<Length, CasingError> {
    let head = standing.concrete.value.above(standing.casing.shoe);
    if head < rule.required {
        return Err(CasingError::AlreadyShort { head });
    }
    let none = Volume::cubic_meters(0.0);
    let (mut low, mut high) = (0, standing.hole.top().above(standing.casing.shoe).to_nanometers());
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        let after = lift(standing, Length::nanometers(middle), none)?;
        if after.head.value >= rule.required { low = middle } else { high = middle }
    }
    Ok(Length::nanometers(low))
}

/// Room that the surface found beyond what the lift explains.
///
/// `V = V after(expected) − V after(measured)`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | – | `after` | the hole after the lift, [`Withdrawal::bore_after`] |
/// | – | `expected` | the level after the lift, from [`lift`] |
/// | – | `measured` | the level sounded afterwards |
///
/// **Valid for** any two levels in that hole. Positive: a void behind the casing was filled. Negative:
/// the surface stands too high, so that ground came in or casing and cage drag the concrete.
///
/// **Errors** when a level lies outside the hole.
///
/// **Source**: conservation of volume; error propagation [GUM].
///
/// ```
/// # use calc::casing::*;
/// # use calc::estimate::Level;
/// # use calc::geometry::{Bore, Casing};
/// # use quantity::{Elevation, Length, Volume};
/// # let at = |feet| Elevation(Length::feet(feet));
/// # let hole = Bore::cylinder(Length::inches(50.0), at(0.0), at(-25.0))?;
/// # let (inside_diameter, outside_diameter) = (Length::inches(47.0), Length::inches(48.0));
/// # let casing = Casing { inside_diameter, outside_diameter, top: at(0.0), shoe: at(-25.0) };
/// let standing = Withdrawal { hole: &hole, others: &[], casing, concrete: Level::known(at(-1.0)) };
/// let expected = lift(&standing, Length::feet(5.0), Volume::cubic_yards(0.0))?.level;
/// let after = standing.bore_after(Length::feet(5.0))?;
/// let found = unexplained_volume(&after, expected, Level::known(at(-3.90)))?;
/// assert_eq!(format!("{:.1} yd³", found.value.to_cubic_yards()), "1.0 yd³");
/// # Ok::<(), CasingError>(())
/// ```
pub fn unexplained_volume(
    after: &Bore,
    expected: Level,
    measured: Level,
) -> Result<Estimate<Volume>, CasingError> {
    let below = |level: Level| after.volume_below(level.value).map(Volume::to_cubic_meters);
    let error = |level: Level| -> Result<f64, GeometryError> {
        Ok(after.area_at(level.value)?.to_square_meters() * level.standard_error.to_meters())
    };
    let errors = crate::estimate::in_quadrature(&[error(expected)?, error(measured)?]);
    Ok(Estimate::new(Volume::cubic_meters(below(expected)? - below(measured)?), Volume::cubic_meters(errors)))
}
