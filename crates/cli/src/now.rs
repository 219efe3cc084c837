//! The clock, read here and nowhere deeper.

use crate::problem::{MISUNDERSTOOD, Problem};
use quantity::Moment;

/// Now on this machine's clock, or the moment given for a rehearsal or a test.
pub(crate) fn now(given: Option<&str>) -> Result<Moment, Problem> {
    let Some(text) = given else { return Ok(clock()) };
    Moment::parse(text).map_err(|error| {
        let next = "Write it like 2026-05-04T07:10:00-06:00.";
        Problem::new(format!("--clock: {error}."), "Nothing was done.", next).exit(MISUNDERSTOOD)
    })
}

fn clock() -> Moment {
    let now = jiff::Timestamp::now();
    let offset = jiff::tz::TimeZone::system().to_offset(now);
    Moment::at(now.as_second(), offset.seconds())
}
