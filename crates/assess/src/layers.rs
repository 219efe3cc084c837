//! The layers of the ground in the hole: those met, or those expected where none was written down.
//!
//! Two shafts of one job meet the same stratum under the same words, or at least as the same sort of ground.
//!
//! Words: *words* = its description in lower case; empty where none was written.
//! Never: make up a layer.

use crate::picture::Picture;
use calc::geometry::{Bore, Part};
use quantity::{Elevation, InOrder, Volume};
use record::Log;
use record::choices::Ground;
use record::kinds::{StrataExpected, StratumMet};

/// One layer; it reaches down to the next one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layer {
    /// Its upper end.
    pub top: Elevation,
    /// What it is.
    pub ground: Ground,
    /// Its description, for comparing.
    pub words: String,
}

/// From the top down; empty where nobody wrote of any.
pub fn layers(log: &Log<'_>, picture: &Picture<'_>) -> Vec<Layer> {
    let mut layers = met(log, picture);
    if layers.is_empty() {
        layers = expected(log);
    }
    layers.put_in_order_by_key(|layer| std::cmp::Reverse(layer.top));
    layers
}

fn met(log: &Log<'_>, picture: &Picture<'_>) -> Vec<Layer> {
    let met = log.each::<StratumMet>().filter_map(|(line, layer)| {
        let top = picture.references.elevation(layer.from.value(), line.at)?;
        Some(Layer { top, ground: layer.ground, words: words(layer.description.as_deref()) })
    });
    met.collect()
}

fn expected(log: &Log<'_>) -> Vec<Layer> {
    let expected = log.last::<StrataExpected>();
    let layers = expected.iter().flat_map(|(_, strata)| &strata.layers).map(|layer| Layer {
        top: layer.from.value(),
        ground: layer.ground,
        words: words(layer.description.as_deref()),
    });
    layers.collect()
}

fn words(description: Option<&str>) -> String {
    description.unwrap_or_default().trim().to_lowercase()
}

/// The layers that reach into a stretch, each cut to it, from the top down; one without words for a stretch of which
/// nothing is known. What lies above the highest layer belongs to it.
pub(crate) fn within(layers: &[Layer], top: Elevation, bottom: Elevation) -> Vec<(usize, [Elevation; 2])> {
    let ends = layers.iter().skip(1).map(|layer| layer.top).chain([bottom]);
    let pieces = layers.iter().zip(ends).enumerate().map(|(at, (layer, end))| {
        let upper = if at == 0 { top } else { layer.top.min(top) };
        (at, [upper, end.max(bottom)])
    });
    let pieces: Vec<_> = pieces.filter(|(_, [upper, lower])| lower < upper).collect();
    if pieces.is_empty() && bottom < top { vec![(0, [top, bottom])] } else { pieces }
}

/// Theoretical volume of a stretch in the ground, and inside casing that stays, cubic metres.
pub(crate) fn volumes(bore: &Bore, upper: Elevation, lower: Elevation) -> [f64; 2] {
    let mut sums = [0.0; 2];
    for piece in bore.pieces() {
        let (from, to) = (piece.bottom.max(lower), piece.top.min(upper));
        if from < to {
            let volume = bore.volume_between(from, to).map_or(0.0, Volume::to_cubic_meters);
            sums[usize::from(piece.part == Part::Casing)] += volume;
        }
    }
    sums
}

/// A stretch of which more than a quarter stood in a pipe took what the pipe holds, whatever the ground is. Ours.
pub(crate) const CASED_MOST: f64 = 0.25;

/// Whether what a stretch took says something of the ground.
pub(crate) fn is_in_ground(bore: &Bore, upper: Elevation, lower: Elevation) -> bool {
    let [free, cased] = volumes(bore, upper, lower);
    cased <= CASED_MOST * (free + cased)
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Length;

    fn level(feet: f64) -> Elevation {
        Elevation(Length::feet(feet))
    }

    #[track_caller]
    fn check(tops: &[f64], top: f64, bottom: f64, expected: &[(usize, [f64; 2])]) {
        let layer = |top: &f64| Layer { top: level(*top), ground: Ground::Clay, words: String::new() };
        let layers: Vec<Layer> = tops.iter().map(layer).collect();
        let cut: Vec<(usize, [f64; 2])> = within(&layers, level(top), level(bottom))
            .into_iter()
            .map(|(at, ends)| (at, ends.map(|end| end.0.to_feet())))
            .collect();
        assert_eq!(cut, expected);
    }

    #[test]
    fn layers_are_cut_to_a_stretch() {
        check(&[100.0, 80.0, 60.0], 95.0, 50.0, &[(0, [95.0, 80.0]), (1, [80.0, 60.0]), (2, [60.0, 50.0])]);
        check(&[100.0, 80.0, 60.0], 75.0, 65.0, &[(1, [75.0, 65.0])]);
        // The hole reaches above the highest layer: what lies there is counted with it.
        check(&[90.0, 80.0], 102.0, 70.0, &[(0, [102.0, 80.0]), (1, [80.0, 70.0])]);
        check(&[], 100.0, 60.0, &[(0, [100.0, 60.0])]);
        check(&[100.0], 60.0, 60.0, &[]);
    }
}
