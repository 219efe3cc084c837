//! What stands once over a log instead of in every row: blanks throughout, and words that never change.

use wording::{Column, Table};

/// From so many rows on, a word that is the same in each of them stands over the log.
const ROWS: usize = 2;

/// Takes blank and unchanging columns out and says so in the note.
pub(super) fn told_once(mut table: Table) -> Table {
    let mut kept = Vec::new();
    let (mut blank, mut same) = (Vec::new(), Vec::new());
    for (at, column) in table.columns.iter().enumerate() {
        match fate(at, column, &table) {
            Fate::Kept => kept.push(at),
            Fate::Blank if column.may_be_blank => {}
            Fate::Blank => blank.push(column.title.clone()),
            Fate::Same(text) => same.push(format!("{}: {text}", column.title)),
        }
    }
    if kept.is_empty() || table.rows.is_empty() {
        return table;
    }
    let blank = if blank.is_empty() {
        String::new()
    } else {
        format!("Left blank in every row: {}.", blank.join(", "))
    };
    let same = if same.is_empty() { String::new() } else { format!("In every row: {}.", same.join("; ")) };
    table.note =
        [table.note, same, blank].into_iter().filter(|text| !text.is_empty()).collect::<Vec<_>>().join(" ");
    table.columns = kept.iter().map(|at| table.columns[*at].clone()).collect();
    for row in &mut table.rows {
        row.cells = kept.iter().map(|at| row.cells[*at].clone()).collect();
    }
    table
}

enum Fate {
    Kept,
    Blank,
    Same(String),
}

fn fate(at: usize, column: &Column, table: &Table) -> Fate {
    let cells = || table.rows.iter().map(|row| row.cells[at].as_deref().unwrap_or_default());
    let first = cells().next().unwrap_or_default();
    if cells().all(str::is_empty) {
        return Fate::Blank;
    }
    let unchanging =
        at > 0 && !column.numeric && table.rows.len() >= ROWS && cells().all(|cell| cell == first);
    if unchanging { Fate::Same(first.trim_end_matches('.').to_owned()) } else { Fate::Kept }
}
