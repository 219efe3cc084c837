//! Prints what every unit means, for an outside library to recompute.
//!
//! A wrong factor would bend every volume of every job and look plausible. Each row went through the same
//! reader as a person's text, so a wrong spelling shows as well.
//!
//! Words: one row = kind, unit as printed, number of it, exact SI value as numerator and denominator,
//! separated by tabs, after one row of headings.

use quantity::{
    Area, Density, Entered, Force, Fraction, FunnelTime, Inflow, Length, Mass, Ph, Pressure, Quantity,
    Reading, Slope, Span, Temperature, Unit, Volume, WaterCement, units,
};

/// Numbers that catch a wrong factor and, for temperatures, a wrong zero.
const NUMBERS: &[&str] = &["1", "0.001", "7.25", "72", "123456.789"];

fn main() {
    println!("kind\tunit\tvalue\tsi_numerator\tsi_denominator");
    for unit in units::ALL {
        for number in NUMBERS {
            println!("{}", row(unit, number));
        }
    }
}

fn row(unit: &'static Unit, number: &str) -> String {
    macro_rules! of_kind {
        ($($kind:ident),*) => {
            match unit.kind { $(quantity::Kind::$kind => si::<$kind>(unit, number)),* }
        };
    }
    let (numerator, denominator) = of_kind!(
        Length,
        Area,
        Volume,
        Density,
        Mass,
        Force,
        Pressure,
        Temperature,
        Span,
        FunnelTime,
        Fraction,
        Ph,
        Slope,
        Inflow,
        WaterCement
    );
    format!("{:?}\t{}\t{number}\t{numerator}\t{denominator}", unit.kind, unit.symbol)
}

/// The exact SI value of a text that names its unit; a unit without a symbol comes from the field.
fn si<Q: Quantity>(unit: &'static Unit, number: &str) -> (i128, i128) {
    let reading = Reading { unit: unit.symbol.is_empty().then_some(unit), comma: false };
    let text = format!("{number} {}", unit.symbol);
    let entered = Entered::<Q>::parse(text.trim_end(), reading).unwrap_or_else(|misread| panic!("{misread}"));
    let exact = entered.value().number().exact().expect("a text is exact");
    (*exact.numer(), *exact.denom())
}
