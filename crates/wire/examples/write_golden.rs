//! Writes the golden files of format 1 into a folder: `cargo run -p wire --example write_golden FOLDER`.
//!
//! They are written once. A record of a site written with format 1 has to read the same for ever, and the
//! golden files stand for all of them; so a file that is there already is never written over.
//!
//! Never: run as a part of the tests.

use quantity::Moment;
use record::kinds::{Family, KINDS};
use record::{Body, Entry, Held, Record};
use std::path::Path;
use testkit::{Tablet, at, body, full};

/// Signs that readers of lines and of JSON like to trip over: a separator of lines that is none here, a
/// next-line control, a tab, quotes, a surrogate pair.
const UNUSUAL: &str = "truck 5\u{2028}is late\u{85}\t\"stop\" \u{1F6A7} 0 °C";

fn main() -> std::io::Result<()> {
    let folder = std::env::args().nth(1).unwrap_or_else(|| "crates/wire/golden/v1".to_owned());
    std::fs::create_dir_all(&folder)?;
    let families = [
        Family::Job,
        Family::Plan,
        Family::Before,
        Family::Casing,
        Family::Excavation,
        Family::Bottom,
        Family::Cage,
        Family::Pour,
        Family::After,
        Family::Always,
    ];
    for (number, family) in (1_u8..).zip(families) {
        let name = format!("{family:?}.jsonl").to_lowercase();
        write(&Path::new(&folder).join(name), every_kind(number, family))?;
    }
    write(&Path::new(&folder).join("dispute.jsonl"), dispute())
}

/// One entry of every kind of a family, every field filled, on one tablet.
fn every_kind(number: u8, family: Family) -> Vec<Entry> {
    let shaft = (family != Family::Job).then_some("S-1");
    let mut tablet = Tablet::new(number).about(shaft);
    let mut seen = at("07:00");
    let mut entries = Vec::new();
    for kind in KINDS.iter().filter(|kind| kind.family == family) {
        let noted: Option<Moment> = (entries.len() % 3 == 2).then(|| seen.plus_seconds(300));
        entries.push(tablet.enter(seen, noted, seen.plus_seconds(600), full(kind)));
        seen = seen.plus_seconds(420);
    }
    entries
}

/// A sounding two people correct, a person who decides, a remark struck out, a correction corrected.
fn dispute() -> Vec<Entry> {
    let (mut tablet, mut office) = (Tablet::new(21), Tablet::new(22));
    let sounding = |depth: &str| {
        body("concrete_sounded", &[("points[0].depth", depth), ("after", "104"), ("elevation", "+28.7 ft")])
    };
    let sounded = tablet.write("10:41", sounding("26.0 ft"));
    let remark = tablet.write("10:50", body("remark", &[("text", UNUSUAL)]));
    let first =
        tablet.write("11:02", correction(&sounded, "the tape was read one foot off", sounding("25 ft")));
    let second = office.write("16:30", correction(&sounded, "it follows from 28.7 ft", sounding("26.3 ft")));
    let better = tablet.write("16:40", correction(&first, "tenths were left out", sounding("25.4 ft")));
    let closing = [
        ("about", sounded.id.to_string()),
        ("keeps", better.id.to_string()),
        ("reason", "the driller wrote 25.4 on the casing".to_owned()),
        ("by", "E. Engineer".to_owned()),
    ];
    let closing: Vec<(&str, &str)> = closing.iter().map(|(name, text)| (*name, text.as_str())).collect();
    let closed = office.write("17:05", body("dispute_closed", &closing));
    let id = remark.id.to_string();
    let struck = tablet.write("17:10", body("correction", &[("replaces", &id), ("reason", "written twice")]));
    vec![sounded, remark, first, better, struck, second, closed]
}

fn correction(about: &Entry, reason: &str, body: Body) -> Body {
    let reason = reason.to_owned();
    let correction =
        record::kinds::Correction { replaces: about.id, reason, observed: None, body: Some(Box::new(body)) };
    correction.into()
}

fn write(path: &Path, entries: Vec<Entry>) -> std::io::Result<()> {
    if path.exists() {
        println!("{} is there already and stays as it is", path.display());
        return Ok(());
    }
    let record = Record::of(entries.into_iter().map(Held::Known)).expect("they stand in one record");
    println!("{}: {} entries", path.display(), record.len());
    std::fs::write(path, wire::write_lines(&record))
}
