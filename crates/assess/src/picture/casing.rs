//! Casings and how their shoes moved.

use super::reference::References;
use quantity::{Depth, Elevation, InOrder, Length, Moment, Volume};
use record::choices::CasingStay;
use record::kinds::{CasingAdvanced, CasingLeft, CasingLifted, CasingOut, CasingSet};
use record::{EntryId, Log};

/// One casing from the day it was set.
#[derive(Debug, Clone, PartialEq)]
pub struct CasingHistory {
    /// What it is called.
    pub name: String,
    /// How long it is meant to stay.
    pub stay: CasingStay,
    /// Outside diameter.
    pub outside: Option<Length>,
    /// Inside diameter: as measured, else outside less two walls; the outside where no wall was written.
    pub inside: Option<Length>,
    /// Elevation of its top when it was set.
    pub top: Option<Elevation>,
    /// Its shoe, step by step.
    pub steps: Vec<ShoeStep>,
    /// When it was out of the ground.
    pub out: Option<(Moment, EntryId)>,
    /// When it was said to stay.
    pub left: Option<(Moment, EntryId)>,
    /// Somebody approved that it stays.
    pub left_approved: bool,
    /// The entry that set it.
    pub entry: EntryId,
}

/// The shoe came to a level.
#[derive(Debug, Clone, PartialEq)]
pub struct ShoeStep {
    /// When.
    pub at: Moment,
    /// Elevation of the shoe; `None` when it was not written.
    pub shoe: Option<Elevation>,
    /// Concrete before the lift.
    pub level_before: Option<Elevation>,
    /// Concrete after the lift.
    pub level_after: Option<Elevation>,
    /// Concrete added to make up for the drop.
    pub added: Option<Volume>,
    /// Rise of the cage.
    pub cage_rise: Option<Length>,
    /// Pulled slowly, evenly and in line with its axis.
    pub steadily: Option<bool>,
    /// It is a lift, not a setting or an advance.
    pub lifted: bool,
    /// The entry.
    pub entry: EntryId,
}

impl ShoeStep {
    fn plain(at: Moment, shoe: Option<Elevation>, entry: EntryId) -> Self {
        ShoeStep {
            at,
            shoe,
            level_before: None,
            level_after: None,
            added: None,
            cage_rise: None,
            steadily: None,
            lifted: false,
            entry,
        }
    }
}

impl CasingHistory {
    /// The shoe at a moment; `None` before it was set, after it was out, or when never written.
    pub fn shoe(&self, at: Moment) -> Option<Elevation> {
        if self.out.is_some_and(|(out, _)| out <= at) {
            return None;
        }
        self.steps.iter().rfind(|step| step.at <= at).and_then(|step| step.shoe)
    }

    /// It is temporary and still stands.
    pub fn is_to_come_out(&self) -> bool {
        self.stay == CasingStay::Temporary && self.out.is_none() && self.left.is_none()
    }

    /// The deepest its shoe ever was.
    pub fn deepest(&self) -> Option<Elevation> {
        self.steps.iter().filter_map(|step| step.shoe).min()
    }

    /// Its top at a moment: it rises with its shoe.
    pub fn top_at(&self, at: Moment) -> Option<Elevation> {
        let lift = self.shoe(at)?.above(self.deepest()?);
        Some(Elevation(self.top?.0 + lift))
    }
}

pub(super) fn histories(log: &Log<'_>, references: &References) -> Vec<CasingHistory> {
    let mut casings: Vec<CasingHistory> =
        log.each::<CasingSet>().map(|(line, set)| history(line.at, line.entry.id, set, references)).collect();
    for casing in &mut casings {
        advance(casing, log, references);
        lift(casing, log, references);
        finish(casing, log, references);
        casing.steps.put_in_order_by_key(|step| (step.at, step.lifted));
    }
    casings
}

fn history(at: Moment, entry: EntryId, set: &CasingSet, references: &References) -> CasingHistory {
    let outside = set.outside.as_ref().map(|size| size.value());
    let wall = set.wall.as_ref().map_or(Length::ZERO, |size| size.value());
    let top = set.top.as_ref().map(|level| level.value());
    let from_length = top.zip(set.length.as_ref()).map(|(top, length)| Elevation(top.0 - length.value()));
    let shoe = set.shoe.as_ref().and_then(|depth| references.elevation(depth.value(), at)).or(from_length);
    CasingHistory {
        name: set.name.clone(),
        stay: set.stay,
        outside,
        inside: set.inside.as_ref().map(|size| size.value()).or(outside.map(|outside| outside - wall - wall)),
        top,
        steps: vec![ShoeStep::plain(at, shoe, entry)],
        out: None,
        left: None,
        left_approved: false,
        entry,
    }
}

fn advance(casing: &mut CasingHistory, log: &Log<'_>, references: &References) {
    for (line, step) in log.each::<CasingAdvanced>().filter(|(_, step)| step.name == casing.name) {
        let shoe = references.elevation(step.shoe.value(), line.at);
        casing.steps.push(ShoeStep::plain(line.at, shoe, line.entry.id));
    }
}

fn lift(casing: &mut CasingHistory, log: &Log<'_>, references: &References) {
    for (line, step) in log.each::<CasingLifted>().filter(|(_, step)| step.name == casing.name) {
        let level = |depth: Depth| references.elevation(depth, line.at);
        casing.steps.push(ShoeStep {
            at: line.at,
            shoe: level(step.shoe.value()),
            level_before: step.level_before.as_ref().and_then(|depth| level(depth.value())),
            level_after: step.level_after.as_ref().and_then(|depth| level(depth.value())),
            added: step.added.as_ref().map(|volume| volume.value()),
            cage_rise: step.cage_rise.as_ref().map(|rise| rise.value()),
            steadily: step.steadily,
            lifted: true,
            entry: line.entry.id,
        });
    }
}

fn finish(casing: &mut CasingHistory, log: &Log<'_>, references: &References) {
    if let Some((line, out)) = log.each::<CasingOut>().rfind(|(_, out)| out.name == casing.name) {
        let level = |depth: Depth| references.elevation(depth, line.at);
        casing.out = Some((line.at, line.entry.id));
        casing.steps.push(ShoeStep {
            at: line.at,
            shoe: None,
            level_before: out.level_before.as_ref().and_then(|depth| level(depth.value())),
            level_after: out.level_after.as_ref().and_then(|depth| level(depth.value())),
            added: out.added.as_ref().map(|volume| volume.value()),
            cage_rise: out.cage_rise.as_ref().map(|rise| rise.value()),
            steadily: out.steadily,
            lifted: true,
            entry: line.entry.id,
        });
    }
    if let Some((line, left)) = log.each::<CasingLeft>().rfind(|(_, left)| left.name == casing.name) {
        casing.left = Some((line.at, line.entry.id));
        casing.left_approved = left.approved_by.is_some();
    }
}
