//! Tables of a log on a terminal.

use crate::screen::{Screen, shown};
use wording::Table;

/// No column is wider; what is longer runs over.
const WIDEST: usize = 48;

/// Prints tables one under the other, columns as wide as they need. Lines are not wrapped: a table that is
/// wider than the window is one for a file or for `less -S`.
pub(crate) fn print(tables: &[Table], screen: &mut Screen) {
    tables.iter().for_each(|table| one(table, screen));
}

fn one(table: &Table, screen: &mut Screen) {
    screen.gap();
    screen.heading(&table.title);
    if !table.note.is_empty() {
        screen.say(&table.note);
    }
    let head = |column: &wording::Column| match column.unit.as_str() {
        "" => column.title.clone(),
        unit => format!("{} ({unit})", column.title),
    };
    let heads: Vec<String> = table.columns.iter().map(head).collect();
    let blank = |cell: &Option<String>| cell.as_deref().map_or_else(|| "–".to_owned(), shown);
    let rows: Vec<Vec<String>> = table.rows.iter().map(|row| row.cells.iter().map(blank).collect()).collect();
    let widths = widths(&heads, &rows);
    screen.line(&line(&heads, &widths));
    for (row, cells) in table.rows.iter().zip(&rows) {
        screen.line(&line(cells, &widths));
        row.marks.iter().for_each(|mark| screen.line(&format!("    [{mark}]")));
    }
}

fn widths(heads: &[String], rows: &[Vec<String>]) -> Vec<usize> {
    let wide = |index: usize| {
        let cells = rows.iter().filter_map(|row| row.get(index)).map(|cell| cell.chars().count());
        cells.chain([heads[index].chars().count()]).max().unwrap_or(0).min(WIDEST)
    };
    (0..heads.len()).map(wide).collect()
}

fn line(cells: &[String], widths: &[usize]) -> String {
    let padded = cells.iter().zip(widths).map(|(cell, width)| format!("{cell:<width$}"));
    padded.collect::<Vec<_>>().join("  ").trim_end().to_owned()
}
