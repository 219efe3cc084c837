//! Any file that claims to be a record.
//!
//! Must hold: no panic; a line that reads is written back to the same bytes; what reads can be merged,
//! folded and questioned. A mutated line seldom has the right hash, so every line is also tried with the
//! device, id and signature made good, to reach what lies behind the proof.

#![no_main]

#[path = "../mended/repaired.rs"]
mod repaired;

use libfuzzer_sys::fuzz_target;
use record::log::Log;
use record::plausible::questions;
use record::{Held, Record};
use repaired::repaired;
use wire::{read_lines, write, write_lines};

fuzz_target!(|bytes: &[u8]| {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    whole(text);
    let repaired: String = text.lines().filter_map(repaired).map(|line| line + "\n").collect();
    whole(&repaired);
});

fn whole(text: &str) {
    match read_lines(text) {
        Ok(held) => understood(text, held),
        Err(errors) => assert!(errors.iter().all(|error| !error.to_string().is_empty())),
    }
}

fn understood(text: &str, held: Vec<Held>) {
    let lines = text.lines().filter(|line| !line.trim().is_empty());
    for (line, held) in lines.zip(&held) {
        assert_eq!(write(held), line, "a line that reads is the only spelling of its entry");
    }
    let Ok(record) = Record::of(held) else { return };
    assert_eq!(record.merge(&record), Ok(record.clone()));
    let again = read_lines(&write_lines(&record)).expect("what was written reads");
    assert_eq!(Record::of(again), Ok(record.clone()));
    for shaft in record.shafts() {
        let log = Log::of(&record, Some(shaft), None);
        for question in questions(&log) {
            assert!(log.lines.iter().any(|line| line.entry.id == question.about), "a question about a line");
        }
    }
}
