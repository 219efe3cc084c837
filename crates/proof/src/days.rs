//! Days played tell true probabilities and true errors, and what is seen makes them better.

use crate::pours::{Made, each};
use crate::row::{Row, mean, share};
use calc::estimate::Estimate;
use calc::mixture::standard_normal_cdf;
use calc::pour_day::{Durations, HowLong, PourDay, Sample, SoFar, WorkAfter};
use calc::waiting::LoadMoments;
use quantity::{Moment, Span};
use rehearse::chance::Chance;

/// Closed form, stated errors, and coverage of a replanned finish.
pub fn prove(made: &Made) -> Vec<Row> {
    let seeds = made.seeds.clone();
    let errors: Vec<f64> = each(seeds.start..seeds.end.min(seeds.start + 1_000), against_closed_form);
    let size = mean(errors.iter().map(|z| z * z)).sqrt();
    // Four standard errors of the size of so many normal figures.
    let doubt = 4.0 / (2.0 * errors.len() as f64).sqrt();
    let mut rows = vec![
        Row::within("difference from a closed form, in stated errors", size, 1.0, doubt),
        Row::within(
            "mean of that difference",
            mean(errors.iter().copied()),
            0.0,
            4.0 / (errors.len() as f64).sqrt(),
        ),
    ];
    rows.push(Row::told(
        "10,000 days of ten loads and five trucks, ms",
        format!("{:.0}", ten_thousand_days()),
    ));
    let days: Vec<[Forecast; 2]> = each(seeds, a_day_seen);
    for (which, name) in [(0, "as planned"), (1, "after three loads")] {
        let held = share(days.iter().map(|day| day[which].held));
        rows.push(Row::within(format!("end between early and late, {name}"), held, 0.80, 0.03));
    }
    let [planned, replanned] =
        [0, 1].map(|which| mean(days.iter().map(|day| day[which].off * day[which].off)).sqrt());
    rows.push(Row::told(
        "error of the end as planned, after three loads, min",
        format!("{planned:.1}, {replanned:.1}"),
    ));
    rows.push(Row::at_most(
        "error of the end after three loads over that of the plan",
        replanned / planned,
        1.0,
    ));
    rows
}

/// Milliseconds that ten thousand days take on one processor, everything varying.
fn ten_thousand_days() -> f64 {
    let long = |usual| HowLong { usual: minutes(usual), slow: minutes(usual * 1.3) };
    let mut plan = plan(long(40.0), 4.0, 10);
    plan.durations = Durations {
        bay: long(6.0),
        test: long(7.0),
        position: long(3.0),
        discharge: long(14.0),
        back: long(28.0),
        section: long(5.0),
        lift: long(8.0),
        finish: long(25.0),
        ..plan.durations
    };
    plan.test_every = 2;
    plan.work = (2..=10).step_by(2).map(|load| WorkAfter { load, sections: 1, lifts: 1 }).collect();
    let begun = std::time::Instant::now();
    let outlook = plan.play(&SoFar::nothing(start()), 5, Sample { days: 10_000, seed: 1 }).expect("days");
    let took = begun.elapsed().as_secs_f64() * 1_000.0;
    assert_eq!(outlook.days, 10_000);
    took
}

struct Forecast {
    held: bool,
    /// Minutes from the middle of the forecast.
    off: f64,
}

fn start() -> Moment {
    Moment::parse("2026-05-04T07:00:00Z").expect("a moment")
}

fn minutes(value: f64) -> Span {
    Span::minutes(value)
}

fn plan(haul: HowLong, plan_worth: f64, loads_left: u32) -> PourDay {
    let always = |value| HowLong::always(minutes(value));
    let durations = Durations {
        bay: HowLong::none(),
        haul,
        test: HowLong::none(),
        position: always(3.0),
        discharge: always(16.0),
        back: always(30.0),
        section: HowLong::none(),
        lift: HowLong::none(),
        finish: always(30.0),
    };
    PourDay {
        durations,
        plan_worth,
        loads_left,
        headway: None,
        test_every: 0,
        work: Vec::new(),
        life: Estimate::new(minutes(600.0), minutes(0.0)),
        gap_limit: minutes(90.0),
    }
}

/// One truck, a haul that varies, a plan that is sure: no gap of `n` is over the limit with probability `F(limit)ⁿ`.
/// How many stated errors the played probability lies off.
fn against_closed_form(seed: u64) -> f64 {
    let mut chance = Chance::of_topic(seed, "round of a truck");
    let (usual, longer, loads) =
        (chance.between([25.0, 50.0]), chance.between([1.1, 1.5]), chance.whole([3, 12]));
    let haul = HowLong { usual: minutes(usual), slow: minutes(usual * longer) };
    let mut plan = plan(haul, f64::INFINITY, loads as u32);
    // A limit that some tenths of the days keep.
    let wanted = chance.between([0.2, 0.8]);
    let each = wanted.powf(1.0 / (loads as f64 - 1.0));
    let spread = longer.ln() / 1.281_551_565_544_600_8;
    let limit = usual * (spread * calc::chance::normal_quantile(each)).exp();
    plan.gap_limit = minutes(limit + 33.0);
    let truth = 1.0 - standard_normal_cdf((limit / usual).ln() / spread).powf(loads as f64 - 1.0);
    let played = plan.play(&SoFar::nothing(start()), 1, Sample { days: 1_000, seed }).expect("days");
    (played.gap_over.value - truth) / played.gap_over.standard_error
}

/// A day of one truck and eight loads whose hauls are off the plan by a factor, triangular and not lognormal: how the
/// end is told in the morning and after three loads.
fn a_day_seen(seed: u64) -> [Forecast; 2] {
    let mut chance = Chance::of_topic(seed, "a day of hauls");
    let (usual, loads, seen, worth) = (40.0, 8, 3, 4.0);
    let spread = 1.25_f64.ln() / 1.281_551_565_544_600_8;
    let mut triangle = || (chance.part() + chance.part() - 1.0) * 6.0_f64.sqrt();
    let day = spread / f64::sqrt(worth) * triangle();
    let mut clock = 0.0;
    let mut all = Vec::new();
    for _ in 0..loads {
        let batched = clock;
        let arrived = batched + usual * (day + spread * triangle()).exp();
        let finished = arrived + 3.0 + 16.0;
        all.push([batched, arrived, arrived + 3.0, finished]);
        clock = finished + 30.0;
    }
    let end = all.last().map_or(0.0, |last| last[3]) + 30.0;
    let at = |minutes: f64| start().plus_seconds((minutes * 60.0).round() as i64);
    let moments = |[batched, arrived, started, finished]: [f64; 4]| LoadMoments {
        batched: Some(at(batched)),
        arrived: Some(at(arrived)),
        discharge_started: Some(at(started)),
        discharge_finished: Some(at(finished)),
    };
    let known: Vec<LoadMoments> = all[..seen].iter().copied().map(moments).collect();
    let haul = HowLong { usual: minutes(usual), slow: minutes(usual * 1.25) };
    let forecast = |known: &[LoadMoments], now: f64| {
        let plan = plan(haul, worth, (loads - known.len()) as u32);
        let so_far = SoFar { loads: known, ..SoFar::nothing(at(now)) };
        let finish = plan.play(&so_far, 1, Sample { days: 400, seed }).expect("days").finish;
        let [early, half, late] =
            [finish.early, finish.half, finish.late].map(|one| one.value.to_minutes() + now);
        Forecast { held: early <= end && end <= late, off: end - half }
    };
    [forecast(&[], 0.0), forecast(&known, all[seen - 1][3])]
}
