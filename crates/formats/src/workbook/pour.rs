//! The volume curve: an interval a row.

use super::sheet::{Cell, Sheet, line, numbers, texts, times};
use super::units::Units;
use crate::Shaft;
use assess::reckon::PourSounding;
use calc::curve::Interval;

/// Nothing before the first sounding of the concrete.
pub(super) fn sheet(shaft: &Shaft<'_, '_>, units: Units, name: String) -> Option<Sheet> {
    let pour = shaft.assessment.reckoning.pour.as_ref()?;
    let (length, volume) = (units.length, units.volume);
    let columns = vec![
        numbers("No.", "", 0),
        times("Sounded"),
        texts("Loads since", 18.0),
        numbers("Level before", length, 2),
        numbers("Level", length, 2),
        numbers("Rise", length, 2),
        numbers("Placed", volume, 3),
        numbers("Theoretical", volume, 3),
        numbers("Ratio", "", 3),
        numbers("Placed so far", volume, 3),
        numbers("Theoretical so far", volume, 3),
        numbers("Ratio so far", "", 3),
        numbers("Standard error of the ratio", "", 3),
        numbers("Held in the line", volume, 3),
        texts("Entry", 68.0),
    ];
    let each = pour.curve.intervals.iter().zip(&pour.soundings).enumerate();
    let rows: Vec<Vec<Cell>> = each.map(|(at, (one, sounding))| row(at, (one, sounding), units)).collect();
    (!rows.is_empty()).then_some(Sheet { name, columns, rows })
}

fn row(at: usize, (one, sounding): (&Interval, &PourSounding), units: Units) -> Vec<Cell> {
    let here = line(at);
    let volume = |volume: quantity::Volume| units.volume(volume);
    let so_far = |sum: char, part: char| match at {
        0 => format!("={part}{here}"),
        _ => format!("={sum}{}+{part}{here}", here - 1),
    };
    let sum = &one.cumulative;
    vec![
        Cell::count(at + 1),
        Cell::Time(sounding.at),
        Cell::text(Some(&sounding.tickets.join(", "))),
        Cell::Number(units.level(one.lower)),
        Cell::Number(units.level(one.upper)),
        Cell::Formula(format!("=E{here}-D{here}"), units.length(one.rise.value)),
        Cell::Number(volume(one.placed.value)),
        Cell::number(one.theoretical.map(|theoretical| volume(theoretical.value))),
        Cell::formula(format!("=G{here}/H{here}"), one.ratio.map(|ratio| ratio.value)),
        Cell::Formula(so_far('J', 'G'), volume(sum.placed.value)),
        Cell::formula(so_far('K', 'H'), sum.theoretical.map(|theoretical| volume(theoretical.value))),
        Cell::formula(format!("=J{here}/K{here}"), sum.ratio.map(|ratio| ratio.value)),
        Cell::number(one.ratio.map(|ratio| ratio.standard_error)),
        Cell::Number(volume(sounding.held)),
        Cell::Text(sounding.entry.to_string()),
    ]
}
