//! How long an as-built profile takes: 40 soundings, 600 cells.
//!
//! The shaft is made up, with a neck and a cavity. Run: `cargo run --release -p calc --example bench_profile`; in Chromium: `cargo xtask prove speed`.
//!
//! Units: milliseconds, the least and the median of all rounds. Never: fail because a machine is slow.

use calc::curve::{LoadError, Pour, Station};
use calc::estimate::Estimate;
use calc::geometry::Bore;
use calc::profile::{Ground, Prior, Profile, profile};
use quantity::{Elevation, Fraction, Length, Volume};
use std::hint::black_box;
use std::time::Instant;

const ROUNDS: usize = 51;

fn main() {
    let at = |meters| Elevation(Length::meters(meters));
    let bore = Bore::cylinder(Length::meters(1.5), at(40.0), at(0.0)).expect("a hole");
    let pour = Pour {
        base: Estimate::new(at(0.0), Length::meters(0.03)),
        bore: &bore,
        stations: (1..=40).map(|number| station(&bore, number)).collect(),
        load_error: LoadError { each: 0.015, shared: 0.01 },
        least_rise: Length::meters(0.9),
    };
    let ground = Ground { jumps: vec![at(9.0), at(22.0), at(31.0)], ..Ground::default() };
    let estimate = || profile(&pour, &ground, &Prior::default()).expect("a profile").0;
    let shaft = estimate();
    println!("{} cells, 40 soundings, {} accounts", shaft.cells().len(), shaft.accounts().len());
    measure("estimate", &estimate);
    measure("bands of all cells, after it", &|| shaft.bands().expect("bands"));
    measure("bands of one cell in four, after it", &|| {
        (0..600).step_by(4).map(|at| shaft.band(at).expect("a band")).collect::<Vec<_>>()
    });
    measure("ratios of all intervals, after it", &|| intervals(&shaft));
    measure("blind spots of one height, after it", &|| {
        shaft.blind_spots(Length::meters(1.0)).expect("a height")
    });
    measure("probability of a neck, after it", &|| {
        shaft.loss_probability([at(0.0), at(40.0)], Length::meters(1.0), Fraction::percent(15.0))
    });
    measure("concrete still needed, after it", &|| shaft.remaining(at(40.0)).expect("a level"));
}

/// A metre a sounding; the twelfth took less, the thirtieth more.
fn station(bore: &Bore, number: usize) -> Station<'_> {
    let ratio = match number {
        12 => 0.75,
        30 => 1.50,
        _ => 1.08,
    };
    let load = bore.area_at(bore.top()).expect("the top").to_square_meters() * ratio;
    Station {
        level: Estimate::new(Elevation(Length::meters(number as f64)), Length::meters(0.03)),
        loads: vec![Volume::cubic_meters(load)],
        wasted: Volume::cubic_meters(0.0),
        held: Volume::cubic_meters(0.0),
        bore,
    }
}

fn intervals(shaft: &Profile) -> Vec<[f64; 2]> {
    let at = |number: u32| Elevation(Length::meters(f64::from(number)));
    let ratio = |number| shaft.stretch(at(number), at(number - 1)).expect("a stretch");
    (1..=40).map(|number| ratio(number).grouped().band(0.9).expect("a band")).collect()
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
    println!("{what}: {:.2} ms at least, {:.2} ms in the middle", rounds[0], rounds[ROUNDS / 2]);
}
