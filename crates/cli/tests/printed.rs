//! Two printed pours from field notes to figures, held against the source and against figures by hand.
//!
//! Source: U.S. Department of Transportation, Federal Highway Administration, Transportation Curriculum
//! Coordination Council, "Drilled Shaft Inspector Tutorial", chapter 9. Printed there: diameter 42 in, reference
//! 55.0 ft and 58.0 ft, depths, yards of each truck, theoretical volume 26.72 yd³ (cut, not rounded), cumulative
//! 9, 18, 27, 33 yd³ and 9, 18, 27, 31 yd³, and two elevations that do not follow from their depths.

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;

use desk::{Desk, demo};
use serde_json::Value;

const CUBIC_YARD: f64 = 0.764_554_857_984;
const FOOT: f64 = 0.3048;

fn assessed(shaft: &str) -> Value {
    let desk = Desk::new();
    let notes = demo("printed/printed-pours.toml").display().to_string();
    desk.run(&["enter", &notes, "--job", "j"]).ends(0);
    desk.says("export figures --out figures --job j").ends(0);
    let exported: Value = serde_json::from_str(&desk.read(&format!("figures/{shaft}.json"))).expect("JSON");
    let checked = desk.run(&["check", shaft, "--json", "--job", "j"]).ends(0).json();
    assert_eq!(exported, checked, "both ways out say the same");
    checked
}

/// A column of the curve, in the unit of the source.
fn column(assessed: &Value, member: &str, unit: f64) -> Vec<f64> {
    let curve = assessed["figures"]["curve"].as_array().expect("a curve");
    curve.iter().map(|interval| interval[member].as_f64().expect("a number") / unit).collect()
}

#[track_caller]
fn near(found: &[f64], expected: &[f64], tolerance: f64) {
    assert_eq!(found.len(), expected.len());
    for (found, expected) in found.iter().zip(expected) {
        assert!((found - expected).abs() <= tolerance, "{found} is not {expected}");
    }
}

/// By hand: 42 in = 3.5 ft; π · 3.5² / 4 = 9.621127502 ft²; · 75 ft = 721.58456 ft³; / 27 = 26.725354 yd³, of
/// which the source prints 26.72.
#[test]
fn the_theoretical_volume_is_the_printed_one() {
    let shaft = assessed("A");
    let theoretical = column(&shaft, "cumulative_theoretical_m3", CUBIC_YARD)[3];
    near(&[theoretical], &[26.725_354], 1e-5);
    assert_eq!((theoretical * 100.0).floor() / 100.0, 26.72);
    let planned = shaft["figures"]["hole"]["planned_volume_m3"].as_f64().expect("a number") / CUBIC_YARD;
    near(&[planned], &[26.725_354], 1e-5);
}

/// Depths are exact tenths; the elevations that follow are 6.3 and 29.0 where 5.8 and 28.7 are printed.
#[test]
fn the_levels_follow_from_the_depths() {
    near(&column(&assessed("A"), "upper_m", FOOT), &[6.3, 16.3, 29.0, 55.0], 1e-9);
    near(&column(&assessed("B"), "upper_m", FOOT), &[6.8, 18.8, 36.0, 58.0], 1e-9);
}

#[test]
fn the_cumulative_volumes_are_the_printed_ones() {
    near(&column(&assessed("A"), "cumulative_placed_m3", CUBIC_YARD), &[9.0, 18.0, 27.0, 33.0], 1e-9);
    near(&column(&assessed("B"), "cumulative_placed_m3", CUBIC_YARD), &[9.0, 18.0, 27.0, 31.0], 1e-9);
}

/// By hand, with 0.356338056 yd³ a foot: rises of 26.3, 10.0, 12.7 and 26.0 ft take 9.371691, 3.563381, 4.525493
/// and 9.264789 yd³; 9, 9, 9 and 6 yd³ over them are 0.960339, 2.525692, 1.988734, 0.647613; 33 / 26.725354 is
/// 1.234782.
#[test]
fn the_ratios_are_those_by_hand() {
    let shaft = assessed("A");
    near(&column(&shaft, "rise_m", FOOT), &[26.3, 10.0, 12.7, 26.0], 1e-9);
    near(&column(&shaft, "ratio", 1.0), &[0.960_339, 2.525_692, 1.988_734, 0.647_613], 2e-6);
    near(&column(&shaft, "cumulative_ratio", 1.0)[3..], &[1.234_782], 2e-6);
}

/// Two printed elevations do not follow from their depths, and no other reading is asked about.
#[test]
fn exactly_the_two_wrong_elevations_are_asked_about() {
    let shaft = assessed("A");
    let questions = shaft["questions"].as_array().expect("a list");
    let words: Vec<&str> = questions.iter().filter_map(|question| question["question"].as_str()).collect();
    assert_eq!(words, ["elevation_disagrees", "elevation_disagrees"]);
    assert_eq!(assessed("B")["questions"], Value::Array(Vec::new()));

    let desk = Desk::new();
    let notes = demo("printed/printed-pours.toml").display().to_string();
    desk.run(&["enter", &notes, "--job", "j"]).ends(0);
    let told = desk.says("check A --job j").ends(0);
    told.says("The elevation written is +5.8 ft; from the reference and the depth follows +6.3 ft.")
        .says("The elevation written is +28.7 ft; from the reference and the depth follows +29.0 ft.");
}
