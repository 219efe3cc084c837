//! Shafts with a neck are told from those without, and a loss at the stated limit is found as often as stated.

use crate::pours::{NECK, Rehearsed, at};
use crate::row::{Row, share};
use calc::profile::POWER;
use quantity::{Fraction, Length};
use rehearse::hole::Hole;
use rehearse::wall::{Feature, FeatureSort, Wall};

/// What is thought of one shaft: higher means more of a neck.
struct Suspected {
    neck: bool,
    told: f64,
    lowest: f64,
    cumulative: f64,
}

/// Area under the curve of hits over false alarms, against two plain ratios; and necks at the stated limit.
pub fn prove(pours: &[Rehearsed]) -> Vec<Row> {
    let mut rows = Vec::new();
    for (which, per_load) in [("one sounding a load", 1), ("one each half load", 2)] {
        let of = pours.iter().filter(|pour| pour.readings.crew.soundings_per_load == per_load);
        let suspected: Vec<Suspected> = of.filter_map(suspect).collect();
        let area = |read: fn(&Suspected) -> f64| area_under(&suspected, read);
        let (told, lowest, cumulative) =
            (area(|one| one.told), area(|one| one.lowest), area(|one| one.cumulative));
        let necks = suspected.iter().filter(|one| one.neck).count();
        rows.push(Row::told(
            format!("shafts, with a neck of them ({which})"),
            format!("{}, {necks}", suspected.len()),
        ));
        rows.push(Row::at_least(
            format!("area under the curve, over the lowest plain ratio ({which})"),
            told,
            lowest,
        ));
        rows.push(Row::at_least(
            format!("area under the curve, over the cumulative ratio ({which})"),
            told,
            cumulative,
        ));
    }
    let looked: Vec<[bool; 2]> = blind(pours.len() as u64);
    let found = share(looked.iter().map(|one| one[1]));
    let false_alarms = share(looked.iter().map(|one| one[0]));
    rows.push(Row::told("shafts with a neck at the limit stated before", looked.len().to_string()));
    rows.push(Row::within("such necks found", found, POWER, 0.03));
    rows.push(Row::told("alarms at that place without the neck", format!("{false_alarms:.4}")));
    rows
}

fn suspect(pour: &Rehearsed) -> Option<Suspected> {
    let (loss, height_m) = NECK;
    let profile = pour.profile.as_ref()?;
    let range = [at(0.0), at(pour.readings.hole.length_m())];
    let told = profile.loss_probability(range, Length::meters(height_m), Fraction::part(loss)).ok()?;
    let ratios = pour.curve.intervals.iter().filter_map(|interval| interval.ratio);
    let lowest = ratios.map(|ratio| ratio.value).fold(f64::INFINITY, f64::min);
    let cumulative = pour.curve.intervals.last()?.cumulative.ratio?.value;
    Some(Suspected { neck: pour.has_neck(), told, lowest: -lowest, cumulative: -cumulative })
}

/// Probability that a shaft with a neck is suspected more than one without; half of a tie counts.
fn area_under(all: &[Suspected], read: fn(&Suspected) -> f64) -> f64 {
    let mut ordered: Vec<(f64, bool)> = all.iter().map(|one| (read(one), one.neck)).collect();
    ordered.sort_by(|one, other| one.0.total_cmp(&other.0));
    let (mut below, mut wins, mut necks, mut from) = (0.0, 0.0, 0.0, 0);
    while from < ordered.len() {
        let alike = ordered[from..].iter().take_while(|one| one.0 == ordered[from].0).count();
        let with = ordered[from..from + alike].iter().filter(|one| one.1).count() as f64;
        let without = alike as f64 - with;
        wins += with * (below + without / 2.0);
        below += without;
        necks += with;
        from += alike;
    }
    if below * necks == 0.0 { 0.5 } else { wins / (below * necks) }
}

/// For each seed whether an alarm was raised without the neck, and with it.
///
/// A hole without features is read; the stated limit at one place becomes a neck there; the same seed is read again.
fn blind(count: u64) -> Vec<[bool; 2]> {
    crate::pours::each(1..count + 1, at_the_limit).into_iter().flatten().collect()
}

fn at_the_limit(seed: u64) -> Option<[bool; 2]> {
    let plain = Rehearsed::of_seed(seed)?.readings;
    let (hole, crew) = (plain.hole, plain.crew);
    let length_m = hole.length_m();
    let calm = Hole { wall: Wall::of(length_m, background(&hole), &[]), features: Vec::new(), ..hole };
    let before = Rehearsed::of(seed, calm.clone(), crew)?;
    let profile = before.profile.as_ref()?;
    let spots = profile.blind_spots(Length::meters(NECK.1)).ok()?;
    let spot = spots.get((seed as usize * 7919) % spots.len().max(1))?;
    // A loss of more than the whole cannot be made, and one of nearly all is no neck any more.
    if spot.loss > 0.6 {
        return None;
    }
    let middle = (spot.top.0.to_meters() + spot.bottom.0.to_meters()) / 2.0;
    let neck = Feature {
        sort: FeatureSort::Neck,
        middle_m: -middle,
        height_m: NECK.1,
        flat: 1.0,
        change: -spot.loss,
    };
    let wall = Wall::of(length_m, background(&calm), &[neck]);
    let after = Rehearsed::of(seed, Hole { wall, features: vec![neck], ..calm }, crew)?;
    let alarm = |pour: &Rehearsed| {
        let profile = pour.profile.as_ref()?;
        let points = profile.alarm(spot.top, spot.bottom).ok()??;
        Some(points > profile.alarm_limit())
    };
    Some([alarm(&before)?, alarm(&after)?])
}

/// The wall without its features: layer means alone would be too calm, so each cell keeps its wander.
fn background(hole: &Hole) -> Vec<f64> {
    let cells = hole.wall.cells().len();
    let cell_m = hole.length_m() / cells as f64;
    let of = |cell: usize| {
        let top = cell as f64 * cell_m;
        hole.wall.mean_background([top, top + cell_m]).unwrap_or(1.0)
    };
    (0..cells).map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_area_counts_pairs() {
        let one = |neck, told| Suspected { neck, told, lowest: 0.0, cumulative: 0.0 };
        let all = [one(true, 3.0), one(true, 1.0), one(false, 2.0), one(false, 1.0)];
        // Pairs won: 3 over 2, 3 over 1, half of 1 beside 1: 2.5 of 4.
        assert_eq!(area_under(&all, |one| one.told), 0.625);
        assert_eq!(area_under(&all, |one| one.lowest), 0.5);
    }
}
