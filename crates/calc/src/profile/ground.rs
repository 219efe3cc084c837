//! What is known of the ground and the pour beside the readings.

use quantity::Elevation;

use crate::estimate::Estimate;

/// A layer of ground in the hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stratum {
    /// Its upper end; it reaches down to the next one, or to the bottom.
    pub top: Elevation,
    /// The ratio that earlier shafts of the job showed in it, with its spread from shaft to shaft.
    pub earlier: Option<Estimate<f64>>,
}

/// What is known beside the readings.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ground {
    /// The layers, in any order. The ratio may jump at their boundaries. Empty when none is known.
    pub strata: Vec<Stratum>,
    /// Other levels at which the ratio may jump, such as the shoe of a casing that was pulled.
    pub jumps: Vec<Elevation>,
    /// The stations, counted from zero, that were sounded while a truck was part empty: the share that had left
    /// it is then an estimate.
    pub part_loads: Vec<usize>,
    /// The stations, counted from zero, before which a volume was judged by eye that nobody measures afterwards: what
    /// was left in a truck that goes home, or what ran over the top. A station counts as often as it is named.
    pub judged: Vec<usize>,
}
