//! Every sort of mistake in a file of notes, as the person who made it reads it.

mod day;
mod field;
mod file;
mod job;
mod label;

use expect_test::Expect;
use notes::{Nothing, Source, read};

const JOB: &str = r#"[job]
key = "harlow-creek"
date = 2026-05-01
author = "M. Okafor"
name = "Harlow Creek Interchange"
time_zone = "America/Denver"
units = "us"
lengths = "feet_tenths"

[[shaft]]
id = "S-1"
structure = "sign"
top = "5280.0 ft"
tip = "5262 ft"
method = "wet"
bore = "4 ft"
"#;

fn told(name: &str, text: &str) -> String {
    match read(Source { name, bytes: text.as_bytes() }, None, &Nothing) {
        Ok(notes) => format!("{} drafts", notes.drafted.len()),
        Err(mistakes) => mistakes.iter().map(|mistake| format!("{mistake}\n")).collect(),
    }
}

/// A whole file.
#[track_caller]
fn check(text: &str, expected: Expect) {
    expected.assert_eq(&told("notes.toml", text));
}

/// Lines of one day of one shaft; the first of them is line 20.
#[track_caller]
fn check_log(log: &str, expected: Expect) {
    let day = "[[day]]\ndate = 2026-05-04\nshaft = \"S-1\"\nauthor = \"M. Okafor\"\nlog = [\n";
    let job = JOB;
    let job = job.trim_end();
    check(&format!("{job}\n{day}{log}\n]\n"), expected);
}

/// A job with one line replaced.
#[track_caller]
fn check_job(from: &str, to: &str, expected: Expect) {
    assert!(JOB.contains(from), "the line to be replaced is there");
    check(&JOB.replace(from, to), expected);
}
