//! One entry as a form: what was written, then the names of the fields that were left blank.

use super::marks;
use crate::Source;
use report::{Column, Layout, LogTable, Row};
use wording::Table;

/// Logs of one entry have two columns: what, and as written.
pub(super) fn is_form(table: &Table) -> bool {
    table.columns.len() == 2 && table.columns[0].title == "Item"
}

pub(super) fn of(table: Table, source: &Source<'_, '_>) -> LogTable {
    let mut rows: Vec<Row> =
        table.rows.iter().filter(|row| written(row)).map(|row| row_of(row, source)).collect();
    let blank: Vec<&str> =
        table.rows.iter().filter(|row| !written(row)).filter_map(|row| row.cells[0].as_deref()).collect();
    if !blank.is_empty() {
        rows.push(Row::stands(["Left blank".to_owned(), format!("{}.", blank.join(", "))]));
    }
    LogTable {
        title: table.title,
        note: table.note,
        columns: vec![Column::words("Item", 1.0), Column::words("As written", 2.5)],
        rows,
        total: None,
        layout: Layout::Form,
        width: 1.0,
        part: String::new(),
    }
}

fn written(row: &wording::Row) -> bool {
    row.cells[1].as_ref().is_some_and(|text| !text.is_empty())
}

fn row_of(row: &wording::Row, source: &Source<'_, '_>) -> Row {
    Row {
        cells: row.cells.iter().map(|cell| cell.clone().unwrap_or_default()).collect(),
        marks: marks::of(row, source),
        entry: row.entry.clone().unwrap_or_default(),
    }
}
