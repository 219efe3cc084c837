//! A source file begins by saying what it is.
//!
//! The reader of a file learns from its first lines what it does, why a site cares and what it must
//! never do; the first lines of a crate name what the crate must never do.

use super::tree::{File, Finding, Tree};

/// Source files without a header, and crates whose header names nothing they must never do.
pub(crate) fn find(tree: &Tree) -> Vec<Finding> {
    let sources = tree.files.iter().filter(|file| file.is_source());
    sources.filter_map(|file| missing(file).map(|what| Finding::in_file(&file.path, what))).collect()
}

fn missing(file: &File) -> Option<&'static str> {
    let header: Vec<&str> = file.text.lines().take_while(|line| line.starts_with("//!")).collect();
    let says = |word: &str| header.iter().any(|line| line.contains(word));
    match header.first() {
        None => Some("the file does not begin with `//!`: say what it is and why a site cares"),
        Some(first) if first.trim_start_matches("//!").trim().is_empty() => {
            Some("the first line of the header is empty: say in it what the file is")
        }
        Some(_) if is_library(&file.path) && !says("Never:") => {
            Some("the header of a crate needs a line `//! Never: …`")
        }
        Some(_) => None,
    }
}

fn is_library(path: &str) -> bool {
    path.starts_with("crates/") && path.ends_with("/src/lib.rs")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(path: &str, text: &str, found: usize) {
        assert_eq!(find(&Tree::of(&[(path, text)])).len(), found);
    }

    #[test]
    fn a_header_is_asked_of_sources_and_not_of_tests() {
        check("crates/calc/src/volume.rs", "//! Volumes.\n", 0);
        check("crates/calc/src/volume.rs", "use x;\n", 1);
        check("crates/calc/src/volume.rs", "//!\n//! Volumes.\n", 1);
        check("crates/calc/tests/volume.rs", "use x;\n", 0);
    }

    #[test]
    fn a_crate_says_what_it_must_never_do() {
        check("crates/calc/src/lib.rs", "//! Formulas.\n", 1);
        check("crates/calc/src/lib.rs", "//! Formulas.\n//! Never: round.\n", 0);
    }
}
