//! Values as the cells of a row.

use super::group::number;
use quantity::{Elevation, Moment};

/// A day on the clock of the site.
pub(super) fn day(at: Moment) -> String {
    at.local().date().to_string()
}

/// A moment on the clock of the site, to the second.
pub(super) fn moment(at: Moment) -> String {
    let local = at.local();
    format!("{}T{:02}:{:02}:{:02}", local.date(), local.hour(), local.minute(), local.second())
}

/// An elevation in metres.
pub(super) fn level(level: Option<Elevation>, decimals: usize) -> String {
    number(level.map(Elevation::to_meters), decimals)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_stand_on_the_clock_of_the_site() {
        let at = Moment::parse("2026-05-04T07:08:09-06:00").expect("a moment");
        assert_eq!((day(at), moment(at)), ("2026-05-04".to_owned(), "2026-05-04T07:08:09".to_owned()));
    }
}
