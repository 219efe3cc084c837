//! Counting tests from what the runners print.
//!
//! The closing line of `cargo xtask test` adds up what several runners counted, so that one line says
//! how many checks stand behind a green run. What the failed ones said is kept beside the count: a run of
//! half an hour is read from its end.

use std::ops::AddAssign;

/// Lines kept of what the failed tests of one run said.
const KEPT: usize = 60;
/// Begins what the failed tests said, at cargo and at Node.js; at cargo the same word ends it.
const CARGOS: &str = "failures:";
const NODES: &str = "✖ failing tests:";
/// Begins the one line of a check of our own.
const OURS: &str = "FAILED: ";

/// Passed and failed tests, and what the failed ones said.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Tally {
    pub(crate) passed: usize,
    pub(crate) failed: usize,
    pub(crate) said: Vec<String>,
}

impl Tally {
    /// So many, with nothing said.
    pub(crate) fn of(passed: usize, failed: usize) -> Tally {
        Tally { passed, failed, said: Vec::new() }
    }

    /// Adds up every closing line in a text.
    ///
    /// Two forms are known: cargo's `test result: ok. 3 passed; 0 failed; …` and, alone on a line,
    /// `3 passed, 0 failed`.
    pub(crate) fn read(text: &str) -> Tally {
        let mut sum = Tally::default();
        for line in text.lines() {
            if let Some(one) = cargo_line(line.trim()).or_else(|| plain_line(line.trim())) {
                sum += one;
            }
        }
        Tally { said: reasons(text), ..sum }
    }
}

impl AddAssign for Tally {
    fn add_assign(&mut self, other: Tally) {
        self.passed += other.passed;
        self.failed += other.failed;
        self.said.extend(other.said);
    }
}

/// What the failed tests of a run said.
pub(crate) fn reasons(text: &str) -> Vec<String> {
    let mut inside = false;
    let mut kept = Vec::new();
    for line in text.lines() {
        match line.trim() {
            CARGOS => inside = !inside,
            NODES => inside = true,
            "" => (),
            said if inside || said.starts_with(OURS) => kept.push(line.trim_end().to_owned()),
            _ => (),
        }
    }
    let more = kept.len().saturating_sub(KEPT);
    kept.truncate(KEPT);
    if more > 0 {
        kept.push(format!("… {more} lines more"));
    }
    kept
}

fn cargo_line(line: &str) -> Option<Tally> {
    let counts = line.strip_prefix("test result: ")?.split_once(". ")?.1;
    let mut parts = counts.split("; ");
    Some(Tally::of(counted(parts.next()?, "passed")?, counted(parts.next()?, "failed")?))
}

fn plain_line(line: &str) -> Option<Tally> {
    let (passed, failed) = line.split_once(", ")?;
    Some(Tally::of(counted(passed, "passed")?, counted(failed, "failed")?))
}

fn counted(part: &str, word: &str) -> Option<usize> {
    part.strip_suffix(word)?.trim_end().parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, passed: usize, failed: usize) {
        assert_eq!(Tally::read(text), Tally::of(passed, failed));
    }

    #[test]
    fn both_forms_are_added_up_and_prose_is_not() {
        check("", 0, 0);
        check("test result: ok. 12 passed; 0 failed; 0 ignored; 0 measured; finished in 0.1s", 12, 0);
        check("test result: FAILED. 3 passed; 2 failed; 0 ignored", 3, 2);
        check("7 passed, 1 failed\n  5 passed, 0 failed  \n", 12, 1);
        check("we saw 7 passed, 1 failed in the other run", 0, 0);
    }

    #[test]
    fn what_failed_tests_said_is_kept() {
        let cargo = "running 2 tests\nfailures:\n\n---- a::b stdout ----\nleft: 1\n\n\nfailures:\n    a::b\n\n\
            test result: FAILED. 1 passed; 1 failed; 0 ignored\n";
        assert_eq!(Tally::read(cargo).said, ["---- a::b stdout ----", "left: 1"]);
        let node = "✔ a day\nℹ fail 1\n\n✖ failing tests:\n\ntest at a.mjs:3:1\n✖ a night\n  1 !== 2\n";
        assert_eq!(reasons(node), ["test at a.mjs:3:1", "✖ a night", "  1 !== 2"]);
        assert_eq!(
            reasons("  holds\n  FAILED: a mesh is empty\n1 passed, 1 failed"),
            ["  FAILED: a mesh is empty"]
        );
        assert_eq!(reasons(&"FAILED: one\n".repeat(70)).last().map(String::as_str), Some("… 10 lines more"));
        assert_eq!(reasons("3 passed, 0 failed"), Vec::<String>::new());
    }
}
