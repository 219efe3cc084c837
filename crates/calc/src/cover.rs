//! Concrete cover of a cage, anywhere along it, from hole, lean and cage together.
//!
//! A cage that is centred at the top of a leaning hole touches the wall at the bottom. The gap is least at an
//! end of a stretch of one diameter, on the side toward which the cage lies off the hole: both are told.
//!
//! Words: *cover* = from the outside of the cage, over its ties, to the wall; negative when it would cut in.
//! Units: SI inside. Never: know the cover a plan asks for.

use crate::axis::{Axis, AxisErrors, Offset};
use quantity::{Depth, InOrder, Length};

/// A stretch of hole of one diameter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HoleStretch {
    /// Its upper end.
    pub top: Depth,
    /// Its lower end.
    pub bottom: Depth,
    /// Diameter of the wall, or the inside of a casing that stays.
    pub diameter: Length,
}

/// A cage in a hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlacedCage {
    /// Its axis.
    pub axis: Axis,
    /// Top of the steel that needs cover.
    pub top: Depth,
    /// Bottom of it.
    pub bottom: Depth,
    /// Outside diameter, over the ties.
    pub outside: Length,
}

/// The thinnest cover.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeastCover {
    /// How thick; negative when the cage would cut into the wall.
    pub cover: Length,
    /// Where.
    pub depth: Depth,
    /// Cage seen from the hole there; its bearing points to the thin side.
    pub cage_off_hole: Offset,
}

/// Standard errors behind a cover.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoverErrors {
    /// Of the axis of the hole.
    pub hole: AxisErrors,
    /// Of the axis of the cage.
    pub cage: AxisErrors,
    /// Of the diameter of the hole.
    pub diameter: Length,
}

/// Why there is no cover.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CoverError {
    /// A diameter that is not greater than zero.
    Diameter {
        /// As given.
        given: Length,
    },
    /// A lower end above its upper end.
    Inverted {
        /// Upper end.
        top: Depth,
        /// Lower end.
        bottom: Depth,
    },
    /// A part of the cage stands in no stretch of the hole.
    NoHole {
        /// The highest such depth.
        at: Depth,
    },
}

impl std::fmt::Display for CoverError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            CoverError::Diameter { .. } => write!(f, "a diameter is not greater than zero"),
            CoverError::Inverted { .. } => write!(f, "a lower end lies above its upper end"),
            CoverError::NoHole { .. } => write!(f, "a part of the cage stands in no stretch of the hole"),
        }
    }
}

impl std::error::Error for CoverError {}

/// Cover of a cage that hangs in the middle.
///
/// `c = (D − d) / 2`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `D` | `bore` | diameter of the wall, or the inside of a casing that stays |
/// | `d` | `cage` | outside diameter of the cage |
///
/// **Errors** when a diameter is not greater than zero.
///
/// **Source**: [GEOMETRY]; 48 in around 40 in leave 4 in.
///
/// ```
/// # use calc::cover::centred_cover;
/// # use quantity::Length;
/// assert_eq!(centred_cover(Length::inches(48.0), Length::inches(40.0)), Ok(Length::inches(4.0)));
/// ```
pub fn centred_cover(bore: Length, cage: Length) -> Result<Length, CoverError> {
    Ok(Length::nanometers((checked(bore)? - checked(cage)?).to_nanometers() / 2))
}

/// The thinnest cover anywhere along a cage; the highest such place if several are as thin.
///
/// `c(z) = (D(z) − d) / 2 − |cage(z) − hole(z)|`
///
/// The distance of two straight axes is convex in depth, so it is greatest, and the cover least, at an end of
/// a stretch of one diameter or of the cage.
///
/// | argument | meaning |
/// |---|---|
/// | `hole` | axis of the hole |
/// | `stretches` | diameters down the hole, in any order; where two overlap both count |
/// | `cage` | the cage in it |
///
/// **Valid for** straight axes; a hole that bends is given as its readings, one fit each.
///
/// **Errors** when a part of the cage stands in no stretch, or a size is out of order.
///
/// **Source**: [GEOMETRY]; worked by hand.
///
/// ```
/// use calc::axis::{Axis, Offset};
/// use calc::cover::{HoleStretch, PlacedCage, least_cover};
/// use quantity::{Depth, Length, Slope};
/// let feet = |value| Depth(Length::feet(value));
/// let straight = |lean| Axis {
///     depth: feet(0.0),
///     offset: Offset { east: Length::ZERO, north: Length::ZERO },
///     lean_east: Slope::percent(lean),
///     lean_north: Slope::part(0.0),
/// };
/// let hole = [HoleStretch { top: feet(0.0), bottom: feet(50.0), diameter: Length::inches(48.0) }];
/// let cage = PlacedCage {
///     axis: straight(0.0),
///     top: feet(0.0),
///     bottom: feet(50.0),
///     outside: Length::inches(40.0),
/// };
/// let least = least_cover(straight(0.5), &hole, cage).unwrap();
/// assert_eq!(format!("{:.1} in", least.cover.to_inches()), "1.0 in");
/// ```
pub fn least_cover(
    hole: Axis,
    stretches: &[HoleStretch],
    cage: PlacedCage,
) -> Result<LeastCover, CoverError> {
    let mut least: Option<LeastCover> = None;
    for (depth, diameter) in ends(stretches, cage)? {
        let cage_off_hole = cage.axis.offset_at(depth).from(hole.offset_at(depth));
        let cover = centred_cover(diameter, cage.outside)? - cage_off_hole.distance();
        if least.is_none_or(|best| cover < best.cover) {
            least = Some(LeastCover { cover, depth, cage_off_hole });
        }
    }
    least.ok_or(CoverError::NoHole { at: cage.top })
}

/// Standard error of a cover at a depth.
///
/// `σ² = σhole² + σcage² + (σD / 2)²`
///
/// **Valid for** independent errors and a cage clearly off the middle; for a centred one it is the error in
/// any one direction.
///
/// **Source**: [GUM], 5.1.2.
///
/// ```
/// # use calc::{axis::AxisErrors, cover::{CoverErrors, cover_error}};
/// # use quantity::{Depth, Length, Slope};
/// # let top = Depth(Length::ZERO);
/// # let axis = |inches| AxisErrors { depth: top, offset: Length::inches(inches), lean: Slope::part(0.0) };
/// let errors = CoverErrors { hole: axis(0.5), cage: axis(0.3), diameter: Length::inches(1.0) };
/// assert_eq!(format!("{:.2} in", cover_error(errors, top).to_inches()), "0.77 in");
/// ```
pub fn cover_error(errors: CoverErrors, depth: Depth) -> Length {
    let axes = libm::hypot(
        errors.hole.offset_error_at(depth).to_meters(),
        errors.cage.offset_error_at(depth).to_meters(),
    );
    Length::meters(libm::hypot(axes, errors.diameter.to_meters() / 2.0))
}

/// The ends of every stretch of one diameter along the cage, from the top down, with the diameter.
fn ends(stretches: &[HoleStretch], cage: PlacedCage) -> Result<Vec<(Depth, Length)>, CoverError> {
    in_order(cage.top, cage.bottom)?;
    let mut ordered = stretches.to_vec();
    ordered.put_in_order_by_key(|stretch| (stretch.top, stretch.bottom));
    let mut ends = Vec::new();
    let mut covered_to = cage.top;
    for stretch in ordered {
        in_order(stretch.top, stretch.bottom)?;
        let (top, bottom) = (stretch.top.max(cage.top), stretch.bottom.min(cage.bottom));
        if bottom < top {
            continue;
        }
        if covered_to < top {
            return Err(CoverError::NoHole { at: covered_to });
        }
        ends.extend([(top, stretch.diameter), (bottom, stretch.diameter)]);
        covered_to = covered_to.max(bottom);
    }
    if covered_to < cage.bottom { Err(CoverError::NoHole { at: covered_to }) } else { Ok(ends) }
}

fn in_order(top: Depth, bottom: Depth) -> Result<(), CoverError> {
    if bottom < top { Err(CoverError::Inverted { top, bottom }) } else { Ok(()) }
}

fn checked(given: Length) -> Result<Length, CoverError> {
    if Length::ZERO < given { Ok(given) } else { Err(CoverError::Diameter { given }) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Slope;

    fn feet(value: f64) -> Depth {
        Depth(Length::feet(value))
    }

    /// An axis that is off by (east, north) inches at the top and leans by (east, north) percent.
    fn axis(offset_in: (f64, f64), lean_percent: (f64, f64)) -> Axis {
        Axis {
            depth: feet(0.0),
            offset: Offset { east: Length::inches(offset_in.0), north: Length::inches(offset_in.1) },
            lean_east: Slope::percent(lean_percent.0),
            lean_north: Slope::percent(lean_percent.1),
        }
    }

    fn stretch(top: f64, bottom: f64, diameter_in: f64) -> HoleStretch {
        HoleStretch { top: feet(top), bottom: feet(bottom), diameter: Length::inches(diameter_in) }
    }

    /// A cage of 40 in from 0 to 50 ft.
    #[track_caller]
    fn check(hole: Axis, stretches: &[HoleStretch], cage_axis: Axis, expected: &str) {
        let outside = Length::inches(40.0);
        let cage = PlacedCage { axis: cage_axis, top: feet(0.0), bottom: feet(50.0), outside };
        let got = match least_cover(hole, stretches, cage) {
            Ok(least) => format!(
                "{:.2} in at {:.0} ft, thin side {}",
                least.cover.to_inches(),
                least.depth.0.to_feet(),
                least.cage_off_hole.bearing_degrees().map_or("none".to_owned(), |b| format!("{b:.0}°"))
            ),
            Err(error) => error.to_string(),
        };
        assert_eq!(got, expected);
    }

    const CENTRED: (f64, f64) = (0.0, 0.0);

    /// 48 − 40 leaves 4 in all round; a hole that leans 0.5 % east is 3 in off at 50 ft, so 1 in remains on
    /// the west, where the cage then stands.
    #[test]
    fn a_plumb_cage_in_a_leaning_hole() {
        let hole = [stretch(0.0, 50.0, 48.0)];
        let plumb = axis(CENTRED, CENTRED);
        check(plumb, &hole, plumb, "4.00 in at 0 ft, thin side none");
        check(axis(CENTRED, (0.5, 0.0)), &hole, plumb, "1.00 in at 50 ft, thin side 270°");
        check(axis(CENTRED, (1.0, 0.0)), &hole, plumb, "-2.00 in at 50 ft, thin side 270°");
    }

    /// Cage 3 in north of the hole at the top, leaning back to it: 3 in off at the top, 3 − 6 at the bottom
    /// would be 3 in south; both ends leave 1 in, the upper one is told.
    #[test]
    fn the_worst_end_may_be_the_top() {
        let hole = [stretch(0.0, 50.0, 48.0)];
        let cage = axis((0.0, 3.0), (0.0, -1.0));
        check(axis(CENTRED, CENTRED), &hole, cage, "1.00 in at 0 ft, thin side 0°");
    }

    /// A 44-in socket from 30 ft leaves 2 in, less 0.25 % of 50 ft = 1.5 in.
    #[test]
    fn a_narrower_socket_decides() {
        let hole = [stretch(30.0, 50.0, 44.0), stretch(0.0, 30.0, 48.0)];
        let plumb = axis(CENTRED, CENTRED);
        check(axis(CENTRED, (0.0, 0.25)), &hole, plumb, "0.50 in at 50 ft, thin side 180°");
    }

    #[test]
    fn a_cage_that_stands_in_no_hole() {
        let plumb = axis(CENTRED, CENTRED);
        let told = "a part of the cage stands in no stretch of the hole";
        check(plumb, &[stretch(0.0, 40.0, 48.0)], plumb, told);
        check(plumb, &[stretch(0.0, 20.0, 48.0), stretch(25.0, 50.0, 48.0)], plumb, told);
        check(plumb, &[], plumb, told);
        check(plumb, &[stretch(0.0, 50.0, 0.0)], plumb, "a diameter is not greater than zero");
        check(plumb, &[stretch(50.0, 0.0, 48.0)], plumb, "a lower end lies above its upper end");
    }

    #[test]
    fn cover_in_the_middle() {
        assert_eq!(centred_cover(Length::inches(48.0), Length::inches(40.0)), Ok(Length::inches(4.0)));
        assert!(centred_cover(Length::inches(48.0), Length::ZERO).is_err());
    }

    /// Hole 0.5 in, cage 0.3 in, half of 1 in: √(0.25 + 0.09 + 0.25) = 0.768 in.
    #[test]
    fn how_well_a_cover_is_known() {
        let errors =
            |inches| AxisErrors { depth: feet(0.0), offset: Length::inches(inches), lean: Slope::part(0.0) };
        let errors = CoverErrors { hole: errors(0.5), cage: errors(0.3), diameter: Length::inches(1.0) };
        assert_eq!(format!("{:.3}", cover_error(errors, feet(50.0)).to_inches()), "0.768");
    }

    proptest::proptest! {
        /// No place between the ends is thinner than the least cover found there.
        #[test]
        fn nowhere_along_the_cage_is_the_cover_thinner(
            offset in -3.0..3.0_f64, lean in -1.0..1.0_f64, across in -1.0..1.0_f64, at in 0.0..50.0_f64,
        ) {
            let hole_axis = axis((0.0, offset), (lean, across));
            let cage_axis = axis(CENTRED, CENTRED);
            let cage = PlacedCage {
                axis: cage_axis, top: feet(0.0), bottom: feet(50.0), outside: Length::inches(40.0),
            };
            let least = least_cover(hole_axis, &[stretch(0.0, 50.0, 48.0)], cage).unwrap();
            let off = hole_axis.offset_at(feet(at)).distance();
            proptest::prop_assert!(least.cover <= Length::inches(4.0) - off + Length::nanometers(2));
        }
    }
}
