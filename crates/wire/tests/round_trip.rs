//! Whatever can be entered comes back from its line as it was.

use proptest::prelude::*;
use record::field::How;
use record::kinds::KINDS;
use record::{Body, Held, Record};
use testkit::{Tablet, any, at};
use wire::{digest, read, read_lines, write, write_lines};

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn a_line_gives_back_its_entry(
        body in any::body(), seen in any::moment(), noted in proptest::option::of(any::moment()),
        entered in any::moment(), shaft in proptest::option::of(any::words()),
    ) {
        let entry = Tablet::new(3).about(shaft.as_deref()).enter(seen, noted, entered, body);
        let line = write(&Held::Known(entry.clone()));
        prop_assert!(!line.contains('\n'), "a line is one line");
        prop_assert_eq!(read(&line), Ok(Held::Known(entry)));
    }
}

/// The law above picks kinds by chance; this one leaves none out.
#[test]
fn every_kind_has_bodies_to_pick_from() {
    use proptest::{strategy::ValueTree, test_runner::TestRunner};
    let mut runner = TestRunner::deterministic();
    for kind in KINDS {
        let strategy = any::body_of(kind);
        for _ in 0..8 {
            let body = strategy.new_tree(&mut runner).expect("few are filtered out").current();
            assert_eq!(body.kind().word, kind.word);
            let group = body.to_group();
            assert_eq!(Body::from_group(kind.word, &group, "", &How::Stored), Ok(body));
        }
    }
}

#[test]
fn a_file_holds_the_entries_in_order_of_device_and_number_whatever_order_they_came_in() {
    let mut tablet = Tablet::new(1);
    let mut other = Tablet::new(2);
    let words = |text: &str| testkit::body("remark", &[("text", text)]);
    let entries = [
        tablet.write("10:00", words("a")),
        other.write("09:00", words("b")),
        tablet.write("10:05", words("c")),
    ];
    let forward = testkit::record(&entries);
    let backward = testkit::record(entries.iter().rev());
    assert_eq!(write_lines(&forward), write_lines(&backward));
    assert_eq!(digest(&forward), digest(&backward));
    let again = Record::of(read_lines(&write_lines(&forward)).expect("it reads")).expect("one job");
    assert_eq!(again, forward);
    let less = testkit::record(&entries[..2]);
    assert_ne!(digest(&less), digest(&forward));
}

/// Worked with coreutils: `printf '%s\n' ID1 ID2 | sort | sha256sum`, ids of 64 ones and 64 twos.
#[test]
fn the_digest_of_a_record_can_be_computed_by_hand() {
    let ids = ["22".repeat(32), "11".repeat(32)].map(|id| record::EntryId::from_hex(&id).expect("64 digits"));
    let digest: String = wire::digest_of_ids(ids).iter().map(|byte| format!("{byte:02x}")).collect();
    assert_eq!(digest, "f5404fd407075eb9ef6261cbfc12da4cbe2906c3a04dcffd2be12daa6a475c89");
    let none: String = wire::digest_of_ids([]).iter().map(|byte| format!("{byte:02x}")).collect();
    assert_eq!(none, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

#[test]
fn blank_lines_and_line_ends_of_another_system_are_no_fault() {
    let mut tablet = Tablet::new(1);
    let entry = tablet.enter(at("10:00"), None, at("10:01"), testkit::body("remark", &[("text", "rain")]));
    let line = write(&Held::Known(entry.clone()));
    let text = format!("\r\n{line}\r\n\n   \n");
    assert_eq!(read_lines(&text), Ok(vec![Held::Known(entry)]));
}
