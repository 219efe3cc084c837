//! Rows about what may happen: quantiles, orders with a service level, and days played.
//!
//! The days are played there by an independent simulation with draws of its own, so that the two agree within
//! the error of their numbers of days and not better.

use super::{line, list, lists, number};
use calc::chance::normal_quantile;
use calc::estimate::Estimate;
use calc::mixture::{Mixture, Part};
use calc::order::{Ahead, EarlierRatio, Need, Trucks, USUAL_BELIEFS, from_earlier};
use calc::pooled::{pooled, student_quantile};
use calc::pour_day::{DayOutlook, Durations, HowLong, PourDay, Sample, SoFar, Spread, WorkAfter};
use calc::waiting::LoadMoments;
use quantity::{Fraction, Moment, Span, Volume};

pub(super) fn all() {
    quantiles();
    orders();
    shafts_not_begun();
    days();
    together();
}

fn quantiles() {
    let parts = (-300..0).map(|power| libm::pow(10.0, f64::from(power)));
    let parts: Vec<f64> = parts.chain((1..1000).map(|step| f64::from(step) / 1000.0)).collect();
    let at = list(parts.iter().map(|part| normal_quantile(*part)));
    line("quantile", &[("part", list(parts)), ("at", at)]);
}

/// Weight, mean and standard deviation, cubic metres.
const HOLES: [&[[f64; 3]]; 3] =
    [&[[1.0, 14.0, 0.7]], &[[0.7, 9.0, 0.3], [0.3, 11.0, 0.9]], &[[0.5, 3.0, 0.0], [0.5, 4.0, 0.2]]];

fn orders() {
    for parts in HOLES {
        let part = |&[weight, mean, sd]: &[f64; 3]| Part { weight, mean, sd };
        let hole = Mixture::new(parts.iter().map(part).collect()).expect("a mixture");
        let cubic = Volume::cubic_meters;
        let need = Need {
            hole: &hole,
            over_pour: Estimate::new(cubic(0.5), cubic(0.1)),
            lines: Estimate::new(cubic(0.2), cubic(0.05)),
            on_the_way: cubic(2.0),
            yield_error: Fraction::part(0.01),
        };
        for level in [0.5, 0.9, 0.95, 0.99] {
            let trucks = Trucks { full: cubic(7.0), step: cubic(0.25) };
            let order = need.order(&trucks, level).expect("an order");
            line(
                "order",
                &[
                    ("parts", lists(parts.iter().map(|part| part.to_vec()))),
                    ("beside", lists([vec![0.5, 0.1], vec![0.2, 0.05]])),
                    ("on_the_way", number(2.0)),
                    ("yield_error", number(0.01)),
                    ("step", number(0.25)),
                    ("level", number(level)),
                    ("volume", number(order.volume.to_cubic_meters())),
                    ("short", number(order.outcome.short)),
                    ("missing", number(order.outcome.missing.to_cubic_meters())),
                    ("left_over", number(order.outcome.left_over.to_cubic_meters())),
                ],
            );
        }
    }
}

fn shafts_not_begun() {
    // Shaft, stratum, ratio, error.
    let jobs: [&[(usize, usize, f64, f64)]; 3] = [
        &[],
        &[(0, 0, 1.18, 0.02), (0, 1, 1.05, 0.03)],
        &[(0, 0, 1.18, 0.02), (1, 0, 1.22, 0.02), (2, 0, 1.12, 0.03), (0, 1, 1.05, 0.03), (2, 1, 1.01, 0.02)],
    ];
    let ahead = [(0, 6.0), (1, 9.0), (2, 2.0)];
    for job in jobs {
        let one = |&(shaft, stratum, ratio, error): &(usize, usize, f64, f64)| EarlierRatio {
            shaft,
            stratum,
            ratio: Estimate::new(ratio, error),
        };
        let earlier: Vec<EarlierRatio> = job.iter().map(one).collect();
        let theoretical = Volume::cubic_meters;
        let ahead_of = ahead.map(|(stratum, volume)| Ahead { stratum, theoretical: theoretical(volume) });
        let mixture = from_earlier(&earlier, &ahead_of, &USUAL_BELIEFS).expect("a mixture");
        let parts = [0.05, 0.5, 0.95, 0.99];
        line(
            "earlier",
            &[
                ("ratios", lists(job.iter().map(|one| vec![one.0 as f64, one.1 as f64, one.2, one.3]))),
                ("ahead", lists(ahead.iter().map(|one| vec![one.0 as f64, one.1]))),
                ("believed", list([USUAL_BELIEFS.ratio.value, USUAL_BELIEFS.ratio.standard_error])),
                ("apart", number(USUAL_BELIEFS.apart)),
                ("in_common", number(USUAL_BELIEFS.in_common)),
                ("mean", number(mixture.mean())),
                ("parts", list(parts)),
                ("quantiles", list(parts.map(|part| mixture.quantile(part).expect("a quantile")))),
            ],
        );
    }
}

const DAYS: u32 = 8_000;

/// Minutes after 07:00.
fn at(minutes: f64) -> Moment {
    Moment::parse("2026-05-04T07:00:00-06:00").expect("a moment").plus_seconds((minutes * 60.0) as i64)
}

/// Usual and slow minutes of the nine durations.
const ROUND: [[f64; 2]; 9] = [
    [6.0, 8.0],
    [38.0, 50.0],
    [7.0, 10.0],
    [3.0, 5.0],
    [14.0, 20.0],
    [28.0, 36.0],
    [5.0, 8.0],
    [8.0, 14.0],
    [25.0, 40.0],
];

/// Batched, arrived, begun, ended, in minutes after 07:00; below zero: not yet.
const SEEN: [[f64; 4]; 5] = [
    [0.0, 45.0, 55.0, 70.0],
    [10.0, 58.0, 75.0, 93.0],
    [25.0, 80.0, 97.0, -1.0],
    [60.0, 104.0, -1.0, -1.0],
    [75.0, -1.0, -1.0, -1.0],
];

/// One case: loads left, trucks, headway (below zero: none), every so many tested, as how many loads the plan counts.
const CASES: [(u32, u32, f64, u32, f64, bool); 5] = [
    (8, 4, -1.0, 3, 4.0, false),
    (8, 3, -1.0, 0, 1e9, false),
    (12, 6, 18.0, 1, 2.0, false),
    (5, 4, -1.0, 2, 3.0, true),
    (3, 2, 20.0, 0, 8.0, true),
];

fn days() {
    let [bay, haul, test, position, discharge, back, section, lift, finish] =
        ROUND.map(|[usual, slow]| HowLong { usual: Span::minutes(usual), slow: Span::minutes(slow) });
    let durations = Durations { bay, haul, test, position, discharge, back, section, lift, finish };
    let work = vec![
        WorkAfter { load: 3, sections: 2, lifts: 0 },
        WorkAfter { load: 6, sections: 1, lifts: 1 },
        WorkAfter { load: 8, sections: 0, lifts: 2 },
    ];
    for (number, (loads_left, trucks, headway, test_every, plan_worth, begun)) in (1..).zip(CASES) {
        let plan = PourDay {
            durations,
            plan_worth,
            loads_left,
            headway: (headway > 0.0).then(|| Span::minutes(headway)),
            test_every,
            work: work.clone(),
            life: Estimate::new(Span::minutes(270.0), Span::minutes(12.0)),
            gap_limit: Span::minutes(25.0),
        };
        let loads = if begun { SEEN.map(moments).to_vec() } else { Vec::new() };
        let so_far =
            SoFar { now: at(if begun { 108.0 } else { 0.0 }), loads: &loads, sections: &[], lifts: &[] };
        let outlook = plan.play(&so_far, trucks, Sample { days: DAYS, seed: number }).expect("days");
        day_line(&plan, trucks, begun, &outlook);
    }
}

fn moments(minutes: [f64; 4]) -> LoadMoments {
    let [batched, arrived, discharge_started, discharge_finished] =
        minutes.map(|one| (one >= 0.0).then(|| at(one)));
    LoadMoments { batched, arrived, discharge_started, discharge_finished }
}

fn day_line(plan: &PourDay, trucks: u32, begun: bool, outlook: &DayOutlook) {
    let pair = |estimate: Estimate<f64>| vec![estimate.value, estimate.standard_error];
    let spread = |spread: &Spread| {
        let minutes = |one: Estimate<Span>| vec![one.value.to_minutes(), one.standard_error.to_minutes()];
        lists([spread.early, spread.half, spread.late].map(minutes))
    };
    let work = plan.work.iter().map(|one| [one.load, one.sections, one.lifts].map(f64::from).to_vec());
    let seen = if begun { SEEN.to_vec() } else { Vec::new() };
    line(
        "day",
        &[
            ("durations", lists(ROUND.map(|pair| pair.to_vec()))),
            ("work", lists(work)),
            ("plan_worth", number(plan.plan_worth)),
            ("loads_left", number(plan.loads_left.into())),
            ("trucks", number(trucks.into())),
            ("headway", number(plan.headway.map_or(0.0, Span::to_minutes))),
            ("test_every", number(plan.test_every.into())),
            ("life", list([plan.life.value, plan.life.standard_error].map(Span::to_minutes))),
            ("gap_limit", number(plan.gap_limit.to_minutes())),
            ("now", number(if begun { 108.0 } else { 0.0 })),
            ("seen", lists(seen.iter().map(|load| load.to_vec()))),
            ("in_time", list(pair(outlook.in_time))),
            ("gap_over", list(pair(outlook.gap_over))),
            ("safe", list(pair(outlook.safe))),
            ("finish", spread(&outlook.finish)),
            ("oldest", spread(&outlook.oldest)),
            ("longest_gap", spread(&outlook.longest_gap)),
        ],
    );
}

/// Ratios of a few shafts with their errors.
const TOGETHER: [&[[f64; 2]]; 4] = [
    &[[1.04, 0.02], [1.12, 0.03], [1.07, 0.02]],
    &[[1.00, 0.02], [1.20, 0.02]],
    &[[1.08, 0.05], [1.09, 0.04], [1.07, 0.06], [1.08, 0.05]],
    &[[1.31, 0.02], [1.05, 0.01], [1.12, 0.04], [1.09, 0.015], [0.98, 0.03], [1.15, 0.02]],
];

fn together() {
    for freedom in [1, 2, 3, 4, 5, 8, 30, 199] {
        let parts = [0.5, 0.75, 0.9, 0.95, 0.99, 0.9995];
        let at = parts.map(|part| student_quantile(part, freedom));
        line("student", &[("freedom", number(f64::from(freedom))), ("part", list(parts)), ("at", list(at))]);
    }
    for shafts in TOGETHER {
        let parts: Vec<Estimate<f64>> =
            shafts.iter().map(|[ratio, error]| Estimate::new(*ratio, *error)).collect();
        let told = pooled(&parts, 0.90).expect("two shafts and more");
        line(
            "pooled",
            &[
                ("parts", lists(shafts.iter().map(|one| one.to_vec()))),
                ("level", number(0.90)),
                ("mean", number(told.mean.value)),
                ("error", number(told.mean.standard_error)),
                ("between", number(told.between)),
                ("ends", list(told.ends)),
            ],
        );
    }
}
