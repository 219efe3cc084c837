//! The string of pipes, its embedment, the first charge.

use calc::estimate::{Estimate, Level};
use calc::tremie::{
    Happened, PipeString, Start, Step, balance_level, embedment, embedment_history, embedment_without,
    first_breach, first_charge, highest_safe_lift, removable, surface_after_load,
};
use quantity::{Density, Length, Moment};

use super::{at, cylinder, yards};

/// Five pipes of 10 ft and a short one on top, hung 2 ft above ground.
fn string() -> PipeString {
    let pipes = [10.0, 10.0, 10.0, 10.0, 10.0, 5.0].map(Length::feet).to_vec();
    PipeString { pipes, top: at(2.0) }
}

fn concrete(depth: f64) -> Level {
    Estimate::new(at(-depth), Length::feet(0.1))
}

/// By hand: 55 ft of pipe from +2 reach −53.
#[test]
fn the_tip_follows_from_the_tally() {
    assert_eq!((string().length(), string().tip()), (Length::feet(55.0), at(-53.0)));
    assert_eq!(string().off_bottom(at(-53.5)), Length::feet(0.5));
    assert_eq!(string().off_bottom(at(-52.0)), Length::feet(-1.0));
    assert_eq!(string().without(2).map(|rest| rest.tip()), Some(at(-38.0)));
    assert_eq!(string().without(7), None);
}

#[track_caller]
fn comes_off(depth: f64, required: f64, pipes: usize, left: f64) {
    let removal = removable(&string(), concrete(depth), Length::feet(required));
    assert_eq!((removal.pipes, removal.embedment.value), (pipes, Length::feet(left)));
    assert_eq!(removal.lift, Length::feet([0.0, 5.0, 15.0, 25.0, 35.0, 45.0][pipes]));
}

/// By hand, tip at 53 ft: concrete at 30 ft buries it 23 ft; the top pipe takes 5, the next 10 each.
#[test]
fn pipes_come_off_as_long_as_the_rest_stays_buried() {
    comes_off(30.0, 10.0, 1, 18.0);
    comes_off(30.0, 8.0, 2, 8.0);
    comes_off(30.0, 8.1, 1, 18.0);
    comes_off(44.0, 5.0, 0, 9.0);
    comes_off(44.0, 10.0, 0, 9.0);
    comes_off(0.0, 5.0, 5, 8.0);
    // Concrete over the top of the string: the last pipe stays all the same.
    comes_off(-5.0, 1.0, 5, 13.0);
}

#[test]
fn the_next_pipe_is_told_before_it_comes_off() {
    let next = |depth| embedment_without(&string(), 1, concrete(depth)).map(|left| left.value);
    assert_eq!(next(30.0), Some(Length::feet(18.0)));
    assert_eq!(next(50.0), Some(Length::feet(-2.0)));
    assert_eq!(embedment_without(&string(), 7, concrete(30.0)), None);
}

#[test]
fn a_lift_that_is_already_too_much_is_negative() {
    let lift = |required| highest_safe_lift(embedment(at(-53.0), concrete(30.0)), Length::feet(required));
    assert_eq!(lift(10.0), Estimate::new(Length::feet(13.0), Length::feet(0.1)));
    assert_eq!(lift(25.0).value, Length::feet(-2.0));
}

/// By hand: 9 yd³ at 0.46542 yd³/ft lift the surface 19.34 ft, at a ratio of 1.11 only 17.42 ft.
#[test]
fn the_next_load_lifts_the_surface_less_where_the_hole_takes_more() {
    let shaft = cylinder(48.0, 60.0);
    let after = |ratio: f64| {
        let ratio = Estimate::new(ratio, 0.0);
        let level = surface_after_load(&shaft, concrete(42.6), yards(9.0), ratio).expect("it fits");
        format!("{:.2}", -level.value.0.to_feet())
    };
    assert_eq!((after(1.0), after(1.11)), ("23.26".to_owned(), "25.18".to_owned()));
    let refused = |load, ratio| {
        let ratio = Estimate::new(ratio, 0.0);
        surface_after_load(&shaft, concrete(42.6), yards(load), ratio).map_err(|error| error.to_string())
    };
    assert_eq!(refused(30.0, 1.0).unwrap_err(), "the volume does not fit into the hole");
    assert_eq!(refused(9.0, 0.0).unwrap_err(), "the ratio is not greater than zero");
    assert_eq!(refused(-9.0, 1.0).unwrap_err(), "the volume is too small");
}

/// By hand: a ratio of 1.10 ± 0.05 puts 17.58 ft · 0.05/1.10 = 0.80 ft beside the 0.1 ft of the tape.
#[test]
fn what_the_hole_will_take_is_the_larger_doubt() {
    let shaft = cylinder(48.0, 60.0);
    let level =
        surface_after_load(&shaft, concrete(42.6), yards(9.0), Estimate::new(1.10, 0.05)).expect("it fits");
    assert_eq!(format!("{:.2}", level.standard_error.to_feet()), "0.81");
}

/// From 3.5 into 4 ft: by hand the tape's 0.1 ft of 9.621 ft² is 0.1 · 9.621 / 12.566 = 0.0766 ft above.
#[test]
fn a_wider_hole_above_makes_a_tape_error_smaller() {
    let hole = [[48.0, 48.0, 0.0, 30.0], [42.0, 42.0, 30.0, 60.0]].map(super::piece).to_vec();
    let hole = calc::geometry::Bore::new(hole).expect("a sound hole");
    let after =
        surface_after_load(&hole, concrete(32.0), yards(9.0), Estimate::new(1.0, 0.0)).expect("it fits");
    assert_eq!(format!("{:.4}", after.standard_error.to_feet()), "0.0766");
}

fn step(minute: i64, happened: Happened) -> Step {
    let ten = Moment::parse("2026-05-04T10:00:00-06:00").expect("a moment");
    Step { at: ten.plus_seconds(minute * 60), happened }
}

/// The tip is pulled from 53 to 41 ft while the concrete was last sounded at 42.6: it hangs 1.6 ft free,
/// though at the sounding before and the one after all looks well.
#[test]
fn a_breach_between_two_soundings_is_found() {
    let history = embedment_history(&[
        step(0, Happened::Tip(at(-59.5))),
        step(20, Happened::Surface(concrete(42.6))),
        step(30, Happened::Tip(at(-41.0))),
        step(45, Happened::Surface(concrete(24.9))),
        step(60, Happened::Out),
        step(61, Happened::Surface(concrete(0.0))),
    ]);
    let buried: Vec<_> = history
        .iter()
        .map(|step| (step.at.clock(), format!("{:.1}", step.embedment.value.to_feet())))
        .collect();
    let expected = [("10:20", "16.9"), ("10:30", "-1.6"), ("10:45", "16.1")];
    assert_eq!(buried, expected.map(|(clock, feet)| (clock.to_owned(), feet.to_owned())));
    assert_eq!(first_breach(&history).map(|step| step.at.clock()), Some("10:30".to_owned()));
    assert_eq!(first_breach(&history[..1]), None);
    let just =
        embedment_history(&[step(0, Happened::Tip(at(-42.6))), step(1, Happened::Surface(concrete(42.6)))]);
    assert_eq!(first_breach(&just).map(|step| step.embedment.value), Some(Length::ZERO));
}

fn start() -> Start {
    Start {
        tip: at(-59.5),
        embedment: Length::feet(5.0),
        pipe_inside: Length::inches(10.0),
        fluid_level: at(0.0),
        fluid: Density::pounds_per_cubic_foot(65.0),
        concrete: Density::pounds_per_cubic_foot(150.0),
        overbreak: 1.0,
    }
}

/// By hand, 48 in: 5.5 ft of shaft at 12.566 ft³/ft is 2.560 yd³; fluid over the level 54.5 ft makes a
/// column of 23.617 ft at 0.5454 ft³/ft, 0.477 yd³; 5 ft of pipe 0.101 yd³. Dry: no column.
#[test]
fn the_first_charge_buries_the_tip() {
    let shaft = cylinder(48.0, 60.0);
    let shown = |start: &Start| {
        let charge = first_charge(&shaft, start).expect("a charge");
        [charge.shaft, charge.pipe_above, charge.pipe_below]
            .map(|part| format!("{:.3}", part.to_cubic_yards()))
    };
    assert_eq!(shown(&start()), ["2.560", "0.477", "0.101"]);
    assert_eq!(shown(&Start { overbreak: 1.2, ..start() }), ["3.072", "0.477", "0.101"]);
    assert_eq!(shown(&Start { fluid_level: at(-60.0), ..start() }), ["2.560", "0.000", "0.101"]);
    assert_eq!(shown(&Start { fluid_level: at(-59.5), ..start() }), ["2.560", "0.000", "0.101"]);
    let bars =
        calc::geometry::Steel { area: quantity::Area::square_inches(90.0), top: at(0.0), bottom: at(-60.0) };
    let reinforced = shaft.clone().with_steel(vec![bars]).expect("room");
    assert_eq!(first_charge(&reinforced, &start()), first_charge(&shaft, &start()), "bars stay a reserve");
}

#[test]
fn a_first_charge_without_sense_is_refused() {
    let shaft = cylinder(48.0, 60.0);
    let refused = |start| first_charge(&shaft, &start).expect_err("a refusal").to_string();
    assert_eq!(refused(Start { overbreak: 0.9, ..start() }), "the over-break factor is below one");
    assert_eq!(refused(Start { tip: at(-70.0), ..start() }), "the level lies outside the hole");
    assert_eq!(refused(Start { fluid_level: at(-58.0), ..start() }), "a length is too small");
    assert_eq!(refused(Start { pipe_inside: Length::ZERO, ..start() }), "a length is too small");
    let heavy = Density::pounds_per_cubic_foot(151.0);
    assert_eq!(refused(Start { fluid: heavy, ..start() }), "the fluid is not lighter than the concrete");
}

/// By hand: 42.6 ft of fluid over the concrete, 65/150 of it is 18.46 ft: the pipe stands at 24.14 ft.
#[test]
fn the_level_in_the_pipe_follows_from_both_columns() {
    let start = start();
    let level = balance_level(start.fluid, start.concrete, at(0.0), at(-42.6)).expect("fluid is lighter");
    assert_eq!(format!("{:.2}", -level.0.to_feet()), "24.14");
}
