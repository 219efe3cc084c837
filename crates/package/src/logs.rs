//! The logs, as the report prints them.

use crate::Source;
use report::{Align, Column, LogTable, Mark, Row};

pub(crate) fn tables(source: &Source<'_, '_>) -> Vec<LogTable> {
    wording::tables(source.log, source.assessment, &source.show()).into_iter().map(table).collect()
}

fn table(table: wording::Table) -> LogTable {
    let sideways = table.columns.len() > 14;
    LogTable {
        title: table.title,
        note: table.note,
        columns: table.columns.into_iter().map(column).collect(),
        rows: table.rows.into_iter().map(row).collect(),
        total: None,
        sideways,
    }
}

fn column(column: wording::Column) -> Column {
    Column {
        title: column.title,
        unit: column.unit,
        align: if column.numeric { Align::Right } else { Align::Left },
        weight: column.weight,
        may_be_empty: false,
    }
}

fn row(row: wording::Row) -> Row {
    Row {
        cells: row.cells.into_iter().map(Option::unwrap_or_default).collect(),
        marks: row.marks.into_iter().map(mark).collect(),
    }
}

fn mark(mark: wording::Mark) -> Mark {
    Mark::Note { text: mark.to_string() }
}
