//! A moment as it is written down on a site: local clock time with its offset from UTC.
//!
//! Stored as RFC 3339 with a numeric offset in whole minutes, to the second. Two moments compare by the
//! instant they name, so a night shift over the change of daylight saving time stays in order.
//!
//! Words: *offset* = how far the clock that was read runs ahead of UTC.
//! Never: read a clock, know a time zone's rules, drop part of a second that was written.

use jiff::{Timestamp, civil::DateTime, tz::Offset};

/// The first second a moment may name: 0000-01-02T00:00:00Z, so that its local year has four digits.
const EARLIEST: i64 = -62_167_219_200 + 86_400;
/// Months, as short as people write them.
const MONTHS: [&str; 12] =
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
/// The widest offset RFC 3339 can write, 23:59.
const OFFSET_MINUTES_MAX: i32 = 23 * 60 + 59;

/// An instant, with the offset of the clock that showed it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Moment {
    /// Seconds since 1970-01-01T00:00:00Z.
    seconds: i64,
    /// Offset of the local clock, seconds east of UTC. Invariant: whole minutes, at most 23:59 either way.
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
        write!(
            f,
            "`{}` names no moment; expected a date, a time and the offset of the clock from UTC",
            self.found
        )?;
        write!(f, " such as 2026-05-04T07:10:00-06:00")
    }
}

impl std::error::Error for MomentError {}

impl Moment {
    /// The moment `seconds` after 1970 began in UTC, shown on a clock `offset_seconds` east of UTC.
    ///
    /// Seconds are brought into the years 0 to 9999, the offset to the nearest whole minute within 23:59:
    /// what lies outside cannot be written in RFC 3339.
    pub fn at(seconds: i64, offset_seconds: i32) -> Self {
        let minutes = libm::round(f64::from(offset_seconds) / 60.0) as i32;
        Moment {
            seconds: seconds.clamp(EARLIEST, Timestamp::MAX.as_second()),
            offset_seconds: minutes.clamp(-OFFSET_MINUTES_MAX, OFFSET_MINUTES_MAX) * 60,
        }
    }

    /// Reads RFC 3339 with an offset: `2026-05-04T07:10:00-06:00`; `Z` for UTC. A space may stand for the
    /// `T`, and the seconds may be left out.
    ///
    /// # Errors
    /// When the text is not of that form, has parts of a second, an offset with seconds, a leap second,
    /// an unknown offset (`-00:00`), or a date that does not exist.
    pub fn parse(text: &str) -> Result<Self, MomentError> {
        instant(text.trim()).ok_or_else(|| MomentError { found: text.to_owned() })
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
        let Ok(timestamp) = Timestamp::from_second(self.seconds) else {
            unreachable!("kept in range by every constructor")
        };
        offset(self.offset_seconds).to_datetime(timestamp)
    }

    /// `07:10`, the way a log prints it.
    pub fn clock(self) -> String {
        let local = self.local();
        format!("{:02}:{:02}", local.hour(), local.minute())
    }

    /// `07:10:00`, for a clock that runs.
    pub fn clock_to_the_second(self) -> String {
        let local = self.local();
        format!("{:02}:{:02}:{:02}", local.hour(), local.minute(), local.second())
    }

    /// `2026-05-04`.
    pub fn date(self) -> String {
        let local = self.local();
        format!("{:04}-{:02}-{:02}", local.year(), local.month(), local.day())
    }

    /// `4 May`.
    pub fn day(self) -> String {
        let local = self.local();
        format!("{} {}", local.day(), MONTHS[(local.month() - 1) as usize])
    }
}

impl std::fmt::Display for Moment {
    /// RFC 3339 to the second; reading it again gives the same moment.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let sign = if self.offset_seconds < 0 { '-' } else { '+' };
        let minutes = self.offset_seconds.abs() / 60;
        let (date, clock) = (self.date(), self.clock_to_the_second());
        write!(f, "{date}T{clock}{sign}{:02}:{:02}", minutes / 60, minutes % 60)
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

fn offset(seconds: i32) -> Offset {
    let Ok(offset) = Offset::from_seconds(seconds) else {
        unreachable!("kept in range by every constructor")
    };
    offset
}

fn instant(text: &str) -> Option<Moment> {
    let (local, offset_seconds) = split_offset(text)?;
    let [year, month, day, hour, minute, second] = fields(local)?;
    let small = |number: i16| i8::try_from(number).ok();
    let date_time =
        DateTime::new(year, small(month)?, small(day)?, small(hour)?, small(minute)?, small(second)?, 0);
    let timestamp = offset(offset_seconds).to_timestamp(date_time.ok()?).ok()?;
    let moment = Moment::at(timestamp.as_second(), offset_seconds);
    (moment.seconds == timestamp.as_second()).then_some(moment)
}

/// Year to second of `2026-05-04T07:10:00`.
fn fields(local: &str) -> Option<[i16; 6]> {
    let signs = local.as_bytes();
    let with_seconds = if signs.len() == 16 { format!("{local}:00") } else { local.to_owned() };
    let joints = [(4, "-"), (7, "-"), (10, "Tt "), (13, ":"), (16, ":")];
    let joined = joints
        .iter()
        .all(|&(at, allowed)| with_seconds.get(at..at + 1).is_some_and(|sign| allowed.contains(sign)));
    if !joined || with_seconds.len() != 19 {
        return None;
    }
    let field = |from: usize, to: usize| digits(with_seconds.get(from..to)?);
    Some([field(0, 4)?, field(5, 7)?, field(8, 10)?, field(11, 13)?, field(14, 16)?, field(17, 19)?])
}

fn digits(text: &str) -> Option<i16> {
    text.bytes().all(|byte| byte.is_ascii_digit()).then(|| text.parse().ok())?
}

/// The local part and the offset in seconds of `2026-05-04T07:10:00-06:00`.
fn split_offset(text: &str) -> Option<(&str, i32)> {
    if let Some(local) = text.strip_suffix(['Z', 'z']) {
        return Some((local, 0));
    }
    let at = text.len().checked_sub(6)?;
    let (local, offset) = (text.get(..at)?, text.get(at..)?);
    let (hours, minutes) = (digits(offset.get(1..3)?)?, digits(offset.get(4..6)?)?);
    if hours > 23 || minutes > 59 || offset.get(3..4)? != ":" || offset == "-00:00" {
        return None;
    }
    let seconds = i32::from(hours) * 3600 + i32::from(minutes) * 60;
    match offset.get(..1)? {
        "+" => Some((local, seconds)),
        "-" => Some((local, -seconds)),
        _ => None,
    }
}
