//! An office from the outside: served, paired, brought entries, asked for papers, copied, inspected, stopped.

#![cfg(unix)]

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;
#[path = "desk/in_database.rs"]
mod in_database;

use desk::{Desk, demo, sorted};
use serde_json::Value;

/// The record of a demo job, as lines.
fn harrow_vale() -> String {
    let desk = Desk::new();
    let notes = sorted(&demo("harrow-vale"), ".toml");
    let words: Vec<&str> = ["enter"].into_iter().chain(notes.iter().map(String::as_str)).collect();
    desk.run(&[&words[..], &["--job", "j"]].concat()).ends(0);
    desk.says("export record --job j").ends(0).out
}

/// What `inspect --json` says of the only job.
#[track_caller]
fn inspected(desk: &Desk, place: &str) -> Value {
    let told = desk.run(&["inspect", place, "--json"]).ends(0).json();
    assert_eq!(told["jobs"].as_array().map(Vec::len), Some(1));
    told["jobs"][0].clone()
}

#[test]
fn a_day_at_the_office() {
    let desk = Desk::new();
    let lines = harrow_vale();
    let served = desk.serve(&["office", "--name", "Harrow Vale office"]);

    let hello = served.get("/api/v1/hello", "").json();
    assert_eq!(hello["office"], "Harrow Vale office");
    assert_eq!(hello["paired"], false);
    assert!(hello["clock"].is_null(), "the true time");
    let page = served.get("/", "");
    assert_eq!((page.status, page.media.as_str()), (200, "text/html; charset=utf-8"));

    let first = lines.lines().next().expect("a line");
    let refused = served.post("/api/v1/entries", "", first);
    assert_eq!(refused.status, 401, "nobody writes without a code");
    let token = served.pair(served.said["code"].as_str().expect("a code"));
    let count = lines.lines().count();
    assert_eq!(served.bring(&token, &lines), count);
    assert_eq!(served.bring(&token, &lines), 0, "brought twice, kept once");

    let pdf = served.get("/api/v1/jobs/harrow-vale/shafts/S-1/package.pdf", &token);
    assert_eq!((pdf.status, pdf.media.as_str()), (200, "application/pdf"));
    assert!(pdf.bytes.starts_with(b"%PDF-") && pdf.bytes.len() > 50_000, "{} bytes", pdf.bytes.len());
    let csv = served.get("/api/v1/jobs/harrow-vale/shafts/S-2/log.csv", &token).text();
    assert!(csv.starts_with("at,shaft,entry,says,author,status,"), "{csv}");
    assert!(csv.contains("load_arrived") && csv.contains(",struck,"), "what was struck through is in it");
    let record = served.get("/api/v1/jobs/harrow-vale/record.jsonl", &token).text();
    assert_eq!(record, lines, "what came in goes out, byte for byte");

    assert_eq!(served.stop(), Some(0));
    desk.says("verify office").ends(0).says(&format!("{count} entries"));
    desk.says("export record --job office --out again.jsonl").ends(0);
    assert_eq!(desk.read("again.jsonl"), lines);
}

/// A second code, made while the office is served, lets a second device in; a used one lets nobody in.
#[test]
fn codes_are_made_while_the_office_is_served() {
    let desk = Desk::new();
    let served = desk.serve(&["office"]);
    let first = desk.says("pair office --json").ends(0).json();
    let code = first["code"].as_str().expect("a code").to_owned();
    let link = first["link"].as_str().expect("a link");
    assert!(link.starts_with(served.said["address"].as_str().expect("an address")), "{link}");
    served.pair(&code);
    let again = serde_json::json!({ "code": code, "name": "another", "device": "cd".repeat(32) });
    let refused = served.post("/api/v1/pair", "", &again.to_string());
    assert!(refused.status >= 400, "{}", refused.text());
    desk.says("pair office").ends(0).says("lets one device in");
    desk.says("pair nowhere").ends(1).says("nowhere holds no record.");
}

/// The folder `begin` and `enter` made is an office of one job; what comes in is in the command line's record.
#[test]
fn the_folder_of_a_job_is_served_as_it_is() {
    let desk = Desk::new();
    desk.write("day.toml", &desk::notes(&desk::remark("10:40", "water at 12 ft")));
    desk.says("enter day.toml --job j").ends(0);
    let served = desk.serve(&["j"]);
    let token = served.pair(served.said["code"].as_str().expect("a code"));
    let jobs = served.get("/api/v1/jobs", &token).json();
    assert_eq!(jobs["jobs"][0]["job"], "test-job");
    assert_eq!(served.bring(&token, &harrow_vale()), harrow_vale().lines().count());
    assert_eq!(served.stop(), Some(0));
    // Now there are two jobs in it, and a command has to be told which.
    desk.says("shafts --job j")
        .ends(1)
        .says("j holds 2 jobs: harrow-vale, test-job. Which one is meant was not said, so nothing was done.");
    desk.says("shafts --job j/harrow-vale").ends(0).says("S-2");
    desk.says("log S-1 --job j/test-job").ends(0).says("water at 12 ft");
}

#[test]
fn a_backup_taken_while_entries_come_in_is_whole() {
    let desk = Desk::new();
    let lines = harrow_vale();
    let served = desk.serve(&["office"]);
    let token = served.pair(served.said["code"].as_str().expect("a code"));
    let half: String = lines.lines().take(300).map(|line| format!("{line}\n")).collect();
    served.bring(&token, &half);
    let photo = b"not really a picture".to_vec();
    let hash = record::entry::FileHash(wire::sha256(&photo)).to_string();
    assert!(served.put(&format!("/api/v1/photos/{hash}"), &token, &photo).status < 300);

    let before = inspected(&desk, "office");
    desk.says("backup office --to kept/one.sqlite").ends(0).says("300 entries of 1 job were copied");
    served.bring(&token, &lines);
    desk.says("backup office --to kept/two.sqlite").ends(0).says("0 photos that were not there yet");
    desk.says("backup office --to kept/two.sqlite").ends(1).says("kept/two.sqlite is there already");
    let after = inspected(&desk, "office");
    assert_eq!(served.stop(), Some(0));

    for (file, folder, expected) in [("one", "first", &before), ("two", "second", &after)] {
        let file = format!("kept/{file}.sqlite");
        assert_eq!(inspected(&desk, &file), *expected, "the backup itself");
        desk.run(&["restore", &file, "--to", folder]).ends(0);
        assert_eq!(inspected(&desk, folder), *expected, "and the folder made of it");
        let told = desk.run(&["inspect", folder, "--json"]).json();
        assert_eq!((&told["photos"], &told["devices"]), (&1.into(), &1.into()));
    }
    assert_ne!(before["digest"], after["digest"]);
    desk.says("restore kept/one.sqlite --to first").ends(1).says("first holds a record already.");
    let again = desk.serve(&["second"]);
    assert_eq!(again.bring(&token, &lines), 0, "the device is still paired, and nothing is doubled");
}

/// Whoever reads the address may end the office in the same moment: it ends as well as any other.
#[test]
fn an_office_stopped_at_its_first_word_ends_well() {
    let desk = Desk::new();
    for _ in 0..8 {
        assert_eq!(desk.serve(&["office"]).stop(), Some(0));
    }
}

/// The first person is added on the machine of the office; from then on nobody is let in by a code alone.
#[test]
fn the_first_person_switches_people_on() {
    let desk = Desk::new();
    desk.says("people add office d.pike").ends(1).says("office holds no record.");
    let served = desk.serve(&["office"]);
    let old = served.pair(served.said["code"].as_str().expect("a code"));
    desk.says("people list office").ends(0).says("There are no people");
    desk.run(&["people", "add", "office", "d pike"]).ends(1).says("`d pike` is no name to sign in with.");
    desk.says("people add office d.pike --role owner").ends(1).says("`owner` is no role.");
    let told = desk.says("people add office D.Pike --json").ends(0).json();
    assert_eq!((&told["name"], &told["first"]), (&"d.pike".into(), &true.into()));
    let link = told["link"].as_str().expect("a link");
    assert!(link.starts_with(served.said["address"].as_str().expect("an address")), "{link}");
    assert!(link.contains("/people/invited#"), "{link}");
    assert_eq!(served.get("/api/v1/jobs", &old).status, 401, "a device of nobody waits");
    let add = ["people", "add", "office", "a.hall", "--role", "inspector", "--on", "elm-street"];
    desk.run(&[&add[..], &["--signs-as", " "]].concat()).ends(1).says("` ` is no name to sign with.");
    desk.run(&[&add[..], &["--signs-as", "Anna Hall"]].concat()).ends(0).says("Invitation of a.hall");
    desk.says("people list office").ends(0).says("inspector on elm-street").says("a.hall (Anna Hall)");
    desk.says("people let-go office a.hall").ends(0).says("a.hall is let go");
    desk.says("people let-go office a.hall").ends(1).says("There is nobody called a.hall to let go.");
    desk.says("people let-go office d.pike")
        .ends(1)
        .says("Nobody but d.pike manages the office and comes in.")
        .says("Nobody was added or let go")
        .says("--even-the-last");
    // The machine has a way out that says what it means.
    desk.says("people let-go office d.pike --even-the-last").ends(0).says("Nobody manages the office now.");
    desk.says("pair office").ends(1).says("a device belongs to the person whose code lets it in");
    assert_eq!(served.stop(), Some(0));
    let again = desk.serve(&["office"]);
    assert!(again.said["code"].is_null(), "no code is made for nobody");
    assert!(again.said["sign_in"].as_str().is_some_and(|page| page.ends_with("/people")));
}
