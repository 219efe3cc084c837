//! What reaches a terminal, a pipe, a full disk; and names that would lead out of a folder.

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;

use desk::{Desk, notes, remark};
use std::io::Read;
use std::process::Stdio;

fn with(lines: &str) -> Desk {
    let desk = Desk::new();
    desk.write("day.toml", &notes(lines));
    desk.says("enter day.toml --job j").ends(0);
    desk
}

/// Notes may hold anything; a terminal that shows them must not act on it.
#[test]
fn control_characters_of_a_remark_are_spelled_out() {
    let desk = Desk::new();
    let remark =
        "  { at = \"10:40\", entry = \"remark\", text = \"clear\\u001b[2J gone \\u009b31m \\u202e1.2\" },\n";
    desk.write("day.toml", &notes(remark));
    let entered = desk.says("enter day.toml --job j");
    if entered.exit == 3 {
        // Refusing it is as good, as long as the message itself is safe.
        assert!(!entered.err.contains(['\u{1b}', '\u{9b}', '\u{202e}']), "{}", entered.err);
        return;
    }
    entered.ends(0);
    for line in [
        "log S-1 --job j",
        "log S-1 --tables --job j",
        "log S-1 --json --job j",
        "check --job j",
        "check --all --job j",
    ] {
        let did = desk.says(line).ends(0);
        assert!(!did.out.contains(['\u{1b}', '\u{9b}', '\u{202e}']), "{line}: {}", did.out);
    }
    desk.says("log S-1 --job j").says("clear\\u{1b}[2J gone \\u{9b}31m \\u{202e}1.2");
}

#[test]
fn nothing_is_coloured_where_nobody_looks() {
    let desk = with(&remark("10:40", "clear"));
    for line in ["check --all --job j", "log S-1 --job j", "limits --job j", "shafts --job j"] {
        assert!(!desk.says(line).ends(0).out.contains('\u{1b}'), "{line}");
    }
}

#[test]
fn no_line_of_text_is_wider_than_a_hundred_columns() {
    let desk = with(&remark("10:40", &"the water stands at twelve feet and is clear ".repeat(12)));
    for line in ["check --job j", "check --all --job j", "log S-1 --job j", "limits --job j", "kinds"] {
        let out = desk.says(line).ends(0).out;
        let wide = out.lines().find(|line| line.chars().count() > 100);
        assert_eq!(wide, None, "{line}");
    }
}

/// `shaftbook … | head -1`: the reader goes, nobody is told off, and the work is done.
#[cfg(unix)]
#[test]
fn a_reader_that_stops_early_is_no_failure() {
    let lines: String =
        (0..400).map(|number| remark("10:40", &format!("remark {number} {}", "x".repeat(200)))).collect();
    let desk = with(&lines);
    for line in
        ["log S-1 --job j", "log S-1 --json --job j", "export record --job j", "log S-1 --tables --job j"]
    {
        let words: Vec<&str> = line.split(' ').collect();
        let mut child =
            desk.command(&words).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("started");
        let mut first = [0; 10];
        let mut out = child.stdout.take().expect("its output");
        out.read_exact(&mut first).expect("something");
        drop(out);
        let output = child.wait_with_output().expect("ended");
        let told = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success() && told.is_empty(), "{line}: {told}");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told() {
    let desk = with(&remark("10:40", "clear"));
    for line in ["check --json --job j", "export record --job j", "check --job j"] {
        let words: Vec<&str> = line.split(' ').collect();
        let full = std::fs::OpenOptions::new().write(true).open("/dev/full").expect("the device");
        let output = desk.command(&words).stdout(full).output().expect("ran");
        assert_eq!(output.status.code(), Some(1), "{line}");
        assert!(String::from_utf8_lossy(&output.stderr).contains("could not be written"), "{line}");
    }
}

/// A shaft may be called anything; its files stay in the folder they were asked for.
#[test]
fn a_shaft_with_a_path_for_a_name_stays_in_its_folder() {
    let desk = Desk::new();
    for (number, name) in ["../../up", "/up", "a/b", "job", "..", "Pfeiler Süd 3"].iter().enumerate() {
        let text = notes(&remark("10:40", "clear"))
            .replace("S-1", name)
            .replace("test-job", &format!("job-{number}"));
        desk.write("day.toml", &text);
        let job = format!("j{number}");
        desk.run(&["enter", "day.toml", "--job", &job]).ends(0);
        desk.run(&["export", "figures", "--out", "out/figures", "--job", &job]).ends(0);
        desk.run(&["export", "tables", "--out", "out/tables", "--job", &job]).ends(0);
        desk.run(&["draw", name, "--out", "out/drawings", "--job", &job]).ends(0);
    }
    let stray: Vec<String> = desk
        .files()
        .into_iter()
        .filter(|file| !file.starts_with("out/") && !file.starts_with('j') && file != "day.toml")
        .collect();
    assert_eq!(stray, Vec::<String>::new());
    let figures = desk.files().into_iter().filter(|file| file.starts_with("out/figures/")).count();
    assert_eq!(figures, 6, "each shaft has a file of its own");
}

#[test]
fn folders_and_files_may_have_any_name() {
    let desk = Desk::new();
    desk.run(&["begin", "Brücke Süd (1)"]).ends(0).says("--job \"Brücke Süd (1)\"");
    desk.write("Tag 1 – früh.toml", &notes(&remark("10:40", "clear")));
    desk.run(&["enter", "Tag 1 – früh.toml", "--job", "Brücke Süd (1)"])
        .ends(0)
        .says("Tag 1 – früh.toml: 4 lines read.");
    desk.run(&["export", "record", "-o", "neuer Ordner/Büro.jsonl", "--job", "Brücke Süd (1)"]).ends(0);
    desk.run(&["verify", "neuer Ordner/Büro.jsonl"]).ends(0);
}
