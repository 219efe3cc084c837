//! The big figures of each stage of the work.
//!
//! A person beside a rig looks for two or three numbers, and they are others while drilling than while
//! concrete comes. What cannot be known yet says so in words; it is never a zero.
//!
//! Never: show a figure without what it rests on; invent one.

mod after;
mod ahead;
mod before;
mod bottom;
mod cage;
mod drilling;
mod fluid;
mod load;
mod placing;
mod pour;

use super::big::Big;
use super::heading::{planned_zero, zero};
use super::looked::Looked;
use super::sign::Sign;
use crate::entry::stage::Stage;
use assess::Finding;
use quantity::{Depth, Elevation};

/// The big figures of a stage, those to look at first marked.
pub(crate) fn figures(looked: &Looked<'_>, stage: Stage) -> Vec<Big> {
    match stage {
        Stage::Planned | Stage::BeforeDrilling => before::figures(looked),
        Stage::Drilling => drilling::figures(looked),
        Stage::Bottom => bottom::figures(looked),
        Stage::Cage => cage::figures(looked),
        Stage::Pour => pour::figures(looked),
        Stage::After | Stage::Done => after::figures(looked),
    }
}

/// The concrete stands at the cut-off or above.
pub(crate) fn full(looked: &Looked<'_>) -> bool {
    let picture = &looked.assessment.picture;
    let cut_off = picture.plan.as_ref().map(|plan| plan.cut_off);
    let level = picture.surface(looked.at).map(|surface| surface.level);
    level.zip(cut_off).is_some_and(|(level, cut_off)| cut_off <= level)
}

/// A level as the depth below the reference in force; `None` without one.
fn depth(looked: &Looked<'_>, level: Elevation) -> Option<Depth> {
    looked.assessment.picture.references.depth(level, looked.at)
}

/// A level as a big figure: its depth with what it is measured from, or the level itself where nothing tells.
fn of_level(word: &'static str, label: &str, level: Elevation, looked: &Looked<'_>) -> Big {
    match depth(looked, level) {
        Some(depth) => Big::new(word, label, &looked.show.depth(depth)).zero(zero(looked)),
        None => Big::new(word, label, &looked.show.elevation(level)),
    }
}

/// The worst finding of a fact that has a value, else the worst one.
fn worst<'l>(looked: &'l Looked<'_>, fact: &'l str) -> Option<&'l Finding> {
    let measured = looked.findings(fact).filter(|finding| finding.value.is_some());
    let by_sign = |finding: &&Finding| Sign::of_finding(finding);
    measured.min_by_key(by_sign).or_else(|| looked.findings(fact).min_by_key(by_sign))
}

/// The sign of a fact: the worst of its findings.
fn sign(looked: &Looked<'_>, fact: &str) -> Sign {
    Sign::worst(looked.findings(fact).map(Sign::of_finding))
}

/// The sign of several facts together.
fn sign_of(looked: &Looked<'_>, facts: &[&str]) -> Sign {
    Sign::worst(facts.iter().flat_map(|fact| looked.findings(fact)).map(Sign::of_finding))
}

/// A figure that is the value of a fact, with its limit beside it; `None` where nothing asks for it.
fn of_fact(looked: &Looked<'_>, word: &'static str, label: &str, fact: &str) -> Option<Big> {
    let finding =
        worst(looked, fact).filter(|one| one.value.is_some() || Sign::of_finding(one) != Sign::NoLimitSet)?;
    let text = wording::finding(finding, &looked.log, &looked.show);
    let big = match text.value.is_empty() {
        true => Big::said(word, label, Sign::of_finding(finding).text()),
        false => Big::new(word, label, &text.value),
    };
    Some(big.note(text.limit).sign(Sign::of_finding(finding)))
}

/// Parts of a note that are not empty, one after the other.
fn notes(parts: &[String]) -> String {
    parts.iter().filter(|part| !part.is_empty()).cloned().collect::<Vec<_>>().join("; ")
}
