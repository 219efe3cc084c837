//! What was written with format 1 reads the same for ever.
//!
//! The files in `golden/v1` were written once, with keys everybody knows, and stand for every record of a
//! site. The list of kinds and fields stands for the entries nobody has written yet.

use record::field::{FieldSpec, Shape};
use record::kinds::KINDS;
use record::{Held, Log, Record, Standing};
use std::collections::BTreeSet;
use std::fmt::Write;
use std::path::PathBuf;
use wire::{LineFault, read, read_lines, write, write_lines};

fn golden(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("golden").join(name)
}

fn text(name: &str) -> String {
    std::fs::read_to_string(golden(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
}

fn files() -> Vec<String> {
    let folder = std::fs::read_dir(golden("v1")).expect("the golden files are there");
    let names = folder.map(|entry| entry.expect("a file").file_name().to_string_lossy().into_owned());
    let mut names: Vec<String> = names.filter(|name| name.ends_with(".jsonl")).collect();
    names.sort();
    names
}

fn record(name: &str) -> Record {
    let held = read_lines(&text(&format!("v1/{name}")))
        .unwrap_or_else(|errors| panic!("{name} no longer reads: a site's record would be lost. {errors:?}"));
    Record::of(held).expect("one job")
}

#[test]
fn every_golden_line_reads_and_is_written_with_the_same_bytes() {
    for name in files() {
        let written = text(&format!("v1/{name}"));
        for line in written.lines() {
            let held = read(line).unwrap_or_else(|fault| panic!("{name}: {fault}: {line}"));
            assert!(matches!(held, Held::Known(_)), "{name}: {line}");
            assert_eq!(write(&held), line, "{name}");
        }
        let record = record(&name);
        assert_eq!(write_lines(&record), written, "{name}");
        assert!(record.alarms().is_empty(), "{name}: {:?}", record.alarms());
    }
}

#[test]
fn every_kind_has_a_golden_line_with_every_field() {
    let mut seen = BTreeSet::new();
    for name in files() {
        let record = record(&name);
        for held in record.entries() {
            let Held::Known(entry) = held else { panic!("{name} is of format 1") };
            if entry.body.to_group().len() == entry.body.kind().fields.len() {
                seen.insert(entry.body.kind().word);
            }
        }
    }
    let missing: Vec<&str> = KINDS.iter().map(|kind| kind.word).filter(|word| !seen.contains(word)).collect();
    assert!(missing.is_empty(), "no golden line shows all of {missing:?}");
}

/// One line a field: kind, path, what it holds, whether it may be blank.
fn listed(at: &str, field: &FieldSpec, list: &mut String) {
    let blank = if field.may_be_blank { " or blank" } else { "" };
    let path = format!("{at}.{}", field.name);
    shape(&path, (field.shape)(), blank, list);
}

fn shape(path: &str, shape_of: Shape, blank: &str, list: &mut String) {
    match shape_of {
        Shape::List(item) => shape(&format!("{path}[]"), item(), blank, list),
        Shape::Group(fields) => {
            writeln!(list, "{path}: group{blank}").expect("a String takes it");
            fields.iter().for_each(|field| listed(path, field, list));
        }
        Shape::Choice(words) => {
            let words: Vec<&str> = words.iter().map(|word| word.word).collect();
            writeln!(list, "{path}: {}{blank}", words.join("|")).expect("a String takes it");
        }
        // Which unit a bare number means is said in the text itself; the scale is not a part of the form.
        Shape::Quantity(kind, _) => writeln!(list, "{path}: {kind:?}{blank}").expect("a String takes it"),
        plain => writeln!(list, "{path}: {plain:?}{blank}").expect("a String takes it"),
    }
}

/// What to do when this fails.
const FROZEN: &str = "
The stored form of format 1 is frozen, and this change would alter it.
- A kind, field or word that is gone, renamed, of another shape or no longer allowed to be blank: put it
  back. Records on sites hold it.
- A kind, field or word that is new: an older program reads format 1 and would refuse it. Give it to a new
  module `wire::v2` with its own golden folder; an entry that uses nothing new is still written as format 1.
- Only while no build has been handed to anybody: delete the golden files of the families concerned, write
  them again with `cargo run -p wire --example write_golden`, run this test with FREEZE_FORMAT_AGAIN=1, and
  say so in the commit.
";

#[test]
fn the_kinds_and_fields_of_format_1_are_frozen() {
    let mut list = String::new();
    for kind in KINDS {
        writeln!(list, "{} {:?}", kind.word, kind.family).expect("a String takes it");
        kind.fields.iter().for_each(|field| listed(kind.word, field, &mut list));
    }
    if std::env::var_os("FREEZE_FORMAT_AGAIN").is_some() {
        std::fs::write(golden("v1/kinds.txt"), &list).expect("the list can be written");
    }
    let frozen = text("v1/kinds.txt");
    let (old, new): (BTreeSet<&str>, BTreeSet<&str>) = (frozen.lines().collect(), list.lines().collect());
    let (gone, come): (Vec<_>, Vec<_>) = (old.difference(&new).collect(), new.difference(&old).collect());
    assert!(frozen == list, "{FROZEN}\ngone: {gone:#?}\nnew: {come:#?}");
}

/// The copy of the pour with one digit of one reading altered, and nothing else.
#[test]
fn the_tampered_copy_is_refused_at_the_line_that_was_altered() {
    let (whole, tampered) = (text("v1/dispute.jsonl"), text("tampered.jsonl"));
    let differing: Vec<usize> = (1..)
        .zip(whole.lines().zip(tampered.lines()))
        .filter(|(_, (a, b))| a != b)
        .map(|(at, _)| at)
        .collect();
    assert_eq!((differing.len(), whole.len()), (1, tampered.len()));
    let errors = read_lines(&tampered).expect_err("one line was altered");
    let found: Vec<_> = errors.into_iter().map(|error| (error.line, error.fault)).collect();
    assert_eq!(found, [(differing[0], LineFault::IdDisagrees)]);
}

#[test]
fn the_dispute_of_the_golden_file_stands_as_its_people_left_it() {
    let record = record("dispute.jsonl");
    let log = Log::of(&record, Some("S-1"), None);
    assert!(log.disputes.is_empty() && log.loose.is_empty());
    let depth = |line: &record::Line<'_>| match line.body {
        record::Body::ConcreteSounded(sounding) => sounding.points[0].depth.typed().to_owned(),
        _ => line.body.kind().word.to_owned(),
    };
    let stands: Vec<String> = log.lines.iter().filter(|line| line.stands()).map(depth).collect();
    assert_eq!(stands, ["25.4 ft", "dispute_closed"]);
    let struck = log.lines.iter().filter(|line| matches!(line.standing, Standing::Struck { .. })).map(depth);
    assert_eq!(struck.collect::<Vec<_>>(), ["26.0 ft", "remark"]);
    let noon = Log::of(&record, Some("S-1"), Some(testkit::at("16:35")));
    assert_eq!(noon.disputes.len(), 1, "before it was closed it was open");
}

/// What was proved before it was kept is read again as it is, and a line that changed since is found.
#[test]
fn a_kept_line_is_read_by_its_id_alone() {
    let line = text("v1/bottom.jsonl").lines().next().expect("a line").to_owned();
    assert_eq!(wire::read_kept(&line), wire::read(&line));
    let altered = line.replacen("author\":\"", "author\":\"X", 1);
    assert_eq!(wire::read_kept(&altered), Err(wire::LineFault::IdDisagrees));
    let (before, seal) = line.split_once("\"sig\":\"").expect("it is signed");
    let other_digit = if seal.starts_with('0') { '1' } else { '0' };
    let resealed = format!("{before}\"sig\":\"{other_digit}{}", &seal[1..]);
    assert_eq!(wire::read(&resealed), Err(wire::LineFault::NotSealed));
    assert!(wire::read_kept(&resealed).is_ok());
}
