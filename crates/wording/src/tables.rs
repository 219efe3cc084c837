//! Every log as a table that an inspector reads: nothing that was entered is missing.
//!
//! Struck rows stay with who struck them and why; late and disputed ones say so; a blank cell is a blank in
//! the record, never a zero. What was typed is printed as typed; what follows from it stands beside it.
//!
//! Words: *sheet* = a table of one entry, a row for each field; *further* = fields without a column.
//! Never: leave an entry out; a test writes one of every kind and looks for it.

mod build;
mod changes;
mod list;
mod made;
mod sheet;
mod spec;
mod volumes;

use crate::entry::{self, line_of, marks};
use crate::show::Show;
use assess::Assessment;
use quantity::Moment;
use record::kinds::KINDS;
use record::{Line, Log};

pub use entry::Mark;
use list::{Part, parts};

/// One log.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Stable word, for machines and file names.
    pub id: &'static str,
    /// What the log is.
    pub title: String,
    /// Reference, conventions and units in one or two sentences; may be empty.
    pub note: String,
    /// The columns, at least one.
    pub columns: Vec<Column>,
    /// The rows, in the order things were seen.
    pub rows: Vec<Row>,
}

/// One column of a log.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// The heading.
    pub title: String,
    /// The unit of the cells that name none; empty where they have none or carry their own.
    pub unit: String,
    /// Numbers, to stand on their decimal sign.
    pub numeric: bool,
    /// The share of the width, relative to the others.
    pub weight: f64,
    /// A blank only means that nobody had anything to add.
    pub may_be_blank: bool,
}

/// One line of a log.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// One cell for each column; `None`: nothing was written.
    pub cells: Vec<Option<String>>,
    /// What has to be said about it; empty when it simply stands.
    pub marks: Vec<Mark>,
    /// When it was seen; `None` for a row that is no entry of its own.
    pub time: Option<Moment>,
    /// The short id of its entry.
    pub entry: Option<String>,
}

impl Row {
    /// It counts: it is neither struck through nor in dispute.
    pub fn stands(&self) -> bool {
        !self.marks.iter().any(|mark| matches!(mark, Mark::Struck { .. } | Mark::Disputed { .. }))
    }
}

/// What every cell is made from.
#[derive(Clone, Copy)]
pub(crate) struct Source<'s, 'r> {
    pub(crate) log: &'s Log<'r>,
    pub(crate) assessment: &'s Assessment<'r>,
    pub(crate) show: &'s Show,
}

impl Source<'_, '_> {
    /// What has to be said about a line, questions included.
    fn marks(&self, line: &Line<'_>) -> Vec<Mark> {
        let mut all = marks(line, self.log, self.show);
        let asked = self.assessment.questions.iter().filter(|question| question.about == line.entry.id);
        all.extend(asked.map(|question| {
            let notice = crate::question(question, self.show, self.log);
            let answer = question.answer.as_ref().map_or("not answered yet", |(_, answer)| answer);
            Mark::Asked { note: format!("{} Answer: {answer}", notice.what) }
        }));
        all
    }

    /// A row of an entry.
    fn row(&self, line: &Line<'_>, cells: Vec<Option<String>>) -> Row {
        let entry = Some(line.entry.id.short());
        Row { cells, marks: self.marks(line), time: Some(line.at), entry }
    }

    /// A row that belongs to an entry named by its id.
    fn row_of(&self, id: record::EntryId, cells: Vec<Option<String>>) -> Row {
        match line_of(id, self.log) {
            Some(line) => self.row(line, cells),
            None => Row { cells, marks: Vec::new(), time: None, entry: Some(id.short()) },
        }
    }
}

/// Every log of a shaft, in the order of the work; a log without rows is left out unless a reader of such
/// records would look for it.
pub fn tables(log: &Log<'_>, assessment: &Assessment<'_>, show: &Show) -> Vec<Table> {
    let source = Source { log, assessment, show };
    let mut all: Vec<Table> = parts().iter().flat_map(|part| of_part(part, &source)).collect();
    let shown = |word: &str| parts().iter().any(|part| part.kinds().contains(&word));
    let others = KINDS.iter().filter(|kind| !shown(kind.word));
    all.extend(others.map(|kind| build::plain(kind, &source)));
    all.retain(|table| !table.rows.is_empty() || list::ALWAYS.contains(&table.id));
    all
}

fn of_part(part: &Part, source: &Source<'_, '_>) -> Vec<Table> {
    match part {
        Part::Rows(spec) => vec![build::rows(spec, source)],
        Part::Plain(word) => {
            let kind = record::kinds::kind_of(word).expect("the list names kinds; a test looks");
            vec![build::plain(kind, source)]
        }
        Part::Sheet(word) => sheet::sheets(word, source),
        Part::Own(_, make) => vec![make(source)],
    }
}

#[cfg(test)]
mod tests;
