//! Tables of a log on a terminal.

use wording::Table;

/// Prints tables one under the other, columns as wide as they need.
pub(crate) fn print(tables: &[Table]) {
    for table in tables {
        println!("\n{}", table.title);
        if !table.note.is_empty() {
            println!("{}", table.note);
        }
        let heads: Vec<String> = table
            .columns
            .iter()
            .map(|column| if column.unit.is_empty() { column.title.clone() } else { format!("{} ({})", column.title, column.unit) })
            .collect();
        let rows: Vec<Vec<String>> = table
            .rows
            .iter()
            .map(|row| row.cells.iter().map(|cell| cell.clone().unwrap_or_else(|| "–".to_owned())).collect())
            .collect();
        let widths = widths(&heads, &rows);
        println!("{}", line(&heads, &widths));
        for (row, cells) in table.rows.iter().zip(&rows) {
            println!("{}", line(cells, &widths));
            row.marks.iter().for_each(|mark| println!("    [{mark}]"));
        }
    }
}

fn widths(heads: &[String], rows: &[Vec<String>]) -> Vec<usize> {
    let wide = |index: usize| {
        let cells = rows.iter().filter_map(|row| row.get(index)).map(|cell| cell.chars().count());
        cells.chain([heads[index].chars().count()]).max().unwrap_or(0).min(48)
    };
    (0..heads.len()).map(wide).collect()
}

fn line(cells: &[String], widths: &[usize]) -> String {
    let padded = cells.iter().zip(widths).map(|(cell, width)| format!("{cell:<width$}"));
    padded.collect::<Vec<_>>().join("  ").trim_end().to_owned()
}
