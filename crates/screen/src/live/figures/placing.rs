//! What was placed against what the hole should take: the last interval, and in all.

use super::{Big, Looked, sign};
use crate::live::sign::Sign;
use assess::Subject;
use calc::curve::Interval;
use calc::estimate::Estimate;
use quantity::Volume;

pub(super) fn volumes(looked: &Looked<'_>) -> Vec<Big> {
    let Some(pour) = &looked.assessment.reckoning.pour else { return Vec::new() };
    let Some(last) = pour.curve.intervals.last() else { return Vec::new() };
    let tickets = pour.soundings.last().map_or_else(String::new, |sounding| sounding.tickets.join(", "));
    vec![interval(last, &tickets, looked), in_all(last, looked)]
}

/// The last interval; its departure from the rest of the shaft says more than its ratio.
fn interval(last: &Interval, tickets: &str, looked: &Looked<'_>) -> Big {
    let label = if tickets.is_empty() {
        "This interval".to_owned()
    } else {
        format!("This interval, load {tickets}")
    };
    let subject = Subject::Interval { lower: last.lower, upper: last.upper };
    let facts = ["volume.ratio.interval", "volume.departure"];
    let found = facts.iter().flat_map(|fact| looked.findings_of(fact, &subject)).map(Sign::of_finding);
    let note = against(last.placed, last.theoretical, looked);
    let far = |z: f64| z.abs() > 2.0;
    // The error of the ratio of a short interval is no measure of what the tape can feign.
    let long = assess::assumed::least_rise() <= last.rise.value;
    let note = match last.departure.and_then(|departure| departure.z) {
        Some(z) if far(z) && (long || last.unlike_the_rest().is_some_and(far)) => {
            format!("{note}; unlike the rest of the shaft")
        }
        _ => note,
    };
    ratio("interval_ratio", &label, last.ratio, looked).note(note).sign(Sign::worst(found))
}

fn in_all(last: &Interval, looked: &Looked<'_>) -> Big {
    let all = &last.cumulative;
    let note = against(all.placed, all.theoretical, looked);
    ratio("total_ratio", "In all", all.ratio, looked).note(note).sign(sign(looked, "volume.ratio.total"))
}

fn ratio(word: &'static str, label: &str, ratio: Option<Estimate<f64>>, looked: &Looked<'_>) -> Big {
    match ratio.filter(|ratio| ratio.value.is_finite() && ratio.standard_error.is_finite()) {
        Some(ratio) => Big::new(word, label, &looked.show.ratio_estimate(ratio)),
        None => Big::said(word, label, "no ratio"),
    }
}

/// `9.50 of 8.51 yd³`: placed, and what the hole as drawn takes.
fn against(placed: Estimate<Volume>, theoretical: Option<Estimate<Volume>>, looked: &Looked<'_>) -> String {
    let show = &looked.show;
    match theoretical {
        Some(theoretical) => {
            format!("{} placed, {} theoretical", show.volume(placed.value), show.volume(theoretical.value))
        }
        None => format!("{} placed; the level lies outside of the hole as drawn", show.volume(placed.value)),
    }
}
