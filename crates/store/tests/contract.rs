//! What every store promises, told to the trait alone.

use record::entry::Newer;
use record::{Body, Entry, Held, Record};
use store::{Added, Sqlite, Store, StoreError};
use testkit::{JOB, Tablet, body};

fn remark(text: &str) -> Body {
    body("remark", &[("text", text)])
}

fn day(number: u8, texts: &[&str]) -> Vec<Held> {
    let mut tablet = Tablet::new(number).about(Some("S-1"));
    let write = |(index, text): (usize, &&str)| tablet.write(&format!("10:{:02}", 10 + index), remark(text));
    texts.iter().enumerate().map(write).map(Held::Known).collect()
}

/// A store of each kind there is, empty, each told the same story.
#[track_caller]
fn told(story: impl Fn(&mut dyn Store)) {
    let folder = tempfile::tempdir().expect("a folder");
    let mut sqlite = Sqlite::open(&folder.path().join("record.sqlite")).expect("a store");
    story(&mut sqlite);
}

fn of(entries: &[Held]) -> Record {
    Record::of(entries.iter().cloned()).expect("one job")
}

#[test]
fn what_is_added_is_there() {
    told(|store| {
        let entries = day(1, &["water at 12 ft", "clear"]);
        assert_eq!(store.add(&entries).expect("added"), Added { new: 2, known: 0 });
        assert_eq!(store.record(JOB).expect("read"), of(&entries));
        assert_eq!(store.jobs().expect("read"), [JOB]);
        assert!(store.record("another job").expect("read").is_empty());
    });
}

#[test]
fn adding_twice_adds_nothing() {
    told(|store| {
        let entries = day(1, &["water at 12 ft", "clear"]);
        store.add(&entries[..1]).expect("added");
        assert_eq!(store.add(&entries).expect("added"), Added { new: 1, known: 1 });
        assert_eq!(store.add(&entries).expect("added"), Added { new: 0, known: 2 });
        assert_eq!(store.record(JOB).expect("read"), of(&entries));
    });
}

/// The second of two entries contradicts a kept one: neither is taken over.
#[test]
fn all_or_nothing() {
    told(|store| {
        let entries = day(1, &["water at 12 ft", "clear"]);
        store.add(&entries[..1]).expect("added");
        let Held::Known(kept) = entries[0].clone() else { panic!("known") };
        let forged = Held::Known(Entry { body: remark("water at 21 ft"), ..kept });
        let refused = store.add(&[entries[1].clone(), forged]);
        assert!(matches!(refused, Err(StoreError::SameId(id)) if id == entries[0].id()), "{refused:?}");
        assert_eq!(store.record(JOB).expect("read"), of(&entries[..1]));
    });
}

#[test]
fn the_record_does_not_depend_on_the_order_of_arrival() {
    let (first, second) = (day(1, &["water at 12 ft", "clear"]), day(2, &["load in"]));
    told(|store| {
        store.add(&second).expect("added");
        store.add(&first.iter().rev().cloned().collect::<Vec<_>>()).expect("added");
        let all: Vec<Held> = first.iter().chain(&second).cloned().collect();
        assert_eq!(wire::write_lines(&store.record(JOB).expect("read")), wire::write_lines(&of(&all)));
    });
}

/// Two entries under one number of a device are kept both: an alarm for people, not for the store.
#[test]
fn a_cloned_tablet_is_kept_whole() {
    told(|store| {
        let (one, other) = (day(1, &["water at 12 ft"]), day(1, &["water at 13 ft"]));
        store.add(&one).expect("added");
        store.add(&other).expect("added");
        assert_eq!(store.record(JOB).expect("read").alarms().len(), 1);
    });
}

/// A line of a format to come, as docs/record-format.md says it may look: the envelope and something unknown.
fn newer() -> Held {
    let Held::Known(known) = &day(3, &["to come"])[0] else { panic!("known") };
    let line = wire::write(&Held::Known(known.clone()));
    let mut tree: serde_json::Value = serde_json::from_str(&line).expect("JSON");
    let members = tree.as_object_mut().expect("an object");
    members.insert("format".to_owned(), 2.into());
    members.insert("laser".to_owned(), serde_json::json!({ "points": [1, 2, 3] }));
    sealed(members)
}

/// Id and signature of a line made by hand, as the format page says: over the canonical form without them.
fn sealed(members: &mut serde_json::Map<String, serde_json::Value>) -> Held {
    members.remove("id");
    members.remove("sig");
    let bytes = serde_json_canonicalizer::to_vec(&members).expect("canonical");
    let id = record::EntryId(wire::sha256(&bytes)).to_string();
    let seal = testkit::key(3).seal(&bytes).to_string();
    members.insert("id".to_owned(), id.into());
    members.insert("sig".to_owned(), seal.into());
    let line = serde_json_canonicalizer::to_string(&members).expect("canonical");
    wire::read(&line).expect("a line of a newer format")
}

#[test]
fn an_entry_of_a_newer_program_is_kept_byte_for_byte() {
    told(|store| {
        let entry = newer();
        let Held::Newer(Newer { line, format: 2, .. }) = &entry else { panic!("{entry:?}") };
        store.add(std::slice::from_ref(&entry)).expect("added");
        assert_eq!(store.add(std::slice::from_ref(&entry)).expect("added"), Added { new: 0, known: 1 });
        assert_eq!(wire::write_lines(&store.record(JOB).expect("read")), format!("{line}\n"));
    });
}
