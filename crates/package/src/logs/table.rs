//! A log of many rows as a table.

use super::{marks, same, widths};
use crate::Source;
use report::{Align, Column, Layout, LogTable, Mark, Row};
use wording::Table;

/// More columns than this are turned sideways.
const UPRIGHT: usize = 14;
/// Up to so many columns, one of what has no column of its own fits beside the others.
const NARROW: usize = 7;
/// The head of that column.
const FURTHER: &str = "Further";

pub(super) fn of(table: Table, source: &Source<'_, '_>) -> LogTable {
    let (table, notes) = without_further(same::told_once(table));
    let weights = widths::of(&table);
    let columns = table.columns.iter().zip(&weights).map(|(one, weight)| column(one, *weight)).collect();
    LogTable {
        columns,
        layout: if table.columns.len() > UPRIGHT { Layout::Sideways } else { Layout::Upright },
        rows: table.rows.iter().zip(notes).map(|(one, note)| row(one, note, source)).collect(),
        title: table.title,
        note: table.note,
        total: None,
        width: widths::share(&weights),
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

/// Takes the column of what had none of its own out of a wide log: it stands under each row instead.
fn without_further(mut table: Table) -> (Table, Vec<Option<String>>) {
    let further = table.columns.iter().position(|column| column.title == FURTHER);
    let Some(at) = further.filter(|_| table.columns.len() > NARROW) else {
        let none = vec![None; table.rows.len()];
        return (table, none);
    };
    table.columns.remove(at);
    let notes = table.rows.iter_mut().map(|row| row.cells.remove(at)).collect();
    (table, notes)
}

fn row(row: &wording::Row, note: Option<String>, source: &Source<'_, '_>) -> Row {
    let note = note.map(|text| Mark::Note { text });
    Row {
        cells: row.cells.iter().map(|cell| cell.clone().unwrap_or_default()).collect(),
        marks: note.into_iter().chain(marks::of(row, source)).collect(),
        entry: row.entry.clone().unwrap_or_default(),
    }
}
