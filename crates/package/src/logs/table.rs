//! A log of many rows as a table.

use super::{marks, same, widths};
use crate::Source;
use report::{Align, Column, Layout, LogTable, Row};
use wording::Table;

/// More columns than this are turned sideways.
const UPRIGHT: usize = 14;

pub(super) fn of(table: Table, source: &Source<'_, '_>) -> LogTable {
    let table = same::told_once(table);
    let weights = widths::of(&table);
    let columns = table.columns.iter().zip(weights).map(|(one, weight)| column(one, weight)).collect();
    LogTable {
        columns,
        layout: if table.columns.len() > UPRIGHT { Layout::Sideways } else { Layout::Upright },
        rows: table.rows.iter().map(|one| row(one, source)).collect(),
        title: table.title,
        note: table.note,
        total: None,
        part: String::new(),
    }
}

fn column(column: &wording::Column, weight: f64) -> Column {
    Column {
        title: column.title.clone(),
        unit: column.unit.clone(),
        align: if column.numeric { Align::Right } else { Align::Left },
        weight,
        may_be_empty: column.may_be_blank,
    }
}

fn row(row: &wording::Row, source: &Source<'_, '_>) -> Row {
    Row {
        cells: row.cells.iter().map(|cell| cell.clone().unwrap_or_default()).collect(),
        marks: marks::of(row, source),
        entry: row.entry.clone().unwrap_or_default(),
    }
}
