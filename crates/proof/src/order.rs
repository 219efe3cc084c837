//! The last order: short as often as asked for, and less left over than with "ratio so far + 10 %".
//!
//! Each pour is stopped where about a quarter of the drawing's volume is left. What the hole truly took from there
//! is known; the order is made from the readings up to there.

use crate::pours::{Made, Rehearsed, at, estimate};
use crate::row::{Row, at_rank, mean, share};
use calc::curve::Pour;

/// One order.
struct Placed {
    /// Where the true need lies in the distribution told.
    place: f64,
    /// What was truly needed, by the ticket, m³.
    need: f64,
    told: calc::mixture::Mixture,
    /// The ratio so far times what the drawing has left, m³.
    plain: f64,
}

/// The trade's allowance.
const ALLOWANCE: f64 = 1.10;
/// Part of the drawing's volume that is left.
pub(crate) const LEFT: f64 = 0.25;

/// Shortage at three levels, and left-over beside the trade's rule, when both run short equally often.
pub fn prove(made: &Made) -> Vec<Row> {
    let pours = &made.pours;
    let orders: Vec<Placed> =
        crate::pours::each(0..pours.len() as u64, |index| placed(&pours[index as usize]))
            .into_iter()
            .flatten()
            .collect();
    let mut rows = vec![Row::told("pours stopped with a quarter left", orders.len().to_string())];
    for level in [0.90, 0.95, 0.99] {
        let short = share(orders.iter().map(|order| order.place > level));
        rows.push(Row::within(
            format!("short at a service level of {:.0} %", level * 100.0),
            short,
            1.0 - level,
            0.015,
        ));
    }
    // Where the truth lies below: as often as above, or the distribution is off its place and not too wide.
    let below = [0.01, 0.05, 0.10, 0.50].map(|part| share(orders.iter().map(|order| order.place < part)));
    rows.push(Row::told(
        "need below 1, 5, 10, 50 % of what was told",
        below.map(|part| format!("{part:.3}")).join(", "),
    ));
    let (short, theirs) = outcome(&orders, |order| order.plain * ALLOWANCE);
    rows.push(Row::told("ratio so far + 10 %: short, left over m³", format!("{short:.4}, {theirs:.3}")));
    let level = level_that_is_short(&orders, short);
    let (ours_short, ours) = outcome(&orders, |order| order.told.quantile(level).unwrap_or(f64::INFINITY));
    rows.push(Row::told(
        "ours at the same shortage: level, short, left over m³",
        format!("{level:.4}, {ours_short:.4}, {ours:.3}"),
    ));
    rows.push(Row::at_most("left over beside the ratio so far + 10 %, equally short", ours / theirs, 0.75));
    for wanted in [0.10, 0.05, 0.01] {
        let (theirs, ours) = equally_short(&orders, wanted);
        let name = format!("left over beside ratio so far + what it needs, {:.0} % short", wanted * 100.0);
        rows.push(Row::told(name, format!("{:.4} ({ours:.3}, {theirs:.3} m³)", ours / theirs)));
    }
    rows
}

fn placed(pour: &Rehearsed) -> Option<Placed> {
    let readings = &pour.readings;
    let whole = readings.pour();
    let length_m = readings.hole.length_m();
    let stop = readings.soundings.iter().rposition(|sounding| sounding.read_m >= LEFT * length_m)?;
    if stop < 1 || stop + 1 >= readings.soundings.len() {
        return None;
    }
    let so_far = Pour { stations: whole.stations[..=stop].to_vec(), ..whole };
    let mut ground = pour.ground.clone();
    ground.part_loads.retain(|station| *station <= stop);
    ground.judged.retain(|station| *station <= stop);
    let told = estimate(&so_far, &ground, readings)?.remaining(at(0.0)).ok()?;
    let (need, plain) = need_after(pour, stop)?;
    Some(Placed { place: told.cdf(need), need, told, plain })
}

/// What is truly needed after a sounding, by the ticket, and the ratio so far times what the drawing has left.
pub(crate) fn need_after(pour: &Rehearsed, stop: usize) -> Option<(f64, f64)> {
    let readings = &pour.readings;
    let sounding = &readings.soundings[stop];
    let used = sounding.trucks.last().copied()?;
    let true_m3 = readings.hole.volume_m3([0.0, sounding.true_m], 0.0);
    let need = by_the_ticket(
        true_m3,
        &readings.yields[(used + 1).min(readings.yields.len() - 1)..],
        readings.crew.truck_m3,
    );
    let nominal = std::f64::consts::FRAC_PI_4 * readings.hole.diameter_m * readings.hole.diameter_m;
    let ratio = pour.curve.intervals[stop].cumulative.ratio?.value;
    Some((need, ratio * nominal * sounding.read_m))
}

/// What tickets say of a true volume: each truck brings more or less than it says, the last one as the one before.
fn by_the_ticket(true_m3: f64, yields: &[f64], truck_m3: f64) -> f64 {
    let (mut left, mut tickets) = (true_m3, 0.0);
    let mut yields = yields.iter().copied().peekable();
    while let Some(part) = yields.next() {
        if left <= part * truck_m3 || yields.peek().is_none() {
            return tickets + left / part;
        }
        left -= part * truck_m3;
        tickets += truck_m3;
    }
    tickets + left
}

/// How often an order is short, and what is left over on average.
fn outcome(orders: &[Placed], of: impl Fn(&Placed) -> f64) -> (f64, f64) {
    let over: Vec<f64> = orders.iter().map(|order| of(order) - order.need).collect();
    (share(over.iter().map(|over| *over < 0.0)), mean(over.iter().map(|over| over.max(0.0))))
}

/// The level at which so many orders are short.
fn level_that_is_short(orders: &[Placed], short: f64) -> f64 {
    let mut places: Vec<f64> = orders.iter().map(|order| order.place).collect();
    at_rank(&mut places, 1.0 - short).clamp(1e-6, 1.0 - 1e-6)
}

/// Left over of the trade's rule and of ours when either is short so often.
fn equally_short(orders: &[Placed], wanted: f64) -> (f64, f64) {
    let mut factors: Vec<f64> = orders.iter().map(|order| order.need / order.plain).collect();
    let factor = at_rank(&mut factors, 1.0 - wanted);
    let level = level_that_is_short(orders, wanted);
    let (_, theirs) = outcome(orders, |order| order.plain * factor);
    let (_, ours) = outcome(orders, |order| order.told.quantile(level).unwrap_or(f64::INFINITY));
    (theirs, ours)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tickets_of_a_true_volume() {
        // 7 m³ that are 6.3, then 7 that are 7.7 as a part: 6.3 + 3.85 m³ are 7 + 3.5 by the ticket.
        assert!((by_the_ticket(10.15, &[0.9, 1.1], 7.0) - 10.5).abs() < 1e-12);
        assert!((by_the_ticket(3.15, &[0.9, 1.1], 7.0) - 3.5).abs() < 1e-12);
        // Beyond the trucks that came the last one's yield stays.
        assert!((by_the_ticket(6.3 + 15.4, &[0.9, 1.1], 7.0) - 21.0).abs() < 1e-12);
    }
}
