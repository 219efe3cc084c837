//! The same pour log, done by a headless spreadsheet.
//!
//! A spreadsheet in the evening is what most sites have. It opens a sheet with the formulas of one pour,
//! recalculates it and prints it to PDF; our program does the same from its record. Both are timed as
//! whole programs, from start to exit.

use crate::house::House;
use crate::notice::Notice;
use crate::shell;
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

const SHEET: &str = "benches/spreadsheet/pour-log.fods";
const NOTES: &str = "benches/spreadsheet/pour-log.toml";
const SHAFT: &str = "P-1";
const OUT: &str = "target/bench";
const JOB: &str = "target/bench/job";
/// Runs timed after one that is not; the median of an odd number is one of them.
const RUNS: usize = 5;

/// Times both and prints the ratio.
///
/// # Errors
/// When there is no spreadsheet program, or one of the two fails.
pub(crate) fn compare(house: &House, program: &Path) -> Result<(), Notice> {
    if !shell::has("soffice") {
        return Err(Notice::new(
            "LibreOffice (`soffice`) was not found.",
            "The comparison with a spreadsheet was not made; the figures above stand alone.",
            "Install it (Debian: apt-get install libreoffice-calc) and run `cargo xtask bench` again.",
        ));
    }
    prepared(house, program)?;
    let ours = median(|| {
        let mut command = house.command(program);
        command.args(["package", SHAFT, "--out", OUT, "--job", JOB]);
        command
    })?;
    let theirs = median(|| {
        let mut command = house.command("soffice");
        command.arg(format!("-env:UserInstallation=file://{}", house.path("target/bench/profile").display()));
        command.args(["--headless", "--convert-to", "pdf", "--outdir", OUT, SHEET]);
        command
    })?;
    println!("{}", ratio(ours, theirs));
    Ok(())
}

/// The record of the sheet's pour, its notes read in before the clock starts.
fn prepared(house: &House, program: &Path) -> Result<(), Notice> {
    let failed = |what: String| Notice::new(what, "There is nothing to compare.", "Read the message above.");
    let old = house.path(OUT);
    if old.exists() {
        std::fs::remove_dir_all(&old)
            .map_err(|error| failed(format!("{OUT} cannot be removed ({error}).")))?;
    }
    std::fs::create_dir_all(&old).map_err(|error| failed(format!("{OUT} cannot be made ({error}).")))?;
    for words in [vec!["begin", JOB], vec!["enter", NOTES, "--job", JOB]] {
        if !shell::stream(house.command(program).args(&words))?.success {
            return Err(failed(format!("`shaftbook {}` failed.", words.join(" "))));
        }
    }
    Ok(())
}

/// The median time of whole runs, after one that fills the caches.
fn median(command: impl Fn() -> Command) -> Result<Duration, Notice> {
    let mut times = Vec::new();
    for _ in 0..=RUNS {
        let begun = Instant::now();
        let ran = shell::capture(&mut command())?;
        if !ran.success {
            let what = format!("`{}` failed: {}", shell::spoken(&command()), ran.said.trim());
            return Err(Notice::new(
                what,
                "There is nothing to compare.",
                "Run it by hand and read its message.",
            ));
        }
        times.push(begun.elapsed());
    }
    let mut times = times.split_off(1);
    times.sort();
    Ok(times[RUNS / 2])
}

fn ratio(ours: Duration, theirs: Duration) -> String {
    let times = theirs.as_secs_f64() / ours.as_secs_f64();
    format!(
        "shaftbook package: {} ms; spreadsheet: {} ms; the spreadsheet takes {times:.1} times as long \
         (median of {RUNS} whole runs each)",
        ours.as_millis(),
        theirs.as_millis()
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ratio_says_which_is_slower() {
        let text = ratio(Duration::from_millis(200), Duration::from_millis(3000));
        assert!(text.contains("the spreadsheet takes 15.0 times as long"), "{text}");
    }

    #[test]
    fn a_run_that_fails_gives_no_figure() {
        let cargo = || Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
        let run = || {
            let mut command = cargo();
            command.arg("a-word-cargo-does-not-know");
            command
        };
        assert!(median(run).is_err());
    }
}
