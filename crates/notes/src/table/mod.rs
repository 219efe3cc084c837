//! Tables: logs that people keep in a spreadsheet, one row for what belongs together.
//!
//! A heading is the name of a field; a row is one entry, or several where a sheet has them side by side,
//! as the sheet of loads has arrival, tests and discharge. Logs go out as tables of the same headings.
//!
//! Words: *table* = a CSV file; *part* = one entry of a row; *heading* = the first cell of a column.
//! Never: take a row that says of itself that it does not stand; leave out a cell silently.

mod cells;
mod heading;
mod row;
mod write;

use crate::Source;
use crate::context::{Context, Surroundings};
use crate::draft::Notes;
use crate::label::Labels;
use crate::mistake::{Mistake, Place, Wrong};
use crate::text::text_of;
use quantity::InOrder;
use record::kinds::{KINDS, KindSpec, kind_of};

pub(crate) use heading::{OTHER_WORDS, heading_names};
pub use write::csv_of;

/// More headings than this are no table that a person keeps.
const HEADINGS_MAX: usize = 1000;

/// Headings that are about the row and no field of an entry.
pub(crate) const ROW_HEADINGS: &[(&str, &str)] = &[
    ("shaft", "The shaft; not needed when one is named for the whole table."),
    ("date", "The day times without a date belong to; not needed when one is named for the whole table."),
    ("at", "When it was seen: a time, or a date and a time."),
    ("noted", "When it was written down, where that was later."),
    ("author", "Who wrote it; not needed when one is named for the whole table."),
    ("device", "The device or notebook it comes from."),
    (
        "status",
        "How the line stands in the log: stands, struck or disputed. Only rows that stand are read in.",
    ),
    ("late_minutes", "Minutes between seeing and writing down, where the entry is late. Not read in."),
    ("corrected_because", "Why the line took the place of another. Not read in."),
    ("entry_id", "The id of the entry. Not read in."),
];

/// A sheet as people keep it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// Its word, as a command names it.
    pub word: &'static str,
    /// What it holds.
    pub meaning: &'static str,
    pub(crate) parts: Vec<Part>,
}

/// One entry of a row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Part {
    /// The kind of entry.
    pub(crate) kind: &'static str,
    /// The headings its time may stand under; the first that is filled in holds it.
    pub(crate) times: &'static [&'static str],
    /// Headings of this part and the fields they fill; the other fields have their own names.
    pub(crate) renamed: &'static [(&'static str, &'static str)],
    /// Only the renamed headings belong to this part; the own names are those of the first part.
    pub(crate) only_renamed: bool,
    /// Fields that hold the same as a heading of the first part.
    pub(crate) shared: &'static [(&'static str, &'static str)],
}

const fn whole(kind: &'static str) -> Part {
    Part { kind, times: &["at"], renamed: &[], only_renamed: false, shared: &[] }
}

/// The parts of a row of the sheet of loads.
const LOADS: &[Part] = &[
    Part { kind: "load_arrived", times: &["arrived", "at"], renamed: &[], only_renamed: false, shared: &[] },
    Part {
        kind: "concrete_test",
        times: &["tested", "arrived", "at"],
        renamed: &[
            ("slump", "slump"),
            ("flow", "flow"),
            ("air", "air"),
            ("temperature", "temperature"),
            ("unit_weight", "unit_weight"),
            ("cylinders", "cylinders"),
            ("tested_by", "by"),
        ],
        only_renamed: true,
        shared: &[("ticket", "ticket")],
    },
    Part {
        kind: "water_added",
        times: &["water_added_at", "arrived", "at"],
        renamed: &[
            ("water_added", "volume"),
            ("water_added_by", "by"),
            ("water_added_revolutions", "revolutions"),
        ],
        only_renamed: true,
        shared: &[("ticket", "ticket")],
    },
    Part {
        kind: "load_refused",
        times: &["refused_at", "arrived", "at"],
        renamed: &[("refused", "reason")],
        only_renamed: true,
        shared: &[("ticket", "ticket")],
    },
    Part {
        kind: "discharge_started",
        times: &["discharge_started"],
        renamed: &[("line", "line")],
        only_renamed: true,
        shared: &[("ticket", "ticket")],
    },
    Part {
        kind: "discharge_ended",
        times: &["discharge_ended"],
        renamed: &[("revolutions_end", "revolutions"), ("returned", "returned")],
        only_renamed: true,
        shared: &[("ticket", "ticket")],
    },
    Part {
        kind: "concrete_sounded",
        times: &["sounded", "discharge_ended"],
        renamed: &[
            ("depth", "depth"),
            ("place", "place"),
            ("center", "center"),
            ("north", "north"),
            ("east", "east"),
            ("south", "south"),
            ("west", "west"),
            ("inside", "inside"),
            ("outside", "outside"),
            ("elevation", "elevation"),
            ("share", "share"),
            ("reference", "reference"),
            ("tape_correction", "tape_correction"),
        ],
        only_renamed: true,
        shared: &[("after", "ticket")],
    },
];

impl Table {
    /// The sheets people keep: tool runs, fluid tests, loads, soundings of the concrete, shaft schedule.
    pub fn named() -> Vec<Table> {
        let one = |word, meaning, kind| Table { word, meaning, parts: vec![whole(kind)] };
        vec![
            one("tool_runs", "One run of the tool a row.", "tool_run"),
            one("fluid_tests", "One test of the fluid a row.", "fluid_test"),
            Table {
                word: "loads",
                meaning: "One load a row: arrival, tests, water added, discharge and the sounding after it.",
                parts: LOADS.to_vec(),
            },
            one("soundings", "One sounding of the concrete a row.", "concrete_sounded"),
            one("shaft_schedule", "One shaft a row, as planned.", "shaft_planned"),
        ]
    }

    /// The table of a word: one of the sheets, or any kind of entry.
    pub fn of(word: &str) -> Option<Table> {
        let sheet = Table::named().into_iter().find(|table| table.word == word);
        sheet.or_else(|| kind_of(word).filter(|kind| may_stand_in_a_table(kind)).map(Table::of_kind))
    }

    pub(crate) fn of_kind(kind: &'static KindSpec) -> Table {
        Table { word: kind.word, meaning: kind.meaning, parts: vec![whole(kind.word)] }
    }

    /// The tables there are: the sheets first, then one for each kind.
    pub(crate) fn every() -> impl Iterator<Item = Table> {
        let kinds = KINDS.iter().filter(|kind| may_stand_in_a_table(kind));
        Table::named().into_iter().chain(kinds.map(Table::of_kind))
    }
}

/// A job is opened by notes, what a program makes names what it did, and a correction holds a whole entry in one field.
fn may_stand_in_a_table(kind: &KindSpec) -> bool {
    !matches!(kind.word, "job_opened" | "correction") && !kind.is_made()
}

/// What holds for every row of a table that does not say otherwise.
#[derive(Debug, Clone, Copy)]
pub struct Request<'a> {
    /// The job.
    pub context: &'a Context,
    /// The sheet or kind; `None`: found by the file's name and its headings.
    pub table: Option<&'a Table>,
    /// The shaft.
    pub shaft: Option<&'a str>,
    /// The day, such as `2026-05-04`.
    pub date: Option<&'a str>,
    /// Who wrote it.
    pub author: Option<&'a str>,
    /// The device or notebook.
    pub device: Option<&'a str>,
}

/// The rows of a table with something in them, each by the line it begins in and its first cell that is filled in; none
/// where the bytes are no text.
pub fn rows(bytes: &[u8]) -> Vec<(usize, String)> {
    let Ok(text) = text_of(bytes) else { return Vec::new() };
    let filled = |row: &cells::Row| {
        let first = row.cells.iter().find(|cell| !cell.trim().is_empty()).unwrap_or_default();
        (row.line, first.trim().to_owned())
    };
    cells::Sheet::of(text).rows.iter().map(filled).collect()
}

/// Reads a table.
///
/// Entries come in the order they were seen, because a row may hold several.
///
/// # Errors
/// Every mistake of the table, in the order of its rows.
pub fn read(
    source: Source<'_>,
    request: Request<'_>,
    surroundings: &dyn Surroundings,
) -> Result<Notes, Vec<Mistake>> {
    let file = || source.name.to_owned();
    let whole = |row: usize, wrong: Wrong| {
        let place =
            if row == 0 { Place::File } else { Place::Cell { row, column: 1, heading: String::new() } };
        vec![Mistake { file: file(), place, path: String::new(), wrong }]
    };
    let text = text_of(source.bytes).map_err(|wrong| whole(wrong.0, wrong.1))?;
    if let Some(row) = cells::open_quote(text) {
        return Err(whole(row, Wrong::QuoteOpen));
    }
    let sheet = cells::Sheet::of(text);
    if sheet.headings.is_empty() {
        return Err(whole(1, Wrong::Empty));
    }
    if sheet.headings.len() > HEADINGS_MAX {
        return Err(whole(sheet.heading_row, Wrong::NoTable));
    }
    let table = request.table.cloned().or_else(|| heading::table_of(source.name, &sheet));
    let Some(table) = table else { return Err(whole(sheet.heading_row, Wrong::NoTable)) };
    let (columns, mut mistakes) = heading::columns(source.name, &table, &sheet);
    let labels = Labels::default();
    let layout = row::Layout { table: &table, headings: sheet.headings.len(), columns };
    let outside = row::Outside { surroundings, labels: &labels };
    let mut rows = row::Rows::new(source.name, layout, request, outside);
    sheet.rows.iter().for_each(|row| rows.row(row));
    mistakes.extend(rows.mistakes);
    if !mistakes.is_empty() {
        mistakes.put_in_order_by(|a, b| a.place.cmp(&b.place));
        return Err(mistakes);
    }
    rows.drafted.put_in_order_by_key(|drafted| drafted.observed_at);
    Ok(Notes {
        file: file(),
        opens: false,
        context: rows.context,
        drafted: rows.drafted,
        passed_over: rows.passed_over,
    })
}
