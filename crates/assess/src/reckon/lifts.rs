//! Lifts of temporary casing: expected against measured.

use super::hole::{Hole, standing};
use crate::picture::{CasingHistory, Picture, ShoeStep};
use calc::casing::{CasingError, Lifted, Withdrawal, lift, unexplained_volume};
use calc::estimate::{Estimate, Level};
use quantity::{Elevation, Length, Moment, Volume};
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
    /// The entries behind it.
    pub entries: Vec<EntryId>,
}

pub(super) fn reckon(picture: &Picture<'_>, hole: &Hole) -> Vec<Lift> {
    let temporary = picture.casings.iter().filter(|casing| casing.stay == CasingStay::Temporary);
    let mut lifts: Vec<Lift> = temporary.flat_map(|casing| of_casing(picture, hole, casing)).collect();
    lifts.sort_by_key(|lift| lift.at);
    lifts
}

fn of_casing(picture: &Picture<'_>, hole: &Hole, casing: &CasingHistory) -> Vec<Lift> {
    let mut lifts = Vec::new();
    for pair in casing.steps.windows(2).filter(|pair| pair[1].lifted) {
        let Some(before) = pair[0].shoe else { continue };
        lifts.push(one(picture, hole, casing, (before, &pair[1])));
    }
    lifts
}

fn one(picture: &Picture<'_>, hole: &Hole, casing: &CasingHistory, lifted: (Elevation, &ShoeStep)) -> Lift {
    let (shoe_before, step) = lifted;
    let error = crate::assumed::tape_error();
    let sounded = picture.concrete.iter().rfind(|level| level.at <= step.at);
    let level_before = step.level_before.or(sounded.map(|level| level.surface.lowest.value));
    let (bore, others) = hole.around(&casing.name, step.at);
    let drawn = level_before.and_then(|level| {
        let top = Elevation(casing.top?.0 + shoe_before.above(casing.deepest()?));
        let pulled = casing_step(casing, shoe_before, top, step.shoe)?;
        let casing = standing(casing, shoe_before, top)?;
        let concrete = Estimate::new(level, error);
        Some((Withdrawal { hole: &bore, others: &others, casing, concrete }, pulled))
    });
    let expected =
        drawn.as_ref().map(|(standing, pulled)| lift(standing, *pulled, Volume::cubic_meters(0.0)));
    let measured = step.level_after.map(|level| (level, step.shoe.map(|shoe| level.above(shoe))));
    let unexplained = drawn.as_ref().and_then(|(standing, pulled)| {
        let expected = expected.as_ref()?.as_ref().ok()?.level;
        let after = standing.bore_after(*pulled).ok()?;
        unexplained_volume(&after, expected, Level { value: step.level_after?, standard_error: error }).ok()
    });
    let mut entries = vec![step.entry];
    if step.level_before.is_none() {
        entries.extend(sounded.map(|level| level.entry));
    }
    Lift {
        casing: casing.name.clone(),
        at: step.at,
        shoe_before,
        shoe_after: step.shoe,
        level_before,
        expected,
        measured,
        unexplained,
        cage_rise: step.cage_rise,
        added: step.added,
        entries,
    }
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
