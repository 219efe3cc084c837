//! A moment as it is written down on a site: local clock time with its offset from UTC.
//!
//! Stored as RFC 3339 with a numeric offset, to the second; two moments compare by the instant they name.
//!
//! Never: read a clock, know a time zone's rules.

use jiff::{Timestamp, civil::DateTime, tz::Offset};

/// An instant, with the offset of the clock that showed it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Moment {
    /// Seconds since 1970-01-01T00:00:00Z.
    seconds: i64,
    /// Offset of the local clock, seconds east of UTC.
    offset_seconds: i32,
}

/// A text that names no moment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MomentError {
    /// The text as found.
    pub found: String,
}

impl std::fmt::Display for MomentError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "`{}` is no moment like 2026-05-04T07:10:00-06:00", self.found)
    }
}

impl std::error::Error for MomentError {}

impl Moment {
    /// The moment `seconds` after 1970 began in UTC, shown on a clock `offset_seconds` east of UTC.
    /// Both are brought into the range of four-digit years and ±25 h.
    pub fn at(seconds: i64, offset_seconds: i32) -> Self {
        Moment {
            seconds: seconds.clamp(Timestamp::MIN.as_second(), Timestamp::MAX.as_second()),
            offset_seconds: offset_seconds.clamp(-90_000, 90_000),
        }
    }

    /// Reads RFC 3339 with an offset.
    ///
    /// # Errors
    /// When the text is not of that form.
    pub fn parse(text: &str) -> Result<Self, MomentError> {
        let wrong = || MomentError { found: text.to_owned() };
        let text = text.trim();
        let (local, offset_seconds) = split_offset(text).ok_or_else(wrong)?;
        let local: DateTime = local.parse().map_err(|_| wrong())?;
        let offset = Offset::from_seconds(offset_seconds).map_err(|_| wrong())?;
        let timestamp = offset.to_timestamp(local).map_err(|_| wrong())?;
        Ok(Moment { seconds: timestamp.as_second(), offset_seconds })
    }

    /// Seconds since 1970-01-01T00:00:00Z.
    pub fn seconds(self) -> i64 {
        self.seconds
    }

    /// Seconds east of UTC.
    pub fn offset_seconds(self) -> i32 {
        self.offset_seconds
    }

    /// Minutes from `earlier` to `self`; negative when `self` came first.
    pub fn minutes_since(self, earlier: Moment) -> f64 {
        (self.seconds - earlier.seconds) as f64 / 60.0
    }

    /// The moment so many seconds later, on the same clock.
    pub fn plus_seconds(self, seconds: i64) -> Self {
        Self::at(self.seconds.saturating_add(seconds), self.offset_seconds)
    }

    /// The local date and time.
    pub fn local(self) -> DateTime {
        let offset = Offset::from_seconds(self.offset_seconds).unwrap_or(Offset::UTC);
        let timestamp = Timestamp::from_second(self.seconds).expect("kept in range by every constructor");
        offset.to_datetime(timestamp)
    }

    /// `07:10`, the way a log prints it.
    pub fn clock(self) -> String {
        let local = self.local();
        format!("{:02}:{:02}", local.hour(), local.minute())
    }

    /// `2026-05-04`.
    pub fn date(self) -> String {
        self.local().date().to_string()
    }
}

impl std::fmt::Display for Moment {
    /// RFC 3339 to the second.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let sign = if self.offset_seconds < 0 { '-' } else { '+' };
        let minutes = self.offset_seconds.abs() / 60;
        write!(
            f,
            "{}{sign}{:02}:{:02}",
            self.local().strftime("%Y-%m-%dT%H:%M:%S"),
            minutes / 60,
            minutes % 60
        )
    }
}

impl PartialOrd for Moment {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Moment {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        (self.seconds, self.offset_seconds).cmp(&(other.seconds, other.offset_seconds))
    }
}

/// The local part and the offset in seconds of `2026-05-04T07:10:00-06:00`.
fn split_offset(text: &str) -> Option<(&str, i32)> {
    if let Some(local) = text.strip_suffix(['Z', 'z']) {
        return Some((local, 0));
    }
    let at = text.len().checked_sub(6)?;
    let (local, offset) = (text.get(..at)?, text.get(at..)?);
    let sign = match offset.as_bytes()[0] {
        b'+' => 1,
        b'-' => -1,
        _ => return None,
    };
    let (hours, minutes) = offset[1..].split_once(':')?;
    let (hours, minutes): (i32, i32) = (hours.parse().ok()?, minutes.parse().ok()?);
    (hours < 25 && minutes < 60).then_some((local, sign * (hours * 3600 + minutes * 60)))
}
