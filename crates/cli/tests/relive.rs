//! A day lived through again: the same record however fast, the same figures as notes entered at once.

#![cfg(unix)]

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;

use desk::{Desk, Served, demo, sorted};
use serde_json::Value;
use std::collections::BTreeMap;
use std::time::Duration;

/// Entries of the demo's job up to the last of the day on which S-2 was poured.
const UNTIL_EVENING: u64 = 277;

/// Serves a folder that lives the pour of S-2 through again.
#[track_caller]
fn relive(desk: &Desk, folder: &str, words: &[&str]) -> Served {
    let notes = sorted(&demo("harrow-vale"), ".toml");
    let begin = [folder, "--shaft", "S-2", "--relive"];
    let notes: Vec<&str> = notes.iter().map(String::as_str).collect();
    desk.serve(&[&begin[..], &notes, words].concat())
}

/// How many entries of the job an office holds.
fn entries(served: &Served, token: &str) -> u64 {
    let jobs = served.get("/api/v1/jobs", token).json();
    jobs["jobs"][0]["entries"].as_u64().expect("a number")
}

/// The record once the whole day has come, so many entries at least; those of the days after it come at our own pace. On a
/// busy machine the last of a day may be a while on their way.
#[track_caller]
fn lived_through(desk: &Desk, folder: &str, from: &str, speed: &str, at_least: u64) -> String {
    let served = relive(desk, folder, &["--from", from, "--speed", speed]);
    let token = served.pair(served.said["code"].as_str().expect("a code"));
    let clock = || served.get("/api/v1/hello", "").json()["clock"]["speed"].as_f64().expect("a clock");
    let mut tries = 0;
    while clock() > 1.0 || entries(&served, &token) < at_least {
        tries += 1;
        assert!(tries < 1200, "the day does not end: {} entries", entries(&served, &token));
        std::thread::sleep(Duration::from_millis(50));
    }
    assert_eq!(served.stop(), Some(0));
    desk.run(&["export", "record", "--job", folder]).ends(0).out
}

/// Five hours in three seconds, and all of it at once: the same keys write the same bytes.
#[test]
fn the_record_does_not_tell_how_fast_it_was_lived_through() {
    let desk = Desk::new();
    // Nothing of that day is left to come at 15:40.
    let quick = lived_through(&desk, "quick", "2025-05-13 15:40", "100000", UNTIL_EVENING);
    copy_keys(&desk, "quick", "slow");
    let slow = lived_through(&desk, "slow", "10:30", "6000", quick.lines().count() as u64);
    let other = slow.lines().zip(quick.lines()).find(|(slow, quick)| slow != quick);
    assert_eq!((slow.lines().count(), other), (quick.lines().count(), None));
}

fn copy_keys(desk: &Desk, from: &str, to: &str) {
    std::fs::create_dir_all(desk.path(to).join("keys")).expect("a folder");
    for file in std::fs::read_dir(desk.path(from).join("keys")).expect("keys").flatten() {
        std::fs::copy(file.path(), desk.path(to).join("keys").join(file.file_name())).expect("copied");
    }
}

/// Ids differ, since entries are entered at other moments; each is named by where it first stands.
fn without_ids(value: Value, ids: &mut BTreeMap<String, usize>) -> Value {
    match value {
        Value::String(text) if text.len() == 64 && text.bytes().all(|byte| byte.is_ascii_hexdigit()) => {
            let count = ids.len();
            Value::from(*ids.entry(text).or_insert(count))
        }
        Value::Array(items) => items.into_iter().map(|item| without_ids(item, ids)).collect(),
        Value::Object(members) => {
            members.into_iter().map(|(name, inner)| (name, without_ids(inner, ids))).collect()
        }
        other => other,
    }
}

/// The figures and findings at 13:00 of that day, for a record that holds all of it.
#[test]
fn a_day_lived_through_means_what_its_notes_mean() {
    let desk = Desk::new();
    lived_through(&desk, "again", "10:30", "20000", UNTIL_EVENING);
    let notes = sorted(&demo("harrow-vale"), ".toml");
    let words: Vec<&str> = ["enter"].into_iter().chain(notes.iter().map(String::as_str)).collect();
    desk.run(&[&words[..], &["--job", "entered"]].concat()).ends(0);
    for at in ["2025-05-13 10:40", "2025-05-13 11:59", "2025-05-13 13:00"] {
        let check = |job: &str| {
            let told = desk.run(&["check", "S-2", "--json", "--at", at, "--job", job]).ends(0).json();
            without_ids(told, &mut BTreeMap::new())
        };
        assert_eq!(check("again"), check("entered"), "{at}");
    }
}

/// The clock of the site is what every screen follows; a line that is due in an hour has not come.
#[test]
fn lines_come_as_the_clock_passes_them() {
    let desk = Desk::new();
    let served = relive(&desk, "office", &["--speed", "1"]);
    let hello = served.get("/api/v1/hello", "").json();
    let site = hello["clock"]["site"].as_str().expect("the site's clock").to_owned();
    // The first load came at 10:35, and the clock starts ten minutes before it.
    assert!(site.starts_with("2025-05-13T10:25:") && site.ends_with("-06:00"), "{site}");
    let token = served.pair(served.said["code"].as_str().expect("a code"));
    let record = served.get("/api/v1/jobs/harrow-vale/record.jsonl", &token).text();
    assert!(record.contains("\"sediment_measured\"") && !record.contains("\"30411\""));
}

/// Stopped and started again, it goes on; what a device wrote between the lines stays.
#[test]
fn a_replay_goes_on_where_it_was() {
    let desk = Desk::new();
    let first = lived_through(&desk, "office", "2025-05-13 13:00", "20000", UNTIL_EVENING);
    let served = relive(&desk, "office", &["--from", "10:30", "--speed", "1"]);
    let site = served.get("/api/v1/hello", "").json()["clock"]["site"].to_string();
    assert!(site.contains("2025-05-13T15:40"), "it does not start the day again: {site}");
    assert_eq!(served.stop(), Some(0));
    assert_eq!(desk.says("export record --job office").out, first);
}

#[test]
fn a_folder_that_holds_the_job_in_another_form_is_refused() {
    let desk = Desk::new();
    let notes = sorted(&demo("harrow-vale"), ".toml");
    desk.run(&["enter", &notes[0], "--job", "office"]).ends(0);
    let words = ["serve", "office", "--address", "127.0.0.1:0", "--shaft", "S-1", "--relive"];
    let all: Vec<&str> = words.into_iter().chain(notes.iter().map(String::as_str)).collect();
    desk.run(&all).ends(1).says("holds the job `harrow-vale` already").says("Name a new folder");
    let plans: Vec<&str> =
        ["serve", "new", "--address", "127.0.0.1:0", "--shaft", "S-2", "--relive", &notes[0]].into();
    desk.run(&plans).ends(2).says("The notes tell of no load of concrete for S-2.");
}

/// A made-up day comes as one that was: its lines as the clock passes them, each with the mark of a rehearsal, in metres
/// where that is asked for.
#[test]
fn a_made_up_day_comes_line_by_line() {
    let desk = Desk::new();
    let served = desk.serve(&["class", "--rehearse", "neck", "--metric", "--speed", "1"]);
    let token = served.pair(served.said["code"].as_str().expect("a code"));
    let record = served.get("/api/v1/jobs/rehearsal-neck-metric-third-1/record.jsonl", &token).text();
    let of = |shaft: &str, kind: &str| {
        let wanted = [format!("\"shaft\":\"{shaft}\""), format!("\"kind\":\"{kind}\"")];
        record.lines().filter(|line| wanted.iter().all(|part| line.contains(part.as_str()))).count()
    };
    assert!(record.contains("1200 mm"));
    assert!(of("R-1", "load_arrived") > 3 && of("R-2", "load_arrived") > 3, "two shafts were poured before");
    assert_eq!([of("R-3", "cage_set"), of("R-3", "load_arrived")], [1, 0], "the first load has not come yet");
    assert_eq!(served.stop(), Some(0));
    desk.run(&["serve", "class", "--address", "127.0.0.1:0", "--rehearse", "earthquake"])
        .ends(2)
        .says("`earthquake` is no scenario.");
    desk.run(&["serve", "class", "--address", "127.0.0.1:0", "--metric"]).ends(2).says("--rehearse");
}
