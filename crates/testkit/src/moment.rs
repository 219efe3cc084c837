//! Moments of the made-up day.

use quantity::Moment;

/// The day most tests take place on.
const DAY: &str = "2031-04-08";

/// `10:41` on the test day, `2031-04-09 06:30` on another; always on a clock six hours behind UTC.
///
/// Panics when the text is neither, so that a misspelt test fails where it is written.
#[track_caller]
pub fn at(text: &str) -> Moment {
    let local = if text.contains('-') { text.replace(' ', "T") } else { format!("{DAY}T{text}") };
    let seconds = if local.len() == 16 { ":00" } else { "" };
    let full = format!("{local}{seconds}-06:00");
    Moment::parse(&full).unwrap_or_else(|_| panic!("`{text}` is no moment of a test"))
}
