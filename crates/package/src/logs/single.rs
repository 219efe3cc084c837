//! Logs of one or two entries, together in one table of what was written.
//!
//! A heading, a head and a rule for one line hide the line; an inspector's own sheet has one line each too.

use super::{form, marks, widths};
use crate::Source;
use report::{Column, Layout, LogTable, Row};
use wording::{Column as Head, Table};

/// A log of more entries keeps its own table.
const MOST: usize = 2;
/// Logs that a reader looks for under their own heading.
const OWN: [&str; 9] = [
    "excavation",
    "fluid_tests",
    "bottom_soundings",
    "sediment",
    "loads",
    "concrete_soundings",
    "volumes",
    "casing_lifts",
    "line_moves",
];
/// Heads of cells that have a column of their own here.
const TIME: &str = "Time";
const BY: &str = "Entered by";
const WHAT: &str = "What";

pub(super) fn is_single(table: &Table) -> bool {
    let few = (1..=MOST).contains(&table.rows.len());
    let timed = table.columns.first().is_some_and(|column| column.title == TIME);
    few && timed && !form::is_form(table) && !OWN.contains(&table.id)
}

/// One table, in order of time.
pub(super) fn together(tables: Vec<Table>, source: &Source<'_, '_>) -> LogTable {
    let mut rows: Vec<(&Table, &wording::Row)> =
        tables.iter().flat_map(|table| table.rows.iter().map(move |row| (table, row))).collect();
    rows.sort_by_key(|(_, row)| row.time.map(quantity::Moment::seconds));
    let told: Vec<Row> = rows.iter().map(|(table, row)| told(table, row, source)).collect();
    let weights = widths::of_rows(&told);
    let columns = ["Time", "What", "As written", "Entered by"].into_iter().zip(weights);
    let notes: Vec<&str> =
        tables.iter().map(|table| table.note.as_str()).filter(|note| !note.is_empty()).collect();
    LogTable {
        title: String::new(),
        note: notes.join(" "),
        columns: columns.map(|(title, weight)| Column::words(title, weight)).collect(),
        rows: told,
        total: None,
        layout: Layout::Upright,
        width: 1.0,
        part: String::new(),
    }
}

fn told(table: &Table, row: &wording::Row, source: &Source<'_, '_>) -> Row {
    let cell = |title: &str| {
        let at = table.columns.iter().position(|column| column.title == title)?;
        row.cells[at].clone()
    };
    let what = cell(WHAT).unwrap_or_else(|| table.title.clone());
    Row {
        cells: vec![cell(TIME).unwrap_or_default(), what, written(table, row), cell(BY).unwrap_or_default()],
        marks: marks::of(row, source),
        entry: row.entry.clone().unwrap_or_default(),
    }
}

/// `tool auger; diameter 54 in. Left blank: wear.`
fn written(table: &Table, row: &wording::Row) -> String {
    let rest = || {
        let cells = table.columns.iter().zip(&row.cells);
        cells.filter(|(column, _)| ![TIME, BY, WHAT].contains(&column.title.as_str()))
    };
    let said = rest().filter_map(|(column, cell)| Some(labelled(column, cell.as_ref()?)));
    let said = said.collect::<Vec<_>>().join("; ");
    let blank = rest().filter(|(column, cell)| cell.is_none() && !column.may_be_blank);
    let blank: Vec<String> = blank.map(|(column, _)| small(&column.title)).collect();
    match (said.is_empty(), blank.is_empty()) {
        (_, true) => said,
        (true, false) => format!("Left blank: {}.", blank.join(", ")),
        (false, false) => format!("{said}. Left blank: {}.", blank.join(", ")),
    }
}

fn labelled(column: &Head, cell: &str) -> String {
    match (column.title.as_str(), column.unit.as_str()) {
        ("Further", _) => cell.to_owned(),
        (title, "") => format!("{}: {cell}", small(title)),
        (title, _) if cell.ends_with(|sign: char| !sign.is_ascii_digit()) => {
            format!("{}: {cell}", small(title))
        }
        (title, unit) => format!("{}: {cell} {unit}", small(title)),
    }
}

/// A label inside a sentence; one that begins with a short form such as `w/cm` or `pH` stays as it is.
fn small(title: &str) -> String {
    let mut letters = title.chars();
    match (letters.next(), letters.next()) {
        (Some(first), Some(second)) if second.is_lowercase() && first.is_uppercase() => {
            first.to_lowercase().chain(title.chars().skip(1)).collect()
        }
        _ => title.to_owned(),
    }
}
