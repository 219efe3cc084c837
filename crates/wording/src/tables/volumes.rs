//! The volume table: theoretical against placed, sounding by sounding.
//!
//! A cumulative ratio hides a neck in the sum of everything else, so each interval stands beside the ratio
//! of all the others.

use super::{Column, Row, Source, Table};
use assess::reckon::pour::PourSounding;
use calc::curve::Interval;
use quantity::{Kind, Length};

/// The table of the pour.
pub(super) fn table(source: &Source<'_, '_>) -> Table {
    let pour = source.assessment.reckoning.pour.as_ref();
    let rows = pour.map_or_else(Vec::new, |pour| {
        pour.curve
            .intervals
            .iter()
            .zip(&pour.soundings)
            .map(|(one, sounding)| row(one, sounding, source))
            .collect()
    });
    Table {
        id: "volumes",
        title: "Volumes".to_owned(),
        note: "Ratio: placed over theoretical of one interval, ± one standard error from tape and tickets. \
               Others: the ratio of all other intervals together. Placed counts waste and what stands in the \
               line. Diameter: of the cylinder that takes what was placed."
            .to_owned(),
        columns: columns(source),
        rows,
    }
}

fn columns(source: &Source<'_, '_>) -> Vec<Column> {
    let volume = source.show.unit(Kind::Volume).symbol;
    let length = source.show.length_unit();
    let heads = [
        ("Time", "", 1.1),
        ("Loads", "", 1.2),
        ("Elevation", length, 1.0),
        ("Rise", length, 0.8),
        ("Theoretical", volume, 1.0),
        ("Placed", volume, 1.0),
        ("Ratio", "", 1.3),
        ("Others", "", 0.8),
        ("Diameter", source.show.small_unit().symbol, 0.9),
        ("Theoretical in all", volume, 1.0),
        ("Placed in all", volume, 1.0),
        ("Ratio in all", "", 1.3),
    ];
    let column = |(index, (title, unit, weight)): (usize, &(&str, &str, f64))| Column {
        title: (*title).to_owned(),
        unit: (*unit).to_owned(),
        numeric: index > 1,
        weight: *weight,
        may_be_blank: false,
    };
    heads.iter().enumerate().map(column).collect()
}

fn row(one: &Interval, sounding: &PourSounding, source: &Source<'_, '_>) -> Row {
    let show = source.show;
    let volume = |volume| show.bare(show.volume(volume));
    let cells = vec![
        Some(show.stamp(sounding.at)),
        (!sounding.tickets.is_empty()).then(|| sounding.tickets.join(", ")),
        Some(show.bare(show.elevation(one.upper))),
        Some(show.bare(show.length(one.rise.value))),
        one.theoretical.map(|theoretical| volume(theoretical.value)),
        Some(volume(one.placed.value)),
        one.ratio.map(|ratio| show.ratio_estimate(ratio)),
        one.departure.map(|departure| show.ratio(departure.others.value)),
        one.diameter.map(|diameter| diameter_text(diameter.value, source)),
        one.cumulative.theoretical.map(|theoretical| volume(theoretical.value)),
        Some(volume(one.cumulative.placed.value)),
        one.cumulative.ratio.map(|ratio| show.ratio_estimate(ratio)),
    ];
    source.row_of(sounding.entry, cells)
}

/// A computed diameter to the inch or millimetre: a fraction of an inch would say more than is known.
fn diameter_text(diameter: Length, source: &Source<'_, '_>) -> String {
    source.show.plain(diameter.to_unit(source.show.small_unit()), 0)
}
