//! Lines that an earlier reading of a file gave and that no longer stand in it.
//!
//! Somebody changed a number in the notes after they were read in. The new line is entered, the old entry
//! stands as before: both count until a person says which one is right. That has to be told, with the line
//! that says it.
//!
//! Words: *reading* = what one `enter` took from one file.
//! Never: strike an entry through on its own.

use super::known::{self, Identity, Known};
use super::take::File;
use crate::screen::Screen;
use notes::Notes;
use record::{Body, DeviceId, Entry, EntryId, Held, Log, Record};
use std::collections::{BTreeMap, BTreeSet};
use wording::Show;

/// As many lines are printed of one file; the rest is counted.
const SHOWN_MOST: usize = 20;

/// Tells, for each file that was read before, which of its former lines it lost.
pub(super) fn tell(record: &Record, files: &[File], all: &[Notes], screen: &mut Screen) {
    let now = lines_of(record, all);
    for file in files {
        let before = entries_of(record, &file.name);
        let (kept, gone): (Vec<&Entry>, Vec<&Entry>) =
            before.into_iter().partition(|entry| now.contains(&known::of_entry(entry)));
        let standing: Vec<&Entry> = gone.into_iter().filter(|entry| stands(record, entry)).collect();
        // Without one line in common it is another document that happens to have the same name.
        if !kept.is_empty() && !standing.is_empty() {
            tell_file(record, &file.name, &standing, screen);
        }
    }
}

/// Every line of the files in hand, as the record would know it.
fn lines_of(record: &Record, all: &[Notes]) -> BTreeSet<Identity> {
    let (mut known, mut lines) = (Known::of(record), BTreeSet::new());
    for notes in all {
        notes.write(|draft, body| {
            let line = known::of_draft(draft, &body);
            let id = known.find(&line).unwrap_or(EntryId([0; 32]));
            lines.insert(line);
            id
        });
        known.next_file();
    }
    lines
}

/// The entries earlier readings of a file gave: those before the end of each reading, on each device.
fn entries_of<'r>(record: &'r Record, name: &str) -> Vec<&'r Entry> {
    let known = |held: &'r Held| match held {
        Held::Known(entry) => Some(entry),
        Held::Newer(_) => None,
    };
    let places: BTreeMap<(DeviceId, u64), &Entry> =
        record.entries().filter_map(known).map(|entry| ((entry.device, entry.seq), entry)).collect();
    let mut found = Vec::new();
    for entry in places.values() {
        if let Body::NotesRead(read) = &entry.body
            && read.name == name
        {
            let first = entry.seq.saturating_sub(read.entries.into());
            found.extend(
                places.range((entry.device, first)..(entry.device, entry.seq)).map(|(_, entry)| *entry),
            );
        }
    }
    found
}

fn stands(record: &Record, entry: &Entry) -> bool {
    let log = Log::of(record, entry.shaft.as_deref(), None);
    log.lines.iter().any(|line| line.entry.id == entry.id && line.stands())
}

fn tell_file(record: &Record, name: &str, gone: &[&Entry], screen: &mut Screen) {
    let (count, lines) = if gone.len() == 1 {
        ("One line".to_owned(), "is")
    } else {
        (format!("{} lines", gone.len()), "are")
    };
    screen.gap();
    screen.say(&format!("{count} read from {name} before {lines} no longer in it, and still in the record:"));
    for entry in gone.iter().take(SHOWN_MOST) {
        let log = Log::of(record, entry.shaft.as_deref(), None);
        screen.set_in(2, 4, &wording::entry_reference(entry.id, &log, &Show::of_log(&log)));
    }
    if gone.len() > SHOWN_MOST {
        screen.set_in(2, 4, &format!("and {} more.", gone.len() - SHOWN_MOST));
    }
    screen.say(
        "Nothing is erased, and both count. To strike one through, add a line to the day and enter again:",
    );
    let example = format!(
        "{{ at = \"10:41\", entry = \"correction\", replaces = \"{}\", reason = \"misread\" }}",
        gone[0].id.short()
    );
    screen.set_in(2, 4, &example);
}
