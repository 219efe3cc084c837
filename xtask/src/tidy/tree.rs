//! The text of the tree, read once, and the findings the checks make of it.
//!
//! Checks see only this, so that a test can hand them a tree of two lines.

use crate::house::House;
use crate::notice::Notice;
use crate::shell;
use std::fmt;
use std::path::Path;

/// What holds no text of ours; `.git` is a file in a second work tree.
const PASSED_OVER: &[&str] = &[".git", ".venv", "corpus", "crashes", "node_modules", "out", "target"];
/// Written by tools.
const GENERATED: &[&str] = &["Cargo.lock", "package-lock.json"];

/// One text file: its path from the top of the workspace, with `/`, and what it holds.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct File {
    pub(crate) path: String,
    pub(crate) text: String,
}

/// Every text file, in path order, and what cargo says about the crates.
#[derive(Debug, Default)]
pub(crate) struct Tree {
    pub(crate) files: Vec<File>,
    /// The JSON text of `cargo metadata --no-deps`.
    pub(crate) metadata: String,
}

/// One place that breaks a rule.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Finding {
    pub(crate) place: String,
    pub(crate) what: String,
}

impl Finding {
    /// A finding about a whole file.
    pub(crate) fn in_file(path: &str, what: impl Into<String>) -> Self {
        Finding { place: path.to_owned(), what: what.into() }
    }

    /// A finding in a line, counted from zero here and shown from one.
    pub(crate) fn in_line(path: &str, line: usize, what: impl Into<String>) -> Self {
        Finding { place: format!("{path}:{}", line + 1), what: what.into() }
    }
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.place, self.what)
    }
}

impl Tree {
    /// Reads the workspace.
    ///
    /// # Errors
    /// When cargo does not answer.
    pub(crate) fn read(house: &House) -> Result<Self, Notice> {
        let mut files = Vec::new();
        walk(house, house.root(), &mut files);
        files.sort_by(|a, b| a.path.cmp(&b.path));
        let metadata =
            shell::output_of(&mut house.cargo(&["metadata", "--no-deps", "--format-version", "1"]))?;
        Ok(Tree { files, metadata: String::from_utf8_lossy(&metadata).into_owned() })
    }

    /// The files whose path begins and ends so.
    pub(crate) fn under<'a>(&'a self, begins: &'a str, ends: &'a str) -> impl Iterator<Item = &'a File> {
        self.files.iter().filter(move |file| file.path.starts_with(begins) && file.path.ends_with(ends))
    }

    /// The text of one file.
    pub(crate) fn text(&self, path: &str) -> Option<&str> {
        self.files.iter().find(|file| file.path == path).map(|file| file.text.as_str())
    }

    /// A tree of the given paths and texts, for tests.
    #[cfg(test)]
    pub(crate) fn of(files: &[(&str, &str)]) -> Self {
        let file = |(path, text): &(&str, &str)| File { path: (*path).to_owned(), text: (*text).to_owned() };
        Tree { files: files.iter().map(file).collect(), metadata: String::new() }
    }
}

impl File {
    /// Rust that ships or helps to build, as opposed to tests.
    pub(crate) fn is_source(&self) -> bool {
        self.path.ends_with(".rs") && !self.path.split('/').any(|part| part == "tests")
    }
}

fn walk(house: &House, folder: &Path, files: &mut Vec<File>) {
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let (path, name) = (entry.path(), entry.file_name().to_string_lossy().into_owned());
        if PASSED_OVER.contains(&name.as_str()) {
            continue;
        }
        if path.is_dir() {
            walk(house, &path, files);
        } else if path.is_file() && !GENERATED.contains(&name.as_str()) {
            let text = std::fs::read(&path).ok().and_then(|bytes| String::from_utf8(bytes).ok());
            files.extend(text.map(|text| File { path: house.shown(&path), text }));
        }
    }
}
