//! Fuzzing on the stable compiler: `cargo xtask fuzz [TARGET [SECONDS]]`.
//!
//! Whatever reads text or bytes from outside is fed with mutated inputs, steered by coverage counters.
//! The corpus is kept, so that every run begins where the last one ended; an input that stopped the
//! program is kept too and has to become a named test.
//!
//! Words: *target* = one file in `fuzz/fuzz_targets`; *corpus* = inputs that reach different code;
//! *crash* = an input that stopped a target.

use crate::house::House;
use crate::notice::Notice;
use crate::shell;
use crate::tally::Tally;
use std::path::{Path, PathBuf};
use std::process::Command;

/// What has to be fuzzed: the readers of what comes from outside.
const TARGETS: &[&str] = &["http", "notes", "papers", "quantity", "tables", "wire"];
/// Seconds a target runs as a step of `cargo xtask test`.
const SHORT: u32 = 12;
/// Coverage counters without cargo-fuzz and without a nightly compiler.
const FLAGS: &str = "-Cpasses=sancov-module \
    -Cllvm-args=-sanitizer-coverage-level=4 \
    -Cllvm-args=-sanitizer-coverage-inline-8bit-counters \
    -Cllvm-args=-sanitizer-coverage-pc-table \
    -Cllvm-args=-sanitizer-coverage-trace-compares \
    --cfg fuzzing";

/// Runs the target named, or all of them, for the seconds given.
///
/// # Errors
/// A target that is missing, does not build, or crashed.
pub(crate) fn run(house: &House, words: &[String]) -> Result<(), Notice> {
    let seconds = match words.get(1) {
        None => 60,
        Some(text) => text.parse().map_err(|_| {
            Notice::new(
                format!("`{text}` is no number of seconds."),
                "Nothing was run.",
                "Type a whole number.",
            )
        })?,
    };
    let names: Vec<&str> = match words.first() {
        None => TARGETS.to_vec(),
        Some(name) => vec![name.as_str()],
    };
    let tally = all(house, &names, seconds, keep)?;
    println!("{} targets held, {} crashed", tally.passed, tally.failed);
    match tally.failed {
        0 => Ok(()),
        _ => Err(crashed("A target")),
    }
}

/// A short run of every target: a step of `cargo xtask test`.
///
/// # Errors
/// A target that is missing or does not build.
pub(crate) fn short(house: &House) -> Result<Tally, Notice> {
    all(house, TARGETS, SHORT, |_, _, _| Ok(()))
}

/// What happens after a target held: nothing, or its corpus is kept.
type After = fn(&House, &Path, &str) -> Result<(), Notice>;

fn all(house: &House, names: &[&str], seconds: u32, after: After) -> Result<Tally, Notice> {
    let manifest = std::fs::read_to_string(house.path("fuzz/Cargo.toml")).unwrap_or_default();
    let files = house.files("fuzz/fuzz_targets", ".rs");
    let found: Vec<String> = files
        .iter()
        .filter_map(|path| path.file_stem())
        .map(|stem| stem.to_string_lossy().into_owned())
        .collect();
    let troubles = registration(names, &manifest, &found);
    if !troubles.is_empty() {
        return Err(Notice::new(
            troubles.join(" "),
            "A reader of outside text runs without being fuzzed.",
            "A target is one file in fuzz/fuzz_targets and one [[bin]] row in fuzz/Cargo.toml.",
        ));
    }
    let folder = build(house)?;
    let mut sum = Tally::default();
    for name in names {
        sum += one(house, &folder, name, seconds)?;
        after(house, &folder, name)?;
    }
    Ok(sum)
}

/// What is wrong between the names wanted, the manifest's rows and the files.
fn registration(names: &[&str], manifest: &str, files: &[String]) -> Vec<String> {
    let row = |name: &str| manifest.contains(&format!("path = \"fuzz_targets/{name}.rs\""));
    let mut troubles = Vec::new();
    for name in names.iter().filter(|name| !files.iter().any(|file| file == *name)) {
        troubles.push(format!("fuzz/fuzz_targets/{name}.rs does not exist."));
    }
    for file in files.iter().filter(|file| !row(file)) {
        troubles.push(format!("fuzz/Cargo.toml has no [[bin]] row for {file}."));
    }
    troubles
}

/// Builds all targets for the host by name, so that the counters stay out of the build scripts.
fn build(house: &House) -> Result<PathBuf, Notice> {
    if !shell::has("c++") {
        return Err(Notice::new(
            "No C++ compiler (`c++`) was found.",
            "The fuzzing engine cannot be built, so no target ran.",
            "Install one (Debian: apt-get install g++) and type the command again.",
        ));
    }
    let host = host(&shell::capture(house.command("rustc").arg("-vV"))?.said).ok_or_else(|| {
        Notice::new("`rustc -vV` names no host.", "No target was built.", "Reinstall the toolchain.")
    })?;
    let folder = house.path("target/fuzz");
    let mut command = house.cargo(&["build", "--quiet", "--release", "--manifest-path", "fuzz/Cargo.toml"]);
    command.args(["--target", &host]).env("RUSTFLAGS", FLAGS).env("CARGO_TARGET_DIR", &folder);
    println!("    building the targets with coverage counters (a few minutes on a fresh clone)");
    match shell::stream(&mut command)?.success {
        true => Ok(folder.join(host).join("release")),
        false => Err(Notice::new(
            "The fuzz targets did not build.",
            "No target ran.",
            "Read the compiler's message above.",
        )),
    }
}

fn host(said: &str) -> Option<String> {
    said.lines().find_map(|line| line.strip_prefix("host: ")).map(str::to_owned)
}

/// Replays the kept crashes first, then runs from the corpus.
fn one(house: &House, folder: &Path, name: &str, seconds: u32) -> Result<Tally, Notice> {
    let program = folder.join(name);
    for crash in house.files(&format!("fuzz/crashes/{name}"), "") {
        if !shell::capture(house.command(&program).arg(&crash))?.success {
            println!("    {name}: {} still stops it", house.shown(&crash));
            return Ok(Tally::of(0, 1));
        }
    }
    let ran = shell::capture(&mut search(house, &program, name, seconds)?)?;
    if ran.success && counters(&ran.said) == 0 {
        return Err(Notice::new(
            format!("{name} ran without coverage counters."),
            "The inputs were not steered; the run shows next to nothing.",
            "Compare the flags in xtask/src/fuzz.rs with what this compiler offers.",
        ));
    }
    match ran.success {
        true => {
            println!("    {name}: {seconds} s, {}", figures(&ran.said));
            Ok(Tally::of(1, 0))
        }
        false => {
            println!("{}\n    {name}: STOPPED; the input is in fuzz/crashes/{name}", ran.said);
            Ok(Tally::of(0, 1))
        }
    }
}

/// The kept corpus is only read; what a run finds goes beside the build, until `keep` takes the best of it.
fn search(house: &House, program: &Path, name: &str, seconds: u32) -> Result<Command, Notice> {
    let (kept, crashes) = (format!("fuzz/corpus/{name}"), format!("fuzz/crashes/{name}"));
    for folder in [&found(name), &kept, &crashes] {
        std::fs::create_dir_all(house.path(folder)).map_err(|error| {
            Notice::new(
                format!("{folder} cannot be made ({error})."),
                "The run was not begun.",
                "Look at the folder.",
            )
        })?;
    }
    let mut command = house.command(program);
    command.args([
        found(name),
        kept,
        format!("-artifact_prefix={crashes}/"),
        format!("-max_total_time={seconds}"),
    ]);
    command.args(["-timeout=10", "-use_value_profile=1", "-print_final_stats=1"]);
    Ok(command)
}

/// Where a run writes the inputs it found.
fn found(name: &str) -> String {
    format!("target/fuzz/corpus/{name}")
}

/// Takes into the kept corpus what reaches code that it did not reach before.
fn keep(house: &House, folder: &Path, name: &str) -> Result<(), Notice> {
    let kept = format!("fuzz/corpus/{name}");
    let before = house.files(&kept, "").len();
    shell::capture(house.command(folder.join(name)).args([
        "-set_cover_merge=1",
        "-use_counters=0",
        &kept,
        &found(name),
    ]))?;
    println!("    {name}: corpus of {before} inputs, now {}", house.files(&kept, "").len());
    Ok(())
}

/// How many coverage counters the engine found in the program: none, and it would run blind.
fn counters(said: &str) -> usize {
    let line = said.lines().find(|line| line.contains("inline 8-bit counters"));
    let number = line.and_then(|line| line.split('(').nth(1)?.split_whitespace().next()?.parse().ok());
    number.unwrap_or(0)
}

/// How many inputs ran, and the last coverage line.
fn figures(said: &str) -> String {
    let runs = said.lines().find_map(|line| line.strip_prefix("stat::number_of_executed_units:"));
    let reached = said.lines().rev().find(|line| line.contains(" cov: ")).and_then(|line| {
        let after = line.split(" cov: ").nth(1)?;
        after.split_whitespace().next()
    });
    format!("{} inputs, {} counters reached", runs.unwrap_or("?").trim(), reached.unwrap_or("?"))
}

fn crashed(who: &str) -> Notice {
    Notice::new(
        format!("{who} was stopped by an input."),
        "The same text from outside would stop the program on site.",
        "Make the kept input a named test of the crate, then mend the reader.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(files: &[&str], manifest: &str, expected: &[&str]) {
        let files: Vec<String> = files.iter().map(|file| (*file).to_owned()).collect();
        assert_eq!(registration(&["wire"], manifest, &files), expected);
    }

    #[test]
    fn the_manifest_and_the_files_have_to_agree() {
        let row = "[[bin]]\nname = \"wire\"\npath = \"fuzz_targets/wire.rs\"\n";
        check(&["wire"], row, &[]);
        check(&["wire"], "", &["fuzz/Cargo.toml has no [[bin]] row for wire."]);
        check(&[], row, &["fuzz/fuzz_targets/wire.rs does not exist."]);
    }

    #[test]
    fn the_figures_of_a_run_are_read_from_its_log() {
        let said =
            "#4 NEW cov: 11 ft: 12\n#9 DONE   cov: 31 ft: 40 corp: 2\nstat::number_of_executed_units: 900\n";
        assert_eq!(figures(said), "900 inputs, 31 counters reached");
        assert_eq!(counters("INFO: Loaded 1 modules   (174 inline 8-bit counters): 174 [0x1, 0x2)\n"), 174);
        assert_eq!(counters("INFO: Seed: 1\n"), 0);
        assert_eq!(figures(""), "? inputs, ? counters reached");
        assert_eq!(
            host("rustc 1\nhost: x86_64-unknown-linux-gnu\n").as_deref(),
            Some("x86_64-unknown-linux-gnu")
        );
    }
}
