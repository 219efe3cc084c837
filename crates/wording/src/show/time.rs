//! Spans and clock times.

use super::Show;
use quantity::{Moment, Span};
use record::Log;
use std::collections::BTreeMap;

const MINUTES_PER_HOUR: i64 = 60;
const MINUTES_PER_DAY: i64 = 24 * MINUTES_PER_HOUR;

impl Show {
    /// A span to the minute: `25 min`, `1 h 25 min`, `2 d 3 h`; below a minute in seconds.
    pub fn span(&self, span: Span) -> String {
        let sign = if span.to_seconds() < 0.0 { "-" } else { "" };
        let minutes = whole(span.to_minutes().abs());
        if minutes == 0 && span.to_seconds() != 0.0 {
            return format!("{sign}{} s", whole(span.to_seconds().abs()));
        }
        let (days, hours) = (minutes / MINUTES_PER_DAY, minutes % MINUTES_PER_DAY / MINUTES_PER_HOUR);
        let rest = minutes % MINUTES_PER_HOUR;
        let text = match (days, hours, rest) {
            (0, 0, rest) => format!("{rest} min"),
            (0, hours, 0) => format!("{hours} h"),
            (0, hours, rest) => format!("{hours} h {rest} min"),
            (days, 0, _) => format!("{days} d"),
            (days, hours, _) => format!("{days} d {hours} h"),
        };
        format!("{sign}{text}")
    }

    /// A clock time in a sentence: `10:41`, with its day in front when it is not the main day:
    /// `13 May 2025 10:41`.
    pub fn moment(&self, moment: Moment) -> String {
        match &self.day {
            Some(day) if *day == moment.date() => moment.clock(),
            _ => format!("{} {}", day_text(moment), moment.clock()),
        }
    }

    /// A clock time in a column, with its date in front when it is not on the main day: `2025-05-13 10:41`.
    pub fn stamp(&self, moment: Moment) -> String {
        match &self.day {
            Some(day) if *day == moment.date() => moment.clock(),
            _ => format!("{} {}", moment.date(), moment.clock()),
        }
    }

    /// A clock time without a date, for a column or sentence that names the day.
    pub fn clock(&self, moment: Moment) -> String {
        moment.clock()
    }
}

const MONTHS: [&str; 12] =
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// The day of a moment as a sentence tells it, the same to readers of both orders: `13 May 2025`.
pub fn day_text(moment: Moment) -> String {
    let date = moment.date();
    let parts: Vec<&str> = date.splitn(3, '-').collect();
    match parts[..] {
        [year, month, day] => {
            let month = month.parse::<usize>().ok().and_then(|month| MONTHS.get(month.wrapping_sub(1)));
            month.map_or_else(
                || date.clone(),
                |month| format!("{} {month} {year}", day.trim_start_matches('0')),
            )
        }
        _ => date,
    }
}

/// Nearest whole number, halves away from zero.
fn whole(value: f64) -> i64 {
    value.round() as i64
}

/// The day most lines were seen on; of two as busy the later one.
pub(super) fn main_day(log: &Log<'_>) -> Option<String> {
    let mut days: BTreeMap<String, usize> = BTreeMap::new();
    for line in &log.lines {
        *days.entry(line.at.date()).or_default() += 1;
    }
    days.into_iter().max_by_key(|(day, lines)| (*lines, day.clone())).map(|(day, _)| day)
}
