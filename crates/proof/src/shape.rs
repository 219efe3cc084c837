//! Bands of interval ratios hold the truth as often as they say, and the estimate is better than the plain ratio.

use crate::pours::{Made, Rehearsed, at};
use crate::row::{Row, mean, share};
use rehearse::wall::FeatureSort;

/// One interval of one pour.
struct Judged {
    /// Where the truth lies in the distribution told.
    place: f64,
    truth: f64,
    told: f64,
    plain: Option<f64>,
    rise_m: f64,
    neck: bool,
    /// The middle of a neck lies in it.
    necked: bool,
    /// Which part of the shaft it lies in.
    reach: Reach,
    per_load: usize,
}

#[derive(PartialEq)]
enum Reach {
    Lowest,
    Between,
    Highest,
}

/// Coverage of four bands over all shafts and over those with necks, and errors beside the plain ratio.
pub fn prove(made: &Made) -> Vec<Row> {
    let pours = &made.pours;
    let judged: Vec<Judged> = pours.iter().flat_map(intervals).collect();
    let estimated = pours.iter().filter(|pour| pour.profile.is_some()).count();
    let mut rows = vec![
        Row::told("pours, and those estimated", format!("{}, {estimated}", pours.len())),
        Row::told("intervals of 0.3 m or more", judged.len().to_string()),
    ];
    for (who, only_necks) in [("all shafts", false), ("shafts with necks", true)] {
        for nominal in [0.50, 0.80, 0.90, 0.95] {
            let of = judged.iter().filter(|one| one.neck || !only_necks);
            let held = share(of.map(|one| (one.place - 0.5).abs() <= nominal / 2.0));
            rows.push(Row::within(format!("band of {:.0} %, {who}", nominal * 100.0), held, nominal, 0.02));
        }
    }
    rows.extend(where_the_band_fails(&judged));
    for (which, from_m, to_m) in [
        ("all intervals", 0.0, f64::INFINITY),
        ("intervals under 1.5 m", 0.0, 1.5),
        ("intervals of 1.5 to 4 m", 1.5, 4.0),
        ("intervals over 4 m", 4.0, f64::INFINITY),
    ] {
        let of: Vec<&Judged> =
            judged.iter().filter(|one| from_m <= one.rise_m && one.rise_m < to_m).collect();
        let [told, plain] = errors(&of);
        rows.push(Row::at_most(
            format!("error of the ratio over that of the plain one, {which}"),
            told / plain,
            1.0,
        ));
        rows.push(Row::told(
            format!("error told, plain ({which}, {})", of.len()),
            format!("{told:.4}, {plain:.4}"),
        ));
    }
    rows
}

/// Coverage of the band of 90 % by place and by soundings a load, to find what the model does not know.
fn where_the_band_fails(judged: &[Judged]) -> Vec<Row> {
    let told = |name: &str, of: &dyn Fn(&Judged) -> bool| {
        let of: Vec<&Judged> = judged.iter().filter(|one| of(one)).collect();
        let held = share(of.iter().map(|one| (one.place - 0.5).abs() <= 0.45));
        let below = share(of.iter().map(|one| one.place < 0.05));
        let above = share(of.iter().map(|one| one.place > 0.95));
        Row::told(
            format!("band of 90 %, truth below, above it: {name}"),
            format!("{held:.3}, {below:.3}, {above:.3}"),
        )
    };
    vec![
        told("lowest interval", &|one| one.reach == Reach::Lowest),
        told("between", &|one| one.reach == Reach::Between),
        told("highest interval", &|one| one.reach == Reach::Highest),
        told("one sounding a load", &|one| one.per_load == 1),
        told("one each half load", &|one| one.per_load == 2),
        told("a neck in it, one sounding a load", &|one| one.necked && one.per_load == 1),
        told("a neck in it, one each half load", &|one| one.necked && one.per_load == 2),
        told("under 1.5 m", &|one| one.rise_m < 1.5),
        told("over 4 m", &|one| one.rise_m > 4.0),
    ]
}

fn intervals(pour: &Rehearsed) -> Vec<Judged> {
    let Some(profile) = &pour.profile else { return Vec::new() };
    let neck = pour.has_neck();
    let judge = |(index, stretch): (usize, [f64; 2])| {
        let told = profile.stretch(at(stretch[0]), at(stretch[1])).ok()?;
        let truth = pour.readings.hole.mean_ratio(stretch)?;
        let plain = pour.curve.intervals[index].ratio.map(|ratio| ratio.value);
        let rise_m = stretch[1] - stretch[0];
        let reach = match index {
            0 => Reach::Lowest,
            _ if index + 1 == pour.curve.intervals.len() => Reach::Highest,
            _ => Reach::Between,
        };
        let per_load = pour.readings.crew.soundings_per_load;
        Some(Judged {
            place: told.cdf(truth),
            truth,
            told: told.mean(),
            plain,
            rise_m,
            neck,
            necked: necked(pour, stretch),
            reach,
            per_load,
        })
    };
    pour.intervals().into_iter().filter_map(judge).collect()
}

fn necked(pour: &Rehearsed, [top, bottom]: [f64; 2]) -> bool {
    let mut necks = pour.readings.hole.of_sort(FeatureSort::Neck);
    necks.any(|neck| (top..bottom).contains(&neck.middle_m))
}

/// Root mean square errors where both have a ratio.
fn errors(of: &[&Judged]) -> [f64; 2] {
    let pairs: Vec<[f64; 2]> =
        of.iter().filter_map(|one| Some([one.told - one.truth, one.plain? - one.truth])).collect();
    [0, 1].map(|which| mean(pairs.iter().map(|pair| pair[which] * pair[which])).sqrt())
}
