//! Forecasts: what will happen next if nothing changes, and what to do now.
//!
//! A forecast is no verdict. It carries the moment or the move at which something would go wrong, with the
//! uncertainty of the readings it comes from.
//!
//! Never: format text; say that something is safe.

mod casing;
mod embedment;
mod order;
pub(crate) mod slump;
mod time;

use crate::facts::Sources;
use criteria::{Limits, SetInForce, Situation};
use quantity::{InOrder, Length, Moment, Number, Span, Volume};
use record::EntryId;

/// How soon somebody has to act, in the order forecasts are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Urgency {
    /// It has happened, or happens with the next move.
    Now,
    /// Within the half hour, or with the move after the next.
    Soon,
    /// Later.
    Later,
}

/// What is coming.
#[derive(Debug, Clone, PartialEq)]
pub enum Outlook {
    /// Embedment of a line, and what may come off.
    Embedment {
        /// The line.
        line: String,
        /// Embedment now.
        now: Length,
        /// Its standard error.
        error: Length,
        /// What is required, or watched where no limit is set.
        required: Length,
        /// The limit in force, or an assumed one.
        limit_set: bool,
        /// How far the tip may be lifted; negative: too high already.
        safe_lift: Length,
        /// How many pieces may come off now.
        pieces: usize,
        /// Embedment after one more piece; `None` when there is none to take off.
        after_next: Option<Length>,
    },
    /// Slump life of the oldest concrete.
    SlumpLife {
        /// The load.
        ticket: String,
        /// When it reaches the least slump.
        ends: Moment,
        /// Standard error of that.
        error: Span,
        /// The moments between which it does so nine times in ten; `None` for an end the trial does not see.
        between: [Option<Moment>; 2],
        /// Time left.
        left: Span,
        /// When the work is planned to end; `None` when nobody planned it.
        planned_end: Option<Moment>,
    },
    /// The next test of the fluid.
    FluidTestDue {
        /// When.
        at: Moment,
        /// Time left; negative: overdue.
        left: Span,
    },
    /// Head over the shoe at the next lift of a casing.
    HeadAtNextLift {
        /// The casing.
        casing: String,
        /// Head now.
        now: Length,
        /// What is required, or watched.
        required: Length,
        /// The limit in force, or an assumed one.
        limit_set: bool,
        /// How far it may be lifted before the head is too small; negative: too small already.
        safe_lift: Length,
        /// Concrete to add for a lift of the watched step; `None` when it cannot be reckoned.
        add: Option<Volume>,
    },
    /// Time since concrete last went in.
    Gap {
        /// Since when.
        since: Moment,
        /// How long.
        lasted: Span,
        /// What is allowed; `None`: no limit is set.
        allowed: Option<Span>,
    },
    /// Concrete still to order.
    StillToOrder {
        /// From the last sounding to the top and the over-pour, at this shaft's own ratio.
        volume: Volume,
        /// Its standard error.
        error: Volume,
        /// Already on site, not yet in.
        on_the_way: Volume,
        /// Ordered, not yet on site.
        ordered: Volume,
    },
    /// A limit of time runs out.
    TimeLimit {
        /// Name of the fact.
        fact: &'static str,
        /// The load, where it is about one.
        ticket: Option<String>,
        /// When it runs out.
        ends: Moment,
        /// Time left; negative: over.
        left: Span,
    },
}

/// A forecast.
#[derive(Debug, Clone, PartialEq)]
pub struct Forecast {
    /// How soon somebody has to act.
    pub urgency: Urgency,
    /// What is coming.
    pub outlook: Outlook,
    /// The entries it comes from.
    pub evidence: Vec<EntryId>,
}

/// Everything a forecast looks at.
pub struct View<'v, 'r> {
    /// Log, picture and reckoning.
    pub sources: Sources<'v, 'r>,
    /// The criteria in force.
    pub set: &'v SetInForce,
    /// What is known of the shaft.
    pub situation: &'v Situation,
}

impl View<'_, '_> {
    /// The strictest lower limit in force for a fact, in SI.
    pub(crate) fn least(&self, fact: &str) -> Option<f64> {
        self.limits(fact).filter_map(|limits| limits.low).map(Number::to_f64).reduce(f64::max)
    }

    /// The strictest upper limit in force for a fact, in SI.
    pub(crate) fn most(&self, fact: &str) -> Option<f64> {
        self.limits(fact).filter_map(|limits| limits.high).map(Number::to_f64).reduce(f64::min)
    }

    fn limits(&self, fact: &str) -> impl Iterator<Item = Limits> {
        self.set.judge(fact, None, self.situation).into_iter().filter_map(|(_, judgement)| judgement.limits)
    }

    /// Now.
    fn now(&self) -> Moment {
        self.sources.picture.now
    }
}

/// How soon, by the minutes left.
fn urgency(left: Span) -> Urgency {
    match left.to_minutes() {
        minutes if minutes <= 0.0 => Urgency::Now,
        minutes if minutes <= 30.0 => Urgency::Soon,
        _ => Urgency::Later,
    }
}

/// Every forecast, the most urgent first; those of one urgency in the order of the files.
pub fn all(view: &View<'_, '_>) -> Vec<Forecast> {
    let families: [fn(&View<'_, '_>) -> Vec<Forecast>; 5] =
        [embedment::forecast, casing::forecast, slump::forecast, time::forecast, order::forecast];
    let mut all: Vec<Forecast> = families.iter().flat_map(|family| family(view)).collect();
    all.put_in_order_by_key(|forecast| forecast.urgency);
    all
}
