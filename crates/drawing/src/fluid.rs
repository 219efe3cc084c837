//! Fluid tests against their limits.

use crate::view::View;
use figure::{FluidPanel, FluidPoint, FluidTests, Mark, Scale, Size, fluid_tests_svg};
use quantity::{Moment, units};
use record::choices::FluidPlace;
use record::kinds::{FluidIntroduced, FluidTest};
use record::{EntryId, Line};

pub(crate) fn has_content(view: &View<'_, '_>) -> bool {
    view.log.last::<FluidTest>().is_some()
}

pub(crate) fn draw(view: &View<'_, '_>, size: Size) -> String {
    fluid_tests_svg(&tests(view), size)
}

/// A property: its word in the names of facts, its title, how a test holds it.
type Property = (&'static str, &'static str, fn(&FluidTest) -> Option<f64>);

const PROPERTIES: [Property; 4] = [
    ("density", "Density", |test| test.density.as_ref().map(|v| v.value().to_kilograms_per_cubic_meter())),
    ("viscosity", "Marsh time", |test| test.viscosity.as_ref().map(|value| value.value().to_seconds())),
    ("ph", "pH", |test| test.ph.as_ref().map(|value| value.value().to_units())),
    ("sand", "Sand", |test| test.sand.as_ref().map(|value| value.value().to_part())),
];

fn tests(view: &View<'_, '_>) -> FluidTests {
    let product = view.log.last::<FluidIntroduced>().map(|(_, fluid)| fluid.product.clone());
    FluidTests {
        title: view.title("fluid tests"),
        subtitle: product.unwrap_or_default(),
        panels: PROPERTIES.iter().map(|property| panel(view, property)).collect(),
        blanks: Vec::new(),
        words: figure::Words::default(),
    }
}

fn panel(view: &View<'_, '_>, property: &Property) -> FluidPanel {
    let (word, title, value) = *property;
    let (low, high) = view.limits(|fact| fact == format!("fluid.{word}.before_concrete"));
    let points = view.log.each::<FluidTest>().enumerate();
    FluidPanel {
        title: title.to_owned(),
        scale: scale(view, word),
        low,
        high,
        accuracy: (word == "density").then_some(10.0),
        points: points.map(|(i, (line, test))| point(view, (i, word), line, (test, value(test)))).collect(),
    }
}

/// The Marsh time is drawn in the volume of the first test; tests of the other volume are left as blanks.
fn scale(view: &View<'_, '_>, word: &str) -> Scale {
    match word {
        "density" => view.scales().density,
        "viscosity" => Scale::of(basis(view).unwrap_or(&units::SECOND_PER_QUART), 0),
        "sand" => Scale::of(&units::PERCENT, 1),
        _ => Scale::of(&units::PH, 1),
    }
}

fn basis(view: &View<'_, '_>) -> Option<&'static quantity::Unit> {
    view.log.each::<FluidTest>().find_map(|(_, test)| Some(test.viscosity.as_ref()?.value().basis()))
}

fn point(
    view: &View<'_, '_>,
    which: (usize, &str),
    line: &Line<'_>,
    read: (&FluidTest, Option<f64>),
) -> FluidPoint {
    let (index, word) = which;
    let (test, value) = read;
    let other = word == "viscosity"
        && test.viscosity.as_ref().is_some_and(|time| Some(time.value().basis()) != basis(view));
    let place = match test.place {
        FluidPlace::Tank => "tank",
        FluidPlace::Hole => "hole",
    };
    let (at, entry): (Moment, EntryId) = (line.at, line.entry.id);
    let mark = view.mark_on(entry, |fact| fact.starts_with(&format!("fluid.{word}.")));
    let mark = if other { Mark::Doubtful } else { mark };
    FluidPoint { at, value: value.filter(|_| !other), mark, label: format!("F{} {place}", index + 1) }
}
