//! The pure crates know no clock, chance, file or network, and reckon alike on every machine.
//!
//! A finding made offline beside the rig has to equal the finding of the office to the last bit. So the
//! core takes the time as an argument, iterates in a fixed order, and takes transcendental
//! functions from one library instead of each machine's own.

use super::size::without_tests;
use super::tree::{File, Finding, Tree};
use crate::pure::PURE;

/// Pure, though no part of the app: the same record has to give the same files on every desk.
const BESIDE: &[&str] = &["formats"];

/// What a pure crate must not say, and what it says instead.
const IMPURE: &[(&str, &str)] = &[
    ("SystemTime", "take the time as an argument"),
    ("Instant::now", "take the time as an argument"),
    ("HashMap", "use BTreeMap: its order is the same everywhere"),
    ("HashSet", "use BTreeSet: its order is the same everywhere"),
    ("std::fs", "take the text as an argument"),
    ("std::net", "take the bytes as an argument"),
    ("std::env", "take the setting as an argument"),
    ("std::process", "leave programs to the outer crates"),
    ("getrandom", "take the bytes as an argument"),
    ("println!", "give the text back"),
    (".powf(", "use libm::pow: the machine's own differs"),
    (".powi(", "multiply, or use libm::pow: the machine's own differs"),
    (".exp(", "use libm::exp: the machine's own differs"),
    (".ln(", "use libm::log: the machine's own differs"),
    (".sin(", "use libm::sin: the machine's own differs"),
    (".cos(", "use libm::cos: the machine's own differs"),
    (".tan(", "use libm::tan: the machine's own differs"),
    (".atan(", "use libm::atan: the machine's own differs"),
    (".atan2(", "use libm::atan2: the machine's own differs"),
    (".acos(", "use libm::acos: the machine's own differs"),
    (".asin(", "use libm::asin: the machine's own differs"),
    (".hypot(", "use libm::hypot: the machine's own differs"),
    (".cbrt(", "use libm::cbrt: the machine's own differs"),
    (".log10(", "use libm::log10: the machine's own differs"),
];

/// Impure words in the sources of the pure crates, tests left out.
pub(crate) fn find(tree: &Tree) -> Vec<Finding> {
    let pure = |file: &&File| {
        PURE.iter().chain(BESIDE).any(|name| file.path.starts_with(&format!("crates/{name}/src/")))
    };
    tree.files.iter().filter(pure).filter(|file| file.is_source()).flat_map(in_file).collect()
}

fn in_file(file: &File) -> Vec<Finding> {
    let code = without_tests(&file.text);
    let lines = code.iter().filter(|(_, line)| !line.trim_start().starts_with("//"));
    lines
        .flat_map(|(number, line)| {
            IMPURE.iter().filter(|(word, _)| line.contains(word)).map(move |row| (number, row))
        })
        .map(|(number, (word, instead))| {
            Finding::in_line(&file.path, *number, format!("`{word}`: {instead}"))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(path: &str, line: &str, found: usize) {
        assert_eq!(find(&Tree::of(&[(path, line)])).len(), found, "{line}");
    }

    #[test]
    fn every_impure_word_is_found_in_a_pure_crate() {
        for (word, _) in IMPURE {
            check("crates/calc/src/lib.rs", &format!("fn f() {{ {word} }}"), 1);
        }
    }

    #[test]
    fn comments_tests_and_outer_crates_are_free() {
        check("crates/calc/src/lib.rs", "// no HashMap here", 0);
        check("crates/store/src/lib.rs", "use std::fs;", 0);
        check("crates/calc/src/lib.rs", "fn f() {}\n#[cfg(test)]\nmod tests {\n    use std::fs;\n}\n", 0);
    }
}
