//! Clock times as people write them, on the day and in the zone they wrote them.
//!
//! In the night the clocks change an hour happens twice or never. Such a time is asked back with the two
//! readings it can have; a guess would move an entry by an hour for ever.
//!
//! Words: *zone* = a row of the IANA time-zone table, carried in the program (`zone`).
//! Never: read a clock.

use crate::zone::Zone;
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::Offset;
use quantity::Moment;
use std::cmp::Reverse;

/// Why a text is no moment of the day it stands under.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TimeProblem {
    /// Not written like a time.
    Form,
    /// A time without a date, where no day is set.
    NoDate,
    /// It lies before 2000, where the table of the clocks begins.
    Early {
        /// The local date and time.
        local: String,
    },
    /// The clocks were put forward over it.
    Skipped {
        /// The local date and time.
        local: String,
    },
    /// The clocks were put back: it happened twice.
    Twice {
        /// The local date and time.
        local: String,
        /// Offset of the first.
        first: String,
        /// Offset of the second.
        second: String,
    },
    /// The offset written is not one the zone had then.
    Offset {
        /// The offset as written.
        written: String,
        /// The offset in force.
        there: String,
    },
}

impl Zone {
    /// A moment as a person writes it: `10:40` on a day, `2026-05-04 10:40`, `01:30 -06:00`, RFC 3339.
    ///
    /// `day` is the day a time without a date belongs to, as `2026-05-04`.
    ///
    /// # Errors
    /// Not a time; no day where one is needed; an hour that the change of the clocks left out or doubled.
    pub fn read(&self, text: &str, day: Option<&str>) -> Result<Moment, TimeProblem> {
        Clock { zone: self, date: day.and_then(date_of) }.read(text)
    }

    /// The first instant of a day: where something is dated and not timed.
    pub(crate) fn start_of(&self, date: Date) -> Option<Moment> {
        let local = as_utc(date.at(0, 0, 0, 0))?;
        // Where the clocks were put forward over midnight, the day begins when they were.
        let first = self.offsets(local)?.first().map_or_else(|| self.offset(local - 86_400), |first| first.0);
        Some(self.moment_at(local - i64::from(first)))
    }

    fn moment(&self, local: DateTime, written: Option<Offset>) -> Result<Moment, TimeProblem> {
        let (date, hour, minute) = (local.date(), local.hour(), local.minute());
        let shown = || {
            let (year, month, day) = (date.year(), date.month(), date.day());
            format!("{year:04}-{month:02}-{day:02} {hour:02}:{minute:02}")
        };
        let offsets = as_utc(local).and_then(|local| self.offsets(local));
        let allowed: Vec<Offset> = match (offsets, written) {
            (Some(offsets), _) => {
                offsets.into_iter().filter_map(|Reverse(offset)| Offset::from_seconds(offset).ok()).collect()
            }
            (None, Some(written)) => vec![written],
            (None, None) => return Err(TimeProblem::Early { local: shown() }),
        };
        let offset = match (written, allowed.as_slice()) {
            (_, []) => return Err(TimeProblem::Skipped { local: shown() }),
            (Some(written), allowed) if allowed.contains(&written) => written,
            (Some(written), allowed) => {
                let there =
                    allowed.iter().map(|offset| offset_text(*offset)).collect::<Vec<_>>().join(" or ");
                return Err(TimeProblem::Offset { written: offset_text(written), there });
            }
            (None, [first, second, ..]) => {
                let (first, second) = (offset_text(*first), offset_text(*second));
                return Err(TimeProblem::Twice { local: shown(), first, second });
            }
            (None, [only]) => *only,
        };
        instant(local, offset).ok_or(TimeProblem::Form)
    }
}

/// A local time in seconds since 1970, as if it were UTC.
fn as_utc(local: DateTime) -> Option<i64> {
    Some(Offset::UTC.to_timestamp(local).ok()?.as_second())
}

/// The clock of one day of notes.
#[derive(Clone, Copy)]
pub(crate) struct Clock<'z> {
    pub(crate) zone: &'z Zone,
    /// The day times without a date belong to.
    pub(crate) date: Option<Date>,
}

impl Clock<'_> {
    /// `07:10`, `7:10 am`, `0710`, `+1 00:10`, `01:30 -06:00`, `2026-05-05 00:10`, RFC 3339.
    pub(crate) fn read(&self, text: &str) -> Result<Moment, TimeProblem> {
        let text = text.trim();
        if text.len() > 40 || !text.is_ascii() {
            return Err(TimeProblem::Form);
        }
        if let Some((date, rest)) = leading_date(text) {
            let (time, written) = clock_and_offset(rest).ok_or(TimeProblem::Form)?;
            let local = date.to_datetime(time);
            return match written {
                Some(offset) => instant(local, offset).ok_or(TimeProblem::Form),
                None => self.zone.moment(local, None),
            };
        }
        let (days, rest) = leading_days(text).ok_or(TimeProblem::Form)?;
        let (time, written) = clock_and_offset(rest).ok_or(TimeProblem::Form)?;
        let date = self.date.ok_or(TimeProblem::NoDate)?;
        let date = date.checked_add(jiff::Span::new().days(days)).map_err(|_| TimeProblem::Form)?;
        self.zone.moment(date.to_datetime(time), written)
    }
}

/// `2026-05-04`, nothing else.
pub(crate) fn date_of(text: &str) -> Option<Date> {
    let (date, rest) = leading_date(text.trim())?;
    rest.is_empty().then_some(date)
}

fn instant(local: DateTime, offset: Offset) -> Option<Moment> {
    Some(Moment::at(offset.to_timestamp(local).ok()?.as_second(), offset.seconds()))
}

fn offset_text(offset: Offset) -> String {
    let minutes = offset.seconds().abs() / 60;
    let sign = if offset.seconds() < 0 { '-' } else { '+' };
    format!("{sign}{:02}:{:02}", minutes / 60, minutes % 60)
}

/// The date a text begins with, and what follows the sign between them.
fn leading_date(text: &str) -> Option<(Date, &str)> {
    let (date, rest) = text.split_at_checked(10)?;
    let form = date.bytes().enumerate().all(|(at, byte)| match at {
        4 | 7 => byte == b'-',
        _ => byte.is_ascii_digit(),
    });
    let date = form.then(|| date.parse().ok()).flatten()?;
    match rest.chars().next() {
        None => Some((date, rest)),
        Some('T' | 't' | ' ') => Some((date, rest[1..].trim_start())),
        Some(_) => None,
    }
}

/// `+1 00:10`: the days after the one the notes stand under, and the rest.
fn leading_days(text: &str) -> Option<(i64, &str)> {
    if !text.starts_with(['+', '-']) {
        return Some((0, text));
    }
    let (days, rest) = text.split_once(' ')?;
    let days: i64 = days.parse().ok()?;
    (days.abs() <= 31).then(|| (days, rest.trim_start()))
}

fn clock_and_offset(text: &str) -> Option<(Time, Option<Offset>)> {
    if let Some(time) = text.strip_suffix(['Z', 'z']) {
        return Some((time_of(time)?, Some(Offset::UTC)));
    }
    match text.rfind(['+', '-']) {
        None => Some((time_of(text)?, None)),
        Some(at) => Some((time_of(&text[..at])?, Some(offset_of(&text[at..])?))),
    }
}

fn offset_of(text: &str) -> Option<Offset> {
    let sign = if text.starts_with('-') { -1 } else { 1 };
    let (hours, minutes) = text[1..].split_once(':')?;
    let (hours, minutes) = (digits(hours)?, digits(minutes)?);
    let inside = hours < 25 && minutes < 60;
    inside.then(|| Offset::from_seconds(sign * (hours * 3600 + minutes * 60)).ok()).flatten()
}

/// `7:10`, `07:10:30`, `0710`, `7:10 pm`.
fn time_of(text: &str) -> Option<Time> {
    let text = text.trim().to_ascii_lowercase();
    let (plain, half) = match (text.strip_suffix("am"), text.strip_suffix("pm")) {
        (Some(rest), _) => (rest.trim_end(), Some(0)),
        (_, Some(rest)) => (rest.trim_end(), Some(12)),
        _ => (text.as_str(), None),
    };
    let (hour, minute, second) = parts_of(plain)?;
    let hour = match half {
        None => hour,
        Some(half) if (1..=12).contains(&hour) => hour % 12 + half,
        Some(_) => return None,
    };
    let small = |value: i32| i8::try_from(value).ok();
    Time::new(small(hour)?, small(minute)?, small(second)?, 0).ok()
}

fn parts_of(text: &str) -> Option<(i32, i32, i32)> {
    if !text.contains(':') {
        let at = text.len().checked_sub(2)?;
        return matches!(text.len(), 3 | 4)
            .then_some(())
            .and_then(|()| Some((digits(&text[..at])?, digits(&text[at..])?, 0)));
    }
    let mut pieces = text.split(':');
    let (hour, minute) = (pieces.next()?, pieces.next()?);
    let second = pieces.next().unwrap_or("00");
    let full = minute.len() == 2 && second.len() == 2 && pieces.next().is_none();
    full.then_some(()).and_then(|()| Some((digits(hour)?, digits(minute)?, digits(second)?)))
}

fn digits(text: &str) -> Option<i32> {
    let form = !text.is_empty() && text.len() <= 2 && text.bytes().all(|byte| byte.is_ascii_digit());
    form.then(|| text.parse().ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        let zone = Zone::named("America/Denver").expect("a zone of the table");
        let clock = Clock { zone: &zone, date: date_of("2026-05-04") };
        let got = clock.read(text).map_or_else(|problem| format!("{problem:?}"), |moment| moment.to_string());
        assert_eq!(got, expected);
    }

    #[test]
    fn times_as_people_write_them() {
        for text in
            ["07:10", "7:10", "0710", "710", "7:10 am", "07:10:00", "2026-05-04 07:10", "07:10 -06:00"]
        {
            check(text, "2026-05-04T07:10:00-06:00");
        }
        check("7:10 PM", "2026-05-04T19:10:00-06:00");
        check("12:05 am", "2026-05-04T00:05:00-06:00");
        check("12:05pm", "2026-05-04T12:05:00-06:00");
        check("+1 00:10", "2026-05-05T00:10:00-06:00");
        check("-1 23:40", "2026-05-03T23:40:00-06:00");
        check("2026-05-05T00:10", "2026-05-05T00:10:00-06:00");
        check("2026-05-05T00:10:30+02:00", "2026-05-05T00:10:30+02:00");
        check("2026-05-05T00:10:30Z", "2026-05-05T00:10:30+00:00");
    }

    #[test]
    fn what_is_no_time() {
        for text in
            ["", "7", "24:00", "7:5", "07:61", "13:00 pm", "0:10 am", "noon", "07.10", "+1", "+40 07:10"]
        {
            check(text, "Form");
        }
        for text in ["07:10:", "07:10:00:00", "2026-02-30 07:10", "2026-05-04", "²3:10", "07:10 -6"] {
            check(text, "Form");
        }
    }

    #[test]
    fn a_time_before_the_table_begins_needs_its_offset() {
        check("1999-05-04 07:10", r#"Early { local: "1999-05-04 07:10" }"#);
        check("1999-05-04 07:10 -06:00", "1999-05-04T07:10:00-06:00");
        check("2000-01-02 07:10", "2000-01-02T07:10:00-07:00");
    }

    /// Source: as for the nights the clocks change; 1 793 514 600 s is 2026-11-01T06:30:00Z, by `date -u`.
    #[test]
    fn an_instant_is_shown_as_the_clocks_there_show_it() {
        let zone = Zone::named("America/Denver").expect("a zone of the table");
        let shown = |seconds| zone.moment_at(seconds).to_string();
        assert_eq!(shown(1_793_514_600), "2026-11-01T00:30:00-06:00");
        assert_eq!(shown(1_793_514_600 + 2 * 3600), "2026-11-01T01:30:00-07:00");
        assert_eq!(zone.moment_at(i64::MAX), Moment::at(i64::MAX, -7 * 3600));
    }

    /// Source: the rule in force in the United States since 2007: second Sunday in March, first Sunday in
    /// November, at 02:00 local time (Energy Policy Act of 2005, section 110).
    #[test]
    fn the_nights_the_clocks_change() {
        check("2026-03-08 02:30", r#"Skipped { local: "2026-03-08 02:30" }"#);
        check("2026-03-08 03:00", "2026-03-08T03:00:00-06:00");
        check(
            "2026-11-01 01:30",
            r#"Twice { local: "2026-11-01 01:30", first: "-06:00", second: "-07:00" }"#,
        );
        check("2026-11-01 02:00", "2026-11-01T02:00:00-07:00");
        let zone = Zone::named("America/Denver").expect("a zone of the table");
        let clock = Clock { zone: &zone, date: date_of("2026-11-01") };
        let read = |text: &str| clock.read(text).map(|moment| moment.to_string());
        assert_eq!(read("01:30 -06:00").as_deref(), Ok("2026-11-01T01:30:00-06:00"));
        assert_eq!(read("01:30 -07:00").as_deref(), Ok("2026-11-01T01:30:00-07:00"));
        let elsewhere = TimeProblem::Offset { written: "-05:00".into(), there: "-06:00 or -07:00".into() };
        assert_eq!(read("01:30 -05:00"), Err(elsewhere));
    }

    #[test]
    fn a_moment_falls_on_the_day_of_the_zone() {
        let zone = Zone::named("America/Denver").expect("a zone of the table");
        let day = |text: &str| zone.day_of(Moment::parse(text).expect("a moment"));
        assert_eq!(day("2026-05-05T05:59:00Z").as_deref(), Some("2026-05-04"));
        assert_eq!(day("2026-05-05T06:00:00Z").as_deref(), Some("2026-05-05"));
        let read = zone.read("10:40", Some("2026-05-04")).map(|moment| moment.to_string());
        assert_eq!(read.as_deref(), Ok("2026-05-04T10:40:00-06:00"));
        assert_eq!(zone.read("10:40", None), Err(TimeProblem::NoDate));
    }

    #[test]
    fn zones_are_named_or_the_nearest_are() {
        assert_eq!(Zone::named("Denver").err(), Some(vec!["America/Denver".to_owned()]));
        assert!(
            Zone::named("America/Denvr")
                .err()
                .is_some_and(|near| near.contains(&"America/Denver".to_owned()))
        );
        assert!(Zone::named("").is_err());
    }
}
