//! Clock times as they are typed at the hole: 10:41, 1041, or with a date.
//!
//! A time without a date belongs to the shift in hand: the last such time that is not hours ahead. So
//! 23:50 written after midnight is yesterday's, and the echo says so.
//!
//! Words: *now* = when the entry is written; its offset is that of the job's clock.
//! Never: read a clock; put a time on another day without showing the date.

use quantity::Moment;

/// A time this far ahead may still be today's: a truck that is due, a watch that runs ahead. Common
/// practice, no source.
const AHEAD_MAX_SECONDS: i64 = 6 * 3600;
const DAY_SECONDS: i64 = 24 * 3600;

/// What a time without a date is read by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Clock {
    /// When the entry is written.
    pub now: Moment,
    /// The field speaks of what is to come.
    pub ahead: bool,
}

impl Clock {
    /// A clock for what was seen.
    pub fn at(now: Moment) -> Clock {
        Clock { now, ahead: false }
    }

    /// The moment a text names; `None` when it names none.
    ///
    /// `10:41`, `10:41:30`, `1041`, `2026-05-04 10:41`, or RFC 3339 with an offset. Across a change of the
    /// clocks the offset has to be written.
    pub fn moment(&self, text: &str) -> Option<Moment> {
        let text = text.trim();
        if let Ok(moment) = Moment::parse(text) {
            return Some(moment);
        }
        let offset = offset_text(self.now);
        if text.contains('-') {
            return Moment::parse(&format!("{text}{offset}")).ok();
        }
        let today = Moment::parse(&format!("{}T{}{offset}", self.now.date(), with_colon(text)?)).ok()?;
        Some(self.of_the_shift(today))
    }

    fn of_the_shift(&self, today: Moment) -> Moment {
        let ahead = today.seconds() - self.now.seconds();
        match self.ahead {
            false if ahead > AHEAD_MAX_SECONDS => today.plus_seconds(-DAY_SECONDS),
            true if ahead < -AHEAD_MAX_SECONDS => today.plus_seconds(DAY_SECONDS),
            _ => today,
        }
    }
}

/// `10:41`, with the date where it is another day than now.
pub fn clock_text(moment: Moment, now: Moment) -> String {
    if moment.date() == now.date() { moment.clock() } else { format!("{} {}", moment.date(), moment.clock()) }
}

/// A text that reads back as this very moment: the clock alone where that is enough.
pub fn typed_text(moment: Moment, clock: Clock) -> String {
    let short = moment.clock();
    let same = |text: &str| clock.moment(text) == Some(moment);
    if same(&short) { short } else { moment.to_string() }
}

/// The offset of a clock as RFC 3339 writes it.
fn offset_text(now: Moment) -> String {
    let text = now.to_string();
    text[text.len() - 6..].to_owned()
}

/// `1041` and `741` with their colon; `None` for what is no clock time at all.
fn with_colon(text: &str) -> Option<String> {
    let digits = text.chars().all(|sign| sign.is_ascii_digit());
    let spelled = match (digits, text.len()) {
        (true, 3 | 4) => {
            let (hour, minute) = text.split_at(text.len() - 2);
            format!("{hour:0>2}:{minute}")
        }
        (true, _) => return None,
        (false, _) if text.find(':') == Some(1) => format!("0{text}"),
        (false, _) => text.to_owned(),
    };
    Some(spelled)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> Moment {
        Moment::parse(&format!("{text}:00-06:00")).expect("a moment of a test")
    }

    #[track_caller]
    fn check(now: &str, ahead: bool, typed: &str, expected: &str) {
        let found = Clock { now: at(now), ahead }.moment(typed);
        let expected = (!expected.is_empty()).then(|| at(expected));
        assert_eq!(found, expected, "{typed} at {now}");
    }

    #[test]
    fn a_time_without_a_date_belongs_to_the_shift() {
        check("2031-04-08T11:20", false, "10:41", "2031-04-08T10:41");
        check("2031-04-08T11:20", false, "1041", "2031-04-08T10:41");
        check("2031-04-08T11:20", false, "7:41", "2031-04-08T07:41");
        check("2031-04-08T11:20", false, "741", "2031-04-08T07:41");
        check("2031-04-08T20:00", false, "07:10", "2031-04-08T07:10");
        check("2031-04-09T00:20", false, "23:50", "2031-04-08T23:50");
        check("2031-04-08T11:20", false, "12:05", "2031-04-08T12:05");
    }

    #[test]
    fn what_is_to_come_may_lie_after_midnight() {
        check("2031-04-08T23:50", true, "01:10", "2031-04-09T01:10");
        check("2031-04-08T11:20", true, "12:05", "2031-04-08T12:05");
        check("2031-04-08T11:20", true, "11:00", "2031-04-08T11:00");
    }

    #[test]
    fn a_date_is_taken_as_written_and_nonsense_is_none() {
        check("2031-04-08T11:20", false, "2031-04-02 06:30", "2031-04-02T06:30");
        check("2031-04-08T11:20", false, "2031-04-02T06:30:00-06:00", "2031-04-02T06:30");
        for nonsense in ["", "10", "25:00", "1061", "soon", "10:4", "12345"] {
            check("2031-04-08T11:20", false, nonsense, "");
        }
    }
}
