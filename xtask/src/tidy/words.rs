//! No banned word.
//!
//! Some words hide a question ("the last one", by which clock?), some a gap, some a place that only one
//! machine has. Each has a replacement. The words are put together from parts here, so that this file
//! does not hold them itself.

use super::tree::{File, Finding, Tree};

/// How a banned text is recognised.
#[derive(PartialEq)]
enum Form {
    /// As a word of its own, in any case; `_` ends a word.
    Word,
    /// As these letters, wherever they stand.
    Letters,
    /// As the abbreviation, unless a number follows.
    WithoutNumber,
    /// As these letters, unless the line gives a reason.
    WithoutReason,
}

/// Where a text is banned.
#[derive(PartialEq)]
enum Reach {
    Everywhere,
    Rust,
}

struct Banned {
    text: &'static str,
    form: Form,
    reach: Reach,
    instead: &'static str,
}

const fn word(text: &'static str, instead: &'static str) -> Banned {
    Banned { text, form: Form::Word, reach: Reach::Everywhere, instead }
}

const fn letters(text: &'static str, instead: &'static str) -> Banned {
    Banned { text, form: Form::Letters, reach: Reach::Everywhere, instead }
}

const fn in_rust(text: &'static str, instead: &'static str) -> Banned {
    Banned { text, form: Form::Letters, reach: Reach::Rust, instead }
}

const MACHINE: &str = "a path of one machine: name what lies there, relative to the workspace";
const REGISTRY: &str = "a host of a registry: name the package and the client that fetches it";
const ORIGIN: &str = "name the document itself, or `common practice, no source`";

const BANNED: &[Banned] = &[
    word(concat!("lat", "est"), "say by which time: last observed, or last entered"),
    letters(concat!("TO", "DO"), "do it, or open an issue"),
    letters(concat!("FIX", "ME"), "mend it, or open an issue"),
    Banned {
        text: concat!("app", "rox."),
        form: Form::WithoutNumber,
        reach: Reach::Everywhere,
        instead: "give the number and its error",
    },
    in_rust(concat!("dbg", "!("), "take it out"),
    in_rust(concat!("to", "do!("), "write it"),
    in_rust(concat!("unimpl", "emented!("), "write it"),
    in_rust(concat!("#[ig", "nore"), "a test runs or does not exist"),
    Banned {
        text: concat!("#[al", "low("),
        form: Form::WithoutReason,
        reach: Reach::Rust,
        instead: "#[expect(…, reason = \"…\")], or give the reason",
    },
    in_rust(concat!("assert!(", "true"), "assert what has to hold"),
    letters(concat!("seed ", "document"), ORIGIN),
    word(concat!("trans", "cript"), ORIGIN),
    letters(concat!("/wo", "rk/"), MACHINE),
    letters(concat!("/fa", "rm/"), MACHINE),
    letters(concat!("/ro", "ot/"), MACHINE),
    letters(concat!("/ho", "me/"), MACHINE),
    letters(concat!("../sha", "red"), MACHINE),
    letters(concat!("index.cra", "tes.io"), REGISTRY),
    letters(concat!("static.cra", "tes.io"), REGISTRY),
    letters(concat!("registry.npm", "js"), REGISTRY),
    letters(concat!("pypi", ".org"), REGISTRY),
    letters(concat!("files.python", "hosted"), REGISTRY),
    letters(concat!("deb.deb", "ian.org"), REGISTRY),
];

/// Names of modules that say nothing about what is inside.
const EMPTY_NAMES: &[&str] = &["common", "helper", "helpers", "misc", "util", "utils"];

/// Banned words in every text file, and modules whose name says nothing.
pub(crate) fn find(tree: &Tree) -> Vec<Finding> {
    tree.files.iter().flat_map(|file| names(file).into_iter().chain(lines(file))).collect()
}

fn names(file: &File) -> Option<Finding> {
    let parts = file.path.split('/').map(|part| part.trim_end_matches(".rs"));
    let empty = parts.into_iter().find(|part| file.path.ends_with(".rs") && EMPTY_NAMES.contains(part))?;
    Some(Finding::in_file(&file.path, format!("`{empty}` says nothing: name the module by its topic")))
}

fn lines(file: &File) -> Vec<Finding> {
    let rust = file.path.ends_with(".rs");
    let banned = BANNED.iter().filter(|banned| rust || banned.reach == Reach::Everywhere);
    let mut found = Vec::new();
    for banned in banned {
        for (line, _) in file.text.lines().enumerate().filter(|(_, text)| holds(text, banned)) {
            found.push(Finding::in_line(&file.path, line, format!("`{}`: {}", banned.text, banned.instead)));
        }
    }
    found
}

fn holds(line: &str, banned: &Banned) -> bool {
    match banned.form {
        Form::Letters => line.contains(banned.text),
        Form::WithoutReason => line.contains(banned.text) && !line.contains("reason = "),
        Form::Word => {
            line.split(|c: char| !c.is_alphanumeric()).any(|part| part.eq_ignore_ascii_case(banned.text))
        }
        Form::WithoutNumber => line
            .split(banned.text)
            .skip(1)
            .any(|after| !after.trim_start().starts_with(|c: char| c.is_ascii_digit() || "±+-−".contains(c))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(path: &str, text: &str, found: usize) {
        assert_eq!(find(&Tree::of(&[(path, text)])).len(), found, "{path}: {text}");
    }

    #[test]
    fn every_banned_text_is_found_where_it_is_banned() {
        for banned in BANNED {
            check("crates/calc/src/volume.rs", &format!("// so {} there", banned.text), 1);
            let elsewhere = usize::from(banned.reach == Reach::Everywhere);
            check("docs/words.md", &format!("so {} there", banned.text), elsewhere);
        }
    }

    #[test]
    fn a_word_is_found_inside_a_name_and_not_inside_another_word() {
        let word = concat!("lat", "est");
        check("a.rs", &format!("let {word}_sounding = 1;"), 1);
        check("a.rs", &format!("let {word}s = 1;"), 0);
        check("a.md", &word.to_uppercase(), 1);
    }

    #[test]
    fn an_abbreviation_needs_its_number() {
        let short = concat!("app", "rox.");
        check("a.md", &format!("{short} 5 ft"), 0);
        check("a.md", &format!("{short} half"), 1);
    }

    #[test]
    fn a_module_is_named_by_its_topic() {
        for name in EMPTY_NAMES {
            check(&format!("crates/calc/src/{name}.rs"), "", 1);
            check(&format!("crates/calc/tests/{name}/mod.rs"), "", 1);
        }
        check("docs/common.md", "", 0);
        check("crates/calc/src/volume.rs", "", 0);
    }
}
