//! The server's clock, read here and nowhere deeper.
//!
//! Pairing codes and rates live by the true time always; a demonstration only moves the time of the site.

use quantity::Moment;
use std::time::{SystemTime, UNIX_EPOCH};

/// The true time, in UTC.
pub(crate) fn now() -> Moment {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    Moment::at(since.as_secs() as i64, 0)
}
