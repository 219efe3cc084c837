//! A writer is killed in the middle of its work, fifty times: nothing it said was kept is lost or doubled.
//!
//! The writer is this same test program, started as a child. It adds entries one at a time and prints the
//! id of each after `add` has returned; that print is what a person relies on.

use record::Held;
use std::collections::BTreeSet;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;
use store::{Sqlite, Store};
use testkit::{JOB, Tablet, body};

const ROUNDS: u8 = 50;
const FOLDER: &str = "STORE_KILL_FOLDER";
const ROUND: &str = "STORE_KILL_ROUND";

/// Adds so many entries of one tablet and prints the id of each once it is kept.
fn write(path: &Path, tablet: u8, count: usize) {
    let mut store = Sqlite::open(path).expect("a store");
    let mut tablet = Tablet::new(tablet).about(Some("S-1"));
    for number in 0..count {
        let text = format!("remark {number} of a tablet that may die at any moment");
        let entry = Held::Known(tablet.write("10:41", body("remark", &[("text", &text)])));
        store.add(std::slice::from_ref(&entry)).expect("added");
        println!("kept {}", entry.id());
    }
}

/// Alone it is an ordinary test; started by the other one it writes until it is killed.
#[test]
fn a_writer_keeps_what_it_says() {
    if let (Some(folder), Ok(round)) = (std::env::var_os(FOLDER), std::env::var(ROUND)) {
        return write(Path::new(&folder), round.parse().expect("a number"), usize::MAX);
    }
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("record.sqlite");
    write(&path, 1, 5);
    assert_eq!(Sqlite::open(&path).expect("a store").record(JOB).expect("read").len(), 5);
}

/// Starts a writer, lets it live for a while after its first entry, kills it, and gives the ids it printed.
fn acknowledged(path: &Path, round: u8) -> Vec<String> {
    let mut child = Command::new(std::env::current_exe().expect("this program"))
        .args(["--exact", "a_writer_keeps_what_it_says", "--nocapture", "--test-threads=1"])
        .env(FOLDER, path)
        .env(ROUND, round.to_string())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("started");
    let mut lines = BufReader::new(child.stdout.take().expect("its output")).lines();
    let mut ids = Vec::new();
    let kept = |line: String| line.split_once("kept ").map(|(_, id)| id.to_owned());
    ids.extend(lines.by_ref().map_while(Result::ok).find_map(kept));
    // A moment that differs from round to round, so that kills fall into every part of a commit.
    std::thread::sleep(Duration::from_micros(u64::from(round) * 619 % 9_973));
    child.kill().expect("killed");
    child.wait().expect("gone");
    ids.extend(lines.map_while(Result::ok).filter_map(kept).filter(|id| id.len() == 64));
    ids
}

#[test]
fn nothing_acknowledged_is_lost_when_the_writer_is_killed() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("record.sqlite");
    let mut promised = BTreeSet::new();
    for round in 1..=ROUNDS {
        let ids = acknowledged(&path, round);
        assert!(!ids.is_empty(), "round {round} wrote nothing");
        promised.extend(ids);
        let store = Sqlite::open(&path).expect("opens after a kill");
        assert_eq!(store.complaint().expect("an answer"), None);
        let record = store.record(JOB).expect("every line proved");
        let kept: BTreeSet<String> = record.entries().map(|held| held.id().to_string()).collect();
        assert_eq!(promised.difference(&kept).count(), 0, "round {round} lost entries");
        assert_eq!(record.alarms(), [], "round {round} doubled a number or left a gap");
    }
    let tablets = Sqlite::open(&path).expect("a store").record(JOB).expect("read");
    let devices: BTreeSet<_> = tablets.entries().map(|held| held.place().0).collect();
    assert_eq!(devices.len(), usize::from(ROUNDS));
}
