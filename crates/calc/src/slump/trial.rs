//! The slump-loss trial of a mix: slump against age, straight between two points.
//!
//! A trial is made once, warm and calm; every forecast of a pour leans on it, and none may go beyond it.
//!
//! Units: seconds and metres inside. Never: go beyond the first or the last point.

use super::{SlumpAtAge, SlumpError, SlumpIssue};
use quantity::{Length, Span};

/// A slump-loss trial. Invariant: two points or more, ages rising.
#[derive(Debug, Clone, PartialEq)]
pub struct SlumpTrial {
    points: Vec<SlumpAtAge>,
}

/// A place on the trial line where it comes down to a slump.
pub(super) struct Crossing {
    pub(super) age_s: f64,
    /// Metres per second, negative.
    pub(super) slope: f64,
    /// Where between the two points, 0 to 1.
    pub(super) weight: f64,
}

impl SlumpTrial {
    /// Takes the points of a trial in order of age.
    ///
    /// A slump that rises (a retarder waking up) is kept and named.
    ///
    /// **Errors** with fewer than two points or when an age does not rise.
    pub fn new(points: &[SlumpAtAge]) -> Result<(Self, Vec<SlumpIssue>), SlumpError> {
        if points.len() < 2 {
            return Err(SlumpError::TooFewPoints);
        }
        let mut issues = Vec::new();
        for (at, pair) in points.windows(2).enumerate() {
            if pair[1].age.to_seconds() <= pair[0].age.to_seconds() {
                return Err(SlumpError::AgesOutOfOrder { at: at + 1 });
            }
            if pair[0].slump < pair[1].slump {
                issues.push(SlumpIssue::TrialRises { at: at + 1 });
            }
        }
        Ok((SlumpTrial { points: points.to_vec() }, issues))
    }

    /// The slump of the trial at an age, straight between two points.
    ///
    /// **Valid for** ages from the first to the last trial point.
    ///
    /// **Errors** beyond them: what happens there was not tried.
    ///
    /// **Source**: linear interpolation; checked against `numpy.interp`.
    pub fn slump_at(&self, age: Span) -> Result<Length, SlumpError> {
        let seconds = age.to_seconds();
        let meters = self.meters_at(seconds).ok_or(SlumpError::OutsideTrial { age })?;
        Ok(Length::meters(meters))
    }

    /// The age at which the trial first comes down to a slump.
    ///
    /// **Valid for** slumps between those of the trial. When the line comes down more than once the first
    /// time counts, which is the cautious reading.
    ///
    /// **Errors** when the trial ends above the slump or starts below it.
    ///
    /// **Source**: linear interpolation; checked against `numpy.interp`.
    ///
    /// ```
    /// use calc::slump::{SlumpAtAge, SlumpTrial};
    /// use quantity::{Length, Span};
    /// let point = |minutes, inches| SlumpAtAge {
    ///     age: Span::minutes(minutes),
    ///     slump: Length::inches(inches),
    /// };
    /// let points = [point(0.0, 8.5), point(120.0, 7.0), point(240.0, 4.0)];
    /// let (trial, _) = SlumpTrial::new(&points).unwrap();
    /// let age = trial.age_at(Length::inches(5.0)).unwrap();
    /// assert_eq!(format!("{:.0} min", age.to_minutes()), "200 min");
    /// ```
    pub fn age_at(&self, slump: Length) -> Result<Span, SlumpError> {
        self.crossing(slump.to_meters()).map(|crossing| Span::seconds(crossing.age_s))
    }

    fn meters_at(&self, seconds: f64) -> Option<f64> {
        let first = &self.points[0];
        if seconds == first.age.to_seconds() {
            return Some(first.slump.to_meters());
        }
        self.segments()
            .find(|[(from, _), (to, _)]| *from < seconds && seconds <= *to)
            .map(|[(from, high), (to, low)]| high + (low - high) * (seconds - from) / (to - from))
    }

    pub(super) fn crossing(&self, slump_m: f64) -> Result<Crossing, SlumpError> {
        if self.points[0].slump.to_meters() < slump_m {
            return Err(SlumpError::BelowFromTheStart);
        }
        let last = &self.points[self.points.len() - 1];
        let [(from, high), (to, low)] = self
            .segments()
            .find(|[(_, high), (_, low)]| slump_m <= *high && *low <= slump_m && low < high)
            .ok_or(SlumpError::NotReached { sure_until: last.age })?;
        let weight = (high - slump_m) / (high - low);
        Ok(Crossing { age_s: from + weight * (to - from), slope: (low - high) / (to - from), weight })
    }

    /// Neighbouring points as (seconds, metres).
    fn segments(&self) -> impl Iterator<Item = [(f64, f64); 2]> + '_ {
        let plain = |point: &SlumpAtAge| (point.age.to_seconds(), point.slump.to_meters());
        self.points.windows(2).map(move |pair| [plain(&pair[0]), plain(&pair[1])])
    }

    /// The slump at the first point, metres.
    pub(super) fn first_m(&self) -> f64 {
        self.points[0].slump.to_meters()
    }

    /// Slump of each test beside the trial slump at its age, metres.
    pub(super) fn pairs(
        &self,
        tests: &[SlumpAtAge],
        load: usize,
        issues: &mut Vec<SlumpIssue>,
    ) -> Vec<(f64, f64)> {
        let mut pairs = Vec::new();
        for (test, point) in tests.iter().enumerate() {
            match self.meters_at(point.age.to_seconds()) {
                Some(trial) => pairs.push((point.slump.to_meters(), trial)),
                None => issues.push(SlumpIssue::TestOutsideTrial { load, test }),
            }
        }
        pairs
    }
}
