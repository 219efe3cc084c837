//! Days played, against plans worked by hand, closed forms and each other.

use super::*;
use crate::pour_plan::{PourPlan, TruckRound};
use crate::waiting::LoadMoments;
use quantity::Moment;

fn at(clock: &str) -> Moment {
    Moment::parse(&format!("2026-05-04T{clock}:00-06:00")).expect("a moment")
}

fn minutes(value: f64) -> HowLong {
    HowLong::always(Span::minutes(value))
}

/// The round of `calc::pour_plan`: 10 + 30 to the site, 3 + 16 at the hopper, 5 + 25 back.
fn fixed() -> PourDay {
    let durations = Durations {
        bay: minutes(10.0),
        haul: minutes(40.0),
        test: HowLong::none(),
        position: minutes(3.0),
        discharge: minutes(16.0),
        back: minutes(30.0),
        section: minutes(4.0),
        lift: minutes(10.0),
        finish: minutes(30.0),
    };
    PourDay {
        durations,
        plan_worth: 4.0,
        loads_left: 8,
        headway: None,
        test_every: 0,
        work: Vec::new(),
        life: Estimate::new(Span::minutes(240.0), Span::minutes(0.0)),
        gap_limit: Span::minutes(30.0),
    }
}

const ONE_DAY: Sample = Sample { days: 1, seed: 1 };

fn age_at_end(plan: &PourDay, trucks: u32) -> f64 {
    let outlook = plan.play(&SoFar::nothing(at("08:00")), trucks, ONE_DAY).expect("a day");
    outlook.oldest.half.value.to_seconds()
}

/// Where nothing varies and the trucks keep the hopper busy, a load follows every 19 min.
#[test]
fn a_day_without_chance_is_the_plan() {
    let round = {
        let [load, haul, position] = [10.0, 30.0, 3.0].map(Span::minutes);
        let [discharge, wash, back] = [16.0, 5.0, 25.0].map(Span::minutes);
        TruckRound { load, haul, position, discharge, wash, back }
    };
    let enough = round.trucks_needed().expect("time at the hopper");
    let by_plan = |loads, interval| {
        let [interval, discharge, haul, finish] = [interval, 16.0, 43.0, 30.0].map(Span::minutes);
        PourPlan { loads, interval, discharge, haul, finish }
            .oldest_age_at_end()
            .expect("an age")
            .to_seconds()
    };
    for loads in [1, 2, 5, 8, 20] {
        let plan = PourDay { loads_left: loads, ..fixed() };
        for trucks in enough..enough + 3 {
            assert_eq!(age_at_end(&plan, trucks), by_plan(loads, 19.0), "{loads} loads, {trucks} trucks");
        }
        // One truck brings a load every 89 min, whatever the hopper could take.
        assert_eq!(age_at_end(&plan, 1), by_plan(loads, 89.0), "{loads} loads, one truck");
        // A plant that sends one every 25 min sets the pace.
        let called = PourDay { headway: Some(Span::minutes(25.0)), ..plan };
        assert_eq!(age_at_end(&called, enough), by_plan(loads, 25.0), "{loads} loads, called");
    }
}

/// A closed loop of few trucks: N loads a round of 89 min, so that load 1 + 3k follows load 1 by k rounds.
#[test]
fn too_few_trucks_set_the_pace() {
    for rounds in 0..5_u32 {
        let plan = PourDay { loads_left: 1 + 3 * rounds, ..fixed() };
        let expected = 60.0 * (43.0 + 89.0 * f64::from(rounds) + 16.0 + 30.0);
        assert_eq!(age_at_end(&plan, 3), expected, "{rounds} rounds");
    }
}

/// By hand: 8 loads, 19 min apart: 43 + 7 · 19 + 16 + 30 = 222 min; two sections of 4 min after load 3, one lift
/// of 10 min after load 5 and two after the last put 8 + 10 + 20 min on top; the longest gap is 3 + 10.
#[test]
fn pipes_and_casing_stop_the_hopper() {
    let mut plan = fixed();
    let work = |load, sections, lifts| WorkAfter { load, sections, lifts };
    plan.work = vec![work(3, 2, 0), work(5, 0, 1), work(8, 0, 2)];
    let outlook = plan.play(&SoFar::nothing(at("08:00")), 6, ONE_DAY).expect("a day");
    assert_eq!(outlook.oldest.half.value.to_minutes(), 260.0);
    assert_eq!(outlook.longest_gap.half.value.to_minutes(), 13.0);
    assert_eq!((outlook.in_time.value, outlook.gap_over.value), (0.0, 0.0));
}

/// A first load tested for 20 min goes in 20 min later, and the trucks behind it wait.
#[test]
fn a_test_holds_the_first_load() {
    let plan = PourDay { durations: Durations { test: minutes(20.0), ..fixed().durations }, ..fixed() };
    let tested = |test_every| age_at_end(&PourDay { test_every, ..plan.clone() }, 6) / 60.0;
    assert_eq!((tested(0), tested(8)), (222.0, 242.0));
}

/// A truck that overtakes goes in first. By hand: load 1 on the road since 08:00, arrives at 08:40; load 2
/// stands at the hopper at 08:30 and goes in at once, 08:33 to 08:49; load 1 follows, 08:52 to 09:08; 30 min
/// more: 09:38, 68 min from now.
#[test]
fn who_comes_first_goes_in_first() {
    let loads = [
        LoadMoments { batched: Some(at("08:00")), ..LoadMoments::default() },
        LoadMoments { batched: Some(at("08:05")), arrived: Some(at("08:29")), ..LoadMoments::default() },
    ];
    let so_far = SoFar { loads: &loads, ..SoFar::nothing(at("08:30")) };
    let plan = PourDay { loads_left: 0, plan_worth: f64::INFINITY, ..fixed() };
    let outlook = plan.play(&so_far, 2, ONE_DAY).expect("a day");
    assert_eq!(outlook.finish.half.value.to_minutes(), 68.0);
    assert_eq!(outlook.oldest.half.value.to_minutes(), 98.0);
}

fn whole(batched: &str, arrived: &str, started: &str, finished: &str) -> LoadMoments {
    LoadMoments {
        batched: Some(at(batched)),
        arrived: Some(at(arrived)),
        discharge_started: Some(at(started)),
        discharge_finished: Some(at(finished)),
    }
}

/// By hand: two trucks. Load 1 is over at 09:00 and its truck comes back at 09:30; load 2 discharges since
/// 09:03, ends at 09:19, its truck is back at 09:49. Loads 3 and 4: batched 09:30 and 09:49, in at 10:13–10:29
/// and 10:32–10:48; the end at 11:18 is 128 min from 09:10; the longest gap is from 09:19 to 10:13.
#[test]
fn a_pour_goes_on_from_what_is_seen() {
    let loads = [
        whole("08:00", "08:40", "08:44", "09:00"),
        LoadMoments { discharge_finished: None, ..whole("08:10", "08:50", "09:03", "09:03") },
    ];
    let so_far = SoFar { loads: &loads, ..SoFar::nothing(at("09:10")) };
    let plan = PourDay { loads_left: 2, plan_worth: f64::INFINITY, ..fixed() };
    let outlook = plan.play(&so_far, 2, ONE_DAY).expect("a day");
    assert_eq!(outlook.finish.half.value.to_minutes(), 128.0);
    assert_eq!(outlook.longest_gap.half.value.to_minutes(), 54.0);
    assert_eq!(outlook.oldest.half.value.to_minutes(), 198.0);
    // A third truck stands at the plant and goes at once: 09:10 + 40 + 3 + 16, then load 4 of 09:30 at
    // 10:13–10:29 and the end at 10:59.
    let outlook = plan.play(&so_far, 3, ONE_DAY).expect("a day");
    assert_eq!(outlook.finish.half.value.to_minutes(), 109.0);
}

const SAMPLE: Sample = Sample { days: 4_000, seed: 4 };

#[track_caller]
fn near(what: &str, got: Estimate<f64>, expected: f64) {
    assert!((got.value - expected).abs() < 4.0 * got.standard_error, "{what}: {got:?} beside {expected}");
}

fn plain(span: Estimate<Span>) -> Estimate<f64> {
    Estimate::new(span.value.to_minutes(), span.standard_error.to_minutes())
}

/// Only the haul varies, and the plan is sure of it. One truck: every gap is 30 + haul + 3 min, so none of
/// seven is over 80 min with probability F(47)⁷; the end of a single load has the quantiles of its haul.
#[test]
fn one_varying_duration_has_closed_forms() {
    let haul = HowLong { usual: Span::minutes(40.0), slow: Span::minutes(48.0) };
    let spread = libm::log(1.2) / 1.281_551_565_544_600_8;
    let below = |minutes: f64| crate::mixture::standard_normal_cdf(libm::log(minutes / 40.0) / spread);
    let mut plan = PourDay { plan_worth: f64::INFINITY, gap_limit: Span::minutes(80.0), ..fixed() };
    plan.durations.haul = haul;
    plan.durations.bay = minutes(0.0);
    let one_truck = plan.play(&SoFar::nothing(at("08:00")), 1, SAMPLE).expect("days");
    near("a gap", one_truck.gap_over, 1.0 - libm::pow(below(47.0), 7.0));
    let single =
        PourDay { loads_left: 1, life: Estimate::new(Span::minutes(100.0), Span::minutes(0.0)), ..plan };
    let single = single.play(&SoFar::nothing(at("08:00")), 1, SAMPLE).expect("days");
    near("in time", single.in_time, below(100.0 - 49.0));
    for (what, got, quantile) in [
        ("early", single.oldest.early, 40.0 / 1.2),
        ("half", single.oldest.half, 40.0),
        ("late", single.oldest.late, 48.0),
    ] {
        near(what, plain(got), quantile + 49.0);
    }
}

/// A day as sure as a coin: the life is known to 10 min, the end is certain at its mean, one, two errors off.
#[test]
fn a_life_that_is_not_sure_is_drawn() {
    for (life, expected) in [(222.0, 0.5), (232.0, 0.841_345), (202.0, 0.022_750)] {
        let life = Estimate::new(Span::minutes(life), Span::minutes(10.0));
        let plan = PourDay { life, ..fixed() };
        let outlook = plan.play(&SoFar::nothing(at("08:00")), 6, SAMPLE).expect("days");
        near("in time", outlook.in_time, expected);
    }
}

/// One truck in a loop of three loads: the age at the end is a sum; its mean and deviation are those of the parts.
#[test]
fn a_sum_has_the_mean_of_its_parts() {
    let varies = |usual: f64, slow: f64| HowLong { usual: Span::minutes(usual), slow: Span::minutes(slow) };
    let durations = Durations {
        bay: minutes(0.0),
        haul: varies(40.0, 50.0),
        position: varies(3.0, 5.0),
        discharge: varies(16.0, 22.0),
        back: varies(30.0, 40.0),
        finish: varies(30.0, 45.0),
        ..fixed().durations
    };
    let plan = PourDay { durations, loads_left: 3, plan_worth: f64::INFINITY, ..fixed() };
    let moments = |long: HowLong, times: f64| {
        let (mean, deviation) = long.mean_and_deviation().expect("a duration");
        (times * mean.to_seconds(), times * deviation.to_seconds() * deviation.to_seconds())
    };
    let Durations { haul, position, discharge, back, finish, .. } = durations;
    let parts = [
        moments(haul, 3.0),
        moments(position, 3.0),
        moments(discharge, 3.0),
        moments(back, 2.0),
        moments(finish, 1.0),
    ];
    let mean: f64 = parts.iter().map(|part| part.0).sum();
    let variance: f64 = parts.iter().map(|part| part.1).sum();
    let so_far = SoFar::nothing(at("08:00"));
    let stage = Stage::set(&plan, &so_far, 1).expect("a stage");
    let all: Vec<f64> = stage.days(SAMPLE).map(|day| day.oldest).collect();
    let count = all.len() as f64;
    let got = all.iter().sum::<f64>() / count;
    let about = all.iter().map(|age| (age - got) * (age - got)).sum::<f64>() / count;
    near("mean", Estimate::new(got, (variance / count).sqrt()), mean);
    // Four errors of a variance of normal draws; the sum leans a little to the long side.
    assert!((about / variance - 1.0).abs() < 4.0 * (2.0 / count).sqrt() * 1.3, "{about} beside {variance}");
}

/// Long hauls seen today make the rest of the day longer, and a plan that counts more gives way less.
#[test]
fn today_teaches() {
    let haul = HowLong { usual: Span::minutes(40.0), slow: Span::minutes(48.0) };
    let loads = [whole("07:00", "08:00", "08:04", "08:20"), whole("07:10", "08:10", "08:24", "08:40")];
    let so_far = SoFar { loads: &loads, ..SoFar::nothing(at("08:40")) };
    let late = |plan_worth| {
        let mut plan = PourDay { plan_worth, ..fixed() };
        plan.durations.haul = haul;
        let outlook = plan.play(&so_far, 5, Sample { days: 2_000, seed: 9 }).expect("days");
        outlook.finish.half.value.to_minutes()
    };
    assert!(late(1.0) > late(4.0) && late(4.0) > late(40.0), "{} {} {}", late(1.0), late(4.0), late(40.0));
    let taught = haul.learned(&[Span::minutes(60.0); 2], 2.0).expect("a duration");
    // By hand: 40 √1.5.
    assert_eq!(format!("{:.2}", taught.usual().to_minutes()), "48.99");
    let late = |learned: Learned| learned.below(0.9).to_seconds();
    assert!(late(taught) > late(haul.learned(&[], 2.0).expect("a duration")));
}

/// A haul that has gone on beyond its slow time ends later than one just begun, and never before now.
#[test]
fn a_truck_that_is_late_is_not_back_before_now() {
    let mut plan = PourDay { loads_left: 0, plan_worth: f64::INFINITY, ..fixed() };
    plan.durations.haul = HowLong { usual: Span::minutes(40.0), slow: Span::minutes(48.0) };
    let arrives = |batched: &str| {
        let loads = [LoadMoments { batched: Some(at(batched)), ..LoadMoments::default() }];
        let so_far = SoFar { loads: &loads, ..SoFar::nothing(at("09:00")) };
        let outlook = plan.play(&so_far, 1, SAMPLE).expect("days");
        outlook.finish.half.value.to_minutes() - 49.0
    };
    // Half of the hauls longer than 48 min are over by the point above which one in twenty lies.
    let spread = libm::log(1.2) / 1.281_551_565_544_600_8;
    let expected = 40.0 * libm::exp(1.644_853_627 * spread) - 48.0;
    assert!((arrives("08:12") - expected).abs() < 0.1, "{} beside {expected}", arrives("08:12"));
    // Three hours are far beyond the tail; the truck is taken to come within minutes.
    assert!((0.0..10.0).contains(&arrives("06:00")), "{}", arrives("06:00"));
}

#[test]
fn trucks_are_added_until_it_is_safe() {
    let plan = PourDay { gap_limit: Span::minutes(12.0), ..fixed() };
    let nothing = SoFar::nothing(at("08:00"));
    let tried = |most_trucks| {
        let safe = Safe { probability: 0.95, most_trucks };
        let tried = plan.trucks_until_safe(&nothing, safe, ONE_DAY).expect("days");
        tried.iter().map(|(trucks, outlook)| (*trucks, outlook.safe.value)).collect::<Vec<_>>()
    };
    // 222 min with five trucks or more, under the life of 240; with four the round of 89 min leaves gaps.
    assert_eq!(tried(9), [(1, 0.0), (2, 0.0), (3, 0.0), (4, 0.0), (5, 1.0)]);
    assert_eq!(tried(2), [(1, 0.0), (2, 0.0)], "two trucks are not enough, and there are no more");
}

#[test]
fn the_same_seed_gives_the_same_days() {
    let mut plan = fixed();
    plan.durations.haul.slow = Span::minutes(50.0);
    let play = |seed| plan.play(&SoFar::nothing(at("08:00")), 5, Sample { days: 300, seed }).expect("days");
    assert_eq!(play(3), play(3));
    assert_ne!(play(3), play(4));
    let told = play(3);
    expect_test::expect!["in time 0.9333 ± 0.0147, end 215.355 · 224.290 · 237.282 min"].assert_eq(&format!(
        "in time {:.4} ± {:.4}, end {:.3} · {:.3} · {:.3} min",
        told.in_time.value,
        told.in_time.standard_error,
        told.finish.early.value.to_minutes(),
        told.finish.half.value.to_minutes(),
        told.finish.late.value.to_minutes()
    ));
}

#[test]
fn what_cannot_be_played_is_said() {
    let check = |plan: &PourDay, so_far: &SoFar<'_>, trucks: u32, expected: &str| {
        let refused = plan.play(so_far, trucks, ONE_DAY).expect_err("no day");
        assert_eq!(refused.to_string(), expected);
    };
    let (plan, nothing) = (fixed(), SoFar::nothing(at("08:00")));
    let none = PourDay { loads_left: 0, ..fixed() };
    check(&none, &nothing, 3, "there is no load to play the day with");
    check(&plan, &nothing, 0, "loads are left, and there is no truck");
    let worthless = PourDay { plan_worth: 0.0, ..fixed() };
    check(&worthless, &nothing, 3, "the plan has to count as a part of a load at least");
    let mut odd = fixed();
    odd.durations.haul = HowLong { usual: Span::minutes(40.0), slow: Span::minutes(30.0) };
    check(&odd, &nothing, 3, "40 min as usual and 30 min as slow are no duration");
    let backwards = [whole("08:00", "07:40", "08:44", "09:00")];
    let so_far = SoFar { loads: &backwards, ..SoFar::nothing(at("10:00")) };
    check(&plan, &so_far, 3, "the times of load 1 do not follow each other");
    let ahead = [whole("08:00", "08:40", "08:44", "09:00")];
    let so_far = SoFar { loads: &ahead, ..SoFar::nothing(at("08:50")) };
    check(&plan, &so_far, 3, "the times of load 1 do not follow each other");
    let unknown = [LoadMoments { arrived: Some(at("08:00")), ..LoadMoments::default() }];
    let so_far = SoFar { loads: &unknown, ..SoFar::nothing(at("08:10")) };
    check(&plan, &so_far, 3, "no load has a batch time");
    assert_eq!(
        plan.play(&nothing, 3, Sample { days: 0, seed: 1 }).map(|_| ()).map_err(|error| error.to_string()),
        Err("one day at least has to be played".to_owned())
    );
}

#[test]
fn what_a_duration_is_made_of() {
    let haul = HowLong { usual: Span::minutes(30.0), slow: Span::minutes(40.0) };
    let shown = |plan_worth: f64, seen: &[f64]| {
        let seen: Vec<Span> = seen.iter().copied().map(Span::minutes).collect();
        let learned = haul.learned(&seen, plan_worth).expect("a duration");
        let all = [learned.usual(), learned.below(0.1), learned.below(0.9)];
        all.map(|span| format!("{:.1}", span.to_minutes())).join(" ")
    };
    // Nothing seen, and a plan that is sure: the tenth, as said. With doubt about the day it is wider.
    assert_eq!(shown(f64::INFINITY, &[]), "30.0 22.5 40.0");
    assert_eq!(shown(4.0, &[]), "30.0 21.7 41.4");
    // A start and an end in the same minute teach nothing.
    assert_eq!(shown(4.0, &[0.0]), "30.0 21.7 41.4");
    assert_eq!(shown(f64::INFINITY, &[90.0]), "30.0 22.5 40.0");
    // Loads just as planned make it surer.
    assert_eq!(shown(4.0, &[30.0; 12]), "30.0 25.9 34.8");
}
