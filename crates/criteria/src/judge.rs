//! The verdict: a value against a limit, compared exactly and before any rounding.
//!
//! Never a bare yes or no: *not measured* is not *meets*, and *no limit set* is not *meets* either. Where a
//! comparison would be a guess, the verdict says what is missing instead.
//!
//! Words: *margin* = how far inside; *excess* = how far outside; *obstacle* = why no comparison is possible.
//! Never: round; compare a quart time with a litre time; assume a condition.

use crate::applied::InForce;
use crate::conditions::Topic;
use crate::dimensions::{Dimension, Dimensions};
use crate::exact;
use crate::limit::{Limit, LimitUnit, Rule};
use crate::measured::{Difference, Measured};
use quantity::{Number, Unit};

/// The outcome for one criterion.
#[derive(Debug, Clone, PartialEq)]
pub enum Verdict {
    /// `margin` is how far inside the nearer limit the value lies, zero on it; `None` for yes and no.
    Meets {
        /// How far inside.
        margin: Option<Difference>,
    },
    /// `excess` is how far outside; zero where the limit itself does not meet; `None` for yes and no.
    Fails {
        /// How far outside.
        excess: Option<Difference>,
        /// On which side.
        side: Side,
    },
    /// There is no value.
    NotMeasured,
    /// There is nothing to compare with.
    NoLimitSet(NoLimit),
    /// A comparison would be a guess.
    CannotSay(Vec<Obstacle>),
}

/// On which side of the limit a failing value lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Above the upper limit.
    Above,
    /// Below the lower limit.
    Below,
    /// It is not so, and should be; or is so, and should not.
    Otherwise,
}

/// Why there is no limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoLimit {
    /// The set in force has no criterion for this fact under these conditions.
    NotInSet,
    /// The document asks for the value and names no number.
    ReportOnly,
    /// The job turned the criterion off, with a reason.
    TurnedOff,
}

/// Why no comparison is possible.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Obstacle {
    /// Nobody recorded what decides whether the criterion applies.
    ConditionUnknown(Topic),
    /// The limit hangs on a number nobody recorded.
    DimensionUnknown(Dimension),
    /// A Marsh time for one volume against a limit for another.
    OtherVolume {
        /// Of the reading.
        measured: &'static Unit,
        /// Of the limit.
        limit: &'static Unit,
    },
    /// The value is not of the sort the fact has: a fault of the program that asked.
    OtherSort,
}

/// The limits a value was compared with, in SI, after every recipe was worked out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// The lower limit.
    pub low: Option<Number>,
    /// The upper limit.
    pub high: Option<Number>,
    /// Unit of the limit as printed.
    pub unit: LimitUnit,
}

/// A verdict with what it was made of.
#[derive(Debug, Clone, PartialEq)]
pub struct Judgement {
    /// The outcome.
    pub verdict: Verdict,
    /// What was compared with, where there is a number.
    pub limits: Option<Limits>,
    /// The value lies nearer to the limit than the usual instrument can tell.
    pub within_accuracy: bool,
}

impl Judgement {
    /// A judgement without a comparison.
    pub fn bare(verdict: Verdict) -> Self {
        Judgement { verdict, limits: None, within_accuracy: false }
    }
}

/// Compares a value with a criterion.
pub fn judge(criterion: &InForce, measured: Option<Measured>, dimensions: &Dimensions) -> Judgement {
    let Some(rule) = criterion.rule() else {
        return Judgement::bare(Verdict::NoLimitSet(NoLimit::TurnedOff));
    };
    let limits = limits_of(rule, dimensions);
    let shown = limits.as_ref().ok().copied().flatten();
    let unmeasured = |verdict| Judgement { verdict, limits: shown, within_accuracy: false };
    let Some(measured) = measured else { return unmeasured(Verdict::NotMeasured) };
    if !measured.fits(criterion.original.fact.measure) {
        return unmeasured(Verdict::CannotSay(vec![Obstacle::OtherSort]));
    }
    match (rule, measured, limits) {
        (Rule::Report, ..) => unmeasured(Verdict::NoLimitSet(NoLimit::ReportOnly)),
        (Rule::Yes, Measured::Truth(value), _) => unmeasured(truth(value)),
        (Rule::No, Measured::Truth(value), _) => unmeasured(truth(!value)),
        (_, _, Err(missing)) => {
            let obstacles = missing.into_iter().map(Obstacle::DimensionUnknown).collect();
            unmeasured(Verdict::CannotSay(obstacles))
        }
        (_, _, Ok(limits)) => measured_against(criterion, rule, measured, limits),
    }
}

/// The last step, where there are numbers on both sides.
fn measured_against(
    criterion: &InForce,
    rule: &Rule,
    measured: Measured,
    limits: Option<Limits>,
) -> Judgement {
    let (Some(limits), Some(number)) = (limits, measured.number()) else {
        return Judgement::bare(Verdict::CannotSay(vec![Obstacle::OtherSort]));
    };
    if let Some(obstacle) = other_volume(measured, limits.unit) {
        let verdict = Verdict::CannotSay(vec![obstacle]);
        return Judgement { verdict, limits: Some(limits), within_accuracy: false };
    }
    let strict = matches!(rule, Rule::Below(_) | Rule::Above(_));
    let verdict = compare(number, limits, strict);
    let within_accuracy = criterion.original.accuracy.as_ref().is_some_and(|accuracy| {
        nearest_gap(&verdict).is_some_and(|gap| exact::compare(gap, Number::Exact(accuracy.size())).is_le())
    });
    Judgement { verdict, limits: Some(limits), within_accuracy }
}

/// The limits of a rule, worked out; `None` where a rule has none.
fn limits_of(rule: &Rule, dimensions: &Dimensions) -> Result<Option<Limits>, Vec<Dimension>> {
    let one = |limit: &Limit| limit.value(dimensions);
    let (low, high, unit) = match rule {
        Rule::AtMost(limit) | Rule::Below(limit) => (None, Some(one(limit)?), limit.unit),
        Rule::AtLeast(limit) | Rule::Above(limit) => (Some(one(limit)?), None, limit.unit),
        Rule::Between { low, high } => {
            (Some(Number::Exact(low.value)), Some(Number::Exact(high.value)), low.unit)
        }
        Rule::Within { minus, plus } => {
            (Some(Number::Exact(-minus.value)), Some(Number::Exact(plus.value)), plus.unit)
        }
        Rule::Yes | Rule::No | Rule::Report => return Ok(None),
    };
    Ok(Some(Limits { low, high, unit }))
}

fn truth(value: bool) -> Verdict {
    if value {
        Verdict::Meets { margin: None }
    } else {
        Verdict::Fails { excess: None, side: Side::Otherwise }
    }
}

/// A Marsh time compares only with a limit for the same volume.
fn other_volume(measured: Measured, limit: LimitUnit) -> Option<Obstacle> {
    match (measured, limit) {
        (Measured::Funnel(time), LimitUnit::Unit(limit)) if time.basis() != limit => {
            Some(Obstacle::OtherVolume { measured: time.basis(), limit })
        }
        _ => None,
    }
}

fn compare(number: Number, limits: Limits, strict: bool) -> Verdict {
    let unit = limits.unit;
    let apart = |a, b| Some(Difference { number: exact::difference(a, b), unit });
    if let Some(high) = limits.high {
        let order = exact::compare(number, high);
        if order.is_gt() || (strict && order.is_eq()) {
            return Verdict::Fails { excess: apart(number, high).map(not_negative), side: Side::Above };
        }
    }
    if let Some(low) = limits.low {
        let order = exact::compare(number, low);
        if order.is_lt() || (strict && order.is_eq()) {
            return Verdict::Fails { excess: apart(low, number).map(not_negative), side: Side::Below };
        }
    }
    let to_high = limits.high.and_then(|high| apart(high, number));
    let to_low = limits.low.and_then(|low| apart(number, low));
    Verdict::Meets { margin: nearer(to_high, to_low).map(not_negative) }
}

fn nearer(a: Option<Difference>, b: Option<Difference>) -> Option<Difference> {
    match (a, b) {
        (Some(a), Some(b)) if b.number.to_f64() < a.number.to_f64() => Some(b),
        (Some(a), _) => Some(a),
        (None, b) => b,
    }
}

/// Inside the slack of a computed value the distance is nothing.
fn not_negative(difference: Difference) -> Difference {
    if difference.number.to_f64() < 0.0 {
        return Difference { number: Number::Computed(0.0), ..difference };
    }
    difference
}

fn nearest_gap(verdict: &Verdict) -> Option<Number> {
    match verdict {
        Verdict::Meets { margin: Some(gap) } | Verdict::Fails { excess: Some(gap), .. } => Some(gap.number),
        _ => None,
    }
}
