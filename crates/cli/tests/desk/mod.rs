//! A desk for tests: a folder of its own, the built program, and a clock that stands still.

use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

mod served;

#[allow(unused_imports, reason = "only tests that serve an office name it")]
pub(crate) use served::Served;

/// The clock of every test; the notes are older.
pub(crate) const CLOCK: &str = "2026-06-01T08:00:00-06:00";

/// A folder to work in.
pub(crate) struct Desk {
    folder: TempDir,
}

/// What a command did.
#[derive(Debug)]
pub(crate) struct Did {
    pub exit: i32,
    pub out: String,
    pub err: String,
}

impl Did {
    fn of(output: Output) -> Self {
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("text");
        Did { exit: output.status.code().unwrap_or(-1), out: text(output.stdout), err: text(output.stderr) }
    }

    /// It ended with this exit code.
    #[track_caller]
    pub(crate) fn ends(self, exit: i32) -> Self {
        assert_eq!(self.exit, exit, "{}{}", self.out, self.err);
        self
    }

    /// It said this, on either stream. Lines are joined, so that a sentence may be wrapped anywhere.
    #[track_caller]
    pub(crate) fn says(self, text: &str) -> Self {
        let all = format!("{} {}", self.out, self.err);
        let joined = all.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(joined.contains(text), "`{text}` is not in:\n{all}");
        self
    }

    /// Its JSON.
    #[track_caller]
    pub(crate) fn json(&self) -> Value {
        serde_json::from_str(&self.out).expect("JSON")
    }
}

impl Desk {
    pub(crate) fn new() -> Self {
        Desk { folder: tempfile::tempdir().expect("a folder") }
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Runs the program in the folder.
    #[track_caller]
    pub(crate) fn run(&self, words: &[&str]) -> Did {
        Did::of(self.command(words).output().expect("the program runs"))
    }

    pub(crate) fn command(&self, words: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_shaftbook"));
        command.current_dir(self.folder.path()).env_remove("NO_COLOR").args(["--clock", CLOCK]).args(words);
        command
    }

    /// Runs a command of words without spaces in them.
    #[track_caller]
    pub(crate) fn says(&self, line: &str) -> Did {
        self.run(&line.split(' ').collect::<Vec<_>>())
    }

    #[track_caller]
    pub(crate) fn write(&self, name: &str, text: &str) {
        std::fs::write(self.path(name), text).expect("written");
    }

    #[track_caller]
    pub(crate) fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).expect("readable")
    }

    /// Every file of the folder, named as seen from it, in order.
    pub(crate) fn files(&self) -> Vec<String> {
        let mut all = Vec::new();
        walk(self.folder.path(), self.folder.path(), &mut all);
        all.sort();
        all
    }
}

fn walk(top: &Path, here: &Path, all: &mut Vec<String>) {
    for entry in std::fs::read_dir(here).expect("a folder").flatten() {
        let path = entry.path();
        if path.is_dir() {
            walk(top, &path, all);
        } else {
            all.push(path.strip_prefix(top).expect("inside").display().to_string());
        }
    }
}

/// The notes of a small job, with the lines of one day as given.
pub(crate) fn notes(lines: &str) -> String {
    JOB.to_owned()
        + &format!(
            "\n[[day]]\ndate = 2026-05-04\nshaft = \"S-1\"\nauthor = \"A. Fenwick\"\nlog = [\n{lines}]\n"
        )
}

/// A made-up job.
pub(crate) const JOB: &str = r#"
[job]
key = "test-job"
date = 2026-05-01
author = "A. Fenwick"
name = "A job for tests"
time_zone = "America/Denver"
units = "us"
lengths = "feet_tenths"

[criteria]
set = "roadside-common-practice-1"

[[shaft]]
id = "S-1"
structure = "sign"
ground = "100.0 ft"
top = "100.0 ft"
tip = "76.0 ft"
method = "wet"
bore = "42 in"
"#;

/// A line of the log: a remark.
pub(crate) fn remark(at: &str, text: &str) -> String {
    format!("  {{ at = \"{at}\", entry = \"remark\", text = {text:?} }},\n")
}

/// The folder of the demo jobs.
pub(crate) fn demo(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo").join(name)
}

/// Every file with this ending in a folder, in the order of the names.
pub(crate) fn sorted(folder: &Path, ending: &str) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .expect("a folder")
        .flatten()
        .map(|entry| entry.path().display().to_string())
        .filter(|name| name.ends_with(ending))
        .collect();
    names.sort();
    names
}
