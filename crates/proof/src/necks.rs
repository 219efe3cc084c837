//! Shafts with a neck are told from those without, and a loss at the stated limit is found as often as stated.

use crate::pours::{Made, NECK, Rehearsed, at};
use crate::row::{Row, area_under, share};
use calc::profile::{BlindSpot, POWER};
use quantity::{Fraction, Length};
use rehearse::hole::Hole;
use rehearse::readings::Readings;
use rehearse::wall::{Feature, FeatureSort, Wall};
use std::ops::Range;

/// What is thought of one shaft: higher means more of a neck.
struct Suspected {
    neck: bool,
    told: f64,
    lowest: f64,
    cumulative: f64,
}

/// Area under the curve of hits over false alarms, against two plain ratios; and necks at the stated limit.
pub fn prove(made: &Made) -> Vec<Row> {
    let pours = &made.pours;
    let mut rows = Vec::new();
    for (which, per_load) in [("one sounding a load", 1), ("one each half load", 2)] {
        let of = pours.iter().filter(|pour| pour.readings.crew.soundings_per_load == per_load);
        let suspected: Vec<Suspected> = of.filter_map(suspect).collect();
        let area = |read: fn(&Suspected) -> f64| {
            area_under(&suspected.iter().map(|one| (read(one), one.neck)).collect::<Vec<_>>())
        };
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
    rows.extend(limits(made.seeds.clone()));
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

/// Necks of the size that a record says it would have shown.
fn limits(seeds: Range<u64>) -> Vec<Row> {
    let looked: Vec<AtTheLimit> = crate::pours::each(seeds.clone(), |seed| at_the_limit(seed, Given::Levels))
        .into_iter()
        .flatten()
        .collect();
    let trucks: Vec<AtTheLimit> =
        crate::pours::each(seeds, |seed| at_the_limit(seed, Given::Trucks)).into_iter().flatten().collect();
    let rang = |of: fn(&AtTheLimit) -> bool| share(looked.iter().map(of));
    vec![
        Row::told("shafts with a neck at the limit stated before", looked.len().to_string()),
        Row::within(
            "such necks found, sounded where the record was",
            rang(|one| one.same_levels),
            POWER,
            0.03,
        ),
        Row::told(
            "such necks found, filled by the same trucks",
            format!("{:.4}", rang(|one| one.same_trucks)),
        ),
        Row::told("shafts with a neck at the limit stated for the same trucks", trucks.len().to_string()),
        Row::within(
            "necks at that limit found, filled by the same trucks",
            share(trucks.iter().map(|one| one.same_trucks)),
            POWER,
            0.03,
        ),
        Row::told("alarms at that place without the neck", format!("{:.4}", rang(|one| one.without))),
    ]
}

/// Whether an alarm rang over one place.
struct AtTheLimit {
    without: bool,
    /// With the neck, sounded at the same levels: less went in between two of them. This is what is stated, as the
    /// limit is one "given the soundings".
    same_levels: bool,
    /// With the neck, filled by the same trucks: the surface rises further past it, so there is more hole between two
    /// soundings than the record had when it stated its limit.
    same_trucks: bool,
}

/// What stays as it was when a neck is put in.
#[derive(Clone, Copy, PartialEq)]
enum Given {
    Levels,
    Trucks,
}

/// A hole without features is read; the stated limit at one place becomes a neck there.
fn at_the_limit(seed: u64, given: Given) -> Option<AtTheLimit> {
    let plain = Rehearsed::of_seed(seed)?.readings;
    let (hole, crew) = (plain.hole, plain.crew);
    let length_m = hole.length_m();
    let calm = Hole { wall: Wall::of(length_m, background(&hole), &[]), features: Vec::new(), ..hole };
    let before = Rehearsed::of(seed, calm.clone(), crew)?;
    let spots = before.profile.as_ref()?.blind_spots(Length::meters(NECK.1)).ok()?;
    let mut spot = *spots.get((seed as usize * 7919) % spots.len().max(1))?;
    if given == Given::Trucks {
        spot.loss = before.profile.as_ref()?.loss_of_trucks(spot.top, spot.bottom).ok()?;
    }
    // A loss of more than the whole cannot be made, and one of nearly all is no neck any more.
    if spot.loss > 0.6 {
        return None;
    }
    let necked = necked(&calm, &spot);
    let alarm = |pour: &Rehearsed| {
        let profile = pour.profile.as_ref()?;
        Some(profile.alarm(spot.top, spot.bottom).ok()?? > profile.alarm_limit())
    };
    let same_levels = Rehearsed::of_readings(at_the_same_levels(&before.readings, necked.clone())?);
    Some(AtTheLimit {
        without: alarm(&before)?,
        same_levels: alarm(&same_levels)?,
        same_trucks: alarm(&Rehearsed::of(seed, necked, crew)?)?,
    })
}

/// The hole with the loss of a blind spot in its place.
fn necked(calm: &Hole, spot: &BlindSpot) -> Hole {
    let neck = Feature {
        sort: FeatureSort::Neck,
        middle_m: -(spot.top.0.to_meters() + spot.bottom.0.to_meters()) / 2.0,
        height_m: NECK.1,
        flat: 1.0,
        change: -spot.loss,
    };
    let wall = Wall::of(calm.length_m(), background(calm), &[neck]);
    Hole { wall, features: vec![neck], ..calm.clone() }
}

/// The same soundings of another hole: what it takes less between two of them, the last truck before gave less.
fn at_the_same_levels(readings: &Readings, hole: Hole) -> Option<Readings> {
    let mut other = readings.clone();
    other.hole = hole;
    let mut below_m = readings.hole.length_m();
    for sounding in &mut other.soundings {
        let filled = [sounding.true_m, below_m];
        let less_m3 = readings.hole.volume_m3(filled, 0.0) - other.hole.volume_m3(filled, 0.0);
        below_m = sounding.true_m;
        let (ticket, truck) = (sounding.tickets_m3.last_mut()?, *sounding.trucks.last()?);
        *ticket -= less_m3 / readings.yields[truck];
        sounding.true_m3 -= less_m3;
        if *ticket < 0.0 {
            return None;
        }
    }
    Some(other)
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
