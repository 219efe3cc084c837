//! What setting a time back means, in words, before it is saved.
//!
//! An entry may be written after the fact; the record says so wherever it is shown. Whoever sets a time
//! back sees that sentence first.
//!
//! Words: *late* = written down well after it was seen.
//! Never: forbid a late entry, hide that it is one.

use super::time::Clock;
use quantity::{Moment, Span};
use record::log::LATE_AFTER_MINUTES;
use wording::Show;

/// What a time that was set says about the entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Seen {
    /// When it was seen.
    pub at: Moment,
    /// The record will call it late.
    pub late: bool,
    /// The time lies ahead of the clock.
    pub ahead: bool,
    /// `seen 10:41, entered 11:20: late by 39 min`.
    pub sentence: String,
}

/// What a text in the field of the time means; `None` when it names no time.
pub fn typed(text: &str, now: Moment, show: &Show) -> Option<Seen> {
    Clock::at(now).moment(text).map(|at| seen(at, now, show))
}

/// The time so many minutes before now: the keys "5 min ago", "15 min ago".
pub fn minutes_ago(minutes: u32, now: Moment, show: &Show) -> Seen {
    let at = now.plus_seconds(-60 * i64::from(minutes));
    seen(at, now, show)
}

/// What a time means for an entry that is entered now.
pub fn seen(at: Moment, now: Moment, show: &Show) -> Seen {
    let minutes = now.minutes_since(at);
    let (late, ahead) = (minutes > LATE_AFTER_MINUTES, minutes < 0.0);
    let show = show.clone().on_day_of(now);
    let (seen, entered) = (show.moment(at), show.moment(now));
    let span = show.span(Span::minutes(minutes.abs()));
    let sentence = if minutes == 0.0 {
        format!("seen and entered {seen}")
    } else if ahead {
        format!("seen {seen}, entered {entered}: {span} ahead of the clock; is the time right?")
    } else if late {
        format!("seen {seen}, entered {entered}: late by {span}, and marked so wherever it is shown")
    } else {
        format!("seen {seen}, entered {entered}: {span} later")
    };
    Seen { at, late, ahead, sentence }
}
