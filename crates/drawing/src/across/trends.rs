//! Fluid tests and fresh concrete of all shafts, shaft beside shaft in the order of time.

use super::AcrossView;
use assess::Outcome;
use assess::across::{Measure, Place, Reading, ReadingLimit, Spot};
use figure::{Mark, Origin, Scale, TrendColumn, TrendLimit, TrendPanel, TrendPoint, TrendSheet};
use quantity::{InOrder, units};
use record::choices::FluidPlace;

/// Density, Marsh time, pH and sand; `None` where no fluid was tested.
pub fn fluid(view: &AcrossView<'_>) -> Option<TrendSheet> {
    let measures =
        [Measure::FluidDensity, Measure::FunnelQuart, Measure::FunnelLiter, Measure::Ph, Measure::Sand];
    sheet(view, "Fluid tests, shaft by shaft", &measures)
}

/// Slump and spread of the loads; `None` where none was tested.
pub fn fresh(view: &AcrossView<'_>) -> Option<TrendSheet> {
    sheet(view, "Slump and spread, load by load", &[Measure::Slump, Measure::Spread])
}

fn sheet(view: &AcrossView<'_>, title: &str, measures: &[Measure]) -> Option<TrendSheet> {
    let mut readings: Vec<&Reading> =
        view.across.readings.iter().filter(|reading| measures.contains(&reading.measure)).collect();
    readings.put_in_order_by_key(|reading| reading.at);
    let (first, last) = (readings.first()?, readings.last()?);
    let mut places: Vec<&Place> = Vec::new();
    let mut columns = Vec::new();
    for reading in &readings {
        if !places.contains(&&reading.place) {
            places.push(&reading.place);
            columns.push(column(view, reading));
        }
    }
    let panels = measures.iter().filter_map(|measure| panel(view, *measure, &readings, &places));
    Some(TrendSheet {
        title: title.to_owned(),
        subtitle: match (first.at.date(), last.at.date()) {
            (from, to) if from == to => from,
            (from, to) => format!("{from} to {to}; each column a shaft"),
        },
        panels: panels.collect(),
        columns,
        ..TrendSheet::default()
    })
}

fn column(view: &AcrossView<'_>, first: &Reading) -> TrendColumn {
    TrendColumn { name: view.name(&first.place), day: first.at.day(), lead: view.lead_to_shaft(&first.place) }
}

fn panel(
    view: &AcrossView<'_>,
    measure: Measure,
    readings: &[&Reading],
    places: &[&Place],
) -> Option<TrendPanel> {
    let (title, scale) = face(view, measure);
    let own = readings.iter().filter(|reading| reading.measure == measure);
    let points: Vec<TrendPoint> = own.filter_map(|reading| point(view, reading, &scale, places)).collect();
    (!points.is_empty()).then(|| TrendPanel {
        title: title.to_owned(),
        scale,
        limits: limits(view, measure, places),
        points,
    })
}

/// Title and unit of a measure.
fn face(view: &AcrossView<'_>, measure: Measure) -> (&'static str, Scale) {
    match measure {
        Measure::FluidDensity => ("Density", view.scales.density),
        Measure::FunnelQuart => ("Marsh time", Scale::of(&units::SECOND_PER_QUART, 0)),
        Measure::FunnelLiter => ("Marsh time", Scale::of(&units::SECOND_PER_LITER, 0)),
        Measure::Ph => ("pH", Scale::of(&units::PH, 1)),
        Measure::Sand => ("Sand", Scale::of(&units::PERCENT, 1)),
        Measure::Slump => ("Slump", view.scales.small),
        Measure::Spread => ("Spread", view.scales.small),
    }
}

fn point(view: &AcrossView<'_>, reading: &Reading, scale: &Scale, places: &[&Place]) -> Option<TrendPoint> {
    let spot = Spot { place: reading.place.clone(), entry: Some(reading.entry) };
    let says = || {
        let taken = match (&reading.ticket, reading.from) {
            (Some(ticket), _) => format!("load {ticket}, "),
            (None, Some(FluidPlace::Tank)) => "tank, ".to_owned(),
            (None, Some(FluidPlace::Hole)) => "hole, ".to_owned(),
            (None, None) => String::new(),
        };
        let when = format!("{} {}", reading.at.day(), reading.at.clock());
        format!("{}, {taken}{when}: {}", view.name(&reading.place), scale.label(reading.value))
    };
    Some(TrendPoint {
        column: places.iter().position(|place| **place == reading.place)?,
        value: reading.value,
        mark: mark(reading.outcome),
        origin: match reading.from {
            Some(FluidPlace::Tank) => Origin::Tank,
            Some(FluidPlace::Hole) => Origin::Hole,
            None => Origin::Plain,
        },
        lead: view.lead(&spot, says),
    })
}

fn mark(outcome: Outcome) -> Mark {
    match outcome {
        Outcome::Fails => Mark::Fails,
        Outcome::CannotSay => Mark::Doubtful,
        Outcome::NotMeasured => Mark::NotMeasured,
        Outcome::Meets => Mark::Meets,
        Outcome::NoLimitSet => Mark::NoLimit,
    }
}

/// Limits of one value are one line, with all the stages it holds at, over the shafts it was of.
fn limits(view: &AcrossView<'_>, measure: Measure, places: &[&Place]) -> Vec<TrendLimit> {
    let mut lines: Vec<TrendLimit> = Vec::new();
    for limit in view.across.limits.iter().filter(|limit| limit.measure == measure) {
        let same =
            |line: &&mut TrendLimit| line.least == limit.least && line.value.total_cmp(&limit.value).is_eq();
        let words = stage(limit);
        let of = limit.places.iter().filter_map(|place| places.iter().position(|known| *known == place));
        match lines.iter_mut().find(same) {
            Some(line) => {
                line.columns.extend(of);
                if !line.words.contains(words) {
                    line.words = format!("{}, {words}", line.words);
                }
            }
            None => lines.push(TrendLimit {
                value: limit.value,
                least: limit.least,
                words: words.to_owned(),
                columns: of.collect(),
            }),
        }
    }
    for line in lines.iter_mut().filter(|line| STAGES.iter().all(|stage| line.words.contains(stage))) {
        line.words = "throughout".to_owned();
    }
    lines
}

/// When a limit of the fluid holds.
const STAGES: [&str; 3] = ["when put in", "while drilling", "before concrete"];

/// When a limit holds, by the last word of its fact.
fn stage(limit: &ReadingLimit) -> &'static str {
    match limit.fact.name.rsplit('.').next() {
        Some("introduced") => STAGES[0],
        Some("drilling") => STAGES[1],
        Some("before_concrete") => STAGES[2],
        _ => "when placed",
    }
}
