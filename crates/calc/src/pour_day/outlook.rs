//! What some thousand made-up days have in common.
//!
//! Words: *early*, *half*, *late* = what one day in ten, half of the days, nine in ten stay below.
//! Never: tell a share without what the number of days leaves open.

use super::PourDay;
use super::play::Played;
use crate::estimate::Estimate;
use quantity::Span;

/// What the days came to. Standard errors are those of the number of days alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DayOutlook {
    /// How many days were played.
    pub days: u32,
    /// Probability that everything is done within the life of the oldest concrete.
    pub in_time: Estimate<f64>,
    /// Probability of a gap over the limit.
    pub gap_over: Estimate<f64>,
    /// Probability of ending in time without a gap over the limit.
    pub safe: Estimate<f64>,
    /// From now until the inserts are in.
    pub finish: Spread,
    /// Age of the oldest concrete by then.
    pub oldest: Spread,
    /// The longest gap that is still to come or going on.
    pub longest_gap: Spread,
}

/// Three quantiles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// One day in ten stays below.
    pub early: Estimate<Span>,
    /// Half of the days stay below.
    pub half: Estimate<Span>,
    /// Nine days in ten stay below.
    pub late: Estimate<Span>,
}

pub(super) fn of(played: &[Played], plan: &PourDay) -> DayOutlook {
    let limit = plan.gap_limit.to_seconds();
    let over = |day: &Played| day.longest_gap > limit;
    DayOutlook {
        days: played.len() as u32,
        in_time: share(played, |day| day.in_time),
        gap_over: share(played, over),
        safe: share(played, |day| day.in_time && !over(day)),
        finish: spread(played, |day| day.finish),
        oldest: spread(played, |day| day.oldest),
        longest_gap: spread(played, |day| day.longest_gap),
    }
}

/// Part of the days of which something holds.
///
/// The error is that of a share with one day more on either side, so that none of ten thousand days is not told
/// as never.
fn share(played: &[Played], holds: impl Fn(&Played) -> bool) -> Estimate<f64> {
    let (days, held) = (played.len() as f64, played.iter().filter(|day| holds(day)).count() as f64);
    let part = (held + 1.0) / (days + 2.0);
    Estimate::new(held / days, (part * (1.0 - part) / days).sqrt())
}

fn spread(played: &[Played], read: impl Fn(&Played) -> f64) -> Spread {
    let mut all: Vec<f64> = played.iter().map(read).collect();
    all.sort_by(f64::total_cmp);
    let [early, half, late] = [0.1, 0.5, 0.9].map(|part| quantile(&all, part));
    Spread { early, half, late }
}

/// A quantile of ordered values, with half the distance between the values one standard error of the rank away.
fn quantile(ordered: &[f64], part: f64) -> Estimate<Span> {
    let count = ordered.len() as f64;
    let at = |rank: f64| {
        let place = libm::floor(rank.clamp(0.0, count - 1.0));
        ordered[place as usize]
    };
    let (rank, doubt) = (part * (count - 1.0), (count * part * (1.0 - part)).sqrt());
    let error = (at(rank + doubt) - at(rank - doubt)) / 2.0;
    Estimate::new(Span::seconds(at(rank)), Span::seconds(error))
}
