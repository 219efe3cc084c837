//! Bars and cages.

use calc::bars::{Bar, find};
use calc::cage::{BarCircle, Steel};
use quantity::Length;

use super::{Checks, Given, Outputs, numbers};

pub(super) const CHECKS: Checks = &[("bars::find", bar), ("cage::clear_gap", gap), ("cage::steel", steel)];

/// One pound per foot in kilograms per metre, from the exact pound and foot.
const POUND_PER_FOOT: f64 = 0.453_592_37 / 0.3048;

fn named(given: &Given) -> Result<Bar, String> {
    let name = given.text("bar")?;
    find(name).ok_or_else(|| format!("no bar `{name}`"))
}

fn bar(given: &Given) -> Result<Outputs, String> {
    let bar = named(given)?;
    numbers([
        ("diameter_in", bar.diameter.to_inches()),
        ("area_in2", bar.area.to_square_inches()),
        ("lb_per_ft", bar.kilograms_per_meter / POUND_PER_FOOT),
        ("area_mm2", bar.area.to_square_millimeters()),
        ("kg_per_m", bar.kilograms_per_meter),
    ])
}

fn circle(given: &Given, circle: Length) -> Result<BarCircle, String> {
    Ok(BarCircle { places: given.number("bars")? as u32, bars_abreast: 1, bar: named(given)?, circle })
}

fn gap(given: &Given) -> Result<Outputs, String> {
    let gap = circle(given, given.quantity("circle")?)?.clear_gap().map_err(|error| error.to_string())?;
    numbers([("gap_in", gap.to_inches())])
}

fn steel(given: &Given) -> Result<Outputs, String> {
    let diameter: Length = given.quantity("shaft")?;
    let steel = Steel { bars: vec![circle(given, diameter)?], ties: vec![] };
    let ratio = steel.ratio(diameter).map_err(|error| error.to_string())?;
    let volume = steel.volume(given.quantity("length")?).map_err(|error| error.to_string())?;
    numbers([("ratio_percent", ratio.to_percent()), ("volume_yd3", volume.to_cubic_yards())])
}
