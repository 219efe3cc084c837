//! The demo and the tests share one compiled copy of the PDF engine.
//!
//! A package that only tests use can switch on features of another one deep in the engine; then the engine
//! is compiled twice, and a newcomer waits twice. This compares what cargo would build for the program
//! with what it would build for the tests.
//!
//! Words: *engine* = typst and everything it stands on; small packages outside it may have two copies.

use crate::house::House;
use crate::notice::Notice;
use crate::shell;
use crate::tally::Tally;
use std::collections::BTreeSet;

/// The heaviest package the program stands on.
const ENGINE: &str = "typst";

/// Crates that are not built together with the rest: the app is for the browser only, and the chores bring
/// packages of their own.
pub(crate) const APART: &[&str] = &["app", "xtask"];

/// Compares the packages and features of the program with those of the whole workspace under test.
///
/// # Errors
/// When cargo cannot say, or a package would be compiled twice.
pub(crate) fn check(house: &House) -> Result<Tally, Notice> {
    let program = tree(house, &["--package", "cli", "--edges", "normal,build"])?;
    let mut words = vec!["--workspace", "--edges", "normal,build,dev"];
    words.extend(APART.iter().flat_map(|name| ["--exclude", name]));
    let tests = tree(house, &words)?;
    let engine = tree(house, &["--package", ENGINE, "--edges", "normal,build"])?;
    let twice = second_copies(&engine, &program, &tests);
    if twice.is_empty() {
        println!(
            "    {} packages of the PDF engine, each compiled once for demo and tests",
            names(&engine).len()
        );
        return Ok(Tally::default());
    }
    Err(Notice::new(
        format!("With other features in the tests than in the program: {}.", twice.join("; ")),
        "These packages, and all that stand on them, are compiled twice on a fresh clone.",
        "Take the test's package out, or name the same features in crates/cli/Cargo.toml, with this reason.",
    ))
}

fn tree(house: &House, words: &[&str]) -> Result<String, Notice> {
    let mut command = house.cargo(&["tree", "--quiet", "--prefix", "none", "--format", "{p} [{f}]"]);
    let said = shell::output_of(command.args(words))?;
    Ok(String::from_utf8_lossy(&said).into_owned())
}

/// One line a package with its features; cargo marks repeated ones with `(*)`.
fn packages(tree: &str) -> BTreeSet<&str> {
    tree.lines().map(|line| line.trim_end_matches(" (*)").trim()).filter(|line| !line.is_empty()).collect()
}

/// The names alone.
fn names(tree: &str) -> BTreeSet<&str> {
    packages(tree).into_iter().filter_map(|line| line.split_whitespace().next()).collect()
}

/// Packages of the engine that the program needs in a form that the tests do not.
fn second_copies(engine: &str, program: &str, tests: &str) -> Vec<String> {
    let (engine, tests) = (names(engine), packages(tests));
    let other = packages(program).into_iter().filter(|line| !tests.contains(line));
    other
        .filter(|line| line.split_whitespace().next().is_some_and(|name| engine.contains(name)))
        .map(str::to_owned)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_set_of_features_is_a_second_copy() {
        let engine = "typst v0 []\nmemchr v2 []\n";
        let program = "typst v0 []\nmemchr v2 [alloc,std]\nclap v4 [color] (*)\n";
        let tests = "typst v0 []\nmemchr v2 [alloc,std,use_std]\nclap v4 []\nproptest v1 [std]\n";
        assert_eq!(second_copies(engine, program, tests), ["memchr v2 [alloc,std]"]);
        assert_eq!(second_copies(engine, tests, tests), Vec::<String>::new());
    }
}
