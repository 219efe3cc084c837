//! The demo and the tests share one compiled copy of every package.
//!
//! A package that only tests use can switch on features of another one deep in the PDF engine; then the
//! engine is compiled twice, and a newcomer waits twice. This compares what cargo would build for the
//! program with what it would build for the tests.

use crate::house::House;
use crate::notice::Notice;
use crate::shell;
use crate::tally::Tally;
use std::collections::BTreeSet;

/// Compares the packages and features of the program with those of the whole workspace under test.
///
/// # Errors
/// When cargo cannot say, or a package would be compiled twice.
pub(crate) fn check(house: &House) -> Result<Tally, Notice> {
    let program = tree(house, &["--package", "cli", "--edges", "normal,build"])?;
    let tests = tree(house, &["--workspace", "--edges", "normal,build,dev"])?;
    let twice = second_copies(&program, &tests);
    if twice.is_empty() {
        println!("    {} packages, each compiled once for demo and tests", packages(&program).len());
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

/// Packages the program needs in a form that the tests do not.
fn second_copies(program: &str, tests: &str) -> Vec<String> {
    packages(program).difference(&packages(tests)).map(|line| (*line).to_owned()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_set_of_features_is_a_second_copy() {
        let program = "cli v1 []\nmemchr v2 [alloc,std]\nsyn v3 [full] (*)\n";
        let tests = "cli v1 []\nmemchr v2 [alloc,std,use_std]\nsyn v3 [full]\nproptest v1 [std]\n";
        assert_eq!(second_copies(program, tests), ["memchr v2 [alloc,std]"]);
        assert_eq!(second_copies(tests, tests), Vec::<String>::new());
    }
}
