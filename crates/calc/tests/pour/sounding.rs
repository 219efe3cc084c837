//! From readings to a surface, and which level is used for what.

use calc::sounding::{
    Place, Point, Purpose, Reason, Sounding, SoundingError, Surface, Tape, USUAL_CHOICES, check_elevation,
    corrected_depth, level_for, surface,
};
use quantity::{Depth, Elevation, Length};

use super::at;

const TAPE: Tape =
    Tape { zero_correction: Length::ZERO, stretch: 0.0, standard_error: Length::nanometers(30_480_000) };

fn sounding(points: &[(Place, f64)]) -> Sounding {
    let point = |(place, feet): &(Place, f64)| Point {
        place: *place,
        bearing_degrees: None,
        reading: Depth(Length::feet(*feet)),
    };
    Sounding { reference: at(55.0), tape: TAPE, points: points.iter().map(point).collect() }
}

fn surface_of(points: &[(Place, f64)]) -> Surface {
    surface(&sounding(points)).expect("there are points")
}

/// Nothing is lost on the way: each point keeps its place, its direction and its order.
#[test]
fn each_point_keeps_its_place() {
    let mut read = sounding(&[(Place::Center, 40.0), (Place::OutsideCage, 41.0)]);
    read.points[1].bearing_degrees = Some(90.0);
    let levels = surface(&read).expect("there are points").levels;
    let shown: Vec<_> =
        levels.iter().map(|point| (point.place, point.bearing_degrees, point.level)).collect();
    assert_eq!(shown, [(Place::Center, None, at(15.0)), (Place::OutsideCage, Some(90.0), at(14.0))]);
}

#[test]
fn a_sounding_without_points_has_no_surface() {
    assert_eq!(surface(&sounding(&[])), Err(SoundingError::NoPoint));
}

/// A weight of 0.25 ft below the zero mark and a tape stretched by 0.1 %: 40 + 0.04 + 0.25 ft.
#[test]
fn a_tape_is_corrected_for_its_weight_and_its_stretch() {
    let tape = Tape { zero_correction: Length::feet(0.25), stretch: 0.001, ..TAPE };
    assert_eq!(corrected_depth(Depth(Length::feet(40.0)), &tape), Depth(Length::feet(40.29)));
    assert_eq!(corrected_depth(Depth(Length::feet(40.0)), &TAPE), Depth(Length::feet(40.0)));
}

#[track_caller]
fn used(surface: &Surface, purpose: Purpose, feet: f64, reason: Reason) {
    let (level, choice) = level_for(purpose, surface, USUAL_CHOICES).expect("a row for it");
    assert!((level.value.0.to_feet() - feet).abs() < 1e-6, "{} ft", level.value.0.to_feet());
    assert_eq!(choice.reason, reason);
}

/// By hand, levels 55 − depth: centre 15.0, inside 14.8, outside 14.2 and 14.0; mean 14.5, outside 14.1.
#[test]
fn each_purpose_has_its_reading() {
    let found = surface_of(&[
        (Place::Center, 40.0),
        (Place::InsideCage, 40.2),
        (Place::OutsideCage, 40.8),
        (Place::OutsideCage, 41.0),
    ]);
    used(&found, Purpose::Embedment, 14.0, Reason::LeastCoverOfTip);
    used(&found, Purpose::Volume, 14.5, Reason::SameVolume);
    used(&found, Purpose::CasingHead, 14.0, Reason::LeastHeadOverShoe);
    used(&found, Purpose::FinalLevel, 14.1, Reason::CoverFillsLast);
    used(&found, Purpose::HoleDepth, 15.0, Reason::LeastDepth);
    // 14.9 inside less 14.1 outside; two points each, 0.1/√2 each, so 0.1 together.
    let lag = found.inside_above_outside.expect("read on both sides");
    assert_eq!(format!("{:.2} ± {:.2}", lag.value.to_feet(), lag.standard_error.to_feet()), "0.80 ± 0.10");
    assert_eq!(level_for(Purpose::Volume, &found, &[]), None);
}

/// Where nobody read outside the cage, the final level falls back on the lowest point.
#[test]
fn without_a_reading_outside_the_cage_the_lowest_point_stands_in() {
    let found = surface_of(&[(Place::Center, 1.0), (Place::Unstated, 1.5)]);
    assert_eq!((found.outside, found.inside_above_outside), (None, None));
    used(&found, Purpose::FinalLevel, 53.5, Reason::CoverFillsLast);
}

#[track_caller]
fn mean_error(points: &[f64], expected: &str) {
    let points: Vec<_> = points.iter().map(|feet| (Place::Unstated, *feet)).collect();
    assert_eq!(format!("{:.3}", surface_of(&points).mean.standard_error.to_feet()), expected);
}

/// By hand: tape 0.1 ft over √n; of 10, 11, 12 ft the scatter is 1.0 ft, over √3 0.577.
#[test]
fn more_points_make_a_better_mean_unless_the_surface_is_rough() {
    mean_error(&[10.0], "0.100");
    mean_error(&[10.0, 12.0], "0.071");
    mean_error(&[10.0, 10.0, 10.0, 10.0], "0.050");
    mean_error(&[10.0, 11.0, 12.0], "0.577");
}

#[test]
fn half_a_digit_may_explain_a_written_elevation() {
    let check = |written: f64, allowance: f64| {
        let written = Elevation(Length::feet(written));
        check_elevation(at(55.0), Depth(Length::feet(38.74)), written, Length::feet(allowance)).agrees
    };
    assert!(check(16.26, 0.0));
    assert!(!check(16.3, 0.0));
    assert!(check(16.3, 0.05));
    assert!(!check(16.4, 0.05));
}
