//! Which lines of notes are in the record already.
//!
//! Notes that grew by a day are read in again as a whole. A line is the same line when shaft, time, author
//! and every field are the same, whichever device it was taken over with: a lost key must not double a day.
//! A line that stands twice in a file is two entries, and stays two.

use notes::Drafted;
use record::{Body, Entry, EntryId, Held, Record};
use std::collections::BTreeMap;

/// What makes two lines of notes the same.
pub(super) type Identity = (Option<String>, i64, String, String);

pub(super) fn of_draft(draft: &Drafted, body: &Body) -> Identity {
    (draft.shaft.clone(), draft.observed_at.seconds(), draft.author.clone(), said(body))
}

pub(super) fn of_entry(entry: &Entry) -> Identity {
    (entry.shaft.clone(), entry.observed_at.seconds(), entry.author.clone(), said(&entry.body))
}

fn said(body: &Body) -> String {
    format!("{} {:?}", body.kind().word, body.to_group())
}

/// The lines that are in the record.
pub(super) struct Known {
    lines: BTreeMap<Identity, Vec<EntryId>>,
    used: BTreeMap<Identity, usize>,
    fresh: Vec<(Identity, EntryId)>,
}

impl Known {
    pub(super) fn of(record: &Record) -> Self {
        let mut lines: BTreeMap<Identity, Vec<EntryId>> = BTreeMap::new();
        for held in record.entries() {
            if let Held::Known(entry) = held {
                lines.entry(of_entry(entry)).or_default().push(entry.id);
            }
        }
        Known { lines, used: BTreeMap::new(), fresh: Vec::new() }
    }

    /// The entry a line of the file in hand is already, each entry for one line.
    pub(super) fn find(&mut self, line: &Identity) -> Option<EntryId> {
        let used = self.used.entry(line.clone()).or_default();
        let id = self.lines.get(line)?.get(*used).copied()?;
        *used += 1;
        Some(id)
    }

    /// A line of the file in hand has become an entry.
    pub(super) fn keep(&mut self, line: Identity, id: EntryId) {
        self.fresh.push((line, id));
    }

    /// The file in hand is done; the next one may hold the same lines.
    pub(super) fn next_file(&mut self) {
        self.used.clear();
        for (line, id) in self.fresh.drain(..) {
            self.lines.entry(line).or_default().push(id);
        }
    }
}
