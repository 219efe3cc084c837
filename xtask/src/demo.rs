//! The main job on the demo's notes: `cargo xtask demo`.
//!
//! Every folder in `demo/` with field notes (`*.toml`, read in the order of their names) is a job. Each goes
//! the whole way: record begun, notes read in, proved, checked, drawn, packaged; what comes out lies in
//! `out/demo`.
//!
//! Words: *stage* = one command of `shaftbook`; *job* = one folder of notes.

use crate::house::House;
use crate::notice::Notice;
use crate::shell;
use crate::tally::Tally;
use crate::{app, live};
use serde_json::Value;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

const JOBS: &str = "demo";
const OUT: &str = "out/demo";

/// One command of the program on the way from notes to PDF.
struct Stage {
    says: &'static str,
    /// The words typed after `shaftbook`. `{out}`, `{notes}` and `{tables}` (all of them) are filled in; a stage
    /// that says `{shaft}` is run once for each shaft of the record, one without tables is passed over.
    words: &'static [&'static str],
    /// Where what it prints is kept when it is too long to be read passing by; its head lines are shown.
    kept: Option<&'static str>,
    /// The one folder of notes it is for; `None`: every one.
    of: Option<&'static str>,
}

/// The job on which everybody signed last.
const SIGNED: Option<&str> = Some("lindmoor");

const STAGES: &[Stage] = &[
    Stage { says: "begin a job", words: &["begin", "{out}"], kept: None, of: None },
    Stage {
        says: "read the field notes into signed entries",
        words: &["enter", "{notes}", "--job", "{out}"],
        kept: None,
        of: None,
    },
    Stage {
        says: "read a shaft kept in a spreadsheet",
        words: &["enter", "{tables}", "--job", "{out}"],
        kept: None,
        of: None,
    },
    Stage {
        says: "write the record out",
        words: &["export", "record", "--out", "{out}/record.jsonl", "--job", "{out}"],
        kept: None,
        of: None,
    },
    Stage { says: "prove it", words: &["verify", "{out}/record.jsonl"], kept: None, of: None },
    Stage { says: "the shafts of the job", words: &["shafts", "--job", "{out}"], kept: None, of: None },
    Stage {
        says: "findings and forecasts",
        words: &["check", "--job", "{out}"],
        kept: Some("{out}/check.txt"),
        of: None,
    },
    Stage {
        says: "what waits for a person, and for whom",
        words: &["open-items", "--job", "{out}"],
        kept: Some("{out}/open-items.txt"),
        of: None,
    },
    Stage {
        says: "draw",
        words: &["draw", "{shaft}", "--out", "{out}/drawings/{shaft}", "--job", "{out}"],
        kept: None,
        of: None,
    },
    Stage {
        says: "make the package",
        words: &["package", "--out", "{out}/package", "--job", "{out}"],
        kept: None,
        of: None,
    },
    Stage {
        says: "seal a shaft that all have signed",
        words: &["seal", "P-7", "--by", "B. Ostrang", "--out", SEALED, "--job", "{out}"],
        kept: None,
        of: SIGNED,
    },
    Stage { says: "prove it with that file alone", words: &["verify", SEALED], kept: None, of: SIGNED },
];

/// Where the sealed package lies.
const SEALED: &str = "{out}/package/P-7-sealed.pdf";

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
    app::before_demo(house)?;
    step(house)?;
    live::run(house, &target(house).join("debug/shaftbook"))
}

/// The demo as a step of `cargo xtask test`: one job counts as one test.
///
/// # Errors
/// As for [`run`].
pub(crate) fn step(house: &House) -> Result<Tally, Notice> {
    let has_notes = |job: &PathBuf| !house.files(&house.shown(job), ".toml").is_empty();
    let jobs: Vec<PathBuf> = house.folders(JOBS).into_iter().filter(has_notes).collect();
    if jobs.is_empty() {
        return Err(Notice::new(
            "There is no demo job: no folder in demo/ with field notes (*.toml).",
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
    println!("\nThe findings are in {OUT}/*/check.txt. The packages to open:\n  {}", packages.join("\n  "));
    Ok(Tally::of(jobs.len(), 0))
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

/// What a job is made of: names of files from the top of the workspace.
struct Papers {
    out: String,
    notes: Vec<String>,
    /// Tables in the folder `tables` of the job; the one that plans the shafts is read first.
    tables: Vec<String>,
}

impl Papers {
    fn of(house: &House, job: &Path) -> Self {
        let name = job.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let folder = house.shown(job);
        let shown = |files: Vec<PathBuf>| files.iter().map(|path| house.shown(path)).collect::<Vec<String>>();
        let mut tables = shown(house.files(&format!("{folder}/tables"), ".csv"));
        tables.sort_by_key(|table| !table.ends_with("shaft_schedule.csv"));
        Papers { out: format!("{OUT}/{name}"), notes: shown(house.files(&folder, ".toml")), tables }
    }
}

/// Takes one job the whole way and lists the PDFs it ends with.
fn one(house: &House, program: &Path, job: &Path) -> Result<Vec<String>, Notice> {
    let papers = Papers::of(house, job);
    let out = &papers.out;
    println!("\n---- {}, results in {out}", house.shown(job));
    fresh(&house.path(out))?;
    let name = job.file_name().unwrap_or_default();
    for stage in STAGES.iter().filter(|stage| stage.of.is_none_or(|only| name == only)) {
        for words in filled(stage.words, &papers, &shafts(house, out)) {
            let kept = stage.kept.map(|file| file.replace("{out}", out));
            run_stage(house, program, (stage, kept.as_deref()), &words)?;
        }
    }
    let packages = house.files(&format!("{out}/package"), ".pdf");
    match packages.is_empty() {
        false => Ok(packages.iter().map(|path| house.shown(path)).collect()),
        true => Err(Notice::new(
            format!("No PDF was made in {out}/package."),
            "The job did not come to its package.",
            "Look at the output of the last stage above.",
        )),
    }
}

fn run_stage(
    house: &House,
    program: &Path,
    (stage, kept): (&Stage, Option<&str>),
    words: &[String],
) -> Result<(), Notice> {
    println!("\n  {}: shaftbook {}", stage.says, words.join(" "));
    let mut command = house.command(program);
    let ran = match kept {
        None => shell::stream(command.args(words))?,
        Some(_) => silent(&mut command, words)?,
    };
    if let Some(file) = kept.filter(|_| ran.success) {
        keep(house, file, &ran.said)?;
    }
    match ran.success {
        true => Ok(()),
        false => Err(Notice::new(
            format!("`shaftbook {}` failed.", words.join(" ")),
            "The demo stopped here.",
            "Read its message above.",
        )),
    }
}

/// Runs a command whose print is kept; its errors are shown as they come.
fn silent(command: &mut std::process::Command, words: &[String]) -> Result<shell::Ran, Notice> {
    let said = shell::output_of(command.args(words))?;
    Ok(shell::Ran { success: true, said: String::from_utf8_lossy(&said).into_owned() })
}

/// Keeps what a stage printed, and shows how each shaft stands.
fn keep(house: &House, file: &str, said: &str) -> Result<(), Notice> {
    let path = house.path(file);
    std::fs::write(&path, said).map_err(|error| unusable(&path, &error))?;
    heads(said).into_iter().for_each(|line| println!("    {line}"));
    println!("    all of it: {file}");
    Ok(())
}

/// The line that names a shaft, and the one that says how it stands.
fn heads(said: &str) -> Vec<&str> {
    let lines: Vec<&str> = said.lines().collect();
    let named = lines.iter().enumerate().filter(|(_, line)| line.starts_with("Shaft "));
    named.flat_map(|(at, _)| lines.iter().skip(at).take(2).copied()).collect()
}

/// The shafts planned in the record written so far, in the order of their names.
fn shafts(house: &House, out: &str) -> BTreeSet<String> {
    planned(&std::fs::read_to_string(house.path(&format!("{out}/record.jsonl"))).unwrap_or_default())
}

fn planned(record: &str) -> BTreeSet<String> {
    let entries = record.lines().filter_map(|line| serde_json::from_str::<Value>(line).ok());
    let plans = entries.filter(|entry| entry["kind"] == "shaft_planned");
    plans.filter_map(|entry| entry["shaft"].as_str().map(str::to_owned)).collect()
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

/// The words of a stage with the job's own names in them: once, once for each shaft, or not at all.
fn filled(words: &[&str], papers: &Papers, shafts: &BTreeSet<String>) -> Vec<Vec<String>> {
    let once = |shaft: &str| {
        let one = |word: &&str| match *word {
            "{notes}" => papers.notes.clone(),
            "{tables}" => papers.tables.clone(),
            word => vec![word.replace("{out}", &papers.out).replace("{shaft}", shaft)],
        };
        words.iter().flat_map(one).collect()
    };
    let says = |mark: &str| words.iter().any(|word| word.contains(mark));
    match (says("{shaft}"), says("{tables}") && papers.tables.is_empty()) {
        (true, _) => shafts.iter().map(|shaft| once(shaft)).collect(),
        (false, false) => vec![once("")],
        (false, true) => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(words: &[&str], expected: &[&str]) {
        let notes = ["demo/a/1.toml".to_owned(), "demo/a/2.toml".to_owned()].to_vec();
        let papers = Papers { out: "out/demo/a".to_owned(), notes, tables: Vec::new() };
        let shafts = BTreeSet::from(["S-1".to_owned(), "S-2".to_owned()]);
        let filled = filled(words, &papers, &shafts);
        assert_eq!(filled.iter().map(|words| words.join(" ")).collect::<Vec<_>>(), expected);
    }

    #[test]
    fn a_stage_is_filled_in_with_the_names_of_the_job() {
        check(
            &["enter", "{notes}", "--job", "{out}"],
            &["enter demo/a/1.toml demo/a/2.toml --job out/demo/a"],
        );
        check(
            &["draw", "{shaft}", "--out", "{out}/{shaft}"],
            &["draw S-1 --out out/demo/a/S-1", "draw S-2 --out out/demo/a/S-2"],
        );
    }

    #[test]
    fn of_a_long_print_the_heads_are_shown() {
        let said = "\nShaft S-1 at 2025-05-06 12:00\n2 fail, 8 meet\n\n  fails: Sediment\n\nShaft S-2 at noon\nnothing fails\n";
        let told = ["Shaft S-1 at 2025-05-06 12:00", "2 fail, 8 meet", "Shaft S-2 at noon", "nothing fails"];
        assert_eq!(heads(said), told);
    }

    #[test]
    fn the_shafts_are_those_the_record_plans() {
        let record = "{\"kind\":\"shaft_planned\",\"shaft\":\"S-2\"}\n{\"kind\":\"remark\",\"shaft\":\"S-9\"}\nno json\n";
        assert_eq!(planned(record), BTreeSet::from(["S-2".to_owned()]));
    }
}
