//! A disk that is really full, under tablets that go on writing: what was acknowledged is there, what was refused stays on
//! the tablets, and when there is room again everything arrives once.

mod carrier;
#[allow(dead_code, reason = "each test program uses its own part of it")]
mod process;

use carrier::{Carrier, exchange};
use process::{Desk, Office};
use record::EntryId;
use std::collections::BTreeSet;
use store::Store;
use sync::Answer;
use testkit::disk::SmallDisk;
use testkit::network::{Device, Fate};
use testkit::{JOB, body};
use wire::http::Code;

const TABLETS: u8 = 4;
/// What is free when the tablets begin to write.
const ROOM: usize = 1024;
/// A remark of this many words fills the room in some hundred entries.
const WORDS: usize = 1500;

/// Every tablet writes one entry after the other and sends it, until each was told that the disk is full.
fn until_full(tablets: &mut [(Device, Carrier)]) {
    let words = "seen ".repeat(WORDS);
    for round in 0..400 {
        let mut told = 0;
        for (device, carrier) in tablets.iter_mut() {
            device.write(testkit::at("10:41"), body("remark", &[("text", words.trim())]), Fate::Keeps);
            told += usize::from(sends(device, carrier));
        }
        if told == tablets.len() {
            assert!(round > 3, "nothing was taken in before");
            return;
        }
    }
    panic!("the disk was never full");
}

/// Sends what waits; whether the desk says that its disk is full.
fn sends(device: &mut Device, carrier: &Carrier) -> bool {
    device.tablet.look();
    while let Some((ask, lines)) = device.ask() {
        let answer = carrier.carry(&ask, lines, JOB).expect("the desk answers");
        let full = matches!(&answer, Answer::Refused(refusal) if refusal.code == Code::DESK_FULL.word);
        device.heard(ask.number, answer, Fate::Keeps);
        if full {
            return true;
        }
    }
    false
}

fn stored(office: &Office) -> BTreeSet<EntryId> {
    let arrivals = office.store().arrivals(0, usize::MAX).expect("it can be read");
    let ids: BTreeSet<EntryId> = arrivals.iter().map(|arrival| arrival.id).collect();
    assert_eq!(ids.len(), arrivals.len(), "nothing is there twice");
    ids
}

#[track_caller]
fn check(office: &Office, disk: &SmallDisk) {
    let desk = Desk::start(office, TABLETS);
    let paired = (1..=TABLETS).zip(&desk.codes).map(|(number, code)| {
        (Device::new(number, 0), Carrier::pair(&desk.address, code, &format!("Rig {number}")))
    });
    let mut tablets: Vec<(Device, Carrier)> = paired.collect();
    disk.fill(ROOM);
    until_full(&mut tablets);

    let promised: BTreeSet<EntryId> =
        tablets.iter().flat_map(|(device, _)| device.disk.told.acknowledged.iter().copied()).collect();
    assert!(!promised.is_empty(), "something was taken in before the disk was full");
    let there = stored(office);
    let lost: Vec<&EntryId> = promised.difference(&there).collect();
    assert!(lost.is_empty(), "acknowledged and gone: {lost:?}");

    // Full as it is, the office still hands out what it has.
    let (_, carrier) = &tablets[0];
    assert_eq!(carrier.state(JOB).map(|state| state.entries), Some(there.len() as u64));

    disk.clear();
    for _ in 0..2 {
        for (device, carrier) in &mut tablets {
            device.tablet.look();
            for _ in 0..10_000 {
                if exchange(device, carrier, JOB).is_none() {
                    break;
                }
            }
        }
    }
    let written: usize = tablets.iter().map(|(device, _)| device.disk.told.acknowledged.len()).sum();
    assert!(written > there.len(), "what was refused arrived later");
    assert_eq!(stored(office).len(), written, "each once");
    let store = office.store();
    assert_eq!(store.whole_complaint().expect("it can be asked"), None);
    let record = store.record(JOB).expect("every line is what it was");
    assert_eq!(record.alarms(), []);
    for (device, _) in &tablets {
        assert!(device.file() == wire::write_lines(&record), "a tablet holds another record than the desk");
    }
    println!("{} entries before the disk was full, {written} in the end", there.len());
    desk.kill();
}

#[test]
fn a_full_disk_loses_nothing_of_a_file() {
    let Some(disk) = SmallDisk::new(8) else { return };
    check(&Office::on(&disk), &disk);
}

#[test]
fn a_full_disk_loses_nothing_of_a_database_on_a_server() {
    let Some(disk) = SmallDisk::new(48) else { return };
    let database = testkit::postgres::cluster().database_on(&disk);
    check(&Office::new(Some(database)), &disk);
}
