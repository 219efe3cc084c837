//! The loads of concrete, one a row.

use super::sheet::{Cell, Sheet, line, numbers, texts, times};
use super::units::Units;
use crate::Shaft;
use assess::picture::Load;

/// Nothing before the first load.
pub(super) fn sheet(shaft: &Shaft<'_, '_>, units: Units, name: String) -> Option<Sheet> {
    let loads = &shaft.assessment.picture.loads;
    if loads.is_empty() {
        return None;
    }
    let volume = units.volume;
    let columns = vec![
        numbers("No.", "", 0),
        texts("Ticket", 12.0),
        numbers("On the ticket", volume, 2),
        numbers("Sent back", volume, 2),
        texts("Refused, and why", 24.0),
        numbers("Discharged", volume, 2),
        times("Batched"),
        times("Arrived"),
        times("Discharge begun"),
        times("Discharge ended"),
        numbers("Batched to ended", "min", 0),
        texts("Entry of its arrival", 68.0),
    ];
    let mut rows: Vec<Vec<Cell>> = loads.iter().enumerate().map(|(at, load)| row(at, load, units)).collect();
    let all = shaft.assessment.reckoning.pour.as_ref().map(|pour| units.volume(pour.discharged));
    let mut sum = vec![Cell::Blank; columns.len()];
    sum[1] = Cell::Text("All loads".to_owned());
    sum[5] = Cell::formula(format!("=SUM(F2:F{})", line(loads.len() - 1)), all);
    rows.push(sum);
    Some(Sheet { name, columns, rows })
}

fn row(at: usize, load: &Load<'_>, units: Units) -> Vec<Cell> {
    let here = line(at);
    let refused = load.refused.map(|(_, why)| why);
    let discharged = if refused.is_some() { 0.0 } else { units.volume(load.discharged()) };
    let minutes = load.batched.zip(load.ended).map(|(batched, ended)| ended.minutes_since(batched));
    // What is still going in counts when it is in.
    let counts = load.done.is_some() || refused.is_some();
    vec![
        Cell::count(at + 1),
        Cell::Text(load.ticket.to_owned()),
        Cell::Number(units.volume(load.volume)),
        Cell::Number(units.volume(load.returned)),
        Cell::text(refused),
        Cell::formula(format!("=IF(E{here}=\"\",C{here}-D{here},0)"), counts.then_some(discharged)),
        Cell::time(load.batched),
        Cell::time(Some(load.arrived)),
        Cell::time(load.started),
        Cell::time(load.ended),
        Cell::formula(format!("=(J{here}-G{here})*1440"), minutes),
        Cell::text(load.entries.first().map(ToString::to_string).as_deref()),
    ]
}
