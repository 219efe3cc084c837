//! The layers of the ground at a shaft, with the entry each comes from.
//!
//! Never: fill a gap between two layers that were seen.

use crate::Shaft;
use quantity::{Elevation, InOrder};
use record::EntryId;
use record::choices::Ground;
use record::kinds::{StrataExpected, StratumMet};

/// One layer.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Layer {
    pub(crate) top: Elevation,
    /// Its lower boundary; where nobody wrote it, the layer below or the bottom of the hole.
    pub(crate) bottom: Elevation,
    pub(crate) ground: Ground,
    pub(crate) description: Option<String>,
    /// Seen in this hole, and not only promised by a boring.
    pub(crate) met: bool,
    pub(crate) entry: EntryId,
}

impl Layer {
    /// As people say it.
    pub(crate) fn words(&self) -> String {
        let ground = self.ground.word().replace('_', " ");
        self.description.as_ref().map_or(ground.clone(), |said| format!("{ground}, {said}"))
    }
}

/// The layers that were met, from the top down; where nobody wrote of any, those that are expected.
pub(crate) fn layers(shaft: &Shaft<'_, '_>) -> Vec<Layer> {
    let met = met(shaft);
    if met.is_empty() { expected(shaft) } else { met }
}

fn met(shaft: &Shaft<'_, '_>) -> Vec<Layer> {
    let references = &shaft.assessment.picture.references;
    let each = shaft.log.each::<StratumMet>().filter_map(|(line, layer)| {
        let top = references.elevation(layer.from.value(), line.at)?;
        let bottom = layer.to.as_ref().and_then(|to| references.elevation(to.value(), line.at));
        let (description, entry) = (layer.description.clone(), line.entry.id);
        Some((Layer { top, bottom: top, ground: layer.ground, description, met: true, entry }, bottom))
    });
    let mut found: Vec<(Layer, Option<Elevation>)> = each.collect();
    found.put_in_order_by_key(|(layer, _)| (std::cmp::Reverse(layer.top), layer.entry));
    let hole = shaft.assessment.reckoning.hole.as_ref().map(|hole| hole.base.value);
    let ends: Vec<Option<Elevation>> = (0..found.len())
        .map(|at| found[at].1.or(found.get(at + 1).map(|(below, _)| below.top)).or(hole))
        .collect();
    let whole = found.into_iter().zip(ends).filter_map(|((layer, _), bottom)| {
        Some(Layer { bottom: bottom?, ..layer }).filter(|layer| layer.bottom < layer.top)
    });
    whole.collect()
}

/// The layers a boring promised.
pub(crate) fn expected(shaft: &Shaft<'_, '_>) -> Vec<Layer> {
    let Some((line, strata)) = shaft.log.last::<StrataExpected>() else { return Vec::new() };
    let layers = strata.layers.iter().map(|layer| Layer {
        top: layer.from.value(),
        bottom: layer.to.value(),
        ground: layer.ground,
        description: layer.description.clone(),
        met: false,
        entry: line.entry.id,
    });
    layers.filter(|layer| layer.bottom < layer.top).collect()
}
