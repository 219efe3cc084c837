//! How long concrete stays workable: the slump-loss trial carried over to the loads of the day.
//!
//! The concrete that went in first has to flow until the casing is out and the last insert is in. A trial
//! says how the mix stiffens; the slump tests of the day say how each load differs from the trial; the two
//! together give the age at which a load reaches the least slump the job allows.
//!
//! Words: *age* = time since batching; *life* = the age at which the slump reaches the limit;
//! *shift* = how a load differs from the trial.
//! Units: SI inside. Between two trial points the slump runs straight: an inspector can check it with a
//! ruler on the trial sheet, and no curve is made up that nobody measured.
//! Never: go beyond the last trial point; know the limit of a job.

use quantity::{Length, Moment, Span};

/// One slump of the trial or of the day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlumpAtAge {
    /// Time since batching.
    pub age: Span,
    /// The slump.
    pub slump: Length,
}

/// A slump-loss trial. Invariant: two points or more, ages rising.
#[derive(Debug, Clone, PartialEq)]
pub struct SlumpTrial {
    points: Vec<SlumpAtAge>,
}

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

/// The age at which a load reaches a slump.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlumpLife {
    /// Time since batching.
    pub age: Span,
    /// Its standard error.
    pub standard_error: Span,
}

/// A load with its life.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AgingLoad {
    /// When it was batched.
    pub batched: Moment,
    /// How long it stays workable.
    pub life: SlumpLife,
}

/// Something in the trial or the tests to look at again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SlumpIssue {
    /// The trial slump rose at this point.
    TrialRises {
        /// Index of the higher, later point.
        at: usize,
    },
    /// A test of the day was made at an age the trial does not cover; it was left out.
    TestOutsideTrial {
        /// Index of the load.
        load: usize,
        /// Index of the test within the load.
        test: usize,
    },
}

/// Why a slump or an age cannot be reckoned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SlumpError {
    /// A trial needs two points.
    TooFewPoints,
    /// Ages must rise from point to point.
    AgesOutOfOrder {
        /// Index of the later point.
        at: usize,
    },
    /// The trial does not cover this age.
    OutsideTrial {
        /// As asked.
        age: Span,
    },
    /// The slump is still above the limit at the end of the trial: at least this age is sure.
    NotReached {
        /// Age of the last trial point.
        sure_until: Span,
    },
    /// The slump is below the limit at the first trial point.
    BelowFromTheStart,
    /// The load has no number in this curve.
    NoSuchLoad,
    /// Tests of no slump at all cannot scale a trial.
    NothingToScale,
}

impl std::fmt::Display for SlumpError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            SlumpError::TooFewPoints => write!(f, "a slump-loss trial needs at least two points"),
            SlumpError::AgesOutOfOrder { .. } => write!(f, "the ages of the trial do not rise"),
            SlumpError::OutsideTrial { age } => {
                write!(f, "the trial does not cover an age of {:.0} min", age.to_minutes())
            }
            SlumpError::NotReached { sure_until } => {
                write!(f, "the trial ends at {:.0} min above the limit", sure_until.to_minutes())
            }
            SlumpError::BelowFromTheStart => write!(f, "the slump is below the limit from the start"),
            SlumpError::NoSuchLoad => write!(f, "the curve has no such load"),
            SlumpError::NothingToScale => write!(f, "a slump of zero cannot scale a trial"),
        }
    }
}

impl std::error::Error for SlumpError {}

/// A place on the trial line where it comes down to a slump.
struct Crossing {
    age_s: f64,
    /// Metres per second, negative.
    slope: f64,
    /// Where between the two points, 0 to 1.
    weight: f64,
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

    fn crossing(&self, slump_m: f64) -> Result<Crossing, SlumpError> {
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
    /// **Source**: linear propagation of errors.
    pub fn life(&self, load: usize, limit: Length) -> Result<SlumpLife, SlumpError> {
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
        let standard_error = Span::seconds(error_m / steepness);
        Ok(SlumpLife { age: Span::seconds(crossing.age_s), standard_error })
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
            Adjustment::Scale => 1.0 / self.trial.points[0].slump.to_meters(),
        }
    }
}

impl SlumpTrial {
    /// Slump of each test beside the trial slump at its age, metres.
    fn pairs(&self, tests: &[SlumpAtAge], load: usize, issues: &mut Vec<SlumpIssue>) -> Vec<(f64, f64)> {
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

impl AgingLoad {
    /// Time left until the load reaches its limit; negative once it has.
    ///
    /// **Source**: life minus age.
    pub fn remaining(&self, now: Moment) -> Span {
        Span::minutes(self.life.age.to_minutes() - now.minutes_since(self.batched))
    }

    /// The moment at which the load reaches its limit, cut to the whole second before.
    pub fn reaches_limit(&self) -> Moment {
        self.batched.plus_seconds(libm::floor(self.life.age.to_seconds()) as i64)
    }
}

/// The load that reaches its limit first, by index; the first such if several do; `None` without loads.
///
/// It is not always the oldest: a load that came in stiff may run out before an older one.
///
/// **Source**: least of `batched + life`.
pub fn first_to_stiffen(loads: &[AgingLoad]) -> Option<usize> {
    (0..loads.len()).min_by_key(|&index| (loads[index].reaches_limit().seconds(), index))
}

/// The load batched first, by index; `None` without loads.
///
/// **Valid for** every load that may still be in the shaft: in an unreinforced hole the first batch stays on
/// top, in a reinforced one it is spread through the cover, so the whole pour is as old as its first batch.
///
/// **Source**: least batch time.
pub fn oldest(loads: &[AgingLoad]) -> Option<usize> {
    (0..loads.len()).min_by_key(|&index| (loads[index].batched.seconds(), index))
}

#[cfg(test)]
#[path = "slump_tests.rs"]
mod tests;
