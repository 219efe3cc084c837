//! Every command, told as a table: what was typed, how it ended, what it said.

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;

use desk::{Desk, notes, remark};

/// A desk with a job of one remark.
fn job() -> Desk {
    let desk = Desk::new();
    desk.write("notes.toml", &notes(&remark("10:40", "water at 12 ft")));
    desk.says("enter notes.toml --job j").ends(0);
    desk
}

#[track_caller]
fn check(line: &str, exit: i32, fragments: &[&str]) {
    let mut did = job().says(line).ends(exit);
    for fragment in fragments {
        did = did.says(fragment);
    }
    assert!(exit == 0 || !did.err.is_empty(), "a failure is told on standard error");
}

#[test]
fn a_job_begins_once() {
    check("begin new", 0, &["Made new with an empty record", "shaftbook enter new/notes.toml --job new"]);
    check("begin j", 1, &["j holds a record already.", "the record is as it was."]);
    check("begin", 2, &["required arguments were not provided"]);
}

#[test]
fn the_notes_of_a_new_job_can_be_entered_as_they_are() {
    let desk = Desk::new();
    desk.says("begin new").ends(0);
    desk.says("enter new/notes.toml --job new").ends(0).says("entries are signed and kept in new.");
    desk.says("check --job new").ends(0).says("Shaft S-1");
}

#[test]
fn what_is_there_is_shown() {
    check("shafts --job j", 0, &["S-1 "]);
    check("log S-1 --job j", 0, &["2026-05-04", "10:40 Remark water at 12 ft"]);
    check("log s-1 --job j", 0, &["water at 12 ft"]);
    check("log S-1 --tables --job j", 0, &["water at 12 ft"]);
    check("log S-1 --json --job j", 0, &["\"text\": \"water at 12 ft\""]);
    check("check --job j", 0, &["Shaft S-1 at 2026-05-04 10:40", "nothing fails"]);
    check("check S-1 --all --job j", 0, &["Shaft S-1 at 2026-05-04 10:40"]);
    check("check S-1 --json --job j", 0, &["\"format\": 1"]);
    check("limits --job j", 0, &["roadside-common-practice-1"]);
    check("verify j", 0, &["every id and signature is good."]);
}

#[test]
fn what_is_not_there_is_named() {
    check("check S-9 --job j", 1, &["The record has no shaft `S-9`.", "Its shafts: S-1."]);
    check("check --job nowhere", 1, &["nowhere holds no record.", "shaftbook begin FOLDER"]);
    check("verify nowhere", 1, &["Reading nowhere did not work", "Check the name."]);
    check("merge nowhere --job j", 1, &["Reading nowhere did not work"]);
    check(
        "enter nowhere.toml --job j",
        1,
        &["Reading nowhere.toml did not work", "Nothing was read, and nothing was written."],
    );
    check("draw S-1 portrait --job j", 1, &["There is no figure `portrait`.", "Figures: "]);
    check("limits no-such-set", 1, &["There is no set `no-such-set`.", "Sets that come with the program"]);
    check("kinds portrait", 1, &["There is no kind of entry `portrait`."]);
    check("enter notes.toml --fast --job j", 2, &["unexpected argument '--fast'"]);
}

#[test]
fn what_can_be_entered_is_listed() {
    check("kinds", 0, &["concrete_sounded", "tool_run"]);
    check("kinds tool_run", 0, &["(needed)"]);
    check("kinds tool_run --json", 0, &["\"kind\": \"tool_run\""]);
    check("limits", 0, &["roadside-common-practice-1", "en1536-style-1"]);
    check("completions bash", 0, &["_shaftbook"]);
    check("completions zsh", 0, &["#compdef shaftbook"]);
}

/// Times stand in the zone of the job, whatever zone this machine is in.
#[test]
fn moments_are_read_as_people_write_them() {
    for at in
        ["10:40", "1040", "10:40am", "2026-05-04T10:40", "2026-05-04T10:40:00-06:00", "2026-05-04T16:40:00Z"]
    {
        check(&format!("check S-1 --job j --at {at}"), 0, &["Shaft S-1"]);
    }
    check("log S-1 --job j --at 10:40", 0, &["water at 12 ft"]);
    check("check S-1 --job j --at 7:05", 0, &["Shaft S-1 at 2026-05-04 07:05"]);
    for at in ["25:99", "noon", "", "2026-02-30", "10:40:99", "²3:10"] {
        check(&format!("check S-1 --job j --at {at}"), 2, &["is no moment", "Write 10:40"]);
    }
}

/// Source: the rule in force in the United States since 2007: second Sunday in March, first Sunday in November.
#[test]
fn the_nights_the_clocks_change() {
    let desk = job();
    let at = |text: &str| desk.run(&["check", "S-1", "--job", "j", "--at", text]);
    at("2026-03-08 02:30").ends(2).says("the clocks were put forward over 2026-03-08 02:30");
    at("2026-11-01 01:30").ends(2).says("happened twice that night").says("-06:00 or -07:00");
    at("2026-11-01 01:30 -07:00").ends(0).says("Shaft S-1 at 2026-11-01 01:30");
}

#[test]
fn strict_ends_with_5_while_a_failure_has_no_decision() {
    let desk = Desk::new();
    let fails = "  { at = \"09:00\", entry = \"casing_set\", name = \"surface\", stay = \"temporary\", length = \"6 ft\", top = \"100.2 ft\" },\n";
    desk.write("notes.toml", &notes(fails));
    desk.says("enter notes.toml --job j").ends(0);
    let fails = desk.says("check --json --job j").ends(0).json()[0]["counts"]["open"].as_u64();
    assert!(fails.is_some_and(|fails| fails > 0), "the casing stands too low");
    desk.says("check --strict --job j").ends(5).says("open.").says("finding_disposed");
    desk.says("check --job j").ends(0);
}

#[test]
fn help_teaches_every_verb() {
    let desk = Desk::new();
    let verbs = ["begin", "enter", "shafts", "log", "check", "draw", "package", "export", "merge", "verify"];
    for verb in verbs.into_iter().chain(["rehearse", "limits", "kinds", "open-items", "seal", "completions"])
    {
        let help = desk.run(&[verb, "--help"]).ends(0).says("Example");
        assert!(help.out.contains(&format!("  shaftbook {verb}")), "{verb} has an example");
        desk.run(&["--help"]).ends(0).says(&format!(" {verb} "));
    }
    desk.run(&["--help"]).says("Exit codes:").says("5 check --strict, seal:");
    desk.run(&[]).ends(2).says("Usage:");
}

/// The record of a made-up shaft is one like any other, finds its trouble, and no job takes it in.
#[test]
fn a_made_up_shaft_is_rehearsed_and_kept_apart() {
    let desk = Desk::new();
    desk.says("rehearse").ends(0).says("neck").says("Nothing goes wrong.");
    desk.says("rehearse earthquake").ends(2).says("`earthquake` is no scenario.").says("clean, neck, cavity");
    desk.says("rehearse sediment --seed 3 --out made").ends(0).says("entries of the made-up shaft R-1");
    desk.says("rehearse sediment --seed 3 --out made").ends(1).says("made holds a record already.");
    desk.says("check --job made").ends(0).says("fhwa/sediment-max").says("2 fail");
    desk.says("rehearse clean").ends(0).says("rehearsal-clean-1");
    desk.says("check --strict --job rehearsal-clean-1").ends(0).says("nothing fails");
    desk.says("rehearse --metric").ends(0).says("three metres wrong");
    desk.says("rehearse tremie --metric").ends(0).says("rehearsal-tremie-metric-1");
    desk.says("check --job rehearsal-tremie-metric-1")
        .ends(0)
        .says("en1536/immersion-large")
        .says("1 fail ·");
    desk.write("notes.toml", &notes(&remark("10:40", "water at 12 ft")));
    desk.says("enter notes.toml --job j").ends(0);
    desk.says("merge made --job j").ends(1).says("a rehearsal never becomes part of a record");
}
