//! The finished shaft against the plan: position, diameter, elevations, and what a tolerance allows where.
//!
//! A position tolerance is meant for one level, and a lean adds to it below: whether the two may add is a
//! question of the contract that changes the answer by a hand's breadth, so it is always asked.
//!
//! Words: *defined at* = the level a tolerance is meant for; *allowance* = how far an axis may be off.
//! Units: SI inside. Never: hold a tolerance; it comes in as an argument.

use crate::axis::Offset;
use quantity::{Depth, Elevation, Length, Slope};

/// How far an axis may be off, and where that is meant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PositionRule {
    /// At the level it is defined at.
    pub position: Length,
    /// How far the axis may lean.
    pub lean: Slope,
    /// The level the position tolerance is defined at.
    pub defined_at: Depth,
    /// Whether the two add below that level. The contract has to say.
    pub lean_adds: bool,
}

/// Sizes and levels of a shaft, planned or found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Built {
    /// Top of the concrete.
    pub top: Elevation,
    /// Tip.
    pub tip: Elevation,
    /// Diameter at the top.
    pub diameter: Length,
}

/// Found minus planned: positive when higher, longer, wider.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Deviations {
    /// Of the top; positive when too high.
    pub top: Length,
    /// Of the tip; positive when too high, that is too short.
    pub tip: Length,
    /// Of the length.
    pub length: Length,
    /// Of the diameter.
    pub diameter: Length,
}

/// A shaft found wider than planned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Diameters {
    /// As planned.
    pub planned: Length,
    /// As found.
    pub found: Length,
}

/// Why a finished shaft has no answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BuiltError {
    /// A tolerance below zero.
    NegativeTolerance,
    /// The shaft is narrower than planned, so no planned circle fits into it.
    Narrower {
        /// As given.
        given: Diameters,
    },
}

impl std::fmt::Display for BuiltError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            BuiltError::NegativeTolerance => write!(f, "a tolerance is below zero"),
            BuiltError::Narrower { .. } => write!(f, "the shaft is narrower than planned"),
        }
    }
}

impl std::error::Error for BuiltError {}

impl PositionRule {
    /// How far the axis may be off at a depth.
    ///
    /// `a = p + m (z − z0)` below `z0` when lean adds; `a = p` otherwise
    ///
    /// | symbol | meaning |
    /// |---|---|
    /// | `p`, `m` | tolerances of position and lean |
    /// | `z0` | level the position tolerance is defined at |
    ///
    /// **Valid for** a vertical design axis. At and above `z0` only the position tolerance is left.
    ///
    /// **Errors** when a tolerance is below zero.
    ///
    /// **Source**: [SPERW-2], Table B1.4 as corrected: 75 mm and 1 in 75 below the commencing surface, so
    /// 155 mm at 6 m by hand.
    ///
    /// ```
    /// use calc::as_built::PositionRule;
    /// use quantity::{Depth, Length, Slope};
    /// let rule = PositionRule {
    ///     position: Length::meters(0.075),
    ///     lean: Slope::part(1.0 / 75.0),
    ///     defined_at: Depth(Length::ZERO),
    ///     lean_adds: true,
    /// };
    /// assert_eq!(rule.allowance(Depth(Length::meters(6.0))), Ok(Length::meters(0.155)));
    /// ```
    pub fn allowance(&self, depth: Depth) -> Result<Length, BuiltError> {
        if self.position < Length::ZERO || self.lean.to_part() < 0.0 {
            return Err(BuiltError::NegativeTolerance);
        }
        let below = depth.below(self.defined_at);
        if !self.lean_adds || below <= Length::ZERO {
            return Ok(self.position);
        }
        Ok(self.position + Length::meters(self.lean.to_part() * below.to_meters()))
    }
}

/// Found minus planned.
///
/// **Source**: differences.
///
/// ```
/// # use calc::as_built::{Built, deviations};
/// # use quantity::{Elevation, Length};
/// # let built = |top, tip, inches| Built {
/// #     top: Elevation(Length::feet(top)),
/// #     tip: Elevation(Length::feet(tip)),
/// #     diameter: Length::inches(inches),
/// # };
/// let off = deviations(built(100.0, 60.0, 36.0), built(100.1, 59.5, 35.5));
/// assert_eq!((off.length, off.diameter), (Length::feet(0.6), Length::inches(-0.5)));
/// ```
pub fn deviations(planned: Built, found: Built) -> Deviations {
    let top = found.top.above(planned.top);
    let tip = found.tip.above(planned.tip);
    Deviations { top, tip, length: top - tip, diameter: found.diameter - planned.diameter }
}

/// How far off a shaft is when the best circle of the planned size inside the wider one counts.
///
/// `max(0, |offset| − (D − d) / 2)`
///
/// **Valid for** contracts that take it so; the circle must lie wholly inside the concrete.
///
/// **Errors** when the shaft is narrower than planned.
///
/// **Source**: [ACI-336], how to measure an oversize shaft.
///
/// ```
/// # use calc::{as_built::{Diameters, offset_of_inscribed}, axis::Offset};
/// # use quantity::Length;
/// let offset = Offset { east: Length::inches(3.0), north: Length::inches(4.0) };
/// let [planned, found] = [36.0, 42.0].map(Length::inches);
/// assert_eq!(offset_of_inscribed(offset, Diameters { planned, found }), Ok(Length::inches(2.0)));
/// ```
pub fn offset_of_inscribed(offset: Offset, diameters: Diameters) -> Result<Length, BuiltError> {
    let wider = diameters.found - diameters.planned;
    if wider < Length::ZERO {
        return Err(BuiltError::Narrower { given: diameters });
    }
    // Inside that slack the planned circle can be put right on the design axis, so it is not off at all.
    Ok((offset.distance() - Length::nanometers(wider.to_nanometers() / 2)).max(Length::ZERO))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(rule: PositionRule, depth_m: f64, expected_mm: &str) {
        let allowance = rule.allowance(Depth(Length::meters(depth_m))).unwrap();
        assert_eq!(format!("{:.1} mm", allowance.to_meters() * 1000.0), expected_mm);
    }

    /// Source: [SPERW-2], Table B1.4 as corrected: 75 mm, and 1 in 75 below; 75 + 6000 / 75 = 155.
    #[test]
    fn british_piling_specification() {
        let rule = PositionRule {
            position: Length::meters(0.075),
            lean: Slope::part(1.0 / 75.0),
            defined_at: Depth(Length::meters(1.0)),
            lean_adds: true,
        };
        check(rule, 7.0, "155.0 mm");
        check(rule, 1.0, "75.0 mm");
        check(rule, 0.0, "75.0 mm");
        check(PositionRule { lean_adds: false, ..rule }, 7.0, "75.0 mm");
    }

    /// Source: [EN-1536], tolerances: 0.1 · 1.2 m and 0.02 m/m; over 25 m 0.12 + 0.50 = 0.62 m if they add.
    #[test]
    fn european_execution_standard() {
        let rule = PositionRule {
            position: Length::meters(0.12),
            lean: Slope::part(0.02),
            defined_at: Depth(Length::ZERO),
            lean_adds: true,
        };
        check(rule, 25.0, "620.0 mm");
        check(PositionRule { lean_adds: false, ..rule }, 25.0, "120.0 mm");
        let odd = PositionRule { position: Length::meters(-0.1), ..rule };
        assert_eq!(odd.allowance(Depth(Length::ZERO)), Err(BuiltError::NegativeTolerance));
    }

    #[test]
    fn found_minus_planned() {
        let level = |feet| Elevation(Length::feet(feet));
        let planned = Built { top: level(100.0), tip: level(60.0), diameter: Length::inches(36.0) };
        let found = Built { top: level(100.1), tip: level(59.5), diameter: Length::inches(35.5) };
        let off = deviations(planned, found);
        assert_eq!((off.top, off.tip), (Length::feet(0.1), Length::feet(-0.5)));
        assert_eq!((off.length, off.diameter), (Length::feet(0.6), Length::inches(-0.5)));
    }

    /// 5 in off and 6 in wider: the planned circle can be shifted 3 in back, 2 in remain.
    #[test]
    fn a_wide_shaft_may_hold_the_planned_one() {
        let offset = Offset { east: Length::inches(3.0), north: Length::inches(4.0) };
        let left = |found| {
            let diameters = Diameters { planned: Length::inches(36.0), found: Length::inches(found) };
            offset_of_inscribed(offset, diameters).map(|left| format!("{:.3}", left.to_inches()))
        };
        assert_eq!(left(36.0).as_deref(), Ok("5.000"));
        assert_eq!(left(42.0).as_deref(), Ok("2.000"));
        assert_eq!(left(48.0).as_deref(), Ok("0.000"));
        assert!(left(35.0).is_err());
    }
}
