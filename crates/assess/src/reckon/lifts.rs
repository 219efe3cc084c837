//! Lifts of temporary casing: expected against measured.
//!
//! Lifts are reckoned in the order they happened, each from the surface the one before it left: as it was
//! read, else as it was expected, with what was added meanwhile.

use super::hole::{Hole, standing};
use crate::picture::{CasingHistory, Picture, ShoeStep};
use calc::casing::{CasingError, Lifted, Withdrawal, lift, unexplained_volume};
use calc::estimate::{Estimate, Level};
use calc::geometry::Bore;
use quantity::{Elevation, InOrder, Length, Moment, Volume};
use record::EntryId;
use record::choices::CasingStay;

/// One lift.
#[derive(Debug, Clone, PartialEq)]
pub struct Lift {
    /// Which casing.
    pub casing: String,
    /// When.
    pub at: Moment,
    /// Shoe before; the hole has no casing of this name after the last lift.
    pub shoe_before: Elevation,
    /// Shoe after; `None` when the casing is out.
    pub shoe_after: Option<Elevation>,
    /// Concrete before.
    pub level_before: Option<Elevation>,
    /// What the formulas expect, before anything is added.
    pub expected: Option<Result<Lifted, CasingError>>,
    /// Concrete measured after, and its height over the shoe.
    pub measured: Option<(Elevation, Option<Length>)>,
    /// Volume the expectation does not explain: positive, concrete went somewhere.
    pub unexplained: Option<Estimate<Volume>>,
    /// Rise of the cage.
    pub cage_rise: Option<Length>,
    /// Added afterwards.
    pub added: Option<Volume>,
    /// Pulled slowly, evenly and in line with its axis.
    pub steadily: Option<bool>,
    /// Where the concrete stood once everything was done: measured, else expected, with what was added.
    pub left_at: Option<Elevation>,
    /// The entries behind it.
    pub entries: Vec<EntryId>,
}

/// The surface a lift starts from.
#[derive(Debug, Clone, Copy)]
struct Start {
    level: Elevation,
    entry: EntryId,
}

pub(super) fn reckon(picture: &Picture<'_>, hole: &Hole) -> Vec<Lift> {
    let temporary = picture.casings.iter().filter(|casing| casing.stay == CasingStay::Temporary);
    let mut steps: Vec<(&CasingHistory, Elevation, &ShoeStep)> = temporary.flat_map(lifted_steps).collect();
    steps.put_in_order_by_key(|(.., step)| step.at);
    let mut lifts: Vec<Lift> = Vec::new();
    for (casing, shoe_before, step) in steps {
        let start = start(picture, step, &lifts);
        lifts.push(one(hole, casing, (shoe_before, step), start));
    }
    lifts
}

/// Each lift of a casing with the shoe before it.
fn lifted_steps(casing: &CasingHistory) -> impl Iterator<Item = (&CasingHistory, Elevation, &ShoeStep)> {
    let pairs = casing.steps.windows(2).filter(|pair| pair[1].lifted);
    pairs.filter_map(move |pair| Some((casing, pair[0].shoe?, &pair[1])))
}

/// The surface before a lift: as read with it, else the later of the last sounding and the last lift.
fn start(picture: &Picture<'_>, step: &ShoeStep, before: &[Lift]) -> Option<Start> {
    if let Some(level) = step.level_before {
        return Some(Start { level, entry: step.entry });
    }
    let sounded = picture.concrete.iter().rfind(|level| level.at <= step.at);
    let sounded = sounded.map(|level| (level.at, level.surface.lowest.value, level.entry));
    let lifted = before.iter().filter_map(|lift| Some((lift.at, lift.left_at?, lift.entries[0])));
    let last = lifted.chain(sounded).max_by_key(|(at, ..)| *at)?;
    Some(Start { level: last.1, entry: last.2 })
}

fn one(hole: &Hole, casing: &CasingHistory, lifted: (Elevation, &ShoeStep), start: Option<Start>) -> Lift {
    let (shoe_before, step) = lifted;
    let error = crate::assumed::tape_error();
    let (bore, others) = hole.around(&casing.name, step.at);
    let drawn = start.and_then(|start| {
        let top = Elevation(casing.top?.0 + shoe_before.above(casing.deepest()?));
        let pulled = casing_step(casing, shoe_before, top, step.shoe)?;
        let casing = standing(casing, shoe_before, top)?;
        let concrete = Estimate::new(start.level, error);
        Some((Withdrawal { hole: &bore, others: &others, casing, concrete }, pulled))
    });
    let expected =
        drawn.as_ref().map(|(standing, pulled)| lift(standing, *pulled, Volume::cubic_meters(0.0)));
    let expected_level = expected.as_ref().and_then(|expected| Some(expected.as_ref().ok()?.level));
    let after = drawn.as_ref().and_then(|(standing, pulled)| standing.bore_after(*pulled).ok());
    let unexplained = after.as_ref().and_then(|after| {
        let measured = Level { value: step.level_after?, standard_error: error };
        unexplained_volume(after, expected_level?, measured).ok()
    });
    let left = step.level_after.or(expected_level.map(|level| level.value));
    let mut entries = vec![step.entry];
    entries.extend(start.map(|start| start.entry).filter(|entry| *entry != step.entry));
    Lift {
        casing: casing.name.clone(),
        at: step.at,
        shoe_before,
        shoe_after: step.shoe,
        level_before: start.map(|start| start.level),
        expected,
        measured: step.level_after.map(|level| (level, step.shoe.map(|shoe| level.above(shoe)))),
        unexplained,
        cage_rise: step.cage_rise,
        added: step.added,
        steadily: step.steadily,
        left_at: left.map(|level| filled_up(after.as_ref(), level, step.added)),
        entries,
    }
}

/// The surface once concrete was added; where that cannot be reckoned, the surface before it.
fn filled_up(bore: Option<&Bore>, level: Elevation, added: Option<Volume>) -> Elevation {
    let filled = bore.zip(added).and_then(|(bore, added)| {
        let below = bore.volume_below(level).ok()?.to_cubic_meters();
        bore.level_holding(Volume::cubic_meters(below + added.to_cubic_meters())).ok()
    });
    filled.unwrap_or(level)
}

/// How far the casing was pulled; all the way out when it has no shoe any more.
fn casing_step(
    casing: &CasingHistory,
    before: Elevation,
    top: Elevation,
    after: Option<Elevation>,
) -> Option<Length> {
    match after {
        Some(after) => Some(after.above(before)),
        None => casing.out.map(|_| top.above(before)),
    }
}
