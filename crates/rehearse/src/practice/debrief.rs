//! The comparison at the end: truth beside record, warnings beside troubles, and what was missed.

use std::collections::BTreeMap;

use quantity::{Length, Moment, Volume};
use record::Body;
use record::kinds::ConcreteSounded;

use super::{Offer, Practice, dial};
use crate::day::Said;
use crate::decision::{Answer, Ask, Question};
use crate::scenario::Scenario;

/// Something the tool warned of, as whoever runs it tells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Warning {
    /// When it was first shown.
    pub at: Moment,
    /// The fact it is about, by its name.
    pub fact: String,
}

/// One sounding the trainee wrote, beside the truth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReadingTold {
    /// When it was seen.
    pub at: Moment,
    /// What was written, the mean of its points, in metres below the reference.
    pub written_m: f64,
    /// Where the concrete stood.
    pub true_m: f64,
    /// Further off than three standard errors of the tape, and at least 0.1 m.
    pub off: bool,
}

/// A stretch between two soundings the trainee wrote, beside the truth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StretchTold {
    /// Upper and lower depth as written, in metres.
    pub stretch_m: [f64; 2],
    /// Placed by the tickets written, over what the drawing takes; lines not counted. `None` without a
    /// ticket or a rise.
    pub written: Option<f64>,
    /// True mean ratio there, casing out.
    pub truth: Option<f64>,
}

/// Something that could be read and was not written down.
#[derive(Debug, Clone, PartialEq)]
pub struct Missed {
    /// Since when it could be read.
    pub since: Moment,
    /// The word of the kind of entry.
    pub kind: &'static str,
    /// The ticket it is about, where it is about one.
    pub ticket: Option<String>,
}

/// What went wrong on the day, and whether it was shown.
#[derive(Debug, Clone, PartialEq)]
pub struct TroubleTold {
    /// What it was.
    pub scenario: Scenario,
    /// The facts by which the tool can show it.
    pub signs: &'static [&'static str],
    /// When the tool first showed one of them.
    pub warned: Option<Moment>,
    /// What was decided kept it from happening, or from going into the hole.
    pub averted: bool,
}

/// The end of a practice.
#[derive(Debug, Clone, PartialEq)]
pub struct Debrief {
    /// Every sounding that was written.
    pub readings: Vec<ReadingTold>,
    /// The stretches between them.
    pub stretches: Vec<StretchTold>,
    /// What was not written down.
    pub missed: Vec<Missed>,
    /// What was decided, in order of time, with what would have been wise.
    pub decided: Vec<Ask>,
    /// What went wrong; `None` on a clean day.
    pub trouble: Option<TroubleTold>,
    /// Warnings that had nothing to do with the trouble.
    pub other_warnings: Vec<Warning>,
}

/// The comparison of a practice with what was written of it and what the tool warned of.
///
/// `written` holds what stands in the record for this shaft, in order of time.
pub fn debrief(practice: &Practice, written: &[Said], warnings: &[Warning]) -> Debrief {
    let soundings: Vec<(Moment, &ConcreteSounded)> = written.iter().filter_map(sounding).collect();
    let trouble = trouble(practice, warnings);
    let of_trouble = |warning: &&Warning| {
        trouble.as_ref().is_some_and(|trouble| trouble.signs.contains(&warning.fact.as_str()))
    };
    let other_warnings = warnings.iter().filter(|warning| !of_trouble(warning)).cloned().collect();
    Debrief {
        readings: soundings.iter().filter_map(|sounding| reading(practice, sounding)).collect(),
        stretches: stretches(practice, written, &soundings),
        missed: missed(practice, written),
        decided: practice.day().asks.iter().filter(|ask| ask.answer.is_some()).cloned().collect(),
        trouble,
        other_warnings,
    }
}

fn sounding(said: &Said) -> Option<(Moment, &ConcreteSounded)> {
    match &said.body {
        Body::ConcreteSounded(sounding) => Some((said.observed_at, sounding)),
        _ => None,
    }
}

fn mean_m(sounding: &ConcreteSounded) -> Option<f64> {
    let depths: Vec<f64> = sounding.points.iter().map(|point| point.depth.value().to_meters()).collect();
    (!depths.is_empty()).then(|| depths.iter().sum::<f64>() / depths.len() as f64)
}

/// Less than this is not held against a trainee.
const FORGIVEN_M: f64 = 0.1;

fn reading(practice: &Practice, (at, sounding): &(Moment, &ConcreteSounded)) -> Option<ReadingTold> {
    let (written_m, true_m) = (mean_m(sounding)?, dial::true_m(practice.day(), *at)?);
    let tape = practice.day().readings.crew.tape;
    let allowed_m = 3.0 * libm::hypot(tape.standard_error_m(), tape.shared_m);
    let off = (written_m - true_m).abs() > allowed_m.max(FORGIVEN_M);
    Some(ReadingTold { at: *at, written_m, true_m, off })
}

fn stretches(
    practice: &Practice,
    written: &[Said],
    soundings: &[(Moment, &ConcreteSounded)],
) -> Vec<StretchTold> {
    let hole = &practice.day().readings.hole;
    let mut below = (i64::MIN, hole.length_m());
    let mut all = Vec::new();
    for (at, sounding) in soundings {
        let Some(above_m) = mean_m(sounding) else { continue };
        let stretch_m = [above_m, below.1];
        let placed = placed_m3(written, below.0..at.seconds());
        let nominal = nominal_m3(practice, stretch_m);
        let written = placed.zip(nominal).map(|(placed, nominal)| placed / nominal);
        all.push(StretchTold { stretch_m, written, truth: hole.mean_ratio(stretch_m) });
        below = (at.seconds(), above_m);
    }
    all
}

/// By the tickets that were written of the loads that ended in a time, less what was sent back.
fn placed_m3(written: &[Said], time: std::ops::Range<i64>) -> Option<f64> {
    let arrived = |ticket: &str| {
        written.iter().find_map(|said| match &said.body {
            Body::LoadArrived(load) if load.ticket == ticket => Some(load.volume.value()),
            _ => None,
        })
    };
    let ended = written.iter().filter(|said| time.contains(&said.observed_at.seconds()));
    let volumes: Vec<Option<f64>> = ended
        .filter_map(|said| match &said.body {
            Body::DischargeEnded(ended) => {
                let returned = ended.returned.as_ref().map_or(0.0, |left| left.value().to_cubic_meters());
                Some(arrived(&ended.ticket).map(|volume: Volume| volume.to_cubic_meters() - returned))
            }
            _ => None,
        })
        .collect();
    (!volumes.is_empty()).then(|| volumes.into_iter().sum::<Option<f64>>())?
}

fn nominal_m3(practice: &Practice, [top_m, bottom_m]: [f64; 2]) -> Option<f64> {
    let hole = &practice.day().readings.hole;
    let bore = hole.bore(hole.sleeve.map_or(0.0, |sleeve| sleeve.shoe_m)).ok()?;
    let at = |depth_m: f64| quantity::Elevation(Length::meters(-depth_m.clamp(0.0, hole.length_m())));
    let nominal = bore.volume_between(at(bottom_m), at(top_m)).ok()?.to_cubic_meters();
    (nominal > 0.0).then_some(nominal)
}

/// What an entry is about: its kind and its ticket.
fn topic(body: &Body) -> (&'static str, Option<String>) {
    let ticket = match body {
        Body::LoadArrived(load) => Some(&load.ticket),
        Body::ConcreteTest(test) => Some(&test.ticket),
        Body::LoadRefused(refused) => Some(&refused.ticket),
        Body::DischargeStarted(started) => Some(&started.ticket),
        Body::DischargeEnded(ended) => Some(&ended.ticket),
        Body::ConcreteSounded(sounding) => sounding.after.as_ref(),
        _ => None,
    };
    (body.kind().word, ticket.map(|ticket| ticket.trim().to_owned()))
}

/// An entry counts for an offer when it was seen at most this long before.
const EARLY_SECONDS: i64 = 5 * 60;

/// The offers nothing was written for, in the order of the day. Each entry answers for one offer of its topic:
/// the first that was there when it was seen.
pub fn unwritten(practice: &Practice, written: &[Said]) -> Vec<Offer> {
    let mut seen: BTreeMap<(&'static str, Option<String>), Vec<i64>> = BTreeMap::new();
    for said in written {
        seen.entry(topic(&said.body)).or_default().push(said.observed_at.seconds());
    }
    let mut is_written = |offer: &Offer| {
        let said = practice.day().said.get(offer.number)?;
        let early = said.observed_at.seconds() - EARLY_SECONDS;
        let times = seen.get_mut(&topic(&said.body))?;
        let place = times.iter().position(|at| *at >= early)?;
        Some(times.remove(place))
    };
    practice.all_offers().filter(|offer| is_written(offer).is_none()).collect()
}

fn missed(practice: &Practice, written: &[Said]) -> Vec<Missed> {
    let told = |offer: Offer| {
        let (kind, ticket) = topic(&practice.day().said.get(offer.number)?.body);
        Some(Missed { since: offer.since, kind, ticket })
    };
    unwritten(practice, written).into_iter().filter_map(told).collect()
}

fn trouble(practice: &Practice, warnings: &[Warning]) -> Option<TroubleTold> {
    let scenario = practice.day().scenario;
    let signs = scenario.signs(practice.day().system);
    let shown = warnings.iter().filter(|warning| signs.contains(&warning.fact.as_str()));
    let warned = shown.map(|warning| warning.at).min_by_key(|at| at.seconds());
    let averted = practice.day().asks.iter().any(|ask| averts(scenario, ask));
    (scenario != Scenario::Clean).then_some(TroubleTold { scenario, signs, warned, averted })
}

/// The answer that keeps a trouble away.
fn averts(scenario: Scenario, ask: &Ask) -> bool {
    let about = match ask.question {
        Question::Concrete => matches!(scenario, Scenario::SedimentAfterWaiting | Scenario::FluidOutOfLimits),
        Question::Load { .. } => matches!(scenario, Scenario::LateTruck | Scenario::WrongTicket),
        Question::Lift { .. } => scenario == Scenario::TremiePulledTooFar,
        Question::Order { .. } => false,
    };
    about && ask.wise == Answer::Not && ask.answer == Some(Answer::Not)
}
