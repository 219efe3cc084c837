//! The ground as layers: as somebody described them, else as the tool brought it up, else as the boring promised.
//!
//! Never: guess a layer between two that were seen.

use crate::view::View;
use figure::{Ground, Stratum};
use record::choices::Ground as Met;
use record::kinds::{StrataExpected, StratumMet, ToolRun};

/// The ground met; where nothing was written of it, the ground expected.
pub(crate) fn strata(view: &View<'_, '_>) -> Vec<Stratum> {
    let met: Vec<Stratum> = view
        .log
        .each::<StratumMet>()
        .filter_map(|(line, layer)| {
            let level = |depth: quantity::Depth| view.assessment.picture.references.elevation(depth, line.at);
            Some(Stratum {
                top_m: view.depth_m(level(layer.from.value())?)?,
                bottom_m: layer.to.as_ref().and_then(|to| view.depth_m(level(to.value())?)),
                ground: ground(layer.ground),
                label: layer.description.clone().unwrap_or_else(|| layer.ground.word().replace('_', " ")),
            })
        })
        .collect();
    if !met.is_empty() {
        return met;
    }
    let brought_up = brought_up(view);
    if brought_up.is_empty() { expected(view) } else { brought_up }
}

/// The ground as the tool brought it up, run by run; runs of one ground are one layer.
fn brought_up(view: &View<'_, '_>) -> Vec<Stratum> {
    let mut layers: Vec<Stratum> = Vec::new();
    for (line, run) in view.log.each::<ToolRun>() {
        let named = run.material.clone().or_else(|| run.ground.map(|ground| ground.word().replace('_', " ")));
        let at = run.out.unwrap_or(line.at);
        let level =
            |depth: quantity::Depth| view.depth_m(view.assessment.picture.references.elevation(depth, at)?);
        let (Some(label), Some(bottom)) = (named, level(run.to.value())) else { continue };
        let ended = layers.iter().filter_map(|layer| layer.bottom_m).reduce(f64::max);
        let top = run.from.as_ref().and_then(|from| level(from.value())).or(ended);
        let (Some(top), ground) = (top, run.ground.map_or(Ground::NotRecorded, ground)) else { continue };
        match layers.last_mut().filter(|last| last.label == label && last.ground == ground) {
            Some(last) => last.bottom_m = last.bottom_m.map(|before| before.max(bottom)),
            None if ended.is_none_or(|ended| ended < bottom) => {
                let top_m = ended.map_or(top, |ended| ended.max(top));
                layers.push(Stratum { top_m, bottom_m: Some(bottom), ground, label });
            }
            None => {}
        }
    }
    layers
}

fn expected(view: &View<'_, '_>) -> Vec<Stratum> {
    let Some((_, strata)) = view.log.last::<StrataExpected>() else { return Vec::new() };
    let layer = |layer: &record::kinds::plan::Stratum| {
        let name = layer.description.clone().unwrap_or_else(|| layer.ground.word().replace('_', " "));
        Some(Stratum {
            top_m: view.depth_m(layer.from.value())?,
            bottom_m: view.depth_m(layer.to.value()),
            ground: ground(layer.ground),
            label: format!("{name} (expected)"),
        })
    };
    strata.layers.iter().filter_map(layer).collect()
}

fn ground(met: Met) -> Ground {
    match met {
        Met::Fill => Ground::Fill,
        Met::Organic => Ground::Organic,
        Met::Clay => Ground::Clay,
        Met::Silt => Ground::Silt,
        Met::Sand => Ground::Sand,
        Met::Gravel => Ground::Gravel,
        Met::Boulders => Ground::Cobbles,
        Met::WeatheredRock => Ground::Rock,
        Met::Rock => Ground::Rock,
        Met::Other => Ground::NotRecorded,
    }
}
