//! The instruments of the hole, drawn so that a figure can be read off them: weighted tape, slump cone with its
//! rule, mud balance, sand tube, funnel watch, thermometer, meter.
//!
//! Units: as the marks of each instrument: feet, inches and pounds per cubic foot, or metres, millimetres and
//! grams per cubic centimeter; percent, seconds.
//! Never: print the figure in letters, where the real instrument has a scale.

use super::paint::{Anchor, Paint};
use super::scale::{Lies, Scale};
use quantity::{Entered, Length, Quantity};
use record::Body;
use record::choices::Small;
use record::field::UnitSystem;
use record::kinds::{BottomSounded, ConcreteTest, FluidTest, SedimentMeasured};

/// A drawing somebody reads a figure off.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Instrument {
    /// What it is: `Tape, center`.
    pub label: String,
    /// How it is read.
    pub hint: &'static str,
    /// The drawing.
    pub svg: String,
}

/// Width and height of an upright instrument.
const UPRIGHT: (f64, f64) = (200.0, 320.0);

/// Of two things, the one in the units of the day.
fn pick<T>(system: UnitSystem, us: T, metric: T) -> T {
    if system == UnitSystem::Us { us } else { metric }
}

/// A tape that was let down `depth_m` metres, read where it meets the top of the casing: in feet and tenths, or in
/// metres and centimetres.
pub fn tape(place: &str, depth_m: f64, system: UnitSystem) -> Instrument {
    let (depth, steps, around) =
        pick(system, (depth_m / FOOT, [0.1, 0.5, 1.0], 1.1), (depth_m, [0.01, 0.05, 0.1], 0.33));
    let digits = system == UnitSystem::Us;
    let label = format!("Tape, {}", wording::label::choice(place));
    let mut paint = Paint::new(UPRIGHT.0, UPRIGHT.1);
    let edge = UPRIGHT.1 / 2.0;
    paint.area((0.0, edge), (48.0, UPRIGHT.1 - edge), "casing");
    paint.area((152.0, edge), (48.0, UPRIGHT.1 - edge), "casing");
    paint.area((62.0, 0.0), (82.0, UPRIGHT.1), "earth");
    paint.line((62.0, 0.0), (62.0, UPRIGHT.1), ("ink", 1.5));
    paint.line((144.0, 0.0), (144.0, UPRIGHT.1), ("ink", 1.5));
    let scale = Scale { steps, ends: [depth - around, depth + around], digits };
    let clear = Scale { ends: [scale.ends[0].max(0.0), scale.ends[1]], ..scale };
    let lies = Lies::Up { x: 62.0, top: 0.0, bottom: UPRIGHT.1 };
    let zero = scale.along(clear.ends[0], lies);
    clear.draw(&mut paint, Lies::Up { x: 62.0, top: 0.0, bottom: zero });
    paint.pointer((0.0, edge), (UPRIGHT.0, edge));
    paint.text((197.0, edge - 6.0), (12.0, true), Anchor::End, "casing");
    Instrument {
        svg: paint.svg(&label),
        label,
        hint: pick(
            system,
            "In feet and tenths, where the tape meets the top of the casing.",
            "In meters, where the tape meets the top of the casing.",
        ),
    }
}

/// The instruments of a sample, in the order they are written down; empty for what is no sample.
pub fn instruments(body: &Body, system: UnitSystem) -> Vec<Instrument> {
    match body {
        Body::ConcreteTest(test) => of_concrete(test, system),
        Body::FluidTest(test) => of_fluid(test, system),
        Body::BottomSounded(sounded) => of_bottom(sounded, system),
        Body::SedimentMeasured(measured) => of_sediment(measured, system),
        _ => Vec::new(),
    }
}

fn of_concrete(test: &ConcreteTest, system: UnitSystem) -> Vec<Instrument> {
    let slump = test.slump.as_ref().map(|slump| slump_cone(inches(slump), system));
    slump.into_iter().chain(test.temperature.as_ref().and_then(|warm| thermometer(warm, system))).collect()
}

fn of_fluid(test: &FluidTest, system: UnitSystem) -> Vec<Instrument> {
    let all = [
        test.density.as_ref().and_then(|density| balance(density, system)),
        test.viscosity.as_ref().and_then(|time| watch(time, system)),
        test.sand.as_ref().and_then(|sand| sand_tube(sand, system)),
        test.ph.as_ref().and_then(meter),
        test.temperature.as_ref().and_then(|warm| thermometer(warm, system)),
    ];
    all.into_iter().flatten().collect()
}

fn of_bottom(sounded: &BottomSounded, system: UnitSystem) -> Vec<Instrument> {
    let place = |place: Option<record::choices::Place>| place.map_or("center", record::choices::Place::word);
    sounded
        .points
        .iter()
        .map(|point| tape(place(point.place), point.depth.value().to_meters(), system))
        .collect()
}

/// One foot in metres, one inch in millimetres.
const FOOT: f64 = 0.3048;
const INCH_MM: f64 = 25.4;

fn of_sediment(measured: &SedimentMeasured, system: UnitSystem) -> Vec<Instrument> {
    let place = |place: Option<record::choices::Place>| place.map_or("center", record::choices::Place::word);
    measured
        .points
        .iter()
        .map(|point| sediment(place(point.place), inches(&point.thickness), system))
        .collect()
}

fn inches(small: &Small) -> f64 {
    let length: Length = small.value();
    length.to_inches()
}

/// The number a typed text begins with.
fn number<Q: Quantity>(entered: &Entered<Q>) -> Option<f64> {
    entered.typed().split_whitespace().next()?.parse().ok()
}

/// The slumped concrete beside its cone; the rule measures from the top of the cone down.
fn slump_cone(slump_in: f64, system: UnitSystem) -> Instrument {
    let label = "Slump".to_owned();
    let mut paint = Paint::new(300.0, UPRIGHT.1);
    let (top, bottom) = (24.0, 300.0);
    let lies = Lies::Down { x: 214.0, top, bottom };
    let (steps, most, slump) =
        pick(system, ([0.25, 0.5, 1.0], 12.0, slump_in), ([10.0, 50.0, 100.0], 300.0, slump_in * INCH_MM));
    let scale = Scale { steps, ends: [0.0, most], digits: false };
    let level = scale.along(slump, lies);
    let spread = 44.0 + slump_in * 5.0;
    paint.way(&[(64.0, bottom), (90.0, top), (130.0, top), (156.0, bottom)], ("soft", 1.2, "5 4"));
    let mound = [
        (110.0 - spread, bottom),
        (110.0 - spread * 0.8, bottom - (bottom - level) * 0.45),
        (92.0, level),
        (128.0, level),
        (110.0 + spread * 0.8, bottom - (bottom - level) * 0.45),
        (110.0 + spread, bottom),
    ];
    paint.shape(&mound, ("concrete", "concrete-ink"));
    paint.line((4.0, bottom), (296.0, bottom), ("ink", 3.0));
    paint.area((214.0, top), (72.0, bottom - top), "earth");
    paint.frame((214.0, top), (72.0, bottom - top));
    paint.line((120.0, top), (214.0, top), ("steel", 3.0));
    scale.draw(&mut paint, lies);
    paint.pointer((92.0, level), (232.0, level));
    paint.text((250.0, 17.0), (12.0, true), Anchor::Middle, pick(system, "inches", "mm"));
    Instrument {
        svg: paint.svg(&label),
        label,
        hint: pick(
            system,
            "From the top of the cone down to the concrete, to the quarter inch.",
            "From the top of the cone down to the concrete, to ten millimeters.",
        ),
    }
}

/// The beam of a mud balance with its rider.
fn balance(density: &Entered<quantity::Density>, system: UnitSystem) -> Option<Instrument> {
    let value = number(density)?;
    let label = "Mud balance".to_owned();
    let mut paint = Paint::new(340.0, 150.0);
    let lies = Lies::Right { y: 70.0, left: 20.0, right: 320.0 };
    // A tenth of a gram has about the room on the beam that a pound has on the other.
    let (steps, around) = pick(system, ([0.1, 0.5, 1.0], 1.5), ([0.01, 0.05, 0.1], 0.15));
    let middle = (value / steps[2]).round() * steps[2];
    let scale = Scale { steps, ends: [middle - around, middle + around], digits: false };
    let at = scale.along(value, lies);
    paint.area((0.0, 62.0), (340.0, 62.0), "earth");
    paint.line((0.0, 62.0), (340.0, 62.0), ("ink", 1.5));
    paint.line((0.0, 124.0), (340.0, 124.0), ("ink", 1.5));
    scale.draw(&mut paint, lies);
    paint.shape(
        &[(at - 22.0, 20.0), (at + 22.0, 20.0), (at + 22.0, 50.0), (at, 66.0), (at - 22.0, 50.0)],
        ("casing", "ink"),
    );
    paint.pointer((at, 52.0), (at, 84.0));
    paint.text((334.0, 142.0), (12.0, true), Anchor::End, pick(system, "lb/ft³", "g/cm³"));
    Some(Instrument {
        svg: paint.svg(&label),
        label,
        hint: pick(
            system,
            "In pounds per cubic foot, under the point of the rider.",
            "In grams per cubic centimetre, under the point of the rider.",
        ),
    })
}

/// The funnel's watch.
fn watch(time: &Entered<quantity::FunnelTime>, system: UnitSystem) -> Option<Instrument> {
    let seconds = number(time)?;
    let (minutes, rest) = ((seconds / 60.0) as i64, seconds % 60.0);
    let label = pick(system, "Funnel, time for a quart", "Funnel, time for 946 mL");
    Some(display(label, &format!("{minutes}:{rest:02.0}"), "minutes and seconds"))
}

fn meter(ph: &Entered<quantity::Ph>) -> Option<Instrument> {
    Some(display("pH meter", &format!("{:.1}", number(ph)?), "pH"))
}

/// A window with digits, as the real one has.
fn display(label: &str, digits: &str, below: &str) -> Instrument {
    let mut paint = Paint::new(200.0, 120.0);
    paint.area((20.0, 14.0), (160.0, 66.0), "band");
    paint.frame((20.0, 14.0), (160.0, 66.0));
    paint.text((100.0, 62.0), (38.0, true), Anchor::Middle, digits);
    paint.text((100.0, 102.0), (13.0, false), Anchor::Middle, below);
    Instrument { svg: paint.svg(label), label: label.to_owned(), hint: "As the window shows it." }
}

/// The glass tube in which the washed sand settles.
fn sand_tube(sand: &Entered<quantity::Fraction>, system: UnitSystem) -> Option<Instrument> {
    let percent = number(sand)?;
    let scale = Scale { steps: [0.1, 0.5, 1.0], ends: [0.0, pick(system, 5.0, 8.0)], digits: false };
    let told = ("Sand tube", "At the top of the sand, in percent.");
    Some(column(told, percent, (&scale, "percent"), "earth-ink"))
}

fn thermometer(temperature: &Entered<quantity::Temperature>, system: UnitSystem) -> Option<Instrument> {
    let degrees = number(temperature)?;
    let middle = (degrees / 10.0).round() * 10.0;
    let scale = Scale { steps: [1.0, 5.0, 10.0], ends: [middle - 15.0, middle + 15.0], digits: false };
    let hints =
        ["At the top of the column, in degrees Fahrenheit.", "At the top of the column, in degrees Celsius."];
    let told = ("Thermometer", pick(system, hints[0], hints[1]));
    Some(column(told, degrees, (&scale, pick(system, "°F", "°C")), "bad"))
}

fn sediment(place: &str, thickness_in: f64, system: UnitSystem) -> Instrument {
    let (steps, most, thickness) = pick(
        system,
        ([0.125, 0.5, 1.0], 4.0, thickness_in),
        ([5.0, 10.0, 20.0], 100.0, thickness_in * INCH_MM),
    );
    let scale = Scale { steps, ends: [0.0, most], digits: false };
    let label = format!("Sediment, {}", wording::label::choice(place));
    let hint = pick(
        system,
        "From the hard bottom to the top of the sediment, to the eighth.",
        "From the hard bottom to the top of the sediment, to five millimeters.",
    );
    column((&label, hint), thickness, (&scale, pick(system, "inches", "mm")), "earth-ink")
}

/// A column that stands beside a scale, read at its top.
fn column(
    (label, hint): (&str, &'static str),
    value: f64,
    (scale, unit): (&Scale, &str),
    color: &str,
) -> Instrument {
    let mut paint = Paint::new(UPRIGHT.0, UPRIGHT.1);
    let (top, bottom) = (26.0, 306.0);
    let lies = Lies::Up { x: 104.0, top, bottom };
    let at = scale.along(value, lies);
    paint.area((60.0, at), (38.0, bottom - at), color);
    paint.line((60.0, top), (60.0, bottom), ("ink", 1.5));
    paint.line((98.0, top), (98.0, bottom), ("ink", 1.5));
    paint.line((60.0, bottom), (98.0, bottom), ("ink", 2.5));
    scale.draw(&mut paint, lies);
    paint.pointer((60.0, at), (124.0, at));
    paint.text((104.0, 16.0), (12.0, true), Anchor::Middle, unit);
    Instrument { svg: paint.svg(label), label: label.to_owned(), hint }
}
