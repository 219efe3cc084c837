//! Rare things that the readings say nothing about, above all in the hole that is still to be filled.
//!
//! They keep the odds they had. How many there are follows Poisson's law, so what they do to a figure is told apart as
//! none, one of each shape, or more than one.

use super::rare::{Kind, Rare};
use crate::dense::Square;
use crate::mixture::Part;

/// The readings say nothing about a thing when its expected square weighs less than this in their standard errors,
/// squared. Judgement: below it, seeing or not seeing moves no band.
const SAYS_NOTHING: f64 = 0.1;

/// Parts the things that the readings speak about from the others.
pub(super) fn parted(things: Vec<Rare>, inverse: &Square) -> (Vec<Rare>, Vec<Rare>) {
    things.into_iter().partition(|thing| {
        let pairs = thing.shows.iter().flat_map(|one| thing.shows.iter().map(move |other| (one, other)));
        let seen: f64 = pairs.map(|(one, other)| one.1 * other.1 * inverse.at(one.0, other.0)).sum();
        let reading = !thing.is_shape();
        reading || SAYS_NOTHING <= (thing.mean * thing.mean + thing.variance) * seen
    })
}

/// What the unseen things do to a figure that goes with each of them by a share.
pub(super) fn parts(things: &[Rare], shares: &[f64]) -> Vec<Part> {
    let shapes = things.iter().filter_map(|thing| match thing.kind {
        Kind::Shape(which) => Some(which + 1),
        _ => None,
    });
    // Per shape: how many are expected, and the sums of what one does and of its square.
    let mut sums = vec![[0.0; 3]; shapes.max().unwrap_or(0)];
    for (thing, share) in things.iter().zip(shares).filter(|(_, share)| **share != 0.0) {
        if let Kind::Shape(which) = thing.kind {
            let expected = libm::exp(thing.log_odds);
            let square = share * share * (thing.mean * thing.mean + thing.variance);
            let added = [expected, expected * share * thing.mean, expected * square];
            sums[which].iter_mut().zip(added).for_each(|(sum, one)| *sum += one);
        }
    }
    let [count, first, second] =
        sums.iter().fold([0.0; 3], |[a, b, c], one| [a + one[0], b + one[1], c + one[2]]);
    let none = libm::exp(-count);
    let mut parts = vec![Part { weight: none, mean: 0.0, sd: 0.0 }];
    parts.extend(
        sums.iter().filter(|one| one[0] > 0.0).map(|one| part(one[0] * none, one.map(|sum| sum * none))),
    );
    let more = 1.0 - none * (1.0 + count);
    if more > 0.0 && count > 0.0 {
        let moments = [more, first * (1.0 - none), second * (1.0 - none) + first * first];
        parts.push(part(more, moments));
    }
    parts
}

/// A part with a weight, from that weight's share of the sums.
fn part(weight: f64, sums: [f64; 3]) -> Part {
    let mean = sums[1] / weight;
    Part { weight, mean, sd: (sums[2] / weight - mean * mean).max(0.0).sqrt() }
}
