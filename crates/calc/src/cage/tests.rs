//! Cages worked by hand.

use super::*;
use crate::bars::find;

fn bars(places: u32, name: &str, circle_in: f64) -> BarCircle {
    let bar = find(name).expect("a size of the table");
    BarCircle { places, bars_abreast: 1, bar, circle: Length::inches(circle_in) }
}

fn ties(name: &str, pitch_in: f64, circle_in: f64, spiral: bool) -> Ties {
    let bar = find(name).expect("a size of the table");
    Ties { bar, pitch: Length::inches(pitch_in), circle: Length::inches(circle_in), spiral }
}

fn inches(length: Result<Length, CageError>) -> String {
    length.map_or_else(|error| error.to_string(), |length| format!("{:.3}", length.to_inches()))
}

/// 40 sin 15° = 10.353 in, less 1.410; a bundle of two leaves 7.533.
#[test]
fn gap_along_the_circle() {
    assert_eq!(inches(bars(12, "#11", 40.0).clear_gap()), "8.943");
    assert_eq!(inches(BarCircle { bars_abreast: 2, ..bars(12, "#11", 40.0) }.clear_gap()), "7.533");
    assert_eq!(inches(bars(1, "#11", 40.0).clear_gap()), "1 bars on a circle leave no gap to reckon");
    assert_eq!(inches(bars(120, "#11", 40.0).clear_gap()), "the bars would overlap");
    assert_eq!(inches(bars(12, "#11", 0.0).clear_gap()), "a size of the cage is not greater than zero");
}

#[test]
fn gap_between_hoops() {
    assert_eq!(inches(ties("#5", 6.0, 42.0, false).clear_gap()), "5.375");
    assert_eq!(inches(ties("#5", 0.5, 42.0, false).clear_gap()), "the bars would overlap");
}

/// 42 in over the ties, #5 ties and #11 bars: 42 − 2 · 0.625 − 1.41.
#[test]
fn the_circle_of_the_bars_from_the_outside_of_the_cage() {
    let outline = |outside| CageOutline {
        outside: Length::inches(outside),
        tie: Length::inches(0.625),
        bar: Length::inches(1.41),
    };
    assert_eq!(inches(outline(42.0).bar_circle()), "39.340");
    assert_eq!(inches(outline(2.0).bar_circle()), "a size of the cage is not greater than zero");
}

/// Source: 1⅞ in is five times ⅜ in, a figure that is quoted with the rule of five stones.
#[test]
fn five_stones_are_exact() {
    let stones = stones_in_gap(Length::inches(1.875), Length::inches(0.375));
    assert_eq!(stones, Ok(5.0));
    assert_eq!(gap_of_stones(5.0, Length::inches(0.375)), Length::inches(1.875));
}

/// 12 · 1.56 = 18.72 in² over π/4 · 48² = 1809.56 in².
#[test]
fn steel_ratio() {
    let steel = Steel { bars: vec![bars(12, "#11", 40.0)], ties: vec![] };
    assert_eq!(format!("{:.3}", steel.ratio(Length::inches(48.0)).unwrap().to_percent()), "1.035");
}

/// Source: area in in² times feet over 3888 gives yd³: 18.72 · 15 / 3888 = 0.0722.
#[test]
fn steel_takes_room() {
    let steel = Steel { bars: vec![bars(12, "#11", 40.0)], ties: vec![] };
    assert_eq!(format!("{:.4}", steel.volume(Length::feet(15.0)).unwrap().to_cubic_yards()), "0.0722");
}

/// Hoops: 12 in of shaft hold two of π · 42 in, area 0.31 in²: 81.81 in³; the spiral is √(131.95² + 6²) long
/// per turn, 0.1 % more.
#[test]
fn ties_take_room_too() {
    let volume = |spiral| {
        let steel = Steel { bars: vec![], ties: vec![ties("#5", 6.0, 42.0, spiral)] };
        steel.volume(Length::inches(12.0)).unwrap().to_cubic_feet() * 1728.0
    };
    assert_eq!(format!("{:.2}", volume(false)), "81.81");
    assert_eq!(format!("{:.2}", volume(true)), "81.89");
}

/// 12 · 5.313 lb/ft + 2 hoops/ft · π · 3.5 ft · 1.043 lb/ft = 63.756 + 22.937 = 86.693 lb/ft, 129.01 kg/m.
#[test]
fn mass_of_a_metre() {
    let steel = Steel { bars: vec![bars(12, "#11", 40.0)], ties: vec![ties("#5", 6.0, 42.0, false)] };
    assert_eq!(format!("{:.2}", steel.kilograms_per_meter().unwrap()), "129.01");
}

#[test]
fn laps_in_diameters() {
    let bar = find("#8").unwrap();
    assert_eq!(lap_in_diameters(Length::inches(36.0), bar), Ok(36.0));
    assert_eq!(lap_of_diameters(40.0, bar), Length::inches(40.0));
}

#[test]
fn a_cage_that_came_up_with_the_casing() {
    let at = |feet| Elevation(Length::feet(feet));
    let top = CageTop {
        planned: at(100.0),
        set: Some(at(100.1)),
        after_pour: Some(at(100.0)),
        after_casing: Some(at(100.5)),
    };
    let movement = top.movement();
    assert_eq!(movement.set_off_plan, Some(Length::feet(0.1)));
    assert_eq!(movement.during_pour, Some(Length::feet(-0.1)));
    assert_eq!(movement.during_casing, Some(Length::feet(0.5)));
    assert_eq!(movement.final_off_plan, Some(Length::feet(0.5)));
    let unread = CageTop { after_casing: None, after_pour: None, ..top };
    assert_eq!(unread.movement().during_pour, None);
    assert_eq!(unread.movement().final_off_plan, Some(Length::feet(0.1)));
}
