//! What earlier shafts of a job teach the estimate of the next: its bands still hold, and it errs less.
//!
//! The shafts of a job stand in the same layers; each comes out a little wider or narrower, half of that in all layers
//! alike, and has necks and cavities of its own. Three to six are poured, then the next is estimated twice: with what they
//! taught, as the program does, and without.

use crate::pours::{Made, Rehearsed, at, crew, each, estimate_as};
use crate::row::{Row, mean, share};
use calc::estimate::Estimate;
use calc::order::{Ahead, Beliefs, EarlierRatio, USUAL_BELIEFS, from_earlier, ratio_within};
use calc::profile::{EarlierInterval, Ground, Prior, Profile};
use quantity::Volume;
use rehearse::chance::Chance;
use rehearse::ground::Layer;
use rehearse::hole::{Hole, Recipe};
use rehearse::wall::Wall;

/// One job for so many pours of the other parts: each is some pours of its own.
const ONE_IN: u64 = 2;

/// Where the truth of an interval lies in what was told, and what was told, with the earlier shafts and without.
struct Judged {
    truth: f64,
    place: [f64; 2],
    told: [f64; 2],
}

/// Coverage of four bands with what was learned, and errors beside those of the usual beliefs.
pub fn prove(made: &Made) -> Vec<Row> {
    let seeds = made.seeds.start..made.seeds.start + (made.seeds.end - made.seeds.start).div_ceil(ONE_IN);
    let judged: Vec<Judged> = each(seeds.clone(), job).into_iter().flatten().flatten().collect();
    let counts = format!("{}, {}", seeds.end - seeds.start, judged.len());
    let mut rows = vec![Row::told("jobs, and intervals of their last shafts", counts)];
    for nominal in [0.50, 0.80, 0.90, 0.95] {
        let held =
            |which: usize| share(judged.iter().map(|one| (one.place[which] - 0.5).abs() <= nominal / 2.0));
        let name = format!("band of {:.0} %, learned", nominal * 100.0);
        rows.push(Row::within(name, held(0), nominal, 0.02));
        rows.push(Row::told(format!("band of {:.0} %, usual", nominal * 100.0), format!("{:.4}", held(1))));
    }
    let error = |which: usize| mean(judged.iter().map(|one| (one.told[which] - one.truth).powi(2))).sqrt();
    rows.push(Row::at_most("error of the ratio, learned over usual", error(0) / error(1), 1.0));
    rows
}

/// The last shaft of a job, interval by interval. `None` where a hole cannot be drawn.
fn job(seed: u64) -> Option<Vec<Judged>> {
    let mut chance = Chance::of_topic(seed, "job of like shafts");
    let first = Hole::of_seed(seed, &Recipe::default());
    let apart = chance.between([0.01, 0.05]);
    let count = chance.whole([3, 6]);
    let mut shafts = Vec::new();
    for _ in 0..=count {
        let (number, layers) =
            (chance.whole([0, 1 << 30]) as u64, shifted(&first.layers, apart, &mut chance));
        shafts.push(Rehearsed::of(number, like(&first, layers, number), crew(seed))?);
    }
    let last = shafts.pop()?;
    let intervals: Vec<Vec<EarlierInterval>> = shafts.iter().map(read_intervals).collect();
    let ground = taught(&last.ground, &shafts);
    let learned =
        estimate_as(&last.readings.pour(), &ground, &last.readings, Prior::default().learned(&intervals))?;
    let usual = last.profile.as_ref()?;
    Some(judged(&last, [&learned, usual]))
}

/// Each layer of the job as it comes out in one shaft.
fn shifted(layers: &[Layer], apart: f64, chance: &mut Chance) -> Vec<Layer> {
    // The sum of two even draws is triangular; its deviation is √(1/6) of half its width.
    let mut triangle = || (chance.part() + chance.part() - 1.0) * 6.0_f64.sqrt();
    let half = std::f64::consts::FRAC_1_SQRT_2;
    let alike = triangle();
    layers
        .iter()
        .map(|layer| Layer { mean: layer.mean + apart * half * (alike + triangle()), ..*layer })
        .collect()
}

/// A hole of the same drawing in such layers, with features of its own.
fn like(first: &Hole, layers: Vec<Layer>, number: u64) -> Hole {
    let (length_m, diameter_m) = ([first.length_m(); 2], [first.diameter_m; 2]);
    let hole = Hole::of_seed(number, &Recipe { length_m, diameter_m, ..Recipe::default() });
    let wall = Wall::new(&layers, &hole.features, 0.3, &mut Chance::of_topic(number, "wall of a job"));
    Hole { layers, wall, ..hole }
}

fn read_intervals(shaft: &Rehearsed) -> Vec<EarlierInterval> {
    let interval = |one: &calc::curve::Interval| {
        let size = one.theoretical?.value.to_cubic_meters();
        Some(EarlierInterval { ratio: one.ratio?, size }).filter(|_| size > 0.0)
    };
    shaft.curve.intervals.iter().filter_map(interval).collect()
}

/// The ground with what the earlier shafts took in each stratum.
fn taught(ground: &Ground, shafts: &[Rehearsed]) -> Ground {
    let mut ground = ground.clone();
    let length_m = shafts[0].readings.hole.length_m();
    let tops: Vec<_> = ground.strata.iter().map(|stratum| stratum.top).collect();
    for (index, stratum) in ground.strata.iter_mut().enumerate() {
        let bottom = tops.get(index + 1).copied().unwrap_or_else(|| at(length_m));
        let ratios = shafts.iter().enumerate().filter_map(|(shaft, one)| {
            let ratio = ratio_within(&one.curve, stratum.top, bottom)?.ratio;
            Some(EarlierRatio { shaft, stratum: 0, ratio })
        });
        stratum.earlier = expected(&ratios.collect::<Vec<_>>());
    }
    ground
}

/// What is to be expected of a stratum, as the program tells it to the estimate.
fn expected(ratios: &[EarlierRatio]) -> Option<Estimate<f64>> {
    if ratios.is_empty() {
        return None;
    }
    let usual = Prior::default();
    let ratio = Estimate::new(usual.ratio, usual.stratum_spread);
    let beliefs = Beliefs { ratio, apart: usual.shaft_spread, ..USUAL_BELIEFS };
    let ahead = [Ahead { stratum: 0, theoretical: Volume::cubic_meters(1.0) }];
    let told = from_earlier(ratios, &ahead, &beliefs).ok()?;
    let [low, high] = told.band(0.682_689_492_137_086).ok()?;
    Some(Estimate::new(told.mean(), (high - low) / 2.0))
}

fn judged(last: &Rehearsed, profiles: [&Profile; 2]) -> Vec<Judged> {
    let judge = |(_, stretch): (usize, [f64; 2])| {
        let told = |profile: &Profile| profile.stretch(at(stretch[0]), at(stretch[1])).ok();
        let (learned, usual) = (told(profiles[0])?, told(profiles[1])?);
        let truth = last.readings.hole.mean_ratio(stretch)?;
        let place = [learned.cdf(truth), usual.cdf(truth)];
        Some(Judged { truth, place, told: [learned.mean(), usual.mean()] })
    };
    last.intervals().into_iter().filter_map(judge).collect()
}
