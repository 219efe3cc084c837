//! One entry as a line of text: when, what, the fields as they were typed, and what became of it.
//!
//! Whoever reads a record on paper reads what was written, in the words and units it was written in; the
//! elevation that follows from a depth comes second, in brackets.
//!
//! Never: print a converted value in the place of what was typed.

mod field;
mod marks;
mod phrase;
mod reference;
mod said;

pub(crate) use field::{quantity_text, value_text};
pub use marks::Mark;
pub use marks::marks;
pub use phrase::derived;
pub use phrase::entry_lines;
pub use phrase::entry_text;
pub use reference::entry_reference;
pub(crate) use reference::line_of;
pub use said::said_about;

use crate::label;
use crate::show::Show;
use assess::Picture;
use record::{Line, Log};

/// One line of the log: `10:41  Concrete sounded  42.6 ft center; after 4411 (+57.4 ft)`.
///
/// What became of the entry (struck through, disputed, late) follows in square brackets.
pub fn entry_line(line: &Line<'_>, log: &Log<'_>, picture: Option<&Picture<'_>>, show: &Show) -> String {
    let mut text = format!(
        "{}  {}  {}",
        show.moment(line.at),
        label::kind(line.body.kind()),
        entry_text(line.body, show)
    );
    if let Some(level) = picture.and_then(|picture| derived(line, picture)) {
        text = format!("{text} ({})", show.elevation(level));
    }
    for mark in marks(line, log, show) {
        text = format!("{text} [{mark}]");
    }
    text.trim_end().to_owned()
}
