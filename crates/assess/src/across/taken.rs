//! What shafts took over what was drawn, by stratum, by method and by crew.
//!
//! Only what stood in the ground counts: a pipe that stays takes what it holds, whatever the ground is.
//!
//! Never: lay a crew's ratio at its door; ground and crew are seldom apart in so few shafts.

use super::{OfShaft, One, Place};
use crate::earlier::{mean, of_layers, whole};
use crate::facts::pour_over;
use crate::layers::Layer;
use calc::estimate::Estimate;
use calc::pooled::{Pooled, pooled};
use record::EntryId;
use record::choices::{Ground, Method};
use record::kinds::DrillingStarted;
use std::collections::{BTreeMap, BTreeSet};

/// The interval of a mean holds it so often.
pub const LEVEL: f64 = 0.90;

/// What a group of shafts has in common.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum By {
    /// Every shaft whose pour is over.
    All,
    /// A sort of ground; a shaft that met it twice counts once.
    Ground(Ground),
    /// A stratum: what it is, and its description in lower case.
    Stratum(Ground, String),
    /// A method of drilling, as planned.
    Method(Method),
    /// Who drilled: the operator, else the rig.
    Crew(String),
}

/// What one shaft took.
#[derive(Debug, Clone, PartialEq)]
pub struct TakenPart {
    /// The shaft.
    pub place: Place,
    /// Placed over theoretical.
    pub ratio: Estimate<f64>,
    /// Its soundings of the concrete and its loads.
    pub evidence: Vec<EntryId>,
}

/// What the shafts of a group took.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    /// What they have in common.
    pub by: By,
    /// Each of them.
    pub parts: Vec<TakenPart>,
    /// Together; `None` of one shaft alone.
    pub together: Option<Pooled>,
}

pub(super) fn taken(all: &[OfShaft]) -> Vec<Taken> {
    let mut groups: BTreeMap<&By, Vec<TakenPart>> = BTreeMap::new();
    for (by, part) in all.iter().flat_map(|one| &one.taken) {
        groups.entry(by).or_default().push(part.clone());
    }
    let group =
        |(by, parts): (&By, Vec<TakenPart>)| Taken { by: by.clone(), together: together(&parts), parts };
    groups.into_iter().map(group).collect()
}

fn together(parts: &[TakenPart]) -> Option<Pooled> {
    let ratios: Vec<Estimate<f64>> = parts.iter().map(|part| part.ratio).collect();
    pooled(&ratios, LEVEL).ok()
}

/// What a shaft whose pour is over took, in each of the groups it belongs to.
pub(super) fn of_shaft(one: &One<'_, '_>) -> Vec<(By, TakenPart)> {
    let ratios = ratios(one);
    let evidence = if ratios.is_empty() { Vec::new() } else { evidence(one) };
    let part = |ratio| TakenPart { place: one.place.clone(), ratio, evidence: evidence.clone() };
    ratios.into_iter().map(|(by, ratio)| (by, part(ratio))).collect()
}

/// Ratios of a shaft whose pour is over, each with the group it belongs to.
fn ratios(one: &One<'_, '_>) -> Vec<(By, Estimate<f64>)> {
    let (picture, reckoning) = (&one.assessment.picture, &one.assessment.reckoning);
    let (Some(hole), Some(pour)) = (&reckoning.hole, &reckoning.pour) else { return Vec::new() };
    if pour_over(one.log, picture).is_none() {
        return Vec::new();
    }
    let bore = hole.drawn(one.assessment.at);
    let layers = of_layers(one.log, picture, &bore, pour);
    let mut all = by_ground(&layers);
    all.extend(layers.into_iter().map(|(layer, ratio)| (By::Stratum(layer.ground, layer.words), ratio)));
    if let Some(ratio) = whole(&pour.curve, &bore) {
        all.push((By::All, ratio));
        all.extend(picture.plan.as_ref().map(|plan| (By::Method(plan.shaft.method), ratio)));
        all.extend(crew(one).map(|crew| (By::Crew(crew), ratio)));
    }
    all
}

fn by_ground(layers: &[(Layer, Estimate<f64>)]) -> Vec<(By, Estimate<f64>)> {
    let grounds: BTreeSet<Ground> = layers.iter().map(|(layer, _)| layer.ground).collect();
    let of_ground = |ground: Ground| {
        let same: Vec<_> = layers.iter().filter(|(layer, _)| layer.ground == ground).collect();
        Some((By::Ground(ground), mean(&same)?))
    };
    grounds.into_iter().filter_map(of_ground).collect()
}

fn crew(one: &One<'_, '_>) -> Option<String> {
    let (_, started) = one.log.last::<DrillingStarted>()?;
    let named = started.operator.as_deref().or(started.rig.as_deref())?.trim();
    (!named.is_empty()).then(|| named.to_owned())
}

fn evidence(one: &One<'_, '_>) -> Vec<EntryId> {
    let picture = &one.assessment.picture;
    let soundings = picture.concrete.iter().map(|level| level.entry);
    let loads = picture.loads.iter().flat_map(|load| load.entries.iter().copied());
    soundings.chain(loads).collect()
}
