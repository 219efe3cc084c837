//! Days at the hole: notes that grow, notes that are changed, two inspectors, a dispute.

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;

use desk::{Desk, JOB, notes, remark};
use serde_json::Value;

/// The entries of a log about the shaft that are remarks: text and standing.
fn remarks(desk: &Desk, job: &str) -> Vec<(String, String)> {
    let log = desk.run(&["log", "S-1", "--json", "--job", job]).ends(0).json();
    let lines = log.as_array().expect("a list").clone();
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let remarks = lines.iter().filter(|line| line["kind"] == "remark");
    remarks.map(|line| (text(&line["body"]["text"]), text(&line["standing"]["is"]))).collect()
}

fn told(texts: &[(&str, &str)]) -> Vec<(String, String)> {
    texts.iter().map(|(text, standing)| ((*text).to_owned(), (*standing).to_owned())).collect()
}

#[test]
fn a_day_entered_in_two_parts() {
    let desk = Desk::new();
    let morning = remark("07:10", "rig in place");
    desk.write("day.toml", &notes(&morning));
    desk.says("enter day.toml --job j").ends(0);
    desk.write("day.toml", &notes(&(morning + &remark("13:20", "cage in place"))));
    desk.says("enter day.toml --job j").ends(0).says("2 entries are signed and kept in j.");
    assert_eq!(remarks(&desk, "j"), told(&[("rig in place", "stands"), ("cage in place", "stands")]));
    desk.says("verify j").ends(0);
}

#[test]
fn the_same_notes_twice_add_nothing() {
    let desk = Desk::new();
    desk.write("day.toml", &notes(&remark("07:10", "rig in place")));
    desk.says("enter day.toml day.toml --job j").ends(0);
    let before = desk.says("export record --job j").ends(0).out;
    desk.says("enter day.toml --job j").ends(0).says("0 entries are signed").says("were not entered twice");
    assert_eq!(desk.says("export record --job j").ends(0).out, before);
}

/// A line that stands twice in the notes was seen twice; read again, it is still two.
#[test]
fn a_line_that_stands_twice_is_two_entries_and_stays_two() {
    let desk = Desk::new();
    let twice = remark("07:10", "one truck") + &remark("07:10", "one truck");
    desk.write("day.toml", &notes(&twice));
    for _ in 0..2 {
        desk.says("enter day.toml --job j").ends(0);
        assert_eq!(remarks(&desk, "j").len(), 2);
    }
}

#[test]
fn a_changed_line_is_told_and_nothing_is_erased() {
    let desk = Desk::new();
    let morning = remark("07:10", "rig in place");
    desk.write("day.toml", &notes(&(morning.clone() + &remark("10:41", "concrete at 42 ft"))));
    desk.says("enter day.toml --job j").ends(0);
    desk.write("day.toml", &notes(&(morning.clone() + &remark("10:41", "concrete at 43 ft"))));
    let did = desk.says("enter day.toml --job j").ends(0);
    let did = did.says("One line read from day.toml before is no longer in it, and still in the record:");
    let did = did.says("10:41 Remark").says("Nothing is erased, and both count.");
    let stands =
        told(&[("rig in place", "stands"), ("concrete at 42 ft", "stands"), ("concrete at 43 ft", "stands")]);
    let mut found = remarks(&desk, "j");
    found.sort_by_key(|(text, _)| !text.starts_with("rig"));
    let mut expected = stands;
    expected.sort_by_key(|(text, _)| !text.starts_with("rig"));
    found[1..].sort();
    assert_eq!(found, expected);

    // The line it offers, pasted into the notes, strikes the old entry through.
    let offered =
        did.out.lines().find(|line| line.contains("entry = \"correction\"")).expect("a line to paste");
    let all = morning + &remark("10:41", "concrete at 43 ft") + offered.trim() + ",\n";
    desk.write("day.toml", &notes(&all));
    let did = desk.says("enter day.toml --job j").ends(0);
    assert!(!did.out.contains("no longer in it"), "{}", did.out);
    let struck = remarks(&desk, "j").into_iter().find(|(text, _)| text.ends_with("42 ft"));
    assert_eq!(struck, told(&[("concrete at 42 ft", "struck")]).pop());
    desk.says("log S-1 --job j").ends(0).says("STRUCK THROUGH: concrete at 42 ft").says("misread");
}

#[test]
fn a_changed_plan_is_a_correction_and_never_a_second_plan() {
    let desk = Desk::new();
    desk.write("day.toml", &notes(&remark("07:10", "rig in place")));
    desk.says("enter day.toml --job j").ends(0);
    let changed = notes(&remark("07:10", "rig in place")).replace("tip = \"76.0 ft\"", "tip = \"74.0 ft\"");
    desk.write("day.toml", &changed);
    let did =
        desk.says("enter day.toml --job j").ends(3).says("the shaft `S-1` is planned in the record already");
    did.says("Nothing was read in; the record is as it was.");
    desk.write("day.toml", &changed.replace("A job for tests", "Another name"));
    desk.says("enter day.toml --job j").ends(3).says("the job is open already");
}

#[test]
fn every_mistake_of_every_file_in_one_go_and_nothing_is_taken_in() {
    let desk = Desk::new();
    desk.write("one.toml", &notes("  { at = \"25:10\", entry = \"remark\", text = \"x\" },\n"));
    desk.write(
        "two.toml",
        "[[day]]\ndate = 2026-05-04\nshaft = \"S-7\"\nauthor = \"A. Fenwick\"\nlog = []\n",
    );
    let did = desk.says("enter one.toml two.toml --job j").ends(3);
    did.says("one.toml, line")
        .says("two.toml, line")
        .says("3 mistakes were found.")
        .says("Nothing was read in");
    assert_eq!(desk.files(), ["one.toml", "two.toml"], "not even a folder was made");
}

#[test]
fn a_rehearsal_writes_nothing() {
    let desk = Desk::new();
    desk.write("day.toml", &notes(&remark("07:10", "rig in place")));
    desk.says("enter day.toml --dry-run --job j")
        .ends(0)
        .says("4 entries would be signed. Nothing was written");
    assert_eq!(desk.files(), ["day.toml"]);
    desk.says("enter day.toml --job j").ends(0);
    desk.says("enter day.toml --dry-run --job j").ends(0).says("0 entries would be signed");
}

#[test]
fn notes_of_another_job_are_refused() {
    let desk = Desk::new();
    desk.write("day.toml", &notes(&remark("07:10", "rig in place")));
    desk.write("other.toml", &notes(&remark("07:10", "rig in place")).replace("test-job", "other-job"));
    desk.says("enter day.toml --job j").ends(0);
    let before = desk.says("export record --job j").out;
    desk.says("enter other.toml --job j").ends(3).says("other-job");
    assert_eq!(desk.says("export record --job j").out, before);
}

/// Two inspectors correct one entry differently, each in a folder of their own; the records meet.
#[test]
fn two_inspectors_disagree_and_a_person_decides() {
    let desk = Desk::new();
    desk.write(
        "day.toml",
        &notes("  { at = \"10:41\", as = \"s\", entry = \"remark\", text = \"concrete at 42 ft\" },\n"),
    );
    desk.says("enter day.toml --job mine").ends(0);
    desk.says("merge mine --job theirs").ends(0).says("entries came in");
    let entry = desk.says("log S-1 --json --job mine").json();
    let lines = entry.as_array().expect("a list").clone();
    let id = lines.iter().find(|line| line["kind"] == "remark").expect("the remark")["entry"].clone();
    let id = id.as_str().expect("an id").to_owned();
    for (job, text) in [("mine", "concrete at 43 ft"), ("theirs", "concrete at 44 ft")] {
        let day = format!(
            "[[day]]\ndate = 2026-05-04\nshaft = \"S-1\"\nauthor = \"{job}\"\nlog = [\n  {{ at = \"11:00\", entry = \"correction\", replaces = \"{}\", reason = \"misread\", body = {{ entry = \"remark\", text = \"{text}\" }} }},\n]\n",
            &id[..12]
        );
        desk.write(&format!("{job}.toml"), &day);
        desk.run(&["enter", &format!("{job}.toml"), "--job", job]).ends(0);
    }
    desk.says("merge theirs --job mine").ends(0);
    desk.says("check S-1 --job mine").ends(0).says("1 in dispute").says("was corrected 2 times, differently");
    desk.says("log S-1 --job mine")
        .ends(0)
        .says("IN DISPUTE: concrete at 43 ft")
        .says("IN DISPUTE: concrete at 44 ft");

    // Both folders, merged in either order, hold the same bytes.
    desk.says("merge mine --job theirs").ends(0);
    let mine = desk.says("export record --job mine").ends(0).out;
    assert_eq!(mine, desk.says("export record --job theirs").ends(0).out);

    let lines = desk.says("log S-1 --json --job mine").json();
    let keeps =
        lines.as_array().expect("a list").iter().find(|line| line["body"]["text"] == "concrete at 44 ft");
    let keeps = keeps.expect("the candidate")["entry"].as_str().expect("an id").to_owned();
    let day = format!(
        "[[day]]\ndate = 2026-05-04\nshaft = \"S-1\"\nauthor = \"I. Vane\"\nlog = [\n  {{ at = \"12:00\", entry = \"dispute_closed\", about = \"{}\", keeps = \"{}\", reason = \"sounded together\" }},\n]\n",
        &id[..12],
        &keeps[..12]
    );
    desk.write("decision.toml", &day);
    desk.says("enter decision.toml --job mine").ends(0);
    assert!(!desk.says("check S-1 --job mine").ends(0).out.contains("in dispute"));
    let stands: Vec<_> =
        remarks(&desk, "mine").into_iter().filter(|(_, standing)| standing == "stands").collect();
    assert_eq!(stands, told(&[("concrete at 44 ft", "stands")]));
}

/// Two programs read notes into one folder at the same moment: one waits for the other.
#[test]
fn two_people_enter_at_once() {
    let desk = Desk::new();
    desk.write("job.toml", JOB);
    desk.says("enter job.toml --job j").ends(0);
    let names: Vec<String> = (0..6).map(|number| format!("{number}.toml")).collect();
    for (number, name) in names.iter().enumerate() {
        let day = notes(&remark("10:40", &format!("remark {number}")));
        desk.write(name, day.strip_prefix(JOB).expect("the job comes first"));
    }
    let start = |name: &String| desk.command(&["enter", name, "--job", "j"]).output();
    std::thread::scope(|scope| {
        let running: Vec<_> = names.iter().map(|name| scope.spawn(move || start(name))).collect();
        for one in running {
            let output = one.join().expect("ended").expect("ran");
            assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        }
    });
    assert_eq!(remarks(&desk, "j").len(), names.len());
    desk.says("verify j").ends(0).says("every id and signature is good.");
}

#[test]
fn a_lost_key_begins_a_new_chain_and_doubles_nothing() {
    let desk = Desk::new();
    desk.write("day.toml", &notes(&remark("07:10", "rig in place")));
    desk.says("enter day.toml --job j").ends(0);
    std::fs::remove_file(desk.path("j/keys/desk.key")).expect("lost");
    desk.says("enter day.toml --job j").ends(0).says("0 entries are signed");
    desk.write("day.toml", &notes(&(remark("07:10", "rig in place") + &remark("07:20", "drilling"))));
    desk.says("enter day.toml --job j").ends(0).says("2 entries are signed");
    desk.says("verify j").ends(0);
    desk.write("j/keys/desk.key", "not a key");
    desk.write("day.toml", &notes(&(remark("07:10", "rig in place") + &remark("07:30", "still drilling"))));
    desk.says("enter day.toml --job j").ends(1).says("holds no key").says("the record is as it was");
}

#[cfg(unix)]
#[test]
fn a_key_others_can_read_is_warned_of() {
    use std::os::unix::fs::PermissionsExt;
    let desk = Desk::new();
    desk.write("day.toml", &notes(&remark("07:10", "rig in place")));
    desk.says("enter day.toml --job j").ends(0);
    let key = desk.path("j/keys/desk.key");
    let mode = |path: &std::path::Path| std::fs::metadata(path).expect("there").permissions().mode() & 0o777;
    assert_eq!(mode(&key), 0o600);
    std::fs::set_permissions(&key, PermissionsExt::from_mode(0o644)).expect("set");
    desk.says("enter day.toml --job j").ends(0).says("desk.key can be read by others: chmod 600");
}
