//! What every store promises, told to the trait alone.

mod kinds;

use kinds::each_kind;
use record::entry::Newer;
use record::{Body, Entry, Held, Record};
use store::{Added, Kept, Line, Most, Page, Store, StoreError};
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
    each_kind(|mut store| story(&mut *store));
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

fn lines_of(entries: &[Held]) -> String {
    entries.iter().map(|held| wire::write(held) + "\n").collect()
}

/// A page as its lines, its cursor, and whether there are more.
#[track_caller]
fn page(store: &dyn Store, cursor: i64, lines: usize, expected: (&[Held], i64, bool)) {
    let Page { lines: found, count, cursor: next, more } =
        store.after(JOB, cursor, Most { lines, bytes: usize::MAX }).expect("a page");
    assert_eq!((found, count, next, more), (lines_of(expected.0), expected.0.len(), expected.1, expected.2));
}

#[test]
fn what_is_new_is_handed_out_by_cursor_as_it_was_kept() {
    told(|store| {
        let (own, other) =
            (day(1, &["a", "b", "c"]), Tablet::new(2).of_job("J-2").write("10:41", remark("d")));
        store.add(&own[..1]).expect("added");
        store.add(&[Held::Known(other)]).expect("added");
        store.add(&own[1..]).expect("added");
        page(store, 0, 2, (&own[..2], 3, true));
        page(store, 3, 2, (&own[2..], 4, false));
        page(store, 4, 2, (&[], 4, false));
        page(store, 99, 2, (&[], 99, false));
        page(store, 0, 0, (&own[..1], 1, true));
    });
}

/// A page ends before the line that would make it too large, and never before its first.
#[test]
fn a_page_has_so_many_bytes() {
    told(|store| {
        let own = day(1, &["a", "b", "c"]);
        store.add(&own).expect("added");
        let two = lines_of(&own[..2]).len();
        let count = |bytes| store.after(JOB, 0, Most { lines: 10, bytes }).expect("a page").count;
        assert_eq!([count(1), count(two - 1), count(two), count(usize::MAX)], [1, 1, 2, 3]);
    });
}

#[test]
fn how_much_there_is_of_each_job_and_device() {
    told(|store| {
        let (first, second) = (day(1, &["a", "b", "c"]), day(2, &["d"]));
        let other = Tablet::new(2).of_job("J-2").write("10:41", remark("e"));
        store.add(&[&first[1..], &second[..], &[Held::Known(other)]].concat()).expect("added");
        let counts: Vec<_> =
            store.counts().expect("read").into_iter().map(|c| (c.job, c.entries, c.cursor)).collect();
        assert_eq!(counts, [(JOB.to_owned(), 3, 3), ("J-2".to_owned(), 1, 4)]);
        let mut heads: Vec<_> = store
            .heads(JOB)
            .expect("read")
            .into_iter()
            .map(|head| (head.device, head.entries, head.last))
            .collect();
        heads.sort();
        let mut expected = [(first[0].place().0, 2, 3), (second[0].place().0, 1, 1)];
        expected.sort();
        assert_eq!(heads, expected);
        let arrivals = store.arrivals(1, 2).expect("read");
        let found: Vec<_> = arrivals.iter().map(|new| (new.arrival, new.job.as_str(), new.id)).collect();
        assert_eq!(found, [(2, JOB, first[2].id()), (3, JOB, second[0].id())]);
    });
}

/// One commit for many: each line gets its own answer, and one that contradicts does not stop the others.
#[test]
fn lines_are_answered_one_by_one() {
    told(|store| {
        let entries = day(1, &["a", "b", "c"]);
        let line = |at: usize| Line::read(&wire::write(&entries[at])).expect("a line").0;
        let false_line = Line::proved(&entries[1], wire::write(&entries[1]).replace("\"b\"", "\"x\""));
        assert_eq!(store.add_lines(&[line(0), false_line]).expect("added"), [Kept::New(1), Kept::New(2)]);
        let kept = store.add_lines(&[line(0), line(1), line(2), line(2)]).expect("added");
        assert_eq!(kept, [Kept::Known(1), Kept::Contradicts, Kept::New(3), Kept::Known(3)]);
        let altered = store.after(JOB, 0, Most { lines: 10, bytes: usize::MAX });
        assert!(matches!(altered, Err(StoreError::Altered { arrival: 2, .. })), "{altered:?}");
    });
}

#[test]
fn an_entry_of_a_newer_program_is_handed_out_byte_for_byte() {
    told(|store| {
        let entry = newer();
        store.add(std::slice::from_ref(&entry)).expect("added");
        page(store, 0, 10, (std::slice::from_ref(&entry), 1, false));
    });
}
