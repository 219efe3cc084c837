//! Time zones: when the clocks of a place were changed since 2000, and the rule they follow since.
//!
//! The table comes with the program (`crates/notes/zones.txt`), so that a tablet and the office read one time
//! alike. It holds what a job of this century needs; all changes since clocks were first set by law would be
//! three times as much for a tablet to download.
//!
//! Words: *change* = the instant from which clocks were set otherwise; *rule* = how they are changed every year
//! since the last change that stands in the table.
//! Never: read a clock; guess an offset from before the table begins.

use crate::near::nearest;
use jiff::Timestamp;
use jiff::tz::{Offset, TimeZone};
use quantity::{Gather, InOrder, Moment};
use std::collections::BTreeSet;

/// One line for the zones that share everything; what stands in it is said at its head.
const TABLE: &str = include_str!("../zones.txt");
/// 2000-01-01T00:00:00Z, where the table begins.
const BEGINS: i64 = 946_684_800;
/// Two changes of the clocks of a place lie further apart than two days.
const DAY: i64 = 86_400;

/// A time zone of the IANA table.
#[derive(Debug, Clone, PartialEq)]
pub struct Zone {
    /// Ahead of UTC when the table begins, seconds.
    first: i32,
    /// From when on, seconds since 1970, and how far ahead of UTC then, seconds.
    changes: Vec<(i64, i32)>,
    /// From the last change on.
    rule: TimeZone,
}

impl Zone {
    /// The zone of a name such as `America/Denver`.
    ///
    /// # Errors
    /// The names nearest to it.
    pub fn named(name: &str) -> Result<Self, Vec<String>> {
        let name = name.trim();
        let called = |line: &&'static str| names(line).any(|known| known.eq_ignore_ascii_case(name));
        if let Some(line) = lines().find(called) {
            return Ok(read(line).expect("every line of the table is read by a test"));
        }
        if name.is_empty() {
            return Err(Vec::new());
        }
        let mut all: Vec<&str> = lines().flat_map(names).collect();
        all.put_in_order();
        let city = |full: &str| full.rsplit('/').next().unwrap_or(full).to_lowercase();
        let plain = name.to_lowercase().replace(' ', "_");
        let same: Vec<String> =
            all.iter().filter(|full| city(full) == plain).map(|full| (*full).to_owned()).collect();
        if same.is_empty() { Err(nearest(name, all)) } else { Err(same) }
    }

    /// An instant as the clocks of this zone show it; `seconds` since 1970-01-01T00:00:00Z.
    ///
    /// What lies outside the years a moment can name is brought into them, as by `Moment::at`. Before 2000 the
    /// clock is shown as it stood when 2000 began.
    pub fn moment_at(&self, seconds: i64) -> Moment {
        let seconds = Moment::at(seconds, 0).seconds();
        Moment::at(seconds, self.offset(seconds))
    }

    /// The day a moment falls on in this zone, as `2026-05-04`.
    pub fn day_of(&self, moment: Moment) -> Option<String> {
        Some(self.moment_at(moment.seconds()).date())
    }

    /// How far ahead of UTC the clocks are, in seconds, when they show `local` (seconds since 1970 as if it were
    /// UTC): one answer as a rule, none in the hour they are put forward over, two in the hour they are put back
    /// over, that of the earlier instant first. `None` before the table begins.
    pub(crate) fn offsets(&self, local: i64) -> Option<BTreeSet<std::cmp::Reverse<i32>>> {
        let around = [self.offset(local - DAY), self.offset(local + DAY)];
        let shows = |offset: &i32| self.offset(local - i64::from(*offset)) == *offset;
        // The clock that runs further ahead shows it earlier.
        (BEGINS + DAY <= local).then(|| around.into_iter().filter(shows).map(std::cmp::Reverse).into_set())
    }

    /// Seconds the clocks are ahead of UTC at an instant.
    pub(crate) fn offset(&self, seconds: i64) -> i32 {
        let passed = self.changes.partition_point(|(from, _)| *from <= seconds);
        match passed.checked_sub(1) {
            _ if passed == self.changes.len() && BEGINS <= seconds => by_rule(&self.rule, seconds),
            None => self.first,
            Some(last) => self.changes[last].1,
        }
    }
}

fn by_rule(rule: &TimeZone, seconds: i64) -> i32 {
    let stamp = Timestamp::from_second(seconds.clamp(Timestamp::MIN.as_second(), Timestamp::MAX.as_second()));
    stamp.map_or(Offset::UTC, |stamp| rule.to_offset(stamp)).seconds()
}

fn lines() -> impl Iterator<Item = &'static str> {
    TABLE.lines().filter(|line| !line.starts_with('#'))
}

fn names(line: &'static str) -> impl Iterator<Item = &'static str> {
    line.split(' ').skip(3)
}

/// The zone of a line; `None` where it is not written as its head says.
fn read(line: &str) -> Option<Zone> {
    let mut parts = line.split(' ');
    let minutes = |text: &str| Some(text.parse::<i32>().ok()? * 60);
    let change = |text: &str| {
        let (from, to) = text.split_once('=')?;
        Some((from.parse().ok()?, minutes(to)?))
    };
    let (first, changes, rule) = (parts.next()?, parts.next()?, parts.next()?);
    let changes = changes.split(',').filter(|change| *change != "-").map(change);
    Some(Zone {
        first: minutes(first)?,
        changes: changes.collect::<Option<_>>()?,
        rule: TimeZone::posix(rule).ok()?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::tz::TimeZoneDatabase;

    /// So far the rules are followed: the year 2100.
    const FAR: i64 = 4_102_444_800;

    /// Source: the whole table as the time library carries it [IANA-TZ].
    #[test]
    fn every_zone_shows_what_the_whole_table_shows_since_2000() {
        let whole = TimeZoneDatabase::bundled();
        let mut count = 0;
        for name in whole.available() {
            let (there, zone) = (whole.get(name.as_str()).unwrap(), Zone::named(name.as_str()).unwrap());
            let begins = Timestamp::from_second(BEGINS).unwrap();
            let changes = there.following(begins).map(|change| change.timestamp().as_second());
            let changes = changes.take_while(|at| *at < FAR).flat_map(|at| [at - 1, at, at + 1]);
            for at in changes.chain([BEGINS, BEGINS + 1, 1_800_000_000, FAR]) {
                let expected = there.to_offset(Timestamp::from_second(at).unwrap()).seconds();
                assert_eq!(zone.offset(at), expected, "{name} at {at}");
            }
            count += 1;
        }
        assert_eq!(count, lines().flat_map(names).count(), "no zone has more names than the whole table");
        assert!(count > 500, "{count} zones");
    }

    #[test]
    fn every_line_of_the_table_is_read() {
        for line in lines() {
            assert!(read(line).is_some() && names(line).next().is_some(), "{line}");
        }
        for wrong in ["", "0", "0 -", "0 - nonsense X", "x - UTC0 X", "0 1=y UTC0 X", "0 1 UTC0 X"] {
            assert!(read(wrong).is_none(), "{wrong}");
        }
    }
}
