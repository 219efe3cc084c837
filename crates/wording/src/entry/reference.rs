//! How a sentence names an entry: `10:41 Concrete sounded (a1b2c3d4)`.

use crate::label;
use crate::show::Show;
use record::{EntryId, Line, Log};

/// Time, kind and short id of an entry; the short id alone when the log does not hold it.
pub fn entry_reference(id: EntryId, log: &Log<'_>, show: &Show) -> String {
    if let Some(line) = line_of(id, log) {
        return format!("{} {} ({})", show.moment(line.at), label::kind(line.body.kind()), id.short());
    }
    match log.corrections.iter().find(|entry| entry.id == id) {
        Some(entry) => {
            format!("{} {} ({})", show.moment(entry.entered_at), label::kind(entry.body.kind()), id.short())
        }
        None => id.short(),
    }
}

/// The line an entry wrote.
pub(crate) fn line_of<'l, 'r>(id: EntryId, log: &'l Log<'r>) -> Option<&'l Line<'r>> {
    log.lines.iter().find(|line| line.entry.id == id)
}
