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

mod day;
mod interval;
mod trial;

pub use day::{Adjustment, DayCurve, SlumpErrors};
pub use interval::LifeInterval;
pub use trial::SlumpTrial;

use crate::estimate::Estimate;
use quantity::{Length, Moment, Span};

/// One slump of the trial or of the day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlumpAtAge {
    /// Time since batching.
    pub age: Span,
    /// The slump.
    pub slump: Length,
}

/// A load with its life.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AgingLoad {
    /// When it was batched.
    pub batched: Moment,
    /// The age until which it stays workable.
    pub life: Estimate<Span>,
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
    /// A probability outside of 0 to 1, ends excluded, was asked for.
    Probability,
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
            SlumpError::Probability => write!(f, "a probability lies between 0 and 1"),
        }
    }
}

impl std::error::Error for SlumpError {}

impl AgingLoad {
    /// Time left until the load reaches its limit; negative once it has.
    ///
    /// **Source**: life minus age.
    ///
    /// ```
    /// # use calc::{estimate::Estimate, slump::AgingLoad};
    /// # use quantity::{Moment, Span};
    /// let at = |clock: &str| Moment::parse(&format!("2026-05-04T{clock}:00-06:00"));
    /// let life = Estimate::new(Span::minutes(200.0), Span::minutes(12.0));
    /// let load = AgingLoad { batched: at("09:00")?, life };
    /// assert_eq!(load.remaining(at("11:30")?).to_minutes(), 50.0);
    /// # Ok::<(), quantity::MomentError>(())
    /// ```
    pub fn remaining(&self, now: Moment) -> Span {
        Span::minutes(self.life.value.to_minutes() - now.minutes_since(self.batched))
    }

    /// The moment at which the load reaches its limit, cut to the whole second before.
    ///
    /// **Source**: batch time plus life.
    pub fn reaches_limit(&self) -> Moment {
        self.batched.plus_seconds(libm::floor(self.life.value.to_seconds()) as i64)
    }
}

/// The load that reaches its limit first, by index; the first such if several do; `None` without loads.
///
/// It is not always the oldest: a load that came in stiff may run out before an older one.
///
/// **Source**: least of `batched + life`.
///
/// ```
/// # use calc::{estimate::Estimate, slump::{AgingLoad, first_to_stiffen, oldest}};
/// # use quantity::{Moment, Span};
/// # let load = |clock: &str, minutes| AgingLoad {
/// #     batched: Moment::parse(&format!("2026-05-04T{clock}:00-06:00")).expect("a moment"),
/// #     life: Estimate::new(Span::minutes(minutes), Span::minutes(12.0)),
/// # };
/// let loads = [load("09:00", 200.0), load("09:30", 150.0)];
/// assert_eq!((oldest(&loads), first_to_stiffen(&loads)), (Some(0), Some(1)));
/// ```
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
mod tests;
