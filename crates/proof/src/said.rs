//! What a person is told of a stretch is so as often as its words promise, and few even shafts are told of.
//!
//! The words are those of the program (`assess::shape::told`), over the same pours as every other row.
//!
//! Words: *told* = a stretch that a person hears of; *so* = what was said of it holds of the true hole.

use crate::pours::{Made, NECK, Rehearsed};
use crate::row::{Row, mean, share};
use assess::assumed;
use assess::shape::{Told, told};
use quantity::{Elevation, Length};

/// The upper end of a band of 90 % has 5 % above it, and so has the lower one below it.
const PROMISED: f64 = 0.95;
/// As far as a band may be from what it says.
const WITHIN: f64 = 0.02;

/// What was said of the stretches of one pour, and what is so.
struct Heard {
    neck: bool,
    wide: Vec<bool>,
    less: Vec<bool>,
    /// The probability told, and whether so much is lost somewhere in the stretch.
    possible: Vec<(f64, bool)>,
}

/// How often what is said is so, and how many shafts with a neck and without one are told of.
pub fn prove(made: &Made) -> Vec<Row> {
    let heard: Vec<Heard> = made.pours.iter().filter_map(heard).collect();
    let all = |of: fn(&Heard) -> &[bool]| heard.iter().flat_map(of).copied().collect::<Vec<bool>>();
    let (wide, less) = (all(|one| &one.wide), all(|one| &one.less));
    let possible: Vec<(f64, bool)> = heard.iter().flat_map(|one| one.possible.iter().copied()).collect();
    let mut rows = vec![
        Row::told(
            "stretches told of: wide, took less, a neck is possible",
            format!("{}, {}, {}", wide.len(), less.len(), possible.len()),
        ),
        Row::at_least("told wide, and wider than the shaft by what is said", share(wide), PROMISED - WITHIN),
        Row::at_least(
            "told to have taken less, and less than the shaft by what is said",
            share(less),
            PROMISED - WITHIN,
        ),
        Row::told(
            "a neck is possible: mean probability told, part of them that have it",
            format!(
                "{:.3}, {:.3}",
                mean(possible.iter().map(|one| one.0)),
                share(possible.iter().map(|one| one.1))
            ),
        ),
    ];
    for (who, neck) in [("with a neck", true), ("without one", false)] {
        let of = || heard.iter().filter(|one| one.neck == neck);
        let count = of().count();
        let [less, possible, either] = [
            share(of().map(|one| !one.less.is_empty())),
            share(of().map(|one| !one.possible.is_empty())),
            share(of().map(|one| !one.less.is_empty() || !one.possible.is_empty())),
        ];
        rows.push(Row::told(
            format!("shafts {who} ({count}): took less, a neck is possible, either said"),
            format!("{less:.3}, {possible:.3}, {either:.3}"),
        ));
    }
    rows
}

/// `None` where there is no estimate, or nothing was read high enough.
fn heard(pour: &Rehearsed) -> Option<Heard> {
    let said = told(pour.profile.as_ref()?, &pour.curve, Length::meters(NECK.1)).ok()?;
    let mut heard = Heard { neck: pour.has_neck(), wide: Vec::new(), less: Vec::new(), possible: Vec::new() };
    let whole = whole(pour)?;
    for one in said {
        match one {
            Told::Wide { ends, .. } => heard.wide.push(ratio(pour, ends)? > whole * assumed::wide_beyond()),
            Told::TookLess { ends, .. } => {
                heard.less.push(ratio(pour, ends)? < whole * assumed::less_below())
            }
            Told::NeckPossible { ends, height, share, probability, .. } => {
                let lost = lost_within(pour, depths(ends), height.to_meters());
                heard.possible.push((probability, lost > share.to_part()));
            }
        }
    }
    Some(heard)
}

/// The top of a made-up hole stands at 0.
fn depths(ends: [Elevation; 2]) -> [f64; 2] {
    ends.map(|end| -end.0.to_meters())
}

fn ratio(pour: &Rehearsed, ends: [Elevation; 2]) -> Option<f64> {
    pour.readings.hole.mean_ratio(depths(ends))
}

/// The true ratio of the shaft as far as it was read.
fn whole(pour: &Rehearsed) -> Option<f64> {
    let read = pour.curve.intervals.iter().filter(|one| one.rise.value >= assumed::least_rise());
    let highest = read.map(|one| one.upper).max()?;
    pour.readings.hole.mean_ratio([-highest.0.to_meters(), pour.readings.hole.length_m()])
}

/// The greatest part of the area that the features of the hole take over a height, its middle within a stretch.
fn lost_within(pour: &Rehearsed, [top, bottom]: [f64; 2], height_m: f64) -> f64 {
    const STEP_M: f64 = 0.05;
    let length_m = pour.readings.hole.length_m();
    let steps = ((bottom - top) / STEP_M) as usize;
    let middles = (0..=steps).map(|step| top + STEP_M * step as f64);
    let uppers = middles.map(|middle| (middle - height_m / 2.0).clamp(0.0, (length_m - height_m).max(0.0)));
    let losses = uppers.filter_map(|upper| pour.readings.hole.wall.loss([upper, upper + height_m]));
    losses.fold(0.0, f64::max)
}
