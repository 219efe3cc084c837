//! Files nobody wrote on purpose: cut off, mutated, endless, deep. They give mistakes, never a crash.

use notes::table::{Request, Table};
use notes::{Mistake, Nothing, Source, read};
use proptest::prelude::*;

const GOOD: &str = include_str!("good.toml");

fn read_bytes(bytes: &[u8]) -> Result<usize, Vec<Mistake>> {
    read(Source { name: "notes.toml", bytes }, None, &Nothing).map(|notes| notes.drafted.len())
}

/// Every mistake has a place in the file and a short sentence.
#[track_caller]
fn check(bytes: &[u8]) -> Result<usize, String> {
    let lines = bytes.iter().filter(|byte| **byte == b'\n').count() + 1;
    read_bytes(bytes).map_err(|mistakes| {
        assert!(!mistakes.is_empty(), "a refusal says why");
        for mistake in &mistakes {
            let told = mistake.to_string();
            assert!(told.starts_with("notes.toml"), "{told}");
            assert!(told.len() < 1500, "{} characters", told.len());
            if let notes::Place::Text { line, .. } = mistake.place {
                assert!((1..=lines).contains(&line), "line {line} of {lines}: {told}");
            }
        }
        mistakes[0].to_string()
    })
}

#[test]
fn deep_and_endless_files() {
    let deep = |open: &str, close: &str| format!("a = {}1{}", open.repeat(100_000), close.repeat(100_000));
    assert!(check(deep("[", "]").as_bytes()).is_err());
    assert!(check(deep("{b=", "}").as_bytes()).is_err());
    assert!(check(format!("{}a = 1", "a.".repeat(200_000)).as_bytes()).is_err());
    assert!(check(format!("[{}a]\nb = 1", "a.".repeat(200_000)).as_bytes()).is_err());
    assert!(check(format!("x = {{ {}a = 1 }}", "a.".repeat(200_000)).as_bytes()).is_err());
    assert!(check(format!("x = [ {{ {}a = 1 }} ]", "\"\".".repeat(200_000)).as_bytes()).is_err());
    assert!(check(format!("\"b\" .{}a = 1", "a.".repeat(200_000)).as_bytes()).is_err());
}

#[test]
fn a_line_of_ten_megabytes() {
    let text = "x".repeat(10_000_000);
    assert!(check(text.as_bytes()).is_err());
    let remark = GOOD.replace("Rain since noon", &text);
    assert!(remark.len() > 10_000_000);
    assert!(check(remark.as_bytes()).is_ok(), "a long remark is a remark");
    let depth = GOOD.replace("\"4 ft\"", &format!("\"{text}\""));
    assert!(check(depth.as_bytes()).is_err());
    let line = "{ at = 1, entry = \"x\" },".repeat(3_000);
    assert!(check(format!("{GOOD}\n[[day]]\nlog = [{line}]").as_bytes()).is_err());
}

/// Any bytes as each of the tables.
fn read_tables(bytes: &[u8]) -> usize {
    let source = Source { name: "sheet.csv", bytes: GOOD.as_bytes() };
    let context = read(source, None, &Nothing).expect("the example is read").context;
    let mut refused = 0;
    for table in Table::named().iter().map(Some).chain([None]) {
        let request = Request {
            context: &context,
            table,
            shaft: Some("S-1"),
            date: Some("2026-05-04"),
            author: Some("A"),
            device: None,
        };
        if let Err(mistakes) = notes::table::read(Source { name: "sheet.csv", bytes }, request, &Nothing) {
            assert!(!mistakes.is_empty() && mistakes.iter().all(|one| one.to_string().len() < 1500));
            refused += 1;
        }
    }
    refused
}

#[test]
fn endless_tables() {
    let long = "x".repeat(3_000_000);
    assert_eq!(read_tables(long.as_bytes()), 6);
    assert_eq!(read_tables(",".repeat(1_000_000).as_bytes()), 6);
    assert_eq!(read_tables("a,".repeat(1_000_000).as_bytes()), 6);
    assert_eq!(read_tables(format!("at,to\n07:10,{long}\n").as_bytes()), 6);
    assert_eq!(read_tables(format!("at,to\n07:10,\"{long}\n").as_bytes()), 6);
}

#[test]
fn cut_off_anywhere() {
    let mut refused = 0;
    for end in (0..GOOD.len()).filter(|end| GOOD.is_char_boundary(*end)) {
        refused += usize::from(check(&GOOD.as_bytes()[..end]).is_err());
    }
    assert!(refused * 10 > GOOD.len() * 9, "{refused} of {}: nearly every cut is noticed", GOOD.len());
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused(text in "\\PC*") {
        let _ = check(text.as_bytes());
    }

    #[test]
    fn any_table_is_read_or_refused(text in "[a-z0-9 ,;:\"\n()\\[\\].@-]{0,120}", head in 0..4_usize) {
        let heads = ["at,to", "ticket,volume,arrived", "at;center;north", "at,points[1].depth,points[2].depth"];
        read_tables(format!("{}\n{text}", heads[head]).as_bytes());
    }

    #[test]
    fn any_bytes_are_read_or_refused(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let _ = check(&bytes);
    }

    #[test]
    fn text_that_looks_like_notes(text in "[\\[\\]{}=\"',.#\n \\-:a-z0-9]{0,200}") {
        let _ = check(text.as_bytes());
    }

    #[test]
    fn one_byte_changed(at in 0..GOOD.len(), byte in any::<u8>()) {
        let mut bytes = GOOD.as_bytes().to_vec();
        bytes[at] = byte;
        let _ = check(&bytes);
    }

    #[test]
    fn a_stretch_taken_out(at in 0..GOOD.len(), length in 1..60_usize) {
        let mut bytes = GOOD.as_bytes().to_vec();
        bytes.drain(at..(at + length).min(GOOD.len()));
        let _ = check(&bytes);
    }

    #[test]
    fn lines_in_another_order(a in 0..70_usize, b in 0..70_usize) {
        let mut lines: Vec<&str> = GOOD.lines().collect();
        let (a, b) = (a % lines.len(), b % lines.len());
        lines.swap(a, b);
        let _ = check(lines.join("\r\n").as_bytes());
    }
}
