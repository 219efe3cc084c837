//! How long something has waited: the hole, the fluid, the load, the pour.
//!
//! Most limits of a pour day are clocks. Each runs from one thing somebody saw to another, and a clock
//! whose end has not come yet is still running.
//!
//! Words: *wait* = the time between two named moments; *gap* = time in which nothing went on;
//! *work* = a stretch in which something did.
//! Never: read a clock; know how long is too long.

use quantity::{InOrder, Moment, Span};

/// The moments of a hole, as far as they have come.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct HoleMoments {
    /// The first tool went below ground.
    pub excavation_started: Option<Moment>,
    /// Fluid first stood against the wall.
    pub fluid_introduced: Option<Moment>,
    /// The bottom was reached.
    pub bottom_reached: Option<Moment>,
    /// The last cleaning pass ended.
    pub cleaned: Option<Moment>,
    /// The base was accepted.
    pub base_accepted: Option<Moment>,
    /// Concrete began to flow.
    pub concrete_started: Option<Moment>,
    /// The last concrete was in.
    pub concrete_finished: Option<Moment>,
    /// The casing was out.
    pub casing_out: Option<Moment>,
}

/// The moments of a load, as far as they have come.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct LoadMoments {
    /// Batched: water met cement.
    pub batched: Option<Moment>,
    /// Came to the site.
    pub arrived: Option<Moment>,
    /// Discharge began.
    pub discharge_started: Option<Moment>,
    /// Discharge ended.
    pub discharge_finished: Option<Moment>,
}

/// One wait.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Wait {
    /// It has not begun, or nobody wrote down that it has.
    NotBegun,
    /// It began and goes on.
    Running(Span),
    /// It is over.
    Over(Span),
}

/// The waits of a hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoleWaits {
    /// First tool to bottom.
    pub excavating: Result<Wait, WaitingError>,
    /// Bottom reached to concrete.
    pub open: Result<Wait, WaitingError>,
    /// Fluid against the wall to concrete.
    pub wall_exposed: Result<Wait, WaitingError>,
    /// End of cleaning to concrete.
    pub cleaned: Result<Wait, WaitingError>,
    /// Base accepted to concrete.
    pub accepted: Result<Wait, WaitingError>,
    /// First to last concrete.
    pub pouring: Result<Wait, WaitingError>,
    /// Last concrete to casing out.
    pub casing: Result<Wait, WaitingError>,
}

/// The waits of a load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadWaits {
    /// Batching to the end of discharge: what a delivery limit counts.
    pub batch_to_discharged: Result<Wait, WaitingError>,
    /// Batching to the start of discharge.
    pub batch_to_discharge: Result<Wait, WaitingError>,
    /// Arrival to the start of discharge.
    pub on_site: Result<Wait, WaitingError>,
    /// Start to end of discharge.
    pub discharging: Result<Wait, WaitingError>,
}

/// A stretch in which something went on: a discharge, a tool in the hole, a pump running.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Work {
    /// When it began.
    pub from: Moment,
    /// When it ended.
    pub until: Moment,
}

/// Time between two stretches of work.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// The work before it ended then.
    pub from: Moment,
    /// The work after it began then; the time of asking when none has.
    pub until: Moment,
    /// Whether it is still open.
    pub open: bool,
}

/// The next time something has to be done.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Due {
    /// When, cut to the whole second before.
    pub at: Moment,
    /// Time left; negative when it is overdue.
    pub remaining: Span,
}

/// Two readings of a drum counter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DrumCounter {
    /// The earlier reading.
    pub earlier: u32,
    /// The later reading.
    pub later: u32,
}

/// Why a wait cannot be reckoned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WaitingError {
    /// The end lies before the beginning.
    Backwards {
        /// Beginning as written.
        from: Moment,
        /// End as written.
        until: Moment,
    },
    /// The drum counter went back.
    CounterBack {
        /// As read.
        given: DrumCounter,
    },
    /// An interval that is not greater than zero.
    Interval,
}

impl std::fmt::Display for WaitingError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            WaitingError::Backwards { from, until } => {
                write!(f, "the end {until} lies before the beginning {from}")
            }
            WaitingError::CounterBack { given } => {
                write!(f, "the drum counter went back from {} to {}", given.earlier, given.later)
            }
            WaitingError::Interval => write!(f, "the interval is not greater than zero"),
        }
    }
}

impl std::error::Error for WaitingError {}

impl HoleMoments {
    /// Every wait of the hole, as seen at `now`.
    ///
    /// **Valid for** moments at or before `now`.
    ///
    /// **Errors**, wait by wait, when an end lies before its beginning.
    ///
    /// **Source**: differences of moments.
    ///
    /// ```
    /// # use calc::waiting::{HoleMoments, Wait};
    /// # use quantity::{Moment, Span};
    /// let at = |clock: &str| Moment::parse(&format!("2026-05-04T{clock}:00-06:00")).ok();
    /// let hole = HoleMoments { cleaned: at("11:30"), ..HoleMoments::default() };
    /// let waits = hole.waits(at("12:10").expect("a moment"));
    /// assert_eq!(waits.cleaned, Ok(Wait::Running(Span::minutes(40.0))));
    /// assert_eq!(waits.open, Ok(Wait::NotBegun));
    /// ```
    pub fn waits(&self, now: Moment) -> HoleWaits {
        let to_concrete = |from| wait(from, self.concrete_started, now);
        HoleWaits {
            excavating: wait(self.excavation_started, self.bottom_reached, now),
            open: to_concrete(self.bottom_reached),
            wall_exposed: to_concrete(self.fluid_introduced),
            cleaned: to_concrete(self.cleaned),
            accepted: to_concrete(self.base_accepted),
            pouring: wait(self.concrete_started, self.concrete_finished, now),
            casing: wait(self.concrete_finished, self.casing_out, now),
        }
    }
}

impl LoadMoments {
    /// Every wait of the load, as seen at `now`.
    ///
    /// **Errors**, wait by wait, when an end lies before its beginning.
    ///
    /// **Source**: differences of moments.
    ///
    /// ```
    /// # use calc::waiting::{LoadMoments, Wait};
    /// # use quantity::{Moment, Span};
    /// let at = |clock: &str| Moment::parse(&format!("2026-05-04T{clock}:00-06:00")).ok();
    /// let load = LoadMoments { batched: at("09:00"), discharge_finished: at("10:25"), ..LoadMoments::default() };
    /// let waits = load.waits(at("11:00").expect("a moment"));
    /// assert_eq!(waits.batch_to_discharged, Ok(Wait::Over(Span::minutes(85.0))));
    /// ```
    pub fn waits(&self, now: Moment) -> LoadWaits {
        LoadWaits {
            batch_to_discharged: wait(self.batched, self.discharge_finished, now),
            batch_to_discharge: wait(self.batched, self.discharge_started, now),
            on_site: wait(self.arrived, self.discharge_started, now),
            discharging: wait(self.discharge_started, self.discharge_finished, now),
        }
    }
}

/// The time from one moment to another, or to `now` while the other has not come.
fn wait(from: Option<Moment>, until: Option<Moment>, now: Moment) -> Result<Wait, WaitingError> {
    let Some(from) = from else { return Ok(Wait::NotBegun) };
    let end = until.unwrap_or(now);
    if end < from {
        return Err(WaitingError::Backwards { from, until: end });
    }
    let span = Span::minutes(end.minutes_since(from));
    Ok(if until.is_some() { Wait::Over(span) } else { Wait::Running(span) })
}

impl Gap {
    /// How long it lasted.
    ///
    /// **Source**: difference of moments.
    pub fn span(&self) -> Span {
        Span::minutes(self.until.minutes_since(self.from))
    }
}

/// The gaps between stretches of work, in order of time, the last one open until `now`.
///
/// **Valid for** stretches in any order; overlapping ones leave no gap between them. Used for interruptions
/// between loads (work = discharge) and for fluid that stood (work = tool or pump moving it).
///
/// **Errors** when a stretch ends before it begins.
///
/// **Source**: differences of moments.
///
/// ```
/// # use calc::waiting::{Work, gaps};
/// # use quantity::Moment;
/// # let at = |clock: &str| Moment::parse(&format!("2026-05-04T{clock}:00-06:00")).expect("a moment");
/// let trucks = [
///     Work { from: at("10:00"), until: at("10:15") },
///     Work { from: at("10:40"), until: at("10:55") },
/// ];
/// let minutes: Vec<f64> = gaps(&trucks, at("11:00"))?.iter().map(|gap| gap.span().to_minutes()).collect();
/// assert_eq!(minutes, [25.0, 5.0]);
/// # Ok::<(), calc::waiting::WaitingError>(())
/// ```
pub fn gaps(work: &[Work], now: Moment) -> Result<Vec<Gap>, WaitingError> {
    if let Some(bad) = work.iter().find(|work| work.until < work.from) {
        return Err(WaitingError::Backwards { from: bad.from, until: bad.until });
    }
    let mut ordered = work.to_vec();
    ordered.put_in_order_by_key(|work| (work.from, work.until));
    let mut gaps = Vec::new();
    let Some(mut ended) = ordered.first().map(|work| work.until) else { return Ok(gaps) };
    for next in &ordered[1..] {
        if ended < next.from {
            gaps.push(Gap { from: ended, until: next.from, open: false });
        }
        ended = ended.max(next.until);
    }
    if ended < now {
        gaps.push(Gap { from: ended, until: now, open: true });
    }
    Ok(gaps)
}

/// The longest gap, the earliest if several are; `None` when there was none.
///
/// **Source**: greatest difference of moments.
pub fn longest(gaps: &[Gap]) -> Option<Gap> {
    let seconds = |gap: &Gap| gap.until.seconds() - gap.from.seconds();
    gaps.iter().copied().reduce(|best, gap| if seconds(&best) < seconds(&gap) { gap } else { best })
}

/// When something that has to be done every so often is due again.
///
/// **Errors** when the interval is not greater than zero.
///
/// **Source**: last time plus interval.
///
/// ```
/// # use calc::waiting::next_due;
/// # use quantity::{Moment, Span};
/// # let at = |clock: &str| Moment::parse(&format!("2026-05-04T{clock}:00-06:00")).expect("a moment");
/// let due = next_due(at("08:30"), Span::hours(2.0), at("10:00"))?;
/// assert_eq!((due.at, due.remaining.to_minutes()), (at("10:30"), 30.0));
/// # Ok::<(), calc::waiting::WaitingError>(())
/// ```
pub fn next_due(done: Moment, every: Span, now: Moment) -> Result<Due, WaitingError> {
    if every.to_seconds() <= 0.0 {
        return Err(WaitingError::Interval);
    }
    let at = done.plus_seconds(libm::floor(every.to_seconds()) as i64);
    Ok(Due { at, remaining: Span::minutes(every.to_minutes() - now.minutes_since(done)) })
}

/// Turns of the drum between two readings of its counter.
///
/// **Errors** when the counter went back: it was reset, or one reading is wrong.
///
/// **Source**: difference.
///
/// ```
/// # use calc::waiting::{DrumCounter, revolutions};
/// assert_eq!(revolutions(DrumCounter { earlier: 110, later: 142 }), Ok(32));
/// ```
pub fn revolutions(counter: DrumCounter) -> Result<u32, WaitingError> {
    counter.later.checked_sub(counter.earlier).ok_or(WaitingError::CounterBack { given: counter })
}

#[cfg(test)]
mod tests;
