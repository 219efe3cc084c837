//! The schedule: a shaft a row, its plan and how its pour came out.

use super::sheet::{Cell, Column, Sheet, line, numbers, texts};
use super::units::Units;
use crate::Shaft;
use assess::Outcome;
use quantity::Elevation;

fn columns(units: Units) -> Vec<Column> {
    let (length, small, volume) = (units.length, units.small, units.volume);
    vec![
        texts("Shaft", 12.0),
        texts("Structure", 12.0),
        texts("Name", 28.0),
        texts("Station", 24.0),
        numbers("Northing", length, 2),
        numbers("Easting", length, 2),
        numbers("Ground", length, 2),
        numbers("Top", length, 2),
        numbers("Cut-off", length, 2),
        numbers("Tip", length, 2),
        numbers("Length", length, 2),
        numbers("Least diameter", small, 1),
        texts("Method", 18.0),
        numbers("Theoretical, as planned", volume, 2),
        numbers("Theoretical, as poured", volume, 2),
        numbers("Placed", volume, 2),
        numbers("Placed over theoretical", "", 3),
        numbers("Findings that fail", "", 0),
        numbers("of them without a decision", "", 0),
    ]
}

/// A row before its number is known.
pub(super) struct Row {
    cells: Vec<Cell>,
    length: Option<f64>,
    ratio: Option<f64>,
    planned: f64,
    poured: [f64; 2],
}

/// A shaft of the schedule; what was poured is taken from its own sheet.
pub(super) fn row(shaft: &Shaft<'_, '_>, units: Units, pour: Option<&Sheet>) -> Row {
    let plan = shaft.assessment.picture.plan.as_ref();
    let written = plan.map(|plan| plan.shaft);
    let level = |level: Option<Elevation>| Cell::number(level.map(|level| units.level(level)));
    let coordinate = |of: Option<&record::choices::Coordinate>| {
        Cell::number(of.map(|coordinate| units.length(coordinate.value())))
    };
    let bore = plan.and_then(|plan| plan.bore.as_ref().ok()).map(|bore| units.volume(bore.gross().volume()));
    let findings = &shaft.assessment.findings;
    let reckoned = shaft.assessment.reckoning.pour.as_ref().and_then(|pour| pour.curve.intervals.last());
    let cumulative = reckoned.map(|last| last.cumulative);
    let theoretical = cumulative.and_then(|sum| sum.theoretical).map(|sum| units.volume(sum.value));
    let placed = cumulative.map(|sum| units.volume(sum.placed.value));
    let linked = |column: char, value: Option<f64>| match pour {
        Some(sheet) => {
            let cell = format!("='{}'!{column}{}", sheet.name, line(sheet.rows.len() - 1));
            Cell::formula(cell, value)
        }
        None => Cell::Blank,
    };
    let cells = vec![
        Cell::Text(shaft.name.to_owned()),
        Cell::text(written.map(|plan| plan.structure.word())),
        Cell::text(written.and_then(|plan| plan.structure_name.as_deref())),
        Cell::text(written.and_then(|plan| plan.station.as_deref())),
        coordinate(written.and_then(|plan| plan.northing.as_ref())),
        coordinate(written.and_then(|plan| plan.easting.as_ref())),
        level(plan.and_then(|plan| plan.ground)),
        level(plan.map(|plan| plan.top)),
        level(plan.map(|plan| plan.cut_off)),
        level(plan.map(|plan| plan.tip)),
        Cell::Blank,
        Cell::number(plan.and_then(|plan| plan.diameter).map(|diameter| units.small(diameter))),
        Cell::text(written.map(|plan| plan.method.word())),
        Cell::number(bore),
        linked('K', theoretical),
        linked('J', placed),
        Cell::Blank,
        Cell::count(findings.iter().filter(|finding| finding.outcome() == Outcome::Fails).count()),
        Cell::count(findings.iter().filter(|finding| finding.is_open()).count()),
    ];
    let length = plan.map(|plan| units.length(plan.top.above(plan.tip)));
    let ratio = cumulative.and_then(|sum| sum.ratio).map(|ratio| ratio.value);
    let poured = [theoretical.unwrap_or(0.0), placed.unwrap_or(0.0)];
    Row { cells, length, ratio, planned: bore.unwrap_or(0.0), poured }
}

/// The schedule, with its sums below.
pub(super) fn sheet(rows: Vec<Row>, units: Units) -> Sheet {
    let sum = |of: fn(&Row) -> f64| rows.iter().map(of).sum::<f64>();
    let sums = [sum(|row| row.planned), sum(|row| row.poured[0]), sum(|row| row.poured[1])];
    let count = rows.len();
    let numbered = rows.into_iter().enumerate().map(|(at, mut row)| {
        let line = line(at);
        row.cells[10] = Cell::formula(format!("=H{line}-J{line}"), row.length);
        row.cells[16] = Cell::formula(format!("=P{line}/O{line}"), row.ratio);
        row.cells
    });
    let mut cells: Vec<Vec<Cell>> = numbered.collect();
    if count > 0 {
        let mut total = vec![Cell::Blank; 19];
        total[0] = Cell::Text("All shafts".to_owned());
        for ((at, column), sum) in [(13, 'N'), (14, 'O'), (15, 'P')].into_iter().zip(sums) {
            total[at] = Cell::formula(format!("=SUM({column}2:{column}{})", line(count - 1)), Some(sum));
        }
        cells.push(total);
    }
    Sheet { name: "Schedule".to_owned(), columns: columns(units), rows: cells }
}
