//! Exports in the formats other programs read, opened with libraries that know nothing of us.
//!
//! Every job is entered from its notes and written out in every format; a script for each format opens what was
//! written and holds it against the signed record.
//!
//! Words: *job* = a folder of notes, of the demo or with shafts of every shape; *export* = a word of
//! `shaftbook export` and the file it goes to.

use crate::house::House;
use crate::notice::Notice;
use crate::tally::Tally;
use crate::{demo, python, reference, shell};
use std::path::Path;

/// Folders of notes, the one with every shape first: scripts spoil its files to see them refused.
const JOBS: &[&str] = &["tests/reference/formats", "demo/harrow-vale", "demo/lindmoor", "demo/printed"];

const OUT: &str = "target/formats";

/// What is written of each job.
const EXPORTS: &[[&str; 2]] = &[
    ["record", "record.jsonl"],
    ["figures", "figures"],
    ["ifc", "model.ifc"],
    ["ifc4", "model-ifc4.ifc"],
    ["ags", "ground.ags"],
    ["xlsx", "book.xlsx"],
    ["csvw", "csvw"],
    ["geojson", "shafts.geojson"],
    ["parquet", "entries.parquet"],
];

/// A script for each format; it is given the folders of all jobs.
const SCRIPTS: &[&str] = &[
    "tests/reference/ifc_check.py",
    "tests/reference/ags_check.py",
    "tests/reference/xlsx_check.py",
    "tests/reference/tables_check.py",
];

/// The script that writes a schedule with a general library and enters it, and the notes of the job it goes to.
const SCHEDULE: &str = "tests/reference/schedule_check.py";

/// Writes every job out and lets every library look at it; enters a schedule a library wrote.
///
/// # Errors
/// When the program does not build, a job cannot be written out, or a script counts nothing.
pub(crate) fn step(house: &House) -> Result<Tally, Notice> {
    let program = demo::build(house, &[])?;
    let folders: Vec<String> = JOBS.iter().map(|job| format!("{OUT}/{}", name(job))).collect();
    for (job, folder) in JOBS.iter().zip(&folders) {
        write_out(house, &program, (job, folder))?;
    }
    let mut sum = Tally::default();
    for script in SCRIPTS {
        println!("    {script}");
        let mut command = house.command(python::interpreter(house));
        let ran = shell::stream(command.arg(script).args(&folders))?;
        sum += reference::counted(ran, script)?;
    }
    sum += schedule(house, &program)?;
    Ok(sum)
}

/// A schedule comes in from a workbook.
fn schedule(house: &House, program: &Path) -> Result<Tally, Notice> {
    println!("    {SCHEDULE}");
    let folder = format!("{OUT}/schedule");
    emptied(house, &folder)?;
    let job = format!("{folder}/job");
    run(house, program, &["begin", &job])?;
    run(house, program, &["enter", &format!("{}/1-job.toml", JOBS[0]), "--job", &job])?;
    let mut command = house.command(python::interpreter(house));
    let ran = shell::stream(command.arg(SCHEDULE).arg(program).arg(&folder))?;
    reference::counted(ran, SCHEDULE)
}

/// Takes away what an earlier run left in a folder.
///
/// # Errors
/// When it cannot be taken away.
pub(crate) fn emptied(house: &House, folder: &str) -> Result<(), Notice> {
    let old = house.path(folder);
    if !old.exists() {
        return Ok(());
    }
    std::fs::remove_dir_all(&old).map_err(|error| {
        let what = format!("{folder} could not be emptied ({error}).");
        Notice::new(what, "Old exports could pass for new ones.", "Delete the folder.")
    })
}

fn name(job: &str) -> &str {
    job.rsplit('/').next().unwrap_or(job)
}

/// Enters a job anew, writes it out in every format, and makes a job of what can come back.
fn write_out(house: &House, program: &Path, (notes, folder): (&str, &str)) -> Result<(), Notice> {
    emptied(house, folder)?;
    let job = format!("{folder}/job");
    let notes: Vec<String> = house.files(notes, ".toml").iter().map(|path| house.shown(path)).collect();
    run(house, program, &["begin", &job])?;
    let enter: Vec<&str> =
        ["enter", "--job", &job].into_iter().chain(notes.iter().map(String::as_str)).collect();
    run(house, program, &enter)?;
    for [word, file] in EXPORTS {
        run(house, program, &["export", word, "--job", &job, "--out", &format!("{folder}/{file}")])?;
    }
    let back = format!("{folder}/back");
    run(house, program, &["merge", &format!("{folder}/csvw"), "--job", &back])?;
    run(house, program, &["export", "record", "--job", &back, "--out", &format!("{folder}/back.jsonl")])
}

fn run(house: &House, program: &Path, words: &[&str]) -> Result<(), Notice> {
    let ran = shell::capture(house.command(program).args(words))?;
    match ran.success {
        true => Ok(()),
        false => Err(Notice::new(
            format!("`shaftbook {}` failed: {}", words.join(" "), ran.said.trim()),
            "Nothing of this job was looked at by a library.",
            "Read its message.",
        )),
    }
}
