//! Readings of all shafts in words: how many, between which ends, how many of them fail.

use super::{AcrossLine, Behind};
use crate::phrase::count;
use crate::show::Show;
use assess::Outcome;
use assess::across::{Measure, Reading, Spot};
use quantity::{Density, Fraction, InOrder, Length};
use record::choices::FluidPlace;

/// A line for each measure that was read.
pub(super) fn lines(readings: &[Reading], show: &Show) -> Vec<AcrossLine> {
    let all = [
        Measure::FluidDensity,
        Measure::FunnelQuart,
        Measure::FunnelLiter,
        Measure::Ph,
        Measure::Sand,
        Measure::Slump,
        Measure::Spread,
    ];
    all.into_iter().filter_map(|measure| line(measure, readings, show)).collect()
}

/// What is read, and of what.
fn name(measure: Measure) -> (&'static str, &'static str) {
    match measure {
        Measure::FluidDensity => ("Fluid", "Density"),
        Measure::FunnelQuart => ("Fluid", "Marsh time of a quart"),
        Measure::FunnelLiter => ("Fluid", "Marsh time of a liter"),
        Measure::Ph => ("Fluid", "pH"),
        Measure::Sand => ("Fluid", "Sand"),
        Measure::Slump => ("Fresh concrete", "Slump"),
        Measure::Spread => ("Fresh concrete", "Spread"),
    }
}

fn value(measure: Measure, value: f64, show: &Show) -> String {
    match measure {
        Measure::FluidDensity => show.density(Density::kilograms_per_cubic_meter(value)),
        Measure::FunnelQuart | Measure::FunnelLiter => format!("{} s", show.plain(value, 0)),
        Measure::Ph => show.plain(value, 1),
        Measure::Sand => show.percent(Fraction::part(value)),
        Measure::Slump | Measure::Spread => show.small(Length::meters(value)),
    }
}

fn line(measure: Measure, readings: &[Reading], show: &Show) -> Option<AcrossLine> {
    let mut own: Vec<&Reading> = readings.iter().filter(|reading| reading.measure == measure).collect();
    let ends = |fold: fn(f64, f64) -> f64| own.iter().map(|reading| reading.value).reduce(fold);
    let (low, high) = (ends(f64::min)?, ends(f64::max)?);
    let fails = own.iter().filter(|reading| reading.outcome == Outcome::Fails).count();
    let mut shafts: Vec<_> = own.iter().map(|reading| &reading.place).collect();
    shafts.put_in_order();
    shafts.dedup();
    // What fails is what people look for.
    own.put_in_order_by_key(|reading| (reading.outcome != Outcome::Fails, reading.at));
    let (group, label) = name(measure);
    let told =
        format!("{} of {}", count(own.len(), "reading", "readings"), count(shafts.len(), "shaft", "shafts"));
    Some(AcrossLine {
        group,
        label: label.to_owned(),
        value: match (value(measure, low, show), value(measure, high, show)) {
            (low, high) if low == high => low,
            (low, high) => format!("{low} to {high}"),
        },
        note: match fails {
            0 => told,
            1 => format!("{told}; 1 of them fails"),
            many => format!("{told}; {many} of them fail"),
        },
        behind: own.into_iter().map(|reading| behind(reading, show)).collect(),
    })
}

fn behind(reading: &Reading, show: &Show) -> Behind {
    let from = match (&reading.ticket, reading.from) {
        (Some(ticket), _) => format!("load {ticket}, "),
        (None, Some(FluidPlace::Tank)) => "tank, ".to_owned(),
        (None, Some(FluidPlace::Hole)) => "hole, ".to_owned(),
        (None, None) => String::new(),
    };
    let fails = if reading.outcome == Outcome::Fails { ", fails" } else { "" };
    Behind {
        spot: Spot { place: reading.place.clone(), entry: Some(reading.entry) },
        value: format!(
            "{from}{}: {}{fails}",
            show.stamp(reading.at),
            value(reading.measure, reading.value, show)
        ),
    }
}
