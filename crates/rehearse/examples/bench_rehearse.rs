//! How long 5,000 rehearsed pours take, printed and never asserted.

use calc::geometry::GeometryError;
use rehearse::hole::{Hole, Recipe};
use rehearse::readings::{Crew, Readings};
use std::time::Instant;

const POURS: u64 = 5_000;

fn main() -> Result<(), GeometryError> {
    let begin = Instant::now();
    let mut soundings = 0;
    for seed in 0..POURS {
        let readings = Readings::of_seed(seed, Hole::of_seed(seed, &Recipe::default()), Crew::default())?;
        soundings += readings.soundings.len();
    }
    println!("{POURS} pours, {soundings} soundings: {:.2} s", begin.elapsed().as_secs_f64());
    Ok(())
}
