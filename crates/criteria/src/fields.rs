//! One table of a criteria file, read key by key, remembering every mistake.
//!
//! A misspelt key is a mistake, not a missing limit; and a person mends a file faster when all mistakes
//! are listed at once than when the first one hides the others.

use crate::problem::Problem;
use crate::spelling;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Where in the file a byte stands.
pub(crate) struct Lines(Vec<usize>);

impl Lines {
    /// Remembers where each line of the text ends.
    pub(crate) fn of_text(text: &str) -> Self {
        Lines(text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n').map(|(at, _)| at).collect())
    }

    /// The line, from one.
    pub(crate) fn of(&self, byte: usize) -> usize {
        self.0.partition_point(|end| *end < byte) + 1
    }
}

/// A table whose keys are taken one by one.
pub(crate) struct Fields<'t, 'l> {
    table: &'t DeTable<'t>,
    lines: &'l Lines,
    /// Line at which the table begins.
    pub(crate) line: usize,
    /// What the table is, for messages.
    pub(crate) what: String,
    asked: Vec<&'static str>,
    pub(crate) problems: Vec<Problem>,
}

impl<'t, 'l> Fields<'t, 'l> {
    /// A table of the file.
    pub(crate) fn new(table: &'t DeTable<'t>, line: usize, what: String, lines: &'l Lines) -> Self {
        Fields { table, lines, line, what, asked: Vec::new(), problems: Vec::new() }
    }

    /// Notes a mistake at a line.
    pub(crate) fn wrong(&mut self, line: usize, key: &str, found: String, expected: &str) {
        let at = if self.what.is_empty() { format!("`{key}`") } else { format!("{}, `{key}`", self.what) };
        self.problems.push(Problem { line, at, found, expected: expected.to_owned() });
    }

    /// The line on which the value of a key stands.
    pub(crate) fn line_of(&self, key: &str) -> usize {
        self.table.get(key).map_or(self.line, |value| self.lines.of(value.span().start))
    }

    fn take(&mut self, key: &'static str) -> Option<&'t Spanned<DeValue<'t>>> {
        self.asked.push(key);
        self.table.get(key)
    }

    /// A text, if the key is there.
    pub(crate) fn text(&mut self, key: &'static str) -> Option<&'t str> {
        let value = self.take(key)?;
        let text = value.get_ref().as_str().filter(|text| !text.trim().is_empty());
        if text.is_none() {
            self.wrong_sort(key, value, "a text in quotes that is not empty");
        }
        text
    }

    /// A text that has to be there.
    pub(crate) fn required(&mut self, key: &'static str, expected: &str) -> Option<&'t str> {
        if !self.table.contains_key(key) {
            self.asked.push(key);
            self.wrong(self.line, key, "nothing".to_owned(), expected);
            return None;
        }
        self.text(key)
    }

    /// Yes or no; no when the key is not there.
    pub(crate) fn flag(&mut self, key: &'static str) -> bool {
        let Some(value) = self.take(key) else { return false };
        value.get_ref().as_bool().unwrap_or_else(|| {
            self.wrong_sort(key, value, "true or false");
            false
        })
    }

    /// A table inside this one.
    pub(crate) fn table(&mut self, key: &'static str) -> Option<Fields<'t, 'l>> {
        let value = self.take(key)?;
        let table = value.get_ref().as_table();
        if table.is_none() {
            self.wrong_sort(key, value, "a table");
        }
        let what = if self.what.is_empty() { key.to_owned() } else { format!("{}, `{key}`", self.what) };
        table.map(|table| Fields::new(table, self.line_of(key), what, self.lines))
    }

    /// A list, if the key is there: each element with its line.
    pub(crate) fn list(&mut self, key: &'static str) -> Option<Vec<(&'t DeValue<'t>, usize)>> {
        let value = self.take(key)?;
        let Some(array) = value.get_ref().as_array() else {
            self.wrong_sort(key, value, "a list: [ … ], or [[name]] before each table of it");
            return None;
        };
        Some(array.iter().map(|item| (item.get_ref(), self.lines.of(item.span().start))).collect())
    }

    /// The lines of the file this table is from.
    pub(crate) fn lines(&self) -> &'l Lines {
        self.lines
    }

    /// Takes keys for read: another mistake already explains why nobody read them.
    pub(crate) fn excuse(&mut self, keys: impl IntoIterator<Item = &'static str>) {
        self.asked.extend(keys);
    }

    /// Is the key there.
    pub(crate) fn has(&self, key: &str) -> bool {
        self.table.contains_key(key)
    }

    /// Gives up the table: every key nobody asked for is a mistake.
    pub(crate) fn finish(mut self) -> Vec<Problem> {
        for (key, _) in self.table.iter() {
            let name = key.get_ref().to_string();
            if self.asked.iter().any(|asked| **asked == *name) {
                continue;
            }
            let hint = spelling::nearest(&name, self.asked.iter().copied());
            let known = hint.map_or_else(|| self.asked.join(", "), |hint| format!("`{hint}`"));
            self.wrong(self.lines.of(key.span().start), &name, "a key nobody reads here".to_owned(), &known);
        }
        self.problems
    }

    fn wrong_sort(&mut self, key: &str, value: &Spanned<DeValue<'_>>, expected: &str) {
        let found = match value.get_ref() {
            DeValue::String(text) => format!("the text \"{text}\""),
            DeValue::Integer(number) => format!("the bare number {number}"),
            DeValue::Float(number) => format!("the bare number {number}"),
            other => format!("{} {}", article(other.type_str()), other.type_str()),
        };
        self.wrong(self.lines.of(value.span().start), key, found, expected);
    }
}

fn article(noun: &str) -> &'static str {
    if noun.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" }
}
