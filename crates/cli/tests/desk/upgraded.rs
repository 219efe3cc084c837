//! Offices of earlier versions, from kept copies of their databases: served as they are, and nothing of them is lost. The
//! steps are those of docs/operate.md.

use crate::desk::Desk;
use std::path::{Path, PathBuf};
use testkit::postgres::database;

fn golden(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../store/golden").join(name)
}

/// The office after the new program served it: the same entries, byte for byte, and new ones are taken in.
#[track_caller]
fn served_on(desk: &Desk, folder: &str) {
    let lines = std::fs::read_to_string(golden("v1.jsonl")).expect("readable");
    let served = desk.serve(&[folder]);
    assert_eq!(served.get("/readyz", "").text(), "ready\n");
    assert_eq!(served.stop(), Some(0));
    desk.run(&["inspect", folder]).ends(0).says("The database is whole.");
    assert_eq!(desk.run(&["export", "record", "--job", folder]).ends(0).out, lines);
}

#[track_caller]
fn check(version: &str) {
    let desk = Desk::new();
    std::fs::create_dir(desk.path("office")).expect("a folder");
    std::fs::copy(golden(version), desk.path("office/record.sqlite")).expect("copied");
    // Before the upgrade: proved as it is, without being brought to the newest version.
    let before = std::fs::read(desk.path("office/record.sqlite")).expect("readable");
    desk.run(&["inspect", "office"]).ends(0).says("The database is whole.");
    assert_eq!(std::fs::read(desk.path("office/record.sqlite")).expect("readable"), before);
    desk.run(&["backup", "office", "--to", "before.sqlite"]).ends(0);
    served_on(&desk, "office");
    // The backup from before goes on too.
    desk.run(&["restore", "before.sqlite", "--to", "again"]).ends(0);
    served_on(&desk, "again");
}

#[test]
fn an_office_of_version_1_is_served() {
    check("v1.sqlite");
}

#[test]
fn an_office_of_version_3_is_served() {
    check("v3.sqlite");
}

/// An office of an earlier version goes into a database on a server in one step.
#[test]
fn an_office_of_version_3_moves_to_a_server() {
    let (desk, server) = (Desk::new(), database());
    std::fs::create_dir(desk.path("office")).expect("a folder");
    std::fs::copy(golden("v3.sqlite"), desk.path("office/record.sqlite")).expect("copied");
    desk.run(&["move", "office", "--to", &server.address()]).ends(0);
    served_on(&desk, "office");
}

/// What was altered in a database on a server is named by the check, and no backup is made of it.
#[test]
fn an_altered_record_on_a_server_is_named() {
    let (desk, server) = (Desk::new(), database());
    std::fs::create_dir(desk.path("office")).expect("a folder");
    std::fs::copy(golden("v3.sqlite"), desk.path("office/record.sqlite")).expect("copied");
    desk.run(&["move", "office", "--to", &server.address()]).ends(0);
    let by_hand = "ALTER TABLE entry DISABLE TRIGGER ALL;
        UPDATE entry SET line = replace(line, '\"seq\":2', '\"seq\":3') WHERE line LIKE '%\"seq\":2%'";
    server.by_hand(by_hand).expect("altered");
    desk.run(&["inspect", "office"]).ends(4).says("kept line");
    desk.run(&["backup", "office", "--to", "copy.sqlite"]).ends(4);
    assert!(!desk.path("copy.sqlite").exists(), "no backup of a damaged record gets its name");
}
