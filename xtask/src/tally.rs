//! Counting tests from what the runners print.
//!
//! The closing line of `cargo xtask test` adds up what several runners counted, so that one line says
//! how many checks stand behind a green run.

use std::ops::AddAssign;

/// Passed and failed tests.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Tally {
    pub(crate) passed: usize,
    pub(crate) failed: usize,
}

impl Tally {
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
        sum
    }
}

impl AddAssign for Tally {
    fn add_assign(&mut self, other: Tally) {
        self.passed += other.passed;
        self.failed += other.failed;
    }
}

fn cargo_line(line: &str) -> Option<Tally> {
    let counts = line.strip_prefix("test result: ")?.split_once(". ")?.1;
    let mut parts = counts.split("; ");
    Some(Tally { passed: counted(parts.next()?, "passed")?, failed: counted(parts.next()?, "failed")? })
}

fn plain_line(line: &str) -> Option<Tally> {
    let (passed, failed) = line.split_once(", ")?;
    Some(Tally { passed: counted(passed, "passed")?, failed: counted(failed, "failed")? })
}

fn counted(part: &str, word: &str) -> Option<usize> {
    part.strip_suffix(word)?.trim_end().parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, passed: usize, failed: usize) {
        assert_eq!(Tally::read(text), Tally { passed, failed });
    }

    #[test]
    fn both_forms_are_added_up_and_prose_is_not() {
        check("", 0, 0);
        check("test result: ok. 12 passed; 0 failed; 0 ignored; 0 measured; finished in 0.1s", 12, 0);
        check("test result: FAILED. 3 passed; 2 failed; 0 ignored", 3, 2);
        check("7 passed, 1 failed\n  5 passed, 0 failed  \n", 12, 1);
        check("we saw 7 passed, 1 failed in the other run", 0, 0);
    }
}
