//! Volume curves and their noise.

use calc::curve::{
    Interval, LoadError, PlannedInterval, Pour, Station, VolumeCurve, balance, noise, volume_curve,
};
use calc::estimate::Estimate;
use calc::geometry::Bore;
use quantity::{Depth, Elevation, Fraction, Length, Volume};

use super::{Checks, Given, Outputs, numbers};

pub(super) const CHECKS: Checks =
    &[("curve::interval", interval), ("curve::total", total), ("curve::noise", planned_noise)];

const REFERENCE: Elevation = Elevation(Length::ZERO);

fn bore(given: &Given) -> Result<Bore, String> {
    let bottom = Elevation::of_depth(REFERENCE, given.quantity("bottom")?);
    Bore::cylinder(given.quantity("diameter")?, REFERENCE, bottom).map_err(|error| error.to_string())
}

/// A shaft of one diameter: each load has its sounding.
fn curve(given: &Given) -> Result<VolumeCurve, String> {
    let bore = bore(given)?;
    let tape: Length = given.quantity("tape_error")?;
    let loads: Vec<Volume> = given.quantities("loads")?;
    let depths: Vec<Depth> = given.quantities("soundings")?;
    let none = Volume::cubic_meters(0.0);
    let station = |(load, depth): (&Volume, &Depth)| Station {
        level: Estimate::new(Elevation::of_depth(REFERENCE, *depth), tape),
        loads: vec![*load],
        wasted: none,
        held: none,
        bore: &bore,
    };
    let part = |name| given.quantity::<Fraction>(name).map(Fraction::to_part);
    let pour = Pour {
        base: Estimate::new(bore.bottom(), given.quantity("base_error")?),
        bore: &bore,
        stations: loads.iter().zip(&depths).map(station).collect(),
        load_error: LoadError { each: part("load_error")?, shared: part("shared_error")? },
        least_rise: Length::ZERO,
    };
    let (curve, issues) = volume_curve(&pour);
    match issues.is_empty() && loads.len() == depths.len() {
        true => Ok(curve),
        false => Err(format!("a doubtful curve: {issues:?}")),
    }
}

fn interval(given: &Given) -> Result<Outputs, String> {
    let which = given.number("interval")? as usize;
    let curve = curve(given)?;
    let interval: &Interval =
        which.checked_sub(1).and_then(|at| curve.intervals.get(at)).ok_or("no such interval")?;
    let theoretical = interval.theoretical.ok_or("no theoretical volume")?;
    let ratio = interval.ratio.ok_or("no ratio")?;
    let diameter = interval.diameter.ok_or("no diameter")?;
    let cumulative = interval.cumulative.ratio.ok_or("no cumulative ratio")?;
    let mut outputs = numbers([
        ("rise_ft", interval.rise.value.to_feet()),
        ("theoretical_yd3", theoretical.value.to_cubic_yards()),
        ("ratio", ratio.value),
        ("ratio_error", ratio.standard_error),
        ("diameter_in", diameter.value.to_inches()),
        ("diameter_error_in", diameter.standard_error.to_inches()),
        ("diameter_error_part", diameter.standard_error.to_meters() / diameter.value.to_meters()),
        ("cumulative", cumulative.value),
        ("cumulative_error", cumulative.standard_error),
    ])?;
    if let Some(departure) = interval.departure {
        outputs.extend(numbers([
            ("others", departure.others.value),
            ("others_error", departure.others.standard_error),
            ("departure", departure.difference.value),
            ("departure_error", departure.difference.standard_error),
        ])?);
    }
    Ok(outputs)
}

fn total(given: &Given) -> Result<Outputs, String> {
    let curve = curve(given)?;
    let last = curve.intervals.last().ok_or("no interval")?;
    let balance = balance(&last.cumulative).ok_or("no balance")?;
    let theoretical = last.cumulative.theoretical.ok_or("no theoretical volume")?;
    numbers([
        ("theoretical_yd3", theoretical.value.to_cubic_yards()),
        ("placed_yd3", last.cumulative.placed.value.to_cubic_yards()),
        ("over_pour_yd3", balance.over_pour.value.to_cubic_yards()),
        ("over_consumption", balance.over_consumption.value),
    ])
}

fn planned_noise(given: &Given) -> Result<Outputs, String> {
    let planned = PlannedInterval {
        diameter: given.quantity("diameter")?,
        load: given.quantity("load")?,
        tape_error: given.quantity("tape_error")?,
        load_error: given.quantity::<Fraction>("load_error")?.to_part(),
    };
    let noise = noise(&planned).map_err(|error| error.to_string())?;
    numbers([
        ("rise_ft", noise.rise.to_feet()),
        ("ratio_percent", noise.ratio * 100.0),
        ("diameter_in", noise.diameter.to_inches()),
    ])
}
