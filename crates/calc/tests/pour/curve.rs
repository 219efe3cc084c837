//! The volume curve where readings are doubtful, where casings move, and where errors are shared.

use calc::curve::{
    Issue, LoadError, PlannedInterval, Pour, Station, VolumeCurve, balance, noise, volume_curve,
};
use calc::estimate::{Estimate, Level};
use calc::geometry::{Bore, Casing, Steel};
use calc::order::{still_to_order, theoretical_remaining};
use proptest::prelude::*;
use quantity::{Area, Fraction, Length, Volume};

use super::{at, cylinder, yards};

const NO_ERROR: LoadError = LoadError { each: 0.0, shared: 0.0 };

/// `[load, depth in feet, held in lines]` for each station of one hole.
fn pour<'a>(bore: &'a Bore, stations: &[[f64; 3]]) -> Pour<'a> {
    let station = |&[load, depth, held]: &[f64; 3]| Station {
        level: Estimate::new(at(-depth), Length::feet(0.1)),
        loads: vec![yards(load)],
        wasted: yards(0.0),
        held: yards(held),
        bore,
    };
    Pour {
        base: Estimate::new(bore.bottom(), Length::feet(0.1)),
        bore,
        stations: stations.iter().map(station).collect(),
        load_error: LoadError { each: 0.02, shared: 0.0 },
        least_rise: Length::feet(3.0),
    }
}

fn ratios(curve: &VolumeCurve) -> Vec<String> {
    let ratio =
        |ratio: Option<Estimate<f64>>| ratio.map_or("none".to_owned(), |ratio| format!("{:.3}", ratio.value));
    curve.intervals.iter().map(|interval| ratio(interval.ratio)).collect()
}

#[track_caller]
fn issues(stations: &[[f64; 3]], expected: &[Issue]) {
    let shaft = cylinder(48.0, 60.0);
    assert_eq!(volume_curve(&pour(&shaft, stations)).1, expected);
}

/// 9 yd³ fill 9 · 27 / (π · 2²) = 19.3 ft of a 4 ft shaft; the tape says 2 ft, and then that it did not rise at all.
#[test]
fn a_surface_that_hardly_rose_is_no_short_interval() {
    let shaft = cylinder(48.0, 60.0);
    for (depth, rose) in [(40.6, 2.0), (42.6, 0.0)] {
        let (_, found) = volume_curve(&pour(&shaft, &[[9.0, 42.6, 0.0], [9.0, depth, 0.0]]));
        let [Issue::HardlyRose { at: 1, rise, fills }] = found[..] else { panic!("{found:?}") };
        assert_eq!(rise, Length::feet(rose));
        assert!((fills.to_feet() - 19.34).abs() < 0.01, "{}", fills.to_feet());
    }
}

#[test]
fn a_doubtful_station_is_named_and_kept() {
    issues(&[[9.0, 42.6, 0.0], [9.0, 24.9, 0.0]], &[]);
    issues(&[[9.0, 42.6, 0.0], [0.0, 43.1, 0.0]], &[Issue::SurfaceFell { at: 1, by: Length::feet(0.5) }]);
    issues(&[[9.0, 42.6, 0.0], [1.0, 40.6, 0.0]], &[Issue::TinyInterval { at: 1, rise: Length::feet(2.0) }]);
    issues(&[[9.0, 42.6, 0.0], [0.0, 42.6, 0.0]], &[Issue::TinyInterval { at: 1, rise: Length::ZERO }]);
    issues(
        &[[9.0, 61.0, 0.0]],
        &[
            Issue::SurfaceFell { at: 0, by: Length::feet(1.0) },
            Issue::OutsideBore { at: 0, level: at(-61.0) },
        ],
    );
    issues(&[[9.0, 42.6, 0.0], [9.0, -0.5, 0.0]], &[Issue::OutsideBore { at: 1, level: at(0.5) }]);
}

/// More taken into the lines than was delivered makes the running total go down.
#[test]
fn a_running_total_that_falls_is_named() {
    let shaft = cylinder(48.0, 60.0);
    let (curve, found) = volume_curve(&pour(&shaft, &[[9.0, 42.6, 0.0], [0.5, 38.0, 1.0]]));
    let [Issue::TotalFell { at: 1, by }] = found[..] else { panic!("{found:?}") };
    assert!((by.to_cubic_yards() - 0.5).abs() < 1e-9);
    assert_eq!(curve.intervals[1].diameter, None, "nothing placed has no diameter");
}

/// A station without a place in the hole has no ratio, nor has the interval after it; the rest has.
#[test]
fn a_level_outside_the_hole_costs_only_its_own_intervals() {
    let shaft = cylinder(48.0, 60.0);
    let stations = [[9.0, 42.6, 0.0], [9.0, 62.0, 0.0], [9.0, 7.9, 0.0], [4.0, 0.0, 0.0]];
    let (curve, _) = volume_curve(&pour(&shaft, &stations));
    assert_eq!(ratios(&curve), ["1.111", "none", "none", "1.088"]);
    assert_eq!(curve.intervals[1].cumulative.theoretical, None);
    // 31 / 27.925 by hand: the whole pour does not need the station between.
    assert_eq!(format!("{:.3}", curve.intervals[3].cumulative.ratio.expect("a ratio").value), "1.110");
}

/// By hand: 1 yd³ held at the first station is placed before the second: 8/8.098 and 10/8.238.
#[test]
fn what_stands_in_the_lines_counts_once_it_has_left_them() {
    let shaft = cylinder(48.0, 60.0);
    let (curve, _) = volume_curve(&pour(&shaft, &[[9.0, 42.6, 1.0], [9.0, 24.9, 0.0]]));
    assert_eq!(ratios(&curve), ["0.988", "1.214"]);
    assert_eq!(format!("{:.3}", curve.intervals[1].cumulative.ratio.expect("a ratio").value), "1.102");
}

/// A casing of 47 in inside pulled from 25 to 10 ft out of a hole of 50 in, nothing added: the surface
/// drops by what the annulus takes (cases/casing-withdrawal.toml: 1.00 to 2.98 ft at a shoe of 10 ft),
/// so nothing is missing and the curve must not call it a loss.
#[test]
fn a_surface_that_falls_because_a_casing_moved_is_no_loss() {
    let hole = cylinder(50.0, 25.0);
    let casing = Casing {
        inside_diameter: Length::inches(47.0),
        outside_diameter: Length::inches(48.0),
        top: at(0.0),
        shoe: at(-25.0),
    };
    let before = hole.with_standing(&[casing]).expect("it stands");
    let after = hole.with_standing(&[casing.lifted(Length::feet(15.0))]).expect("it stands higher");
    let mut pour = pour(&before, &[[11.0, 1.0, 0.0], [0.0, 1.0 + 15.0 * (2500.0 - 2209.0) / 2209.0, 0.0]]);
    pour.stations[1].bore = &after;
    let (curve, found) = volume_curve(&pour);
    assert_eq!(found, []);
    let theoretical = curve.intervals[1].theoretical.expect("levels in the hole");
    assert!(theoretical.value.to_cubic_yards().abs() < 1e-6, "{theoretical:?}");
    assert_eq!(curve.intervals[1].diameter, None, "a casing moved");
}

/// A casing that moved while a load went in leaves a ratio and no diameter: half of the interval was
/// filled inside, half outside.
#[test]
fn a_load_during_a_lift_has_no_diameter() {
    let hole = cylinder(50.0, 25.0);
    let casing = Casing {
        inside_diameter: Length::inches(47.0),
        outside_diameter: Length::inches(48.0),
        top: at(0.0),
        shoe: at(-25.0),
    };
    let before = hole.with_standing(&[casing]).expect("it stands");
    let mut pour = pour(&before, &[[4.0, 16.0, 0.0], [4.0, 8.0, 0.0]]);
    pour.stations[1].bore = &hole;
    let (curve, _) = volume_curve(&pour);
    assert!(curve.intervals[0].diameter.is_some());
    assert!(curve.intervals[1].ratio.is_some() && curve.intervals[1].diameter.is_none());
}

/// By hand: 9 yd³ less half a yard wasted in 8.098 is 1.050.
#[test]
fn waste_never_reached_the_hole() {
    let shaft = cylinder(48.0, 60.0);
    let mut pour = pour(&shaft, &[[9.0, 42.6, 0.0]]);
    pour.stations[0].wasted = yards(0.5);
    assert_eq!(ratios(&volume_curve(&pour).0), ["1.050"]);
}

/// A surface that did not rise has nothing to divide by; one that rose just enough is not tiny.
#[test]
fn a_rise_of_nothing_has_no_ratio() {
    let shaft = cylinder(48.0, 60.0);
    let (curve, _) = volume_curve(&pour(&shaft, &[[9.0, 42.6, 0.0], [9.0, 42.6, 0.0]]));
    assert_eq!(ratios(&curve), ["1.111", "none"]);
    issues(&[[9.0, 42.6, 0.0], [1.4, 39.6, 0.0]], &[]);
}

/// Steel counts twice over: less theoretical volume, and added back for the diameter. By hand: a hole of
/// 48 in with 90 in² of steel along 60 ft takes 27.925 − 90·60/3888 = 26.536 yd³; placing that exactly
/// gives ratio 1 and 48 in.
#[test]
fn steel_is_added_back_before_a_diameter_is_told() {
    let bars = Steel { area: Area::square_inches(90.0), top: at(0.0), bottom: at(-60.0) };
    let shaft = cylinder(48.0, 60.0).with_steel(vec![bars]).expect("room");
    let (curve, _) = volume_curve(&pour(&shaft, &[[26.5364, 0.0, 0.0]]));
    let interval = &curve.intervals[0];
    assert_eq!(format!("{:.4}", interval.ratio.expect("a ratio").value), "1.0000");
    assert_eq!(format!("{:.2}", interval.diameter.expect("a diameter").value.to_inches()), "48.00");
    assert!(interval.departure.is_none(), "there is nothing else to hold it against");
}

/// The cumulative ratio hides a neck that the departure shows: 1.2, 1.2, 0.8, 1.2 is 1.1 in the end.
/// Each interval is 15 ft of 48 in, 6.981 yd³; loads by hand. The others stand at exactly 1.2.
#[test]
fn a_neck_shows_against_the_rest_of_its_own_shaft() {
    let shaft = cylinder(48.0, 60.0);
    let load = |ratio: f64| ratio * std::f64::consts::PI / 4.0 * 16.0 * 15.0 / 27.0;
    let stations =
        [[load(1.2), 45.0, 0.0], [load(1.2), 30.0, 0.0], [load(0.8), 15.0, 0.0], [load(1.2), 0.0, 0.0]];
    let (curve, _) = volume_curve(&pour(&shaft, &stations));
    let neck = curve.intervals[2].departure.expect("three others");
    assert!((neck.others.value - 1.2).abs() < 1e-9 && (neck.difference.value + 0.4).abs() < 1e-9);
    let z = neck.z.expect("errors are known");
    assert!(z < -10.0, "{z}");
    let total = curve.intervals[3].cumulative.ratio.expect("a ratio");
    assert!((total.value - 1.1).abs() < 1e-9);
}

/// Readings taken as known have no z: a division by nothing is not an alarm.
#[test]
fn without_errors_there_is_no_z() {
    let shaft = cylinder(48.0, 60.0);
    let mut pour = pour(&shaft, &[[9.0, 42.6, 0.0], [9.0, 24.9, 0.0]]);
    pour.load_error = NO_ERROR;
    pour.base = Level::known(pour.base.value);
    pour.stations.iter_mut().for_each(|station| station.level = Level::known(station.level.value));
    let (curve, _) = volume_curve(&pour);
    assert_eq!(curve.intervals[0].departure.expect("another interval").z, None);
}

/// By hand: 26 yd³ in 27.925 is 1.925 short, a ratio of 0.931.
#[test]
fn a_pour_that_falls_short_says_so() {
    let shaft = cylinder(48.0, 60.0);
    let (curve, _) = volume_curve(&pour(&shaft, &[[26.0, 0.0, 0.0]]));
    let balance = balance(&curve.intervals[0].cumulative).expect("a balance");
    assert_eq!(
        balance.shortfall().map(|short| format!("{:.3}", short.to_cubic_yards())),
        Some("1.925".to_owned())
    );
    assert_eq!(format!("{:.3}", balance.over_consumption.value), "-0.069");
    // 2 % of 26 is 0.52; two soundings of 0.1 ft at 0.46542 yd³/ft are 0.0658; together 0.524.
    assert_eq!(format!("{:.3}", balance.over_pour.standard_error.to_cubic_yards()), "0.524");
}

#[test]
fn an_empty_pour_has_an_empty_curve() {
    let shaft = cylinder(48.0, 60.0);
    assert_eq!(volume_curve(&pour(&shaft, &[])), (VolumeCurve { intervals: Vec::new() }, Vec::new()));
}

#[test]
fn noise_of_nothing_is_refused() {
    let planned = |inches, load| PlannedInterval {
        diameter: Length::inches(inches),
        load: yards(load),
        tape_error: Length::feet(0.1),
        load_error: 0.02,
    };
    assert!(noise(&planned(0.0, 10.0)).is_err());
    assert!(noise(&planned(48.0, 0.0)).is_err());
}

/// Two intervals at 1.1 and 1.3 of 15 ft each, 30 ft to go; by hand: R = 1.2, T = 13.963 yd³, V = 16.755;
/// wander v = 2 · 6.981 · 0.1² = 0.13963, T v = 1.9496; no error of tape or ticket: s = 1.396 yd³.
/// With 2 % for waste 17.090 ± 1.424.
#[test]
fn the_rest_is_ordered_by_what_this_hole_has_taken() {
    let shaft = cylinder(48.0, 60.0);
    let slice = std::f64::consts::PI / 4.0 * 16.0 * 15.0 / 27.0;
    let mut pour = pour(&shaft, &[[1.1 * slice, 45.0, 0.0], [1.3 * slice, 30.0, 0.0]]);
    pour.load_error = NO_ERROR;
    pour.base = Level::known(pour.base.value);
    pour.stations.iter_mut().for_each(|station| station.level = Level::known(station.level.value));
    let (curve, _) = volume_curve(&pour);
    let remaining = Estimate::new(yards(2.0 * slice), yards(0.0));
    let order = still_to_order(&curve, remaining, Fraction::percent(2.0)).expect("a ratio");
    let shown = |value: Volume| format!("{:.3}", value.to_cubic_yards());
    assert_eq!(
        (shown(order.volume.value), shown(order.volume.standard_error)),
        ("17.090".into(), "1.424".into())
    );
    assert_eq!(order.intervals, 2);
    // One interval shows no wander; what is left ± 0.1 yd³ at 1.1, and a ratio ± 0.02 over 13.963 yd³.
    let one = VolumeCurve { intervals: curve.intervals[..1].to_vec() };
    let mut doubted = one.clone();
    doubted.intervals[0].cumulative.ratio = Some(Estimate::new(1.1, 0.02));
    let left = Estimate::new(yards(2.0 * slice), yards(0.1));
    let order = still_to_order(&doubted, left, Fraction::percent(0.0)).expect("a ratio");
    // √(0.11² + 0.27925²) = 0.300 by hand.
    assert_eq!((shown(order.volume.standard_error), order.intervals), ("0.300".into(), 1));
    let nothing = VolumeCurve { intervals: Vec::new() };
    assert_eq!(still_to_order(&nothing, remaining, Fraction::percent(0.0)), None);
}

/// By hand: 7.9 ft at 0.46542 yd³/ft are 3.677; 0.1 ft of tape is 0.0465 yd³.
#[test]
fn what_is_left_to_fill_ends_at_the_final_level() {
    let shaft = cylinder(48.0, 60.0);
    let surface = Estimate::new(at(-7.9), Length::feet(0.1));
    let left = theoretical_remaining(&shaft, surface, at(0.0)).expect("below the final level");
    assert_eq!(format!("{:.3}", left.value.to_cubic_yards()), "3.677");
    assert_eq!(format!("{:.4}", left.standard_error.to_cubic_yards()), "0.0465");
    assert!(theoretical_remaining(&shaft, surface, at(-10.0)).is_err());
}

proptest! {
    /// What the intervals say adds up to what the last cumulative says.
    #[test]
    fn intervals_add_up(loads in proptest::collection::vec((1.0..12.0_f64, 0.5..8.0_f64), 1..7)) {
        let shaft = cylinder(48.0, 60.0);
        let mut depth = 60.0;
        let stations: Vec<[f64; 3]> = loads.iter().map(|(load, rise)| { depth -= rise; [*load, depth, 0.0] }).collect();
        let (curve, _) = volume_curve(&pour(&shaft, &stations));
        let last = curve.intervals.last().unwrap().cumulative;
        let placed: f64 = curve.intervals.iter().map(|interval| interval.placed.value.to_cubic_meters()).sum();
        let theory: f64 = curve.intervals.iter().map(|interval| interval.theoretical.unwrap().value.to_cubic_meters()).sum();
        prop_assert!((placed - last.placed.value.to_cubic_meters()).abs() < 1e-9);
        prop_assert!((theory - last.theoretical.unwrap().value.to_cubic_meters()).abs() < 1e-9);
    }

    /// A larger tape error never makes a figure better known.
    #[test]
    fn a_worse_tape_never_helps(feet in 0.01..0.5_f64, more in 0.01..0.5_f64) {
        let shaft = cylinder(48.0, 60.0);
        let with = |error: f64| {
            let mut pour = pour(&shaft, &[[9.0, 42.6, 0.0], [9.0, 24.9, 0.0], [9.0, 7.9, 0.0]]);
            pour.stations.iter_mut().for_each(|station| station.level.standard_error = Length::feet(error));
            volume_curve(&pour).0
        };
        let (good, bad) = (with(feet), with(feet + more));
        for (good, bad) in good.intervals.iter().zip(&bad.intervals) {
            let error = |interval: &calc::curve::Interval| interval.departure.unwrap().difference.standard_error;
            prop_assert!(error(good) <= error(bad));
        }
    }
}
