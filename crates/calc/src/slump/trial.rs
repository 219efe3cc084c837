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
    /// How much of each point the slump there is made of.
    pub(super) weights: Vec<f64>,
}

impl SlumpTrial {
    /// Takes the points of a trial in order of age.
    ///
    /// A slump that rises (a retarder waking up) is kept and named.
    ///
    /// **Errors** with fewer than two points or when an age does not rise.
    ///
    /// **Source**: definition of a trial.
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
    ///
    /// ```
    /// # use calc::slump::{SlumpAtAge, SlumpTrial};
    /// # use quantity::{Length, Span};
    /// # let point = |minutes, inches| SlumpAtAge { age: Span::minutes(minutes), slump: Length::inches(inches) };
    /// let (trial, _) = SlumpTrial::new(&[point(0.0, 8.5), point(120.0, 7.0), point(240.0, 4.0)])?;
    /// assert_eq!(format!("{:.2} in", trial.slump_at(Span::minutes(180.0))?.to_inches()), "5.50 in");
    /// assert!(trial.slump_at(Span::minutes(250.0)).is_err(), "that was not tried");
    /// # Ok::<(), calc::slump::SlumpError>(())
    /// ```
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
        self.weights_at(seconds).map(|weights| self.slump_of(&weights))
    }

    /// How many points there are.
    pub(super) fn len(&self) -> usize {
        self.points.len()
    }

    /// The ages of the points, seconds.
    pub(super) fn ages_s(&self) -> Vec<f64> {
        self.points.iter().map(|point| point.age.to_seconds()).collect()
    }

    /// How much of each point the slump at an age is made of; `None` outside the trial.
    pub(super) fn weights_at(&self, seconds: f64) -> Option<Vec<f64>> {
        let mut weights = vec![0.0; self.points.len()];
        if seconds == self.points[0].age.to_seconds() {
            weights[0] = 1.0;
            return Some(weights);
        }
        let within = |&(_, [(from, _), (to, _)]): &(usize, [(f64, f64); 2])| from < seconds && seconds <= to;
        let (at, [(from, _), (to, _)]) = self.segments().enumerate().find(within)?;
        weights[at + 1] = (seconds - from) / (to - from);
        weights[at] = 1.0 - weights[at + 1];
        Some(weights)
    }

    /// The slump made of so much of each point, metres.
    pub(super) fn slump_of(&self, weights: &[f64]) -> f64 {
        self.points.iter().zip(weights).map(|(point, weight)| point.slump.to_meters() * weight).sum()
    }

    pub(super) fn crossing(&self, slump_m: f64) -> Result<Crossing, SlumpError> {
        if self.first_m() < slump_m {
            return Err(SlumpError::BelowFromTheStart);
        }
        let last = &self.points[self.points.len() - 1];
        let comes_down = |&(_, [(_, high), (_, low)]): &(usize, [(f64, f64); 2])| {
            slump_m <= high && low <= slump_m && low < high
        };
        let (at, [(from, high), (to, low)]) = self
            .segments()
            .enumerate()
            .find(comes_down)
            .ok_or(SlumpError::NotReached { sure_until: last.age })?;
        let mut weights = vec![0.0; self.points.len()];
        weights[at + 1] = (high - slump_m) / (high - low);
        weights[at] = 1.0 - weights[at + 1];
        let age_s = from + weights[at + 1] * (to - from);
        Ok(Crossing { age_s, slope: (low - high) / (to - from), weights })
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

    /// The tests at ages the trial covers; the others are named.
    pub(super) fn usable(
        &self,
        tests: &[SlumpAtAge],
        load: usize,
        issues: &mut Vec<SlumpIssue>,
    ) -> Vec<SlumpAtAge> {
        let covered = |point: &SlumpAtAge| self.weights_at(point.age.to_seconds()).is_some();
        let outside = (0..tests.len()).filter(|&test| !covered(&tests[test]));
        issues.extend(outside.map(|test| SlumpIssue::TestOutsideTrial { load, test }));
        tests.iter().copied().filter(covered).collect()
    }
}
