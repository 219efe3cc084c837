//! Orders for shafts that are not begun, from earlier ones that differ as no normal distribution does.
//!
//! A job has three strata with means of their own; a shaft lies off them by a triangular amount, half of it in all
//! strata alike; ratios are read with an error. One to eight shafts are poured, then the next is ordered for.

use crate::pours::{Made, each};
use crate::row::{Row, mean, share};
use calc::estimate::Estimate;
use calc::order::{Ahead, EarlierRatio, USUAL_BELIEFS, from_earlier};
use quantity::Volume;
use rehearse::chance::Chance;

/// Shortage at three levels over as many jobs as there are pours.
pub fn prove(made: &Made) -> Vec<Row> {
    let jobs: Vec<(usize, f64, f64)> = each(made.seeds.clone(), job).into_iter().flatten().collect();
    let mut rows = vec![Row::told("jobs", jobs.len().to_string())];
    for level in [0.90, 0.95, 0.99] {
        let short = share(jobs.iter().map(|job| job.1 > level));
        rows.push(Row::within(
            format!("short at a service level of {:.0} %", level * 100.0),
            short,
            1.0 - level,
            0.015,
        ));
    }
    for (name, few) in [("one or two earlier shafts", true), ("three to eight", false)] {
        let of = jobs.iter().filter(|job| (job.0 <= 2) == few);
        let widths = mean(of.map(|job| job.2));
        rows.push(Row::told(format!("order at 95 % over the drawing, {name}"), format!("{widths:.4}")));
    }
    rows
}

/// How many earlier shafts, where the truth lies in what was told, and the order at 95 % over the drawing.
fn job(seed: u64) -> Option<(usize, f64, f64)> {
    let mut chance = Chance::of_topic(seed, "job of earlier shafts");
    let means = [(); 3].map(|()| chance.between([0.98, 1.25]));
    let apart = chance.between([0.01, 0.10]);
    let count = chance.whole([1, 8]);
    let mut earlier = Vec::new();
    for number in 0..count {
        let ratios = shaft(means, apart, &mut chance);
        for (stratum, ratio) in ratios.into_iter().enumerate() {
            let error = chance.between([0.01, 0.04]);
            let read = ratio + error * chance.normal();
            earlier.push(EarlierRatio { shaft: number, stratum, ratio: Estimate::new(read, error) });
        }
    }
    let volumes = [(); 3].map(|()| chance.between([2.0, 12.0]));
    let ahead =
        [0, 1, 2].map(|stratum| Ahead { stratum, theoretical: Volume::cubic_meters(volumes[stratum]) });
    let told = from_earlier(&earlier, &ahead, &USUAL_BELIEFS).ok()?;
    let truth: f64 =
        shaft(means, apart, &mut chance).iter().zip(volumes).map(|(ratio, volume)| ratio * volume).sum();
    let order = told.quantile(0.95).ok()?;
    Some((count, told.cdf(truth), order / volumes.iter().sum::<f64>()))
}

/// The true ratios of one shaft.
fn shaft(means: [f64; 3], apart: f64, chance: &mut Chance) -> [f64; 3] {
    // The sum of two even draws is triangular; its deviation is √(1/6) of half its width.
    let mut triangle = || (chance.part() + chance.part() - 1.0) * 6.0_f64.sqrt();
    let half = std::f64::consts::FRAC_1_SQRT_2;
    let alike = triangle();
    means.map(|mean| mean + apart * half * (alike + triangle()))
}
