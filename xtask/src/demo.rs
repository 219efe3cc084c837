//! The main job on the demo's notes: `cargo xtask demo`.
//!
//! Every folder in `demo/` is a job with complete days of field notes. Each goes the whole way: record
//! begun, notes imported, checked, drawn, packaged; what comes out lies in `out/demo`.
//!
//! Words: *stage* = one command of `shaftbook`; *job* = one folder of notes.

use crate::house::House;
use crate::notice::Notice;
use crate::shell;
use crate::tally::Tally;
use std::path::{Path, PathBuf};

const JOBS: &str = "demo";
const OUT: &str = "out/demo";

/// One command of the program on the way from notes to PDF.
struct Stage {
    says: &'static str,
    /// The words typed after `shaftbook`: `{record}`, `{out}` and `{notes}` (all of them) are filled in.
    words: &'static [&'static str],
    /// Exit codes that mean the stage did its work.
    good: &'static [i32],
}

const STAGES: &[Stage] = &[
    Stage { says: "begin a record", words: &["begin", "{record}"], good: &[0] },
    Stage { says: "import the field notes", words: &["import", "{record}", "{notes}"], good: &[0] },
    Stage { says: "check: findings and forecasts", words: &["check", "{record}"], good: &[0, 1] },
    Stage { says: "draw the figures", words: &["draw", "{record}", "--out", "{out}/figures"], good: &[0] },
    Stage { says: "make the package", words: &["package", "{record}", "--out", "{out}"], good: &[0] },
];

/// Builds the program and takes every demo job the whole way.
///
/// # Errors
/// When the program does not build, there is no job, or a stage fails.
pub(crate) fn run(house: &House, words: &[String]) -> Result<(), Notice> {
    if let Some(word) = words.first() {
        return Err(Notice::new(
            format!("`{word}` was not understood."),
            "Nothing was run.",
            "Type: cargo xtask demo",
        ));
    }
    step(house).map(|_| ())
}

/// The demo as a step of `cargo xtask test`: one job counts as one test.
///
/// # Errors
/// As for [`run`].
pub(crate) fn step(house: &House) -> Result<Tally, Notice> {
    let jobs = house.folders(JOBS);
    if jobs.is_empty() {
        return Err(Notice::new(
            "There is no demo job: no folder in demo/.",
            "The main job cannot be shown.",
            "Restore the folder demo/ with its field notes.",
        ));
    }
    println!("    building shaftbook (about 10 minutes on a fresh clone with 2 cores, seconds after that)");
    let program = build(house, &[])?;
    let mut packages = Vec::new();
    for job in &jobs {
        packages.extend(one(house, &program, job)?);
    }
    println!("\nThe packages to open:\n  {}", packages.join("\n  "));
    Ok(Tally { passed: jobs.len(), failed: 0 })
}

/// Builds the program, with further words for cargo, and says where it lies.
///
/// # Errors
/// When it does not build.
pub(crate) fn build(house: &House, words: &[&str]) -> Result<PathBuf, Notice> {
    let mut command = house.cargo(&["build", "--package", "cli", "--bin", "shaftbook"]);
    let folder = if words.contains(&"--release") { "release" } else { "debug" };
    match shell::stream(command.args(words))?.success {
        true => Ok(target(house).join(folder).join("shaftbook")),
        false => Err(Notice::new(
            "The program `shaftbook` did not build.",
            "Nothing could be shown.",
            "Read the compiler's message above; packages are fetched by cargo and need a connection once.",
        )),
    }
}

/// Where cargo builds to.
fn target(house: &House) -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR")
        .map_or_else(|| house.path("target"), |folder| house.root().join(folder))
}

/// Takes one job the whole way and lists the PDFs it ends with.
fn one(house: &House, program: &Path, job: &Path) -> Result<Vec<String>, Notice> {
    let name = job.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let out = format!("{OUT}/{name}");
    let notes: Vec<String> =
        house.files(&house.shown(job), ".toml").iter().map(|path| house.shown(path)).collect();
    println!("\n---- {name}: {} in, results in {out}", notes.join(", "));
    fresh(&house.path(&out))?;
    for stage in STAGES {
        run_stage(house, program, stage, &filled(stage.words, &out, &notes))?;
    }
    let packages: Vec<String> = house.files(&out, ".pdf").iter().map(|path| house.shown(path)).collect();
    match packages.is_empty() {
        false => Ok(packages),
        true => Err(Notice::new(
            format!("No PDF was made in {out}."),
            format!("The job {name} did not come to its package."),
            "Look at the output of the last stage above.",
        )),
    }
}

fn run_stage(house: &House, program: &Path, stage: &Stage, words: &[String]) -> Result<(), Notice> {
    println!("\n  {}: shaftbook {}", stage.says, words.join(" "));
    let ran = shell::stream(house.command(program).args(words))?;
    match ran.code.is_some_and(|code| stage.good.contains(&code)) {
        true => Ok(()),
        false => Err(Notice::new(
            format!("`shaftbook {}` ended with code {:?}.", words.join(" "), ran.code),
            "The demo stopped here.",
            "Read its message above.",
        )),
    }
}

/// An empty folder: a demo shows what it made itself.
fn fresh(folder: &Path) -> Result<(), Notice> {
    if folder.exists() {
        std::fs::remove_dir_all(folder).map_err(|error| unusable(folder, &error))?;
    }
    std::fs::create_dir_all(folder).map_err(|error| unusable(folder, &error))
}

fn unusable(folder: &Path, error: &std::io::Error) -> Notice {
    let what = format!("{} could not be emptied or made ({error}).", folder.display());
    Notice::new(what, "The demo has nowhere to write to.", "Delete the folder, or make it writable.")
}

/// The words of a stage with the job's own names in them.
fn filled(words: &[&str], out: &str, notes: &[String]) -> Vec<String> {
    let one = |word: &&str| match *word {
        "{notes}" => notes.to_vec(),
        word => vec![word.replace("{record}", &format!("{out}/record.jsonl")).replace("{out}", out)],
    };
    words.iter().flat_map(one).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stage_is_filled_in_with_the_names_of_the_job() {
        let notes = ["demo/a/1.toml".to_owned(), "demo/a/2.toml".to_owned()];
        let words =
            filled(&["import", "{record}", "{notes}", "--out", "{out}/figures"], "out/demo/a", &notes);
        let expected = [
            "import",
            "out/demo/a/record.jsonl",
            "demo/a/1.toml",
            "demo/a/2.toml",
            "--out",
            "out/demo/a/figures",
        ];
        assert_eq!(words, expected);
    }
}
