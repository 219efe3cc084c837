//! A trainee's practice, from the first load to the debrief.

use quantity::Moment;
use record::Body;
use rehearse::day::{Day, Said};
use rehearse::practice::{Practice, Sight, Warning, debrief};
use rehearse::scenario::Scenario;

fn practice(scenario: Scenario) -> Practice {
    Practice::of_pour(Day::of_seed(3, scenario, None).expect("a day can be made"), 30.0)
}

/// Everything the day's own inspector wrote while the practice was on.
fn all_written(practice: &Practice) -> Vec<Said> {
    let given = practice.given().count();
    practice.day().said.iter().skip(given).cloned().collect()
}

fn when(practice: &Practice, pick: impl Fn(&Body) -> bool) -> Moment {
    practice.day().said.iter().find(|said| pick(&said.body)).expect("it happens that day").observed_at
}

#[test]
fn the_hole_is_given_and_the_pour_is_to_be_read() {
    let practice = practice(Scenario::Clean);
    assert!(practice.given().any(|said| matches!(said.body, Body::BottomAccepted(_))));
    assert!(!practice.given().any(|said| matches!(said.body, Body::LoadArrived(_))));
    // Thirty times as fast as in life: a minute at the screen is half an hour at the hole.
    assert_eq!(practice.at(60.0).seconds() - practice.at(0.0).seconds(), 1_800);
    assert!(!practice.is_over(practice.at(60.0)));
    assert!(practice.is_over(practice.at(60.0 * 60.0 * 24.0)));
}

#[test]
fn a_ticket_can_be_read_from_when_the_truck_is_there_for_twenty_minutes() {
    let practice = practice(Scenario::Clean);
    let arrived = when(&practice, |body| matches!(body, Body::LoadArrived(_)));
    let tickets = |at: Moment| {
        let offers = practice.offers(at);
        offers.into_iter().filter(|offer| matches!(offer.sight, Sight::Ticket(_))).count()
    };
    assert_eq!([-1, 0, 19 * 60, 20 * 60].map(|seconds| tickets(arrived.plus_seconds(seconds))), [0, 1, 1, 0]);
}

/// Tolerance: the tape of the site is off by 2 cm a reading, 1 cm all day, and rounded to 3 cm.
#[test]
fn the_dial_follows_the_concrete_and_shows_the_same_twice() {
    let practice = practice(Scenario::Clean);
    let begun = when(&practice, |body| matches!(body, Body::DischargeStarted(_)));
    let ended = when(&practice, |body| matches!(body, Body::DischargeEnded(_)));
    assert_eq!(practice.dial(begun.plus_seconds(-1)), None);
    let hole = &practice.day().readings.hole;
    let first = practice.day().readings.soundings[0].true_m;
    let middle = begun.plus_seconds((ended.seconds() - begun.seconds()) / 2);
    for (at, depth_m) in [(begun, hole.length_m()), (middle, (hole.length_m() + first) / 2.0), (ended, first)]
    {
        let read_m = practice.dial(at).expect("concrete is in");
        assert!((read_m - depth_m).abs() < 0.12, "{read_m} is not {depth_m}");
        assert_eq!(practice.dial(at), Some(read_m));
    }
}

#[test]
fn who_wrote_everything_missed_nothing() {
    let practice = practice(Scenario::Clean);
    let told = debrief(&practice, &all_written(&practice), &[]);
    assert_eq!(told.missed, []);
    assert_eq!(told.trouble, None);
    assert!(
        told.readings.len() > 4 && told.readings.iter().all(|reading| !reading.off),
        "{:?}",
        told.readings
    );
    // Lines are not counted and loads are off by a percent or so: five percent is allowed, and more for
    // the first stretch, whose load also fills the tremie, and the last one, which ends inside the casing.
    for stretch in &told.stretches[1..told.stretches.len() - 1] {
        let (written, truth) = stretch.written.zip(stretch.truth).expect("both are known");
        assert!((written / truth - 1.0).abs() < 0.06, "{stretch:?}");
    }
}

#[test]
fn what_was_not_written_is_told_with_its_ticket() {
    let practice = practice(Scenario::Clean);
    let forgot = |said: &Said| match &said.body {
        Body::ConcreteSounded(sounding) => sounding.after.as_deref() != Some("4102"),
        Body::CageElevation(_) => false,
        _ => true,
    };
    let written: Vec<Said> = all_written(&practice).into_iter().filter(forgot).collect();
    let told = debrief(&practice, &written, &[]);
    let missed: Vec<_> = told.missed.iter().map(|missed| (missed.kind, missed.ticket.as_deref())).collect();
    assert_eq!(missed, [("concrete_sounded", Some("4102")), ("cage_elevation", None)]);
}

#[test]
fn a_tape_read_ten_feet_wrong_is_laid_beside_the_truth() {
    let practice = practice(Scenario::MisreadTape);
    let told = debrief(&practice, &all_written(&practice), &[]);
    let off: Vec<String> = told
        .readings
        .iter()
        .filter(|reading| reading.off)
        .map(|reading| format!("{:.0} ft", (reading.written_m - reading.true_m) / 0.3048))
        .collect();
    assert_eq!(off, ["10 ft"]);
}

#[test]
fn the_trouble_is_told_with_the_moment_the_tool_first_showed_it() {
    let practice = practice(Scenario::CageLifting);
    let at = when(&practice, |body| matches!(body, Body::CageElevation(_)));
    let warn = |seconds: i64, fact: &str| Warning { at: at.plus_seconds(seconds), fact: fact.to_owned() };
    let warnings = [
        warn(90, "cage.top_deviation.after_pour"),
        warn(30, "cage.top_deviation.after_pour"),
        warn(0, "slump.placing"),
    ];
    let told = debrief(&practice, &all_written(&practice), &warnings);
    let trouble = told.trouble.expect("something went wrong");
    assert_eq!(trouble.scenario, Scenario::CageLifting);
    assert_eq!(trouble.warned, Some(at.plus_seconds(30)));
    assert_eq!(told.other_warnings, warnings[2..]);
    let silent = debrief(&practice, &[], &[]).trouble.expect("something went wrong");
    assert_eq!(silent.warned, None);
}
