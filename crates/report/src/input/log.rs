//! A log as the table a reader of such records knows.
//!
//! A record is believed when it shows its own scars: a struck reading stays legible with who struck it and
//! why, a late or disputed one says so in words, and a blank is a visible blank.

use serde::Serialize;

/// Where the texts of a column stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Align {
    /// Words.
    Left,
    /// Numbers: printed with figures of one width.
    Right,
    /// Marks and times.
    Center,
}

/// One column of a log.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Column {
    /// The heading.
    pub title: String,
    /// The unit, printed under the heading; empty when the cells carry their own or have none.
    pub unit: String,
    /// Where the texts stand.
    pub align: Align,
    /// The share of the width this column gets, relative to the others; greater than zero.
    pub weight: f64,
    /// True where an empty text only means that nobody had anything to add, so that it stays empty;
    /// false where it means *not recorded* and prints as `–`.
    pub may_be_empty: bool,
}

impl Column {
    /// A column of words.
    pub fn words(title: &str, weight: f64) -> Self {
        Self {
            title: title.to_string(),
            unit: String::new(),
            align: Align::Left,
            weight,
            may_be_empty: false,
        }
    }

    /// A column of remarks: an empty one stays empty.
    pub fn remarks(title: &str, weight: f64) -> Self {
        Self { may_be_empty: true, ..Self::words(title, weight) }
    }

    /// A column of numbers in one unit.
    pub fn numbers(title: &str, unit: &str, weight: f64) -> Self {
        Self {
            title: title.to_string(),
            unit: unit.to_string(),
            align: Align::Right,
            weight,
            may_be_empty: false,
        }
    }

    /// A column of times or marks.
    pub fn centered(title: &str, weight: f64) -> Self {
        Self {
            title: title.to_string(),
            unit: String::new(),
            align: Align::Center,
            weight,
            may_be_empty: false,
        }
    }
}

/// What has to be said about a row. Each prints as a line of words under the row.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Mark {
    /// Replaced: the cells are printed struck through. The row that replaces it follows.
    Struck {
        /// Who and when, for example `R. Vale, 14:22`.
        by: String,
        /// The reason given.
        why: String,
    },
    /// Stands in place of the struck row above it.
    Replaces {
        /// Which entry, for example `tablet 1 no. 41`.
        what: String,
    },
    /// Two or more corrections compete and nobody has decided.
    Disputed {
        /// What the candidates are.
        note: String,
    },
    /// Written down well after it was seen.
    Late {
        /// How late, for example `entered 16:05, 3 h 10 min after`.
        note: String,
    },
    /// Plausibility asked a question about it.
    Asked {
        /// The question, short, with its answer.
        note: String,
    },
    /// A footnote: the overflow of a cell.
    Note {
        /// The text.
        text: String,
    },
}

/// How a log is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Layout {
    /// A table across the page.
    Upright,
    /// A table on pages of its own, turned sideways, for logs of more than about sixteen columns.
    Sideways,
    /// A form: two columns, label and value, the rows set side by side as a form of one entry is read.
    Form,
}

/// One line of a log.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Row {
    /// One text per column. Empty means *not recorded* and prints as `–`, except in a column that may be
    /// empty; write `n/a` where it cannot apply.
    pub cells: Vec<String>,
    /// What has to be said about it; empty when it simply stands.
    pub marks: Vec<Mark>,
    /// The short id of the entry behind it, printed small at the end of the row; may be empty. Rows of one
    /// entry that follow each other say what has to be said once, under the last of them.
    pub entry: String,
}

impl Row {
    /// A row that stands.
    pub fn stands<T: Into<String>>(cells: impl IntoIterator<Item = T>) -> Self {
        Self { cells: cells.into_iter().map(Into::into).collect(), marks: Vec::new(), entry: String::new() }
    }

    /// The same row with one more thing to say about it.
    #[must_use]
    pub fn marked(mut self, mark: Mark) -> Self {
        self.marks.push(mark);
        self
    }
}

/// One log.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LogTable {
    /// What the log is, for example `Excavation`.
    pub title: String,
    /// Reference, conventions and units in one or two sentences; may be empty.
    pub note: String,
    /// The columns, at least one.
    pub columns: Vec<Column>,
    /// The rows in order of time. None prints `nothing recorded`.
    pub rows: Vec<Row>,
    /// A closing line in the columns, for example totals; printed bold under a rule.
    pub total: Option<Vec<String>>,
    /// How it is set.
    pub layout: Layout,
    /// The share of the width of the page it needs, above 0, at most 1; a form takes all of it.
    pub width: f64,
    /// The part of the work it belongs to, printed as a heading where it changes; may be empty.
    pub part: String,
}
