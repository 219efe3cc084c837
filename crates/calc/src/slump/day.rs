//! The trial carried over to the loads of one day.
//!
//! No load is quite like the trial. A test of the day says by how much, and how far that can be trusted; a
//! load that nobody tested is taken to be like the mean of the others, and is known less well.
//!
//! Words: *shift* = how a load differs from the trial, as inches or as a factor.
//! Units: metres and seconds inside. Never: choose between inches and factor; the job does.

use super::trial::SlumpTrial;
use super::{SlumpAtAge, SlumpError, SlumpIssue};
use crate::estimate::Estimate;
use quantity::{Length, Span};

/// How a load is taken to differ from the trial.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Adjustment {
    /// By the same number of inches at every age.
    Offset,
    /// By the same factor at every age.
    Scale,
}

/// Standard errors of slumps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlumpErrors {
    /// Of one slump test, in the trial or on the day.
    pub test: Length,
    /// Between one load and the next of the same mix.
    pub between_loads: Length,
}

/// The trial, carried over to the loads of one day.
#[derive(Debug, Clone, PartialEq)]
pub struct DayCurve<'a> {
    trial: &'a SlumpTrial,
    adjustment: Adjustment,
    errors: SlumpErrors,
    /// The shift of each load; without a usable test it has none of its own.
    loads: Vec<Option<Shift>>,
}

/// How a load differs from the trial, and what that hangs on.
#[derive(Debug, Clone, PartialEq)]
struct Shift {
    /// Metres for an offset, plain for a scale.
    value: f64,
    /// By how much the value falls when a trial slump rises, for each of them.
    trial_weights: Vec<f64>,
    /// Its variance where a test has a variance of one.
    test_variance: f64,
    /// Its variance where loads differ with a variance of one.
    between_variance: f64,
    /// By how much the value rises with the slump of the load: one for an offset.
    per_meter: f64,
}

impl<'a> DayCurve<'a> {
    /// Carries a trial over to the loads of a day.
    ///
    /// Offset: `o = mean(slump − trial(age))`. Scale: `k = Σ slump / Σ trial(age)`.
    ///
    /// | argument | meaning |
    /// |---|---|
    /// | `tests` | one list per load, in the order of the loads; an empty list for an untested one |
    ///
    /// **Valid for** tests at ages the trial covers; others are left out and named.
    ///
    /// **Errors** when tests of zero slump would have to scale the trial.
    ///
    /// **Source**: least squares for an offset, ratio of sums for a scale; the choice is the job's.
    pub fn fit(
        trial: &'a SlumpTrial,
        tests: &[Vec<SlumpAtAge>],
        adjustment: Adjustment,
        errors: SlumpErrors,
    ) -> Result<(Self, Vec<SlumpIssue>), SlumpError> {
        let mut issues = Vec::new();
        let mut loads = Vec::new();
        for (load, of_load) in tests.iter().enumerate() {
            let usable = trial.usable(of_load, load, &mut issues);
            loads.push(Shift::of(trial, &usable, adjustment)?);
        }
        Ok((DayCurve { trial, adjustment, errors, loads }, issues))
    }

    /// The age at which a load reaches a slump, with its standard error.
    ///
    /// `trial(age) = limit − o` or `trial(age) = limit / k`; `σage = σslump / |slope of the day's line there|`
    ///
    /// A load without a test takes the mean shift of the tested ones, and the spread between loads as its
    /// error; on a day without any test the trial stands as it is.
    ///
    /// **Valid for** a mix that stiffens as in its trial. Trial slumps, tests and loads count as independent;
    /// a trial slump that moves shift and crossing alike is counted once. The error does not know a hotter
    /// day.
    ///
    /// **Errors** as [`SlumpTrial::age_at`], and for a load the curve does not have.
    ///
    /// **Source**: [GUM], 5.1.2; checked against draws with `numpy`.
    ///
    /// ```
    /// # use calc::slump::{Adjustment, DayCurve, SlumpAtAge, SlumpErrors, SlumpTrial};
    /// # use quantity::{Length, Span};
    /// # let point = |minutes, inches| SlumpAtAge { age: Span::minutes(minutes), slump: Length::inches(inches) };
    /// let (trial, _) = SlumpTrial::new(&[point(0.0, 8.5), point(120.0, 7.0), point(240.0, 4.0)])?;
    /// let errors = SlumpErrors { test: Length::inches(0.25), between_loads: Length::inches(0.5) };
    /// let tests = [vec![point(60.0, 7.25)]];
    /// let (day, _) = DayCurve::fit(&trial, &tests, Adjustment::Offset, errors)?;
    /// let life = day.life(0, Length::inches(5.0))?;
    /// let [age, error] = [life.value, life.standard_error].map(Span::to_minutes);
    /// assert_eq!(format!("{age:.0} ± {error:.0} min"), "180 ± 12 min");
    /// # Ok::<(), calc::slump::SlumpError>(())
    /// ```
    pub fn life(&self, load: usize, limit: Length) -> Result<Estimate<Span>, SlumpError> {
        let own = self.loads.get(load).ok_or(SlumpError::NoSuchLoad)?;
        let shift = own.clone().unwrap_or_else(|| self.mean_shift());
        let limit = limit.to_meters();
        // The slump of the day is `trial + value` or `value · trial`; lever: what one unit of value moves.
        let (wanted, factor, lever) = match self.adjustment {
            Adjustment::Offset => (limit - shift.value, 1.0, 1.0),
            Adjustment::Scale => (limit / shift.value, shift.value, limit / shift.value),
        };
        let crossing = self.trial.crossing(wanted)?;
        let error = self.error_m(&shift, &crossing.weights, [factor, lever]);
        let standard_error = Span::seconds(error / (crossing.slope.abs() * factor));
        Ok(Estimate::new(Span::seconds(crossing.age_s), standard_error))
    }

    /// The slump of a load at an age, with its standard error.
    ///
    /// `slump = trial(age) + o` or `k · trial(age)`
    ///
    /// **Valid for** ages the trial covers; otherwise as [`DayCurve::life`].
    ///
    /// **Errors** as [`SlumpTrial::slump_at`], and for a load the curve does not have.
    ///
    /// **Source**: [GUM], 5.1.2; worked by hand.
    ///
    /// ```
    /// # use calc::slump::{Adjustment, DayCurve, SlumpAtAge, SlumpErrors, SlumpTrial};
    /// # use quantity::{Length, Span};
    /// # let point = |minutes, inches| SlumpAtAge { age: Span::minutes(minutes), slump: Length::inches(inches) };
    /// let (trial, _) = SlumpTrial::new(&[point(0.0, 8.5), point(120.0, 7.0), point(240.0, 4.0)])?;
    /// let errors = SlumpErrors { test: Length::inches(0.25), between_loads: Length::inches(0.5) };
    /// let tests = [vec![point(60.0, 7.25)]];
    /// let (day, _) = DayCurve::fit(&trial, &tests, Adjustment::Offset, errors)?;
    /// let slump = day.slump_at(0, Span::minutes(180.0))?;
    /// assert_eq!(format!("{:.2} in", slump.value.to_inches()), "5.00 in");
    /// # Ok::<(), calc::slump::SlumpError>(())
    /// ```
    pub fn slump_at(&self, load: usize, age: Span) -> Result<Estimate<Length>, SlumpError> {
        let (slump, error) = self.slump_m(load, age)?;
        Ok(Estimate::new(Length::meters(slump), Length::meters(error)))
    }

    /// The same in metres, before a length is cut to the whole nanometre.
    pub(super) fn slump_m(&self, load: usize, age: Span) -> Result<(f64, f64), SlumpError> {
        let own = self.loads.get(load).ok_or(SlumpError::NoSuchLoad)?;
        let shift = own.clone().unwrap_or_else(|| self.mean_shift());
        let weights = self.trial.weights_at(age.to_seconds()).ok_or(SlumpError::OutsideTrial { age })?;
        let tried = self.trial.slump_of(&weights);
        let (slump, factor, lever) = match self.adjustment {
            Adjustment::Offset => (tried + shift.value, 1.0, 1.0),
            Adjustment::Scale => (tried * shift.value, shift.value, tried),
        };
        Ok((slump, self.error_m(&shift, &weights, [factor, lever])))
    }

    /// The ages of the trial points, seconds.
    pub(super) fn ages_s(&self) -> Vec<f64> {
        self.trial.ages_s()
    }

    /// Standard error of a slump of the day, metres.
    ///
    /// `weights`: how much of each trial slump it is made of. `factor`: what one unit of trial slump moves;
    /// `lever`: what one unit of shift moves. A trial slump moves both, so it is counted once.
    fn error_m(&self, shift: &Shift, weights: &[f64], [factor, lever]: [f64; 2]) -> f64 {
        let moved = weights.iter().zip(&shift.trial_weights).map(|(w, t)| square(factor * w - lever * t));
        let tests = moved.sum::<f64>() + square(lever) * shift.test_variance;
        let test = square(self.errors.test.to_meters()) * tests;
        let between = square(self.errors.between_loads.to_meters() * lever) * shift.between_variance;
        (test + between).sqrt()
    }

    /// The shift of a load nobody tested.
    fn mean_shift(&self) -> Shift {
        let tested: Vec<&Shift> = self.loads.iter().flatten().collect();
        if tested.is_empty() {
            return Shift::none(self.trial, self.adjustment);
        }
        let count = tested.len() as f64;
        let mean = |read: &dyn Fn(&Shift) -> f64| tested.iter().map(|one| read(one)).sum::<f64>() / count;
        let per_meter = mean(&|shift| shift.per_meter);
        Shift {
            value: mean(&|shift| shift.value),
            trial_weights: (0..self.trial.len()).map(|k| mean(&|shift| shift.trial_weights[k])).collect(),
            test_variance: mean(&|shift| shift.test_variance) / count,
            between_variance: mean(&|shift| square(shift.per_meter)) / count + square(per_meter),
            per_meter,
        }
    }
}

impl Shift {
    /// The shift of a load from its tests; `None` without one.
    fn of(
        trial: &SlumpTrial,
        tests: &[SlumpAtAge],
        adjustment: Adjustment,
    ) -> Result<Option<Shift>, SlumpError> {
        let count = tests.len() as f64;
        if tests.is_empty() {
            return Ok(None);
        }
        let weights: Vec<Vec<f64>> =
            tests.iter().filter_map(|test| trial.weights_at(test.age.to_seconds())).collect();
        let mean_weights: Vec<f64> =
            (0..trial.len()).map(|k| weights.iter().map(|of_test| of_test[k]).sum::<f64>() / count).collect();
        let measured = tests.iter().map(|test| test.slump.to_meters()).sum::<f64>() / count;
        let tried = trial.slump_of(&mean_weights);
        let (value, per_meter, slope) = match adjustment {
            Adjustment::Offset => (measured - tried, 1.0, 1.0),
            Adjustment::Scale if measured <= 0.0 || tried <= 0.0 => return Err(SlumpError::NothingToScale),
            Adjustment::Scale => (measured / tried, 1.0 / tried, measured / tried / tried),
        };
        Ok(Some(Shift {
            value,
            trial_weights: mean_weights.iter().map(|weight| slope * weight).collect(),
            test_variance: square(per_meter) / count,
            between_variance: 0.0,
            per_meter,
        }))
    }

    /// No shift at all: the day is the trial, as far as anybody knows.
    fn none(trial: &SlumpTrial, adjustment: Adjustment) -> Shift {
        let (value, per_meter) = match adjustment {
            Adjustment::Offset => (0.0, 1.0),
            // Without a test a scale is anchored at the first trial slump.
            Adjustment::Scale => (1.0, 1.0 / trial.first_m()),
        };
        let trial_weights = vec![0.0; trial.len()];
        Shift { value, trial_weights, test_variance: 0.0, between_variance: square(per_meter), per_meter }
    }
}

fn square(value: f64) -> f64 {
    value * value
}
