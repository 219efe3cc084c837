//! Old and new readers, old and new data: nothing is dropped, nothing is guessed.
//!
//! | | an entry of format 1 | an entry of a later format |
//! |---|---|---|
//! | this reader reads | taken apart | carried byte for byte, shown as "needs an update" |
//! | this writer writes | the same bytes | the same bytes |

use record::{Held, Log, MergeError, Newer, Record};
use serde_json::{Map, Value, json};
use testkit::{JOB, Tablet, body, key};
use wire::{LineFault, read, read_lines, sha256, write, write_lines};

/// A line as a later version might write it: members, numbers and shapes this one has never heard of.
fn later(format: &Value) -> String {
    let mut object: Map<String, Value> = serde_json::from_value(json!({
        "author": "A. Inspector", "body": { "depth_nm": 12_496_800, "echo": [1.5, null], "kind": 7 },
        "format": format, "job": JOB, "kind": "robot_probe", "observed_at": "2041-04-08T10:41:00-06:00",
        "seq": 1, "shaft": "S-1", "weather": { "wind_m_s": 3.2e-7 },
    }))
    .expect("it is an object");
    let key = key(6);
    object.insert("device".to_owned(), key.device().to_string().into());
    let signed = serde_json_canonicalizer::to_string(&object).expect("it has a canonical form");
    let id: String = sha256(signed.as_bytes()).iter().map(|byte| format!("{byte:02x}")).collect();
    object.insert("id".to_owned(), id.into());
    object.insert("sig".to_owned(), key.seal(signed.as_bytes()).to_string().into());
    serde_json_canonicalizer::to_string(&object).expect("it has a canonical form")
}

fn newer(line: &str) -> Newer {
    match read(line) {
        Ok(Held::Newer(newer)) => newer,
        other => panic!("expected to carry it, got {other:?}"),
    }
}

#[test]
fn a_later_format_is_carried_byte_for_byte() {
    for format in [2_u64, 3, 70_000] {
        let line = later(&json!(format));
        let carried = newer(&line);
        assert_eq!((carried.format, carried.seq, carried.prev), (format, 1, None));
        assert_eq!((carried.job.as_str(), carried.shaft.as_deref()), (JOB, Some("S-1")));
        assert_eq!(carried.device, key(6).device());
        assert_eq!(write(&Held::Newer(carried)), line);
    }
}

#[test]
fn what_is_carried_is_proven_all_the_same() {
    let line = later(&json!(2));
    assert_eq!(read(&line.replacen("robot_probe", "robot_prove", 1)), Err(LineFault::IdDisagrees));
    assert_eq!(read(&line.replacen("1.5", "1.50", 1)), Err(LineFault::NotCanonical));
}

#[test]
fn a_format_that_never_was_is_refused() {
    for format in [json!(0), json!(-1), json!("2"), json!(1.5), json!(null)] {
        assert_eq!(read(&later(&format)), Err(LineFault::Member("format")), "{format}");
    }
}

#[test]
fn old_and_later_entries_live_in_one_record_and_travel_on() {
    let mut tablet = Tablet::new(1);
    let old = Held::Known(tablet.write("10:40", body("remark", &[("text", "rain")])));
    let new = Held::Newer(newer(&later(&json!(2))));
    let record = Record::of([old.clone(), new.clone()]).expect("one job");
    let log = Log::of(&record, Some("S-1"), None);
    assert_eq!((log.lines.len(), log.newer.len()), (1, 1), "the later one is shown, not dropped");
    assert!(Log::of(&record, Some("S-2"), None).newer.is_empty());
    let travelled = Record::of(read_lines(&write_lines(&record)).expect("it reads")).expect("one job");
    assert_eq!(travelled, record);
    assert_eq!(record.merge(&Record::of([new]).expect("one job")), Ok(record.clone()));
    let elsewhere = Tablet::new(2).of_job("J-2").write("10:40", body("remark", &[("text", "sun")]));
    let other = Record::of([Held::Known(elsewhere)]).expect("one job");
    let expected = MergeError::OtherJob { here: JOB.to_owned(), there: "J-2".to_owned() };
    assert_eq!(record.merge(&other), Err(expected));
}
