//! What stands around and along a cage: spacers and access tubes, needed and found.
//!
//! Spacers keep the cover, tubes let the concrete be tested. Both are counted by a rule per diameter and
//! per length; a rule leaves gaps when one is missing, so the gaps are reckoned too.
//!
//! Words: *row* = spacers at one level; *chord* = straight from tube to tube, the way a pulse runs.
//! Units: lengths compare exactly; angles in degrees, clockwise, from any mark.
//! Never: hold a rule; it comes in as an argument.

use quantity::{InOrder, Length};

/// How spacers have to be set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SpacerRule {
    /// Most from one row to the next.
    pub row_spacing: Length,
    /// Most from either end of the cage to the nearest row.
    pub from_end: Length,
    /// One in each such length of circumference.
    pub around: Length,
    /// At least so many in a row.
    pub least_in_row: u32,
}

/// The cage that spacers or tubes belong to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CageSize {
    /// Length of the cage.
    pub length: Length,
    /// Diameter whose circumference counts.
    pub diameter: Length,
}

/// Spacers that a rule asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SpacersNeeded {
    /// Rows along the cage.
    pub rows: u32,
    /// Spacers in a row.
    pub in_row: u32,
}

/// Rows of spacers as they were found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RowsFound {
    /// From the top of the cage to the first row.
    pub from_top: Length,
    /// From the bottom of the cage to the last row.
    pub from_bottom: Length,
    /// Most between neighbouring rows; `None` with a single row.
    pub widest: Option<Length>,
}

/// How many tubes a diameter asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TubeRule {
    /// One per such length of diameter, rounded up.
    pub one_per: Length,
    /// At least so many.
    pub least: u32,
    /// More than so many are not asked for.
    pub most: Option<u32>,
}

/// Why a count or a gap has no answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AroundError {
    /// A length that is not greater than zero.
    NotPositive {
        /// As given.
        given: Length,
    },
    /// No row or fewer than two tubes were found.
    TooFew,
    /// A row beyond an end of the cage.
    BeyondEnd {
        /// From the top of the cage.
        at: Length,
    },
    /// An angle that is not finite.
    Angle,
}

impl std::fmt::Display for AroundError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            AroundError::NotPositive { .. } => write!(f, "a length is not greater than zero"),
            AroundError::TooFew => write!(f, "too few were found to reckon a gap"),
            AroundError::BeyondEnd { .. } => write!(f, "a row lies beyond an end of the cage"),
            AroundError::Angle => write!(f, "an angle is not a number"),
        }
    }
}

impl std::error::Error for AroundError {}

impl SpacerRule {
    /// How many spacers a cage needs.
    ///
    /// `rows = ⌈(L − 2 e) / s⌉ + 1`, one row when `L ≤ 2 e`; `in row = max(least, ⌈π D / a⌉)`
    ///
    /// | symbol | meaning |
    /// |---|---|
    /// | `L`, `D` | length and diameter of the cage |
    /// | `s`, `e`, `a` | row spacing, distance from an end, length around |
    ///
    /// **Errors** when a length of the cage or of the rule is not greater than zero; `from_end` may be zero.
    ///
    /// **Source**: counting; worked by hand.
    ///
    /// ```
    /// use calc::around::{CageSize, SpacerRule};
    /// use quantity::Length;
    /// let rule = SpacerRule {
    ///     row_spacing: Length::feet(5.0),
    ///     from_end: Length::feet(2.0),
    ///     around: Length::inches(30.0),
    ///     least_in_row: 3,
    /// };
    /// let cage = CageSize { length: Length::feet(34.0), diameter: Length::inches(42.0) };
    /// let needed = rule.needed(cage).unwrap();
    /// assert_eq!((needed.rows, needed.in_row), (7, 5));
    /// ```
    pub fn needed(&self, cage: CageSize) -> Result<SpacersNeeded, AroundError> {
        for length in [self.row_spacing, self.around, cage.length, cage.diameter] {
            positive(length)?;
        }
        let between = (cage.length - self.from_end - self.from_end).to_nanometers().max(0);
        let spaces = ceil_of(between, self.row_spacing.to_nanometers());
        let circumference = std::f64::consts::PI * cage.diameter.to_meters();
        let around = libm::ceil(circumference / self.around.to_meters()) as u32;
        Ok(SpacersNeeded { rows: spaces + 1, in_row: around.max(self.least_in_row) })
    }
}

/// How rows of spacers lie along a cage.
///
/// `rows` are distances from the top of the cage, in any order.
///
/// **Errors** without a row or with one beyond an end.
///
/// **Source**: differences of lengths.
///
/// ```
/// # use calc::around::rows_found;
/// # use quantity::Length;
/// let found = rows_found(Length::feet(34.0), &[2.0, 7.0, 17.0, 31.0].map(Length::feet))?;
/// assert_eq!((found.widest, found.from_bottom), (Some(Length::feet(14.0)), Length::feet(3.0)));
/// # Ok::<(), calc::around::AroundError>(())
/// ```
pub fn rows_found(cage_length: Length, rows: &[Length]) -> Result<RowsFound, AroundError> {
    let mut ordered = rows.to_vec();
    ordered.put_in_order();
    let (first, last) = ordered.first().zip(ordered.last()).ok_or(AroundError::TooFew)?;
    for &at in [first, last] {
        if at < Length::ZERO || cage_length < at {
            return Err(AroundError::BeyondEnd { at });
        }
    }
    let widest = ordered.windows(2).map(|pair| pair[1] - pair[0]).max();
    Ok(RowsFound { from_top: *first, from_bottom: cage_length - *last, widest })
}

impl TubeRule {
    /// How many tubes a shaft of a diameter needs.
    ///
    /// `n = ⌈D / one per⌉`, at least `least`, at most `most`
    ///
    /// **Errors** when a length is not greater than zero.
    ///
    /// **Source**: counting; rules of [ASTM-D6760] and of owners come in as arguments.
    ///
    /// ```
    /// # use calc::around::TubeRule;
    /// # use quantity::Length;
    /// let rule = TubeRule { one_per: Length::feet(1.0), least: 3, most: None };
    /// assert_eq!(rule.needed(Length::inches(54.0)), Ok(5));
    /// ```
    pub fn needed(&self, diameter: Length) -> Result<u32, AroundError> {
        positive(self.one_per)?;
        positive(diameter)?;
        let count = ceil_of(diameter.to_nanometers(), self.one_per.to_nanometers()).max(self.least);
        Ok(self.most.map_or(count, |most| count.min(most)))
    }
}

/// Distance between neighbouring tubes spread evenly on a circle.
///
/// `chord = c · sin(π / n)`
///
/// **Errors** with fewer than two tubes or a circle that is not greater than zero.
///
/// **Source**: [GEOMETRY], chord of a circle.
///
/// ```
/// # use calc::around::even_chord;
/// # use quantity::Length;
/// let chord = even_chord(Length::inches(36.0), 4)?;
/// assert_eq!(format!("{:.1} in", chord.to_inches()), "25.5 in");
/// # Ok::<(), calc::around::AroundError>(())
/// ```
pub fn even_chord(circle: Length, tubes: u32) -> Result<Length, AroundError> {
    positive(circle)?;
    if tubes < 2 {
        return Err(AroundError::TooFew);
    }
    Ok(Length::meters(circle.to_meters() * libm::sin(std::f64::consts::PI / f64::from(tubes))))
}

/// Distances between neighbouring tubes from their bearings on a circle, going round once.
///
/// The first is from the tube with the least bearing to the next.
///
/// **Valid for** tubes on one circle; bearings in degrees, reduced to one turn.
///
/// **Errors** with fewer than two tubes, a circle that is not greater than zero, or an angle that is no
/// number.
///
/// **Source**: [GEOMETRY], chord of a circle.
///
/// ```
/// # use calc::around::chords;
/// # use quantity::Length;
/// let chords = chords(Length::inches(36.0), &[0.0, 100.0, 180.0, 270.0])?;
/// assert_eq!(format!("{:.1} in", chords[0].to_inches()), "27.6 in");
/// # Ok::<(), calc::around::AroundError>(())
/// ```
pub fn chords(circle: Length, bearings_degrees: &[f64]) -> Result<Vec<Length>, AroundError> {
    positive(circle)?;
    if bearings_degrees.len() < 2 {
        return Err(AroundError::TooFew);
    }
    if bearings_degrees.iter().any(|bearing| !bearing.is_finite()) {
        return Err(AroundError::Angle);
    }
    let mut bearings: Vec<f64> = bearings_degrees.iter().map(|bearing| bearing.rem_euclid(360.0)).collect();
    bearings.put_in_order_by(f64::total_cmp);
    let next =
        |index: usize| if index + 1 < bearings.len() { bearings[index + 1] } else { bearings[0] + 360.0 };
    let chord = |degrees: f64| Length::meters(circle.to_meters() * libm::sin(degrees.to_radians() / 2.0));
    Ok((0..bearings.len()).map(|index| chord(next(index) - bearings[index])).collect())
}

/// How many whole steps cover a length, both in nanometres and not negative.
fn ceil_of(length: i64, step: i64) -> u32 {
    u32::try_from((length + step - 1) / step).expect("a cage has a countable number of rows")
}

fn positive(given: Length) -> Result<(), AroundError> {
    if Length::ZERO < given { Ok(()) } else { Err(AroundError::NotPositive { given }) }
}

#[cfg(test)]
mod tests {
    use super::*;

    const RULE: SpacerRule = SpacerRule {
        row_spacing: Length::nanometers(5 * 304_800_000),
        from_end: Length::nanometers(2 * 304_800_000),
        around: Length::nanometers(30 * 25_400_000),
        least_in_row: 3,
    };

    #[track_caller]
    fn check_spacers(length_ft: f64, diameter_in: f64, expected: &str) {
        let cage = CageSize { length: Length::feet(length_ft), diameter: Length::inches(diameter_in) };
        let got = match RULE.needed(cage) {
            Ok(needed) => format!("{} rows of {}", needed.rows, needed.in_row),
            Err(error) => error.to_string(),
        };
        assert_eq!(got, expected);
    }

    /// 34 − 4 = 30 ft are six spaces exactly; one hair more needs a seventh. π · 42 / 30 = 4.4; π · 24 / 30
    /// = 2.5, three at least.
    #[test]
    fn spacers_needed() {
        check_spacers(34.0, 42.0, "7 rows of 5");
        check_spacers(34.01, 42.0, "8 rows of 5");
        check_spacers(12.0, 24.0, "3 rows of 3");
        check_spacers(3.0, 24.0, "1 rows of 3");
        check_spacers(0.0, 24.0, "a length is not greater than zero");
    }

    #[test]
    fn rows_as_found() {
        let rows = [2.0, 17.0, 7.0, 31.0].map(Length::feet);
        let found = rows_found(Length::feet(34.0), &rows).unwrap();
        assert_eq!((found.from_top, found.from_bottom), (Length::feet(2.0), Length::feet(3.0)));
        assert_eq!(found.widest, Some(Length::feet(14.0)));
        assert_eq!(rows_found(Length::feet(34.0), &[]), Err(AroundError::TooFew));
        let beyond = rows_found(Length::feet(30.0), &rows).unwrap_err();
        assert_eq!(beyond.to_string(), "a row lies beyond an end of the cage");
    }

    #[track_caller]
    fn check_tubes(rule: TubeRule, diameter_in: f64, expected: u32) {
        assert_eq!(rule.needed(Length::inches(diameter_in)), Ok(expected));
    }

    /// One per foot, three at least; or one per 0.30 m, four at least, no more than eight.
    #[test]
    fn tubes_needed() {
        let per_foot = TubeRule { one_per: Length::feet(1.0), least: 3, most: None };
        check_tubes(per_foot, 30.0, 3);
        check_tubes(per_foot, 48.0, 4);
        check_tubes(per_foot, 48.1, 5);
        let metric = TubeRule { one_per: Length::meters(0.3), least: 4, most: Some(8) };
        check_tubes(metric, 36.0, 4);
        check_tubes(metric, 120.0, 8);
    }

    /// Four on a 36-in circle: 36 sin 45° = 25.456 in. With one at 100° instead of 90°: 36 sin 50° = 27.578
    /// and 36 sin 40° = 23.140 in.
    #[test]
    fn distances_between_tubes() {
        let told = |length: Length| format!("{:.3}", length.to_inches());
        assert_eq!(told(even_chord(Length::inches(36.0), 4).unwrap()), "25.456");
        let chords = chords(Length::inches(36.0), &[360.0, 100.0, 180.0, -90.0]).unwrap();
        let told: Vec<_> = chords.into_iter().map(told).collect();
        assert_eq!(told, ["27.578", "23.140", "25.456", "25.456"]);
        assert_eq!(even_chord(Length::inches(36.0), 1), Err(AroundError::TooFew));
    }
}
