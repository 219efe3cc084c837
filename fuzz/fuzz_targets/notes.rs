//! Any bytes, taken for field notes and for each of the tables.
//!
//! Must hold: no panic; either drafts or mistakes, never both and never neither; every mistake has a short
//! sentence and a place in the file; every draft becomes a body.

#![no_main]

use libfuzzer_sys::fuzz_target;
use notes::table::{Request, Table};
use notes::{Context, Found, Mistake, Notes, Place, Source, Surroundings};
use record::EntryId;
use std::sync::OnceLock;

const GOOD: &[u8] = include_bytes!("../../crates/notes/tests/good.toml");

/// A record that knows every id it is asked for.
struct Anything;

impl Surroundings for Anything {
    fn entry(&self, digits: &str) -> Found {
        EntryId::from_hex(digits).map_or(Found::None, Found::One)
    }
}

fn context() -> &'static Context {
    static CONTEXT: OnceLock<Context> = OnceLock::new();
    CONTEXT.get_or_init(|| {
        let source = Source { name: "good.toml", bytes: GOOD };
        notes::read(source, None, &Anything).expect("the example is read").context
    })
}

fuzz_target!(|bytes: &[u8]| {
    let source = Source { name: "file", bytes };
    hold(bytes, notes::read(source, None, &Anything));
    hold(bytes, notes::read(source, Some(context()), &Anything));
    for table in Table::named() {
        table_of(source, Some(&table));
    }
    table_of(source, None);
});

fn table_of(source: Source<'_>, table: Option<&Table>) {
    let (date, author) = (Some("2026-05-04"), Some("A"));
    let request = Request { context: context(), table, shaft: Some("S-1"), date, author, device: None };
    hold(source.bytes, notes::table::read(source, request, &Anything));
}

fn hold(bytes: &[u8], outcome: Result<Notes, Vec<Mistake>>) {
    let lines = bytes.iter().filter(|byte| **byte == b'\n').count() + 1;
    match outcome {
        Ok(notes) => {
            let mut count = 0_u32;
            notes.write(|_, _| {
                count += 1;
                EntryId([u8::try_from(count % 251).unwrap_or(0); 32])
            });
        }
        Err(mistakes) => {
            assert!(!mistakes.is_empty(), "a refusal says why");
            for mistake in &mistakes {
                assert!(mistake.to_string().len() < 2000, "a sentence is short");
                let line = match mistake.place {
                    Place::File => 1,
                    Place::Text { line, .. } => line,
                    Place::Cell { row, .. } => row,
                };
                assert!((1..=lines).contains(&line), "line {line} of {lines}");
            }
        }
    }
}
