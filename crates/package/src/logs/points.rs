//! Readings at several points of one level: a line for each sounding, a column for each point.
//!
//! Center and edges beside each other show a bottom that slopes; below each other they hide it.

use wording::{Column, Row, Table};

/// Logs with a row for each point.
const LOGS: [&str; 3] = ["bottom_soundings", "sediment", "concrete_soundings"];
/// More points than this do not fit across a page.
const MOST: usize = 6;
/// The column that names the point.
const PLACE: &str = "Place";
/// What is read or follows at a point.
const READ: [&str; 3] = ["Depth", "Elevation", "Thickness"];

/// The log with its points across; unchanged where a sounding has no named points, or one twice.
pub(super) fn across(table: Table) -> Table {
    let Some(shape) = LOGS.contains(&table.id).then(|| Shape::of(&table)).flatten() else { return table };
    let soundings: Vec<&[Row]> =
        table.rows.chunk_by(|a, b| a.entry.is_some() && a.entry == b.entry).collect();
    if !soundings.iter().all(|rows| shape.fits(rows)) {
        return table;
    }
    let rows = soundings.iter().map(|rows| shape.row(rows)).collect();
    let read: Vec<String> = shape.read.iter().map(|at| table.columns[*at].title.to_lowercase()).collect();
    let note = format!(
        "{} Each point: {}.",
        table.note.replace("One row for each point.", "One row for each sounding."),
        read.join(", ")
    );
    Table { columns: shape.columns(&table), rows, note: note.trim().to_owned(), ..table }
}

/// Which columns hold what.
struct Shape {
    place: usize,
    read: Vec<usize>,
    kept: Vec<usize>,
    places: Vec<String>,
}

impl Shape {
    fn of(table: &Table) -> Option<Self> {
        let place = table.columns.iter().position(|column| column.title == PLACE)?;
        let titled = |at: &usize| READ.contains(&table.columns[*at].title.as_str());
        let (read, rest): (Vec<usize>, Vec<usize>) = (0..table.columns.len()).partition(titled);
        let mut places: Vec<String> = Vec::new();
        for row in &table.rows {
            let name = row.cells[place].clone()?;
            if !places.contains(&name) {
                places.push(name);
            }
        }
        let kept = rest.into_iter().filter(|at| *at != place).collect();
        (!read.is_empty() && places.len() <= MOST).then_some(Shape { place, read, kept, places })
    }

    /// Each point once, and nothing else that differs between the rows but what belongs to the entry.
    fn fits(&self, rows: &[Row]) -> bool {
        let names = || rows.iter().filter_map(|row| row.cells[self.place].as_ref());
        let once = names().all(|name| names().filter(|other| *other == name).count() == 1);
        let alike = |at: &usize| {
            rows[1..].iter().all(|row| row.cells[*at].is_none() || row.cells[*at] == rows[0].cells[*at])
        };
        // The time of the first row carries the day; a field of the entry stands in its first row alone.
        once && self.kept.iter().skip(1).all(alike)
    }

    fn row(&self, rows: &[Row]) -> Row {
        let kept = self.kept.iter().map(|at| rows[0].cells[*at].clone());
        let point = |place: &String| {
            let row = rows.iter().find(|row| row.cells[self.place].as_ref() == Some(place))?;
            let read: Vec<&str> = self.read.iter().filter_map(|at| row.cells[*at].as_deref()).collect();
            (!read.is_empty()).then(|| read.join(", "))
        };
        let mut cells: Vec<Option<String>> = kept.collect();
        let at = self.first();
        cells.splice(at..at, self.places.iter().map(point));
        Row { cells, ..rows[0].clone() }
    }

    fn columns(&self, table: &Table) -> Vec<Column> {
        let mut columns: Vec<Column> = self.kept.iter().map(|at| table.columns[*at].clone()).collect();
        let unit = table.columns[self.read[0]].unit.clone();
        let point = |place: &String| Column {
            title: place.clone(),
            unit: unit.clone(),
            numeric: true,
            weight: 1.0,
            may_be_blank: false,
        };
        let at = self.first();
        columns.splice(at..at, self.places.iter().map(point));
        columns
    }

    /// Where the points stand among the kept columns.
    fn first(&self) -> usize {
        self.kept.iter().filter(|at| **at < self.place).count()
    }
}
