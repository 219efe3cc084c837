//! The rest of a pour, played: in time, late, with too few trucks, and what cannot be played.
//!
//! Eight trucks, one every 20 minutes, 15 minutes each, 45 minutes of road; casing out 30 minutes after the last. That
//! the days themselves are right is shown beside closed forms in `calc`.

mod story;

use assess::Earlier;
use assess::day::{NoDay, RestOfPour, TrucksFrom};
use assess::order::ToOrder;
use assess::shape::Asked;
use quantity::Moment;
use record::Log;
use story::{Story, Told, near, others};

const DAYS: u32 = 400;

fn rest_of(told: &Told, clock: &str) -> Result<RestOfPour, NoDay> {
    let at = Moment::parse(&format!("2031-05-07T{clock}:00-06:00")).expect("a moment");
    let log = Log::of(&told.record, Some(told.shaft), Some(at));
    let set = assess::Rules::of(&log).expect("rules").set;
    let assessment = told.assessed(at);
    let order = ToOrder::of(Asked::of(&log, &assessment, &Earlier::none()));
    RestOfPour::of(&log, &assessment, &set, (&order, DAYS))
}

#[track_caller]
fn rest(story: &Story, clock: &str) -> RestOfPour {
    rest_of(&story.told(), clock).expect("a day")
}

fn planned() -> Story {
    // A mix that holds its slump and then loses it fast: an inch less is a quarter of an hour less.
    let steep = "{ age = 0, slump = 8 }, { age = \"220 min\", slump = 7 }, { age = \"240 min\", slump = 5 }";
    others::eight_trucks(0)
        .with("{ age = 0, slump = 8 }, { age = \"240 min\", slump = 5 }", steep)
        .with("after = \"30 min\"", "after = \"30 min\"\nheadway = \"20 min\"\nhaul = \"45 min\"")
}

#[test]
fn before_the_first_load_the_plan_says_how_many_trucks() {
    let rest = rest(&planned(), "08:00");
    assert!(!rest.begun);
    assert_eq!((rest.under_way, rest.days), (0, DAYS));
    // 27.93 yd³ as drawn, 1.32 times that for 95 % on the first shaft of a job, in trucks of 9 yd³.
    assert_eq!(rest.loads_left, 5);
    // A round of 45 + 3 + 15 + 55 min, every 20 min: six trucks.
    let (trucks, from, _) = rest.running.expect("a headway");
    assert_eq!((trucks, from), (6, TrucksFrom::Headway));
    let life = rest.life.expect("a trial");
    near(life.life.to_minutes(), 240.0, 1e-6);
    assert!(life.error.to_minutes() > 0.0 && !life.at_least);
}

#[test]
fn more_trucks_are_tried_until_they_are_enough() {
    let rest = rest(&planned(), "08:00");
    let enough = rest.enough.expect("some number is");
    assert_eq!(rest.tried.last().map(|one| one.0), Some(enough));
    assert_eq!(rest.tried.first().map(|one| one.0), Some(1));
    for (trucks, outlook) in &rest.tried {
        assert_eq!(outlook.safe.value >= 0.95, *trucks == enough, "{trucks}: {:?}", outlook.safe);
    }
}

/// A life of two hours is over before four loads are in and the casing out.
#[test]
fn a_short_life_is_not_saved_by_trucks() {
    let short =
        planned().with("age = \"220 min\"", "age = \"70 min\"").with("age = \"240 min\"", "age = \"90 min\"");
    let rest = rest(&short, "08:00");
    assert_eq!(rest.enough, None);
    assert_eq!(rest.tried.len(), 5, "a truck for each load, and no more");
    assert!(rest.tried.iter().all(|(_, outlook)| outlook.safe.value < 0.95));
}

#[test]
fn it_is_replanned_from_what_was_seen() {
    let story = planned();
    let [early, later] = ["10:41", "11:41"].map(|clock| rest(&story, clock));
    assert!(early.begun && later.begun);
    assert!(later.loads_left + later.under_way < early.loads_left + early.under_way);
    let end = |rest: &RestOfPour| {
        let outlook = &rest.running.as_ref().expect("a headway").2;
        (outlook.finish.half.value.to_minutes(), outlook.finish.late.value.to_minutes())
    };
    let width = |(half, late): (f64, f64)| late - half;
    assert!(width(end(&later)) < width(end(&early)), "{:?} {:?}", end(&early), end(&later));
}

/// Bug found on the demo: after two loads the two trucks that had come were taken for all there were, and the day looked lost.
#[test]
fn the_first_trucks_of_a_day_are_not_taken_for_all_of_them() {
    let named = (1..=8).fold(planned(), |story, ticket| {
        let truck = ["A", "B", "C", "D", "E"][(ticket - 1) % 5];
        story
            .with(&format!("ticket = {ticket}, mix"), &format!("ticket = {ticket}, truck = \"{truck}\", mix"))
    });
    let running = |clock: &str| rest(&named, clock).running.map(|(trucks, from, _)| (trucks, from));
    assert_eq!(running("10:25"), Some((6, TrucksFrom::Headway)), "A and B came");
    assert_eq!(running("11:41"), Some((5, TrucksFrom::Named)), "A came back");
    let unplanned = named.with("\nheadway = \"20 min\"", "");
    assert_eq!(rest(&unplanned, "10:00").running, None, "one load tells nothing of the others");
    let seen = rest(&unplanned, "10:25").running.map(|(trucks, from, _)| (trucks, from));
    assert_eq!(seen, Some((6, TrucksFrom::Headway)), "two batches 20 minutes apart");
}

#[test]
fn the_same_record_gives_the_same_day() {
    assert_eq!(rest(&planned(), "10:41"), rest(&planned(), "10:41"));
}

/// The trial ends at 300 min above the least slump: it lives so long at least.
#[test]
fn a_trial_that_ends_too_soon_is_a_bound() {
    let story =
        planned().with("\"240 min\", slump = 5", "\"240 min\", slump = 6").with("slump = 3", "slump = 5.5");
    let life = rest(&story, "08:00").life.expect("a trial");
    assert_eq!((life.life.to_minutes(), life.error.to_minutes(), life.at_least), (300.0, 0.0, true));
}

#[test]
fn why_no_day_is_played() {
    let why = |story: Story, clock: &str| rest_of(&story.told(), clock).err();
    assert_eq!(why(planned(), "17:00"), Some(NoDay::Over));
    let bare = || others::printed(100.0, 40.0, &[(4.0, 49.4, 50.6)]);
    let planned = bare().and(r#"{ at = "06:00", entry = "pour_planned", haul = "45 min" }"#);
    let no_limit = planned.with("fhwa-aashto-style-1", "roadside-common-practice-1");
    assert_eq!(why(no_limit, "07:30"), Some(NoDay::NoLimit));
    assert_eq!(why(bare(), "07:30"), Some(NoDay::NotPlanned));
}
