//! How long a played day takes: ten loads and five trucks, everything varying, ten thousand days.
//!
//! Run: `cargo run --release -p calc --example bench_day`; in Chromium: `cargo xtask prove speed`.
//!
//! Units: milliseconds, the least and the median of all rounds. Never: fail because a machine is slow.

use calc::estimate::Estimate;
use calc::pour_day::{Durations, HowLong, PourDay, Safe, Sample, SoFar, WorkAfter};
use quantity::{Moment, Span};
use std::hint::black_box;
use std::time::Instant;

const ROUNDS: usize = 21;

fn main() {
    let plan = plan();
    let begin = Moment::parse("2026-05-04T07:00:00Z").expect("a moment");
    let so_far = SoFar::nothing(begin);
    for days in [1_000, 4_000, 10_000] {
        let sample = Sample { days, seed: 1 };
        measure(&format!("{days} days, five trucks"), &|| plan.play(&so_far, 5, sample).expect("days"));
        let safe = Safe { probability: 2.0, most_trucks: 12 };
        measure(&format!("{days} days, each of one to twelve trucks"), &|| {
            plan.trucks_until_safe(&so_far, safe, sample).expect("days")
        });
    }
}

fn plan() -> PourDay {
    let long = |usual: f64| HowLong { usual: Span::minutes(usual), slow: Span::minutes(usual * 1.3) };
    PourDay {
        durations: Durations {
            bay: long(6.0),
            haul: long(40.0),
            test: long(7.0),
            position: long(3.0),
            discharge: long(14.0),
            back: long(28.0),
            section: long(5.0),
            lift: long(8.0),
            finish: long(25.0),
        },
        plan_worth: 4.0,
        loads_left: 10,
        headway: None,
        test_every: 2,
        work: (2..=10).step_by(2).map(|load| WorkAfter { load, sections: 1, lifts: 1 }).collect(),
        life: Estimate::new(Span::minutes(300.0), Span::minutes(20.0)),
        gap_limit: Span::minutes(60.0),
    }
}

#[expect(clippy::disallowed_methods, reason = "a figure is printed; the crate itself knows no clock")]
fn measure<T>(what: &str, work: &dyn Fn() -> T) {
    let mut rounds: Vec<f64> = (0..ROUNDS)
        .map(|_| {
            let begun = Instant::now();
            black_box(work());
            begun.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    rounds.sort_by(f64::total_cmp);
    println!("{what}: {:.1} ms at least, {:.1} ms in the middle", rounds[0], rounds[ROUNDS / 2]);
}
