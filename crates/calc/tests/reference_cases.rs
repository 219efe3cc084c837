//! Runs every file of `cases/`: values from outside, held against the formulas.
//!
//! A file names the check it belongs to; the checks stand in `tests/reference/<topic>.rs`. Nothing here
//! can write an expected value.

mod reference;

use std::path::{Path, PathBuf};

use reference::case_file;

fn case_files() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../cases");
    let entries = std::fs::read_dir(&folder).expect("the folder of cases");
    let mut files: Vec<PathBuf> = entries
        .map(|entry| entry.expect("a readable folder").path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "toml"))
        .collect();
    files.sort();
    files
}

#[test]
fn every_reference_case_agrees() {
    let files = case_files();
    let mut failures = Vec::new();
    let mut agreed = 0;
    for path in &files {
        let name = path.file_name().expect("a file").to_string_lossy().into_owned();
        let text = std::fs::read_to_string(path).expect("a readable file");
        match case_file::run(&text) {
            Ok(count) => agreed += count,
            Err(problems) => {
                failures.extend(problems.into_iter().map(|problem| format!("{name}: {problem}")))
            }
        }
    }
    assert!(failures.is_empty(), "{} case(s) disagree:\n{}", failures.len(), failures.join("\n"));
    assert!(agreed >= 220, "only {agreed} cases in {} files: have some been lost?", files.len());
}

/// The runner itself: what must not pass does not pass.
mod the_runner_refuses {
    use super::case_file;

    const GOOD: &str = r#"
        [about]
        checks = "geometry::cylinder"
        [[case]]
        source = "solid geometry"
        how = "π / 4 · 1 m² · 4 m"
        worked_by = "by hand"
        given = { diameter = "1 m", height = "4 m" }
        expected = { volume_m3 = 3.14159 }
        tolerance = 0.5e-5
    "#;

    #[track_caller]
    fn check(old: &str, new: &str, expected: &str) {
        assert!(GOOD.contains(old), "the text to replace is there");
        let problems = case_file::run(&GOOD.replace(old, new)).expect_err("a refusal").join("\n");
        assert!(problems.contains(expected), "{problems}");
    }

    #[test]
    fn nothing_that_is_complete() {
        assert_eq!(case_file::run(GOOD), Ok(1));
    }

    #[test]
    fn a_case_without_its_origin() {
        check(r#""solid geometry""#, r#""""#, "no source");
        check(r#""by hand""#, r#"" ""#, "no worked_by");
        check(r#"how = "π / 4 · 1 m² · 4 m""#, "", "no how");
    }

    #[test]
    fn a_misspelt_key() {
        check("tolerance", "tolerence", "unknown field `tolerence`");
        check("height =", "length =", "`height` is not given");
        check(r#"height = "4 m""#, r#"height = "4 m", depth = "4 m""#, "`depth` is not used");
        check("volume_m3", "volume", "the check does not give `volume`");
    }

    #[test]
    fn a_check_nobody_wrote() {
        check("geometry::cylinder", "geometry::sphere", "no check `geometry::sphere`");
    }

    #[test]
    fn a_wrong_value() {
        check("3.14159", "3.14169", "volume_m3: expected 3.14169");
        check("tolerance = 0.5e-5", "", "no tolerance");
    }

    #[test]
    fn an_empty_file() {
        let problems = case_file::run("[about]\nchecks = \"geometry::cylinder\"\n").expect_err("a refusal");
        assert_eq!(problems, ["there is no case in it"]);
    }
}
