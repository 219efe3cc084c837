//! The trial carried over to the loads of one day.
//!
//! No load is quite like the trial. A test of the day says by how much, and how far that can be trusted; a
//! load that nobody tested is taken to be like the mean of the others, and is known less well.
//!
//! Words: *shift* = how a load differs from the trial, as inches or as a factor.
//! Units: metres and seconds inside. Never: choose between inches and factor; the job does.

use super::trial::{Crossing, SlumpTrial};
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
    /// Shift and number of usable tests of each load; no test, no shift of its own.
    loads: Vec<Option<Shift>>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Shift {
    /// Metres for an offset, plain for a scale.
    value: f64,
    /// How much one metre of slump error moves `value`: 1 for an offset.
    per_meter: f64,
    tests: usize,
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
            let pairs = trial.pairs(of_load, load, &mut issues);
            loads.push(shift(&pairs, adjustment)?);
        }
        Ok((DayCurve { trial, adjustment, errors, loads }, issues))
    }

    /// The age at which a load reaches a slump, with its standard error.
    ///
    /// `trial(age) = limit − o` or `trial(age) = limit / k`; `σage = σslump / |slope of the trial there|`
    ///
    /// A load without a test takes the mean shift of the tested ones, and the spread between loads as its
    /// error; on a day without any test the trial stands as it is.
    ///
    /// **Valid for** a mix that stiffens as in its trial. The error counts the trial points beside the
    /// crossing, the tests and the loads as independent; it does not know a hotter day.
    ///
    /// **Errors** as [`SlumpTrial::age_at`], and for a load the curve does not have.
    ///
    /// **Source**: [GUM], 5.1.2.
    pub fn life(&self, load: usize, limit: Length) -> Result<Estimate<Span>, SlumpError> {
        let own = *self.loads.get(load).ok_or(SlumpError::NoSuchLoad)?;
        let shift = own.unwrap_or_else(|| self.mean_shift());
        let wanted = match self.adjustment {
            Adjustment::Offset => limit.to_meters() - shift.value,
            Adjustment::Scale => limit.to_meters() / shift.value,
        };
        let crossing = self.trial.crossing(wanted)?;
        let error_m =
            libm::hypot(self.shift_error_m(own, shift, wanted), self.trial_error_m(&crossing, shift));
        let steepness = crossing.slope.abs() * self.factor(shift);
        Ok(Estimate::new(Span::seconds(crossing.age_s), Span::seconds(error_m / steepness)))
    }

    /// By how much a slump of the trial is stretched for the load.
    fn factor(&self, shift: Shift) -> f64 {
        match self.adjustment {
            Adjustment::Offset => 1.0,
            Adjustment::Scale => shift.value,
        }
    }

    /// What the shift of a load adds to the error of its slump, metres.
    fn shift_error_m(&self, own: Option<Shift>, shift: Shift, wanted_m: f64) -> f64 {
        let (test, between) = (self.errors.test.to_meters(), self.errors.between_loads.to_meters());
        let tested = self.loads.iter().flatten().count() as f64;
        let slump_error = match own {
            Some(own) => test / (own.tests as f64).sqrt(),
            None if tested > 0.0 => {
                (between * between * (1.0 + 1.0 / tested) + test * test / shift.tests as f64).sqrt()
            }
            None => between,
        };
        match self.adjustment {
            Adjustment::Offset => slump_error,
            Adjustment::Scale => slump_error * shift.per_meter * wanted_m,
        }
    }

    /// What the two trial tests beside the crossing add, metres.
    fn trial_error_m(&self, crossing: &Crossing, shift: Shift) -> f64 {
        let weights = libm::hypot(1.0 - crossing.weight, crossing.weight);
        self.errors.test.to_meters() * weights * self.factor(shift)
    }

    /// The shift of a load nobody tested.
    fn mean_shift(&self) -> Shift {
        let tested: Vec<Shift> = self.loads.iter().flatten().copied().collect();
        if tested.is_empty() {
            return Shift { value: self.no_shift(), per_meter: self.error_per_meter_untested(), tests: 0 };
        }
        let mean = |read: fn(&Shift) -> f64| tested.iter().map(read).sum::<f64>() / tested.len() as f64;
        Shift {
            value: mean(|shift| shift.value),
            per_meter: mean(|shift| shift.per_meter),
            tests: tested.iter().map(|shift| shift.tests).sum(),
        }
    }

    fn no_shift(&self) -> f64 {
        match self.adjustment {
            Adjustment::Offset => 0.0,
            Adjustment::Scale => 1.0,
        }
    }

    /// Without a test a scale is anchored at the first trial slump.
    fn error_per_meter_untested(&self) -> f64 {
        match self.adjustment {
            Adjustment::Offset => 1.0,
            Adjustment::Scale => 1.0 / self.trial.first_m(),
        }
    }
}

fn shift(pairs: &[(f64, f64)], adjustment: Adjustment) -> Result<Option<Shift>, SlumpError> {
    let tests = pairs.len();
    let measured: f64 = pairs.iter().map(|pair| pair.0).sum();
    let tried: f64 = pairs.iter().map(|pair| pair.1).sum();
    match adjustment {
        _ if tests == 0 => Ok(None),
        Adjustment::Offset => {
            Ok(Some(Shift { value: (measured - tried) / tests as f64, per_meter: 1.0, tests }))
        }
        Adjustment::Scale if measured <= 0.0 || tried <= 0.0 => Err(SlumpError::NothingToScale),
        Adjustment::Scale => {
            Ok(Some(Shift { value: measured / tried, per_meter: tests as f64 / tried, tests }))
        }
    }
}
