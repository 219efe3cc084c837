//! The made-up pours that every proof shares, each read and estimated once.
//!
//! Holes of the default recipe, so with necks, cavities and seams of raised-cosine flanks in layers of their own
//! mean; tapes in tenths of a foot and in five centimetres; plants half a percent true, high or low; one or two
//! soundings a load.

use calc::curve::{Pour, VolumeCurve, volume_curve};
use calc::profile::{Ground, Prior, Profile, Stratum, profile};
use quantity::{Elevation, Length, Volume};
use rehearse::hole::{Hole, Recipe};
use rehearse::readings::{Crew, Marks, Plant, Readings, Tape};
use std::ops::Range;

/// A pour, what was read of it, and what was made of that.
pub struct Rehearsed {
    /// The readings, the truth beside them.
    pub readings: Readings,
    /// What was known of the ground.
    pub ground: Ground,
    /// The trade's curve.
    pub curve: VolumeCurve,
    /// The estimate; `None` when there was none.
    pub profile: Option<Profile>,
}

/// The least loss, and the height it goes over, that makes a shaft one with a neck.
pub const NECK: (f64, f64) = (0.15, 1.0);

/// Depth as an elevation; the top of a made-up hole stands at 0.
pub fn at(depth_m: f64) -> Elevation {
    Elevation(Length::meters(-depth_m))
}

impl Rehearsed {
    /// The pour of a seed. `None` when the drawing makes no hole.
    pub fn of_seed(seed: u64) -> Option<Self> {
        let hole = Hole::of_seed(seed, &Recipe::default());
        Rehearsed::of(seed, hole, crew(seed))
    }

    /// The pour of a seed in a hole.
    pub fn of(seed: u64, hole: Hole, crew: Crew) -> Option<Self> {
        Some(Rehearsed::of_readings(Readings::of_seed(seed, hole, crew).ok()?))
    }

    /// What is made of readings.
    pub fn of_readings(readings: Readings) -> Self {
        let ground = ground(&readings);
        let (curve, _) = volume_curve(&readings.pour());
        let profile = estimate(&readings.pour(), &ground, &readings);
        Rehearsed { readings, ground, curve, profile }
    }

    /// Whether the hole has a neck worth the name.
    pub fn has_neck(&self) -> bool {
        let (loss, height_m) = NECK;
        self.readings.hole.wall.greatest_loss(height_m).is_some_and(|(greatest, _)| greatest >= loss)
    }

    /// Read depths of each interval, upper and lower, with its place among the intervals of the curve.
    pub fn intervals(&self) -> Vec<(usize, [f64; 2])> {
        let depths = self.readings.soundings.iter().map(|sounding| sounding.read_m);
        let depths: Vec<f64> = std::iter::once(self.readings.base_m).chain(depths).collect();
        let length_m = self.readings.hole.length_m();
        let inside = depths.windows(2).map(|pair| [pair[1].max(0.0), pair[0].min(length_m)]);
        inside.enumerate().filter(|(_, [top, bottom])| bottom - top >= LEAST_M).collect()
    }
}

/// Shorter intervals are not counted: the trade has no ratio for them.
const LEAST_M: f64 = 0.3;

/// The estimate of a pour, with the errors the crew states of its reference and of part-emptied trucks.
pub fn estimate(pour: &Pour<'_>, ground: &Ground, readings: &Readings) -> Option<Profile> {
    estimate_as(pour, ground, readings, Prior::default())
}

/// The same with other beliefs.
pub fn estimate_as(pour: &Pour<'_>, ground: &Ground, readings: &Readings, beliefs: Prior) -> Option<Profile> {
    let shared_tape = Length::meters(readings.crew.tape.shared_m);
    let part_load_error = readings.crew.part_error;
    let judged_error = Volume::cubic_meters(readings.crew.left_error_m3);
    let prior = Prior { shared_tape, part_load_error, judged_error, ..beliefs };
    profile(pour, ground, &prior).ok().map(|(profile, _)| profile)
}

/// Who reads and delivers on the pour of a seed.
pub fn crew(seed: u64) -> Crew {
    let usual = Crew::default();
    let marks = if (seed / 2).is_multiple_of(2) { Marks::TenthFoot } else { Marks::FiveCentimeters };
    let bias = [-0.005, 0.0, 0.005][(seed / 4 % 3) as usize];
    Crew {
        soundings_per_load: 1 + (seed % 2) as usize,
        tape: Tape { marks, ..usual.tape },
        plant: Plant { bias, ..usual.plant },
        ..usual
    }
}

/// Boundaries as the log of the drilling shows them, and which soundings fell within a load.
fn ground(readings: &Readings) -> Ground {
    let strata = readings.hole.layers.iter().map(|layer| Stratum { top: at(layer.top_m), earlier: None });
    let soundings = readings.soundings.windows(2).enumerate();
    let within =
        soundings.filter(|(_, pair)| pair[0].trucks.last().is_some_and(|last| pair[1].trucks.contains(last)));
    let part_loads = within.map(|(at, _)| at).collect();
    Ground { strata: strata.collect(), jumps: Vec::new(), part_loads, judged: judged(readings) }
}

/// The soundings before which a volume was judged: that of a truck whose rest goes home, and those where some ran over.
fn judged(readings: &Readings) -> Vec<usize> {
    let soundings = readings.soundings.iter().enumerate();
    let over = soundings.clone().filter(|(_, one)| one.wasted_m3 > 0.0).map(|(at, _)| at);
    let left = soundings.rev().find(|(_, one)| !one.tickets_m3.is_empty()).map(|(at, _)| at);
    over.chain(left).collect()
}

/// Pours with the seeds they are made from; the parts that make days or jobs of their own use the same seeds.
pub struct Made {
    /// The seeds.
    pub seeds: Range<u64>,
    /// The pours; one of a hole that cannot be drawn is left out.
    pub pours: Vec<Rehearsed>,
}

/// So many pours from one seed on, on all processors.
pub fn rehearsed(from: u64, count: u64) -> Made {
    let seeds = from..from + count;
    Made { pours: each(seeds.clone(), Rehearsed::of_seed).into_iter().flatten().collect(), seeds }
}

/// A function of each seed, on all processors, in the order of the seeds.
pub fn each<T: Send>(seeds: Range<u64>, of: impl Fn(u64) -> T + Sync) -> Vec<T> {
    let workers = std::thread::available_parallelism().map_or(1, usize::from) as u64;
    let chunk = (seeds.end - seeds.start).div_ceil(workers).max(1);
    let of = &of;
    std::thread::scope(|scope| {
        let begins = (0..workers).map(|worker| seeds.start + worker * chunk);
        let chunks =
            begins.map(|begin| begin..(begin + chunk).min(seeds.end)).filter(|chunk| !chunk.is_empty());
        let started: Vec<_> =
            chunks.map(|chunk| scope.spawn(move || chunk.map(of).collect::<Vec<T>>())).collect();
        started.into_iter().flat_map(|worker| worker.join().expect("a proof that does not panic")).collect()
    })
}
