//! Where the concrete stands at any moment, and what a tape shows of it.

use quantity::Moment;
use record::Body;

use crate::chance::Chance;
use crate::day::Day;

/// A true depth at a moment.
struct Step {
    at: i64,
    depth_m: f64,
}

/// True depth of the surface in metres below the reference: still between loads, rising evenly while one
/// discharges, sunk at once when the casing comes out. `None` before the first concrete.
pub(super) fn true_m(day: &Day, at: Moment) -> Option<f64> {
    let steps = steps(day);
    let at = at.seconds();
    let after = steps.iter().position(|step| at < step.at).unwrap_or(steps.len());
    let before = steps.get(after.checked_sub(1)?)?;
    let Some(next) = steps.get(after) else { return Some(before.depth_m) };
    let share = (at - before.at) as f64 / (next.at - before.at).max(1) as f64;
    Some(before.depth_m + (next.depth_m - before.depth_m) * share)
}

/// As [`true_m`], read: with what the day's readings share, an error of this moment and place, and to the
/// marks.
pub(super) fn read_m(day: &Day, at: Moment, place: usize) -> Option<f64> {
    let depth_m = true_m(day, at)?;
    let tape = day.readings.crew.tape;
    let topic = format!("dial {place}");
    let mut hand = Chance::of_topic(day.seed ^ at.seconds().unsigned_abs(), &topic);
    let read_m = depth_m + day.readings.shared_m + tape.each_m * hand.bounded();
    Some(tape.marks.round_m(read_m).max(0.0))
}

fn steps(day: &Day) -> Vec<Step> {
    let mut depth_m = day.readings.hole.length_m();
    let mut levels = day.levels_m.iter();
    let mut steps = Vec::new();
    for said in &day.said {
        let at = said.observed_at.seconds();
        match said.body {
            Body::DischargeStarted(_) => steps.push(Step { at, depth_m }),
            Body::DischargeEnded(_) | Body::CasingOut(_) => {
                if matches!(said.body, Body::CasingOut(_)) {
                    steps.push(Step { at: at - 1, depth_m });
                }
                depth_m = levels.next().copied().unwrap_or(depth_m);
                steps.push(Step { at, depth_m });
            }
            _ => {}
        }
    }
    steps
}
