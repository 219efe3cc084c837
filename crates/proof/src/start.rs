//! The starting point that was known to work, and the plain ratio, on the same pours: what has to be beaten.
//!
//! The starting point takes the logarithm of the ratio as one smooth curve (a Gaussian process), puts the cumulative
//! volumes of the soundings to it as if they were linear, and goes round until they are (Gauss–Newton). It knows tape and
//! tickets as well as ours does; it knows no neck, no cavity, no wrong ticket and no stratum. The plain ratio is what the
//! trade reckons, with its standard error taken as normal.
//!
//! Units: metres and cubic metres. Never: used by the program.

mod smooth;

use crate::order::{LEFT, need_after};
use crate::pours::{Made, NECK, Rehearsed};
use crate::row::{Row, area_under, at_rank, mean, share};
use calc::chance::normal_quantile;
use calc::mixture::standard_normal_cdf;
use smooth::Smooth;

/// What each of the two says of one pour.
struct Said {
    intervals: Vec<Interval>,
    neck: bool,
    per_load: usize,
    /// How much of a neck the smooth curve shows: the lowest metre against the shaft, turned about.
    suspected: f64,
    order: Option<Order>,
}

struct Interval {
    truth: f64,
    /// Where the truth lies in the distribution told, and what was told: the smooth curve, then the plain ratio.
    smooth: (f64, f64),
    plain: Option<(f64, f64)>,
}

/// A true need, and what was told of it as a mean and a deviation.
struct Order {
    need: f64,
    mean: f64,
    sd: f64,
    plain: f64,
}

/// The same figures as for the estimate, told and held against nothing.
pub fn prove(made: &Made) -> Vec<Row> {
    let said: Vec<Said> = crate::pours::each(0..made.pours.len() as u64, |at| said(&made.pours[at as usize]))
        .into_iter()
        .flatten()
        .collect();
    let mut rows =
        vec![Row::told("pours with a smooth curve (a casing is beyond it)", said.len().to_string())];
    for (who, only_necks) in [("all shafts", false), ("shafts with necks", true)] {
        let of = || said.iter().filter(|one| one.neck || !only_necks).flat_map(|one| &one.intervals);
        rows.push(bands("smooth", who, of().map(|one| one.smooth.0).collect()));
        rows.push(bands("plain", who, of().filter_map(|one| Some(one.plain?.0)).collect()));
    }
    rows.push(errors(&said));
    for (which, per_load) in [("one sounding a load", 1), ("one each half load", 2)] {
        let of: Vec<(f64, bool)> =
            said.iter().filter(|one| one.per_load == per_load).map(|one| (one.suspected, one.neck)).collect();
        let name = format!("area under the curve of the lowest smooth metre ({which})");
        rows.push(Row::told(name, format!("{:.4}", area_under(&of))));
    }
    rows.extend(orders(&said.iter().filter_map(|one| one.order.as_ref()).collect::<Vec<_>>()));
    rows
}

fn bands(what: &str, who: &str, places: Vec<f64>) -> Row {
    let held = |nominal: f64| share(places.iter().map(|place| (place - 0.5).abs() <= nominal / 2.0));
    let told = [0.50, 0.80, 0.90, 0.95].map(|nominal| format!("{:.3}", held(nominal)));
    Row::told(format!("{what}: bands of 50, 80, 90, 95 %, {who}"), told.join(", "))
}

fn errors(said: &[Said]) -> Row {
    let of = || said.iter().flat_map(|one| &one.intervals).filter(|one| one.plain.is_some());
    let rms = |read: fn(&Interval) -> f64| mean(of().map(|one| (read(one) - one.truth).powi(2))).sqrt();
    let (smooth, plain) = (rms(|one| one.smooth.1), rms(|one| one.plain.map_or(one.truth, |plain| plain.1)));
    Row::told("error of the ratio: smooth, plain", format!("{smooth:.4}, {plain:.4}"))
}

fn orders(orders: &[&Order]) -> Vec<Row> {
    let short_at = |level: f64| {
        let order = |one: &Order| one.mean + one.sd * normal_quantile(level);
        share(orders.iter().map(|one| order(one) < one.need))
    };
    let told = [0.90, 0.95, 0.99].map(|level| format!("{:.4}", short_at(level)));
    let over = |of: &dyn Fn(&Order) -> f64| mean(orders.iter().map(|one| (of(one) - one.need).max(0.0)));
    let plain_short = share(orders.iter().map(|one| one.plain * 1.10 < one.need));
    let mut places: Vec<f64> = orders.iter().map(|one| (one.need - one.mean) / one.sd).collect();
    let errors = at_rank(&mut places, 1.0 - plain_short);
    let beside = over(&|one| one.mean + errors * one.sd) / over(&|one| one.plain * 1.10);
    vec![
        Row::told("smooth: short at 90, 95, 99 %", told.join(", ")),
        Row::told("smooth: left over beside the ratio so far + 10 %, equally short", format!("{beside:.4}")),
    ]
}

fn said(pour: &Rehearsed) -> Option<Said> {
    let readings = &pour.readings;
    let smooth = Smooth::of(readings, &pour.ground, readings.soundings.len())?;
    let interval = |(index, stretch): (usize, [f64; 2])| {
        let truth = readings.hole.mean_ratio(stretch)?;
        let told = smooth.stretch(stretch);
        let plain = pour.curve.intervals[index].ratio.filter(|ratio| ratio.standard_error > 0.0);
        Some(Interval {
            truth,
            // The logarithm is taken as normal.
            smooth: (standard_normal_cdf((truth.ln() - told.mean.ln()) / told.log_sd), told.mean),
            plain: plain.map(|plain| {
                (standard_normal_cdf((truth - plain.value) / plain.standard_error), plain.value)
            }),
        })
    };
    Some(Said {
        intervals: pour.intervals().into_iter().filter_map(interval).collect(),
        neck: pour.has_neck(),
        per_load: readings.crew.soundings_per_load,
        suspected: -smooth.lowest(NECK.1),
        order: order(pour),
    })
}

/// The order where a quarter is left, as [`crate::order`] asks for it.
fn order(pour: &Rehearsed) -> Option<Order> {
    let readings = &pour.readings;
    let stop = readings.soundings.iter().rposition(|one| one.read_m >= LEFT * readings.hole.length_m())?;
    if stop < 1 || stop + 1 >= readings.soundings.len() {
        return None;
    }
    let smooth = Smooth::of(readings, &pour.ground, stop + 1)?;
    let (mean, sd) = smooth.remaining();
    let (need, plain) = need_after(pour, stop)?;
    Some(Order { need, mean, sd, plain })
}
