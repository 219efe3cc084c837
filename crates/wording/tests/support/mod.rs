//! A site with one tablet: writes entries at clock times of one day, and asks the log and the assessment.

#![allow(dead_code, reason = "each test file uses a part of it")]

pub(crate) mod day;

use quantity::Moment;
use record::{Body, EntryId, Held, How, Log, Record, Value};
use std::collections::BTreeMap;
use wire::{Key, Pen, Times};

pub(crate) type Fields<'f> = &'f [(&'f str, Value)];

/// A text field.
pub(crate) fn text(text: &str) -> Value {
    Value::Text(text.to_owned())
}

/// A group of text fields: `place=center depth=42.6_ft` with `_` for blanks.
pub(crate) fn group(pairs: &str) -> Value {
    let pair = |pair: &str| {
        let (name, value) = pair.split_once('=').expect("name=value");
        (name.to_owned(), text(&value.replace('_', " ")))
    };
    Value::Group(pairs.split(' ').map(pair).collect())
}

/// A list of such groups.
pub(crate) fn list(groups: &[&str]) -> Value {
    Value::List(groups.iter().map(|pairs| group(pairs)).collect())
}

/// A moment of the day: `10:41`, or a day and a time: `15 00:05`.
pub(crate) fn at(clock: &str) -> Moment {
    let (day, clock) = clock.split_once(' ').unwrap_or(("14", clock));
    Moment::parse(&format!("2026-05-{day}T{clock}:00-06:00")).expect("a clock time")
}

/// A body from its stored fields.
pub(crate) fn body(word: &str, fields: Fields<'_>) -> Body {
    let group: BTreeMap<String, Value> =
        fields.iter().map(|(name, value)| ((*name).to_owned(), value.clone())).collect();
    Body::from_group(word, &group, "", &How::Stored).unwrap_or_else(|faults| panic!("{word}: {faults:?}"))
}

/// What was written so far.
pub(crate) struct Site {
    key: Key,
    written: Vec<record::Entry>,
}

impl Site {
    /// An empty site.
    pub(crate) fn new() -> Self {
        Site { key: Key::of_secret([7; 32]), written: Vec::new() }
    }

    /// Writes an entry of the shaft, seen and entered at a time.
    pub(crate) fn write(&mut self, clock: &str, word: &str, fields: Fields<'_>) -> EntryId {
        self.write_late(clock, clock, word, fields)
    }

    /// Writes an entry seen at one time and entered at another.
    pub(crate) fn write_late(
        &mut self,
        seen: &str,
        entered: &str,
        word: &str,
        fields: Fields<'_>,
    ) -> EntryId {
        let times = Times { observed_at: at(seen), noted_at: None, entered_at: at(entered) };
        self.put(times, body(word, fields))
    }

    /// Corrects an entry; without a body it is struck through only.
    pub(crate) fn correct(&mut self, clock: &str, about: EntryId, why: &str, new: Option<Body>) -> EntryId {
        let times = Times { observed_at: at(clock), noted_at: None, entered_at: at(clock) };
        let correction = record::kinds::Correction {
            replaces: about,
            reason: why.to_owned(),
            observed: None,
            body: new.map(Box::new),
        };
        self.put(times, correction.into())
    }

    /// Writes any body.
    pub(crate) fn put(&mut self, times: Times, body: Body) -> EntryId {
        let head = self.written.last().map(|entry| (entry.seq, entry.id));
        let mut pen = Pen::new(&self.key, "job-1", "R. Vale", head);
        let entry = pen.write(Some("S-1"), times, body);
        let id = entry.id;
        self.written.push(entry);
        id
    }

    /// The record.
    pub(crate) fn record(&self) -> Record {
        Record::of(self.written.iter().cloned().map(Held::Known)).expect("one job")
    }
}

/// The log of the shaft.
pub(crate) fn log(record: &Record) -> Log<'_> {
    Log::of(record, Some("S-1"), None)
}

/// A table as text, for people who read a snapshot.
pub(crate) fn printed(table: &wording::Table) -> String {
    let heads: Vec<String> = table
        .columns
        .iter()
        .map(|column| format!("{} {}", column.title, column.unit).trim_end().to_owned())
        .collect();
    let mut lines = vec![format!("== {}", table.title), heads.join(" | ")];
    for row in &table.rows {
        let cells: Vec<&str> = row.cells.iter().map(|cell| cell.as_deref().unwrap_or("–")).collect();
        lines.push(cells.join(" | "));
        lines.extend(row.marks.iter().map(|mark| format!("    [{mark}]")));
    }
    lines.join("\n")
}
