//! The rules a compiler cannot see: `cargo xtask tidy`.
//!
//! Each check is a pure function from the text of the tree to findings, in a file of its own, with tests
//! that show it can fail. The checks also run as a test, so that `cargo test` alone sees them.
//!
//! Words: *finding* = one place that breaks a rule, with what to do about it.

mod decisions;
mod headers;
mod layers;
mod links;
mod pages;
mod purity;
mod ratchet;
mod size;
mod sources;
mod tree;
mod views;
mod words;

use crate::house::House;
use crate::notice::Notice;
use crate::tally::Tally;
use tree::{Finding, Tree};

/// One check: its name, the rule it keeps, and the function that finds what breaks it.
struct Check {
    name: &'static str,
    rule: &'static str,
    find: fn(&Tree) -> Vec<Finding>,
}

const CHECKS: &[Check] = &[
    Check { name: "layers", rule: "a crate uses only what the crate map allows", find: layers::find },
    Check { name: "headers", rule: "a source file begins by saying what it is", find: headers::find },
    Check {
        name: "purity",
        rule: "the pure crates know no clock, chance, file or network",
        find: purity::find,
    },
    Check { name: "views", rule: "what only shows calls no formula", find: views::find },
    Check {
        name: "sources",
        rule: "every source key resolves, and every source is cited",
        find: sources::find,
    },
    Check { name: "words", rule: "no banned word", find: words::find },
    Check { name: "size", rule: "functions, files and parameter lists stay small", find: size::find },
    Check { name: "decisions", rule: "every decision has a number of its own", find: decisions::find },
    Check { name: "pages", rule: "every criterion has a page", find: pages::find },
    Check { name: "links", rule: "a link between documents leads somewhere", find: links::find },
];

/// Runs every check and prints what it found.
///
/// # Errors
/// When there is any finding.
pub(crate) fn run(house: &House, words: &[String]) -> Result<(), Notice> {
    if let Some(word) = words.first() {
        return Err(Notice::new(
            format!("`{word}` was not understood."),
            "Nothing was run.",
            "Type: cargo xtask tidy",
        ));
    }
    let tally = step(house)?;
    match tally.failed {
        0 => Ok(()),
        _ => Err(Notice::new(
            format!("{} of {} checks found something.", tally.failed, CHECKS.len()),
            "A house rule is broken.",
            "Mend the places above.",
        )),
    }
}

/// Every check as a step of `cargo xtask test`: one check counts as one test.
///
/// # Errors
/// When the tree cannot be read.
pub(crate) fn step(house: &House) -> Result<Tally, Notice> {
    let tree = Tree::read(house)?;
    let mut tally = Tally::default();
    for check in CHECKS {
        let found = (check.find)(&tree);
        match found.is_empty() {
            true => tally.passed += 1,
            false => tally.failed += 1,
        }
        println!("    {:9} {} ({} found)", check.name, check.rule, found.len());
        for finding in found {
            println!("        {finding}");
        }
    }
    let exceptions = ratchet::rows(&tree);
    println!("    {} exceptions to the size limits, a number that only goes down", exceptions.len());
    for row in exceptions {
        println!("        {row}");
    }
    Ok(tally)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_tree_is_tidy() {
        let tree = House::here().and_then(|house| Tree::read(&house)).expect("the tree can be read");
        let found: Vec<String> = CHECKS
            .iter()
            .flat_map(|check| {
                (check.find)(&tree).into_iter().map(|finding| format!("{}: {finding}", check.name))
            })
            .collect();
        assert!(found.is_empty(), "{} findings:\n{}", found.len(), found.join("\n"));
    }
}
