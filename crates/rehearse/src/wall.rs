//! The wall of the made-up hole: how its true area compares with the nominal one, depth by depth.
//!
//! The shapes are chosen to differ from those the estimator expects: layers with a mean of their own that
//! jump or blend at their boundaries, a wander whose bulges are larger than its hollows, and features with
//! raised-cosine flanks.
//!
//! Words: *background* = the wall without its features; *feature* = a neck, a cavity or a seam; *loss* =
//! area missing against the background, as part of it.
//! Units: metres below the top of the hole, positive down.
//! Never: hold a ratio of zero or less.

use std::f64::consts::PI;

use crate::chance::Chance;
use crate::ground::Layer;

/// What a feature is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FeatureSort {
    /// A stretch with less area than drilled: ground or fluid cake pressed in.
    Neck,
    /// A stretch with more area: ground fallen out.
    Cavity,
    /// A thin run of loose ground that washed out.
    Seam,
}

/// A local change of the wall, strongest over its flat part, with raised-cosine flanks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Feature {
    /// What it is.
    pub sort: FeatureSort,
    /// Depth of its middle.
    pub middle_m: f64,
    /// From its upper to its lower end, flanks included.
    pub height_m: f64,
    /// Part of the height over which it is at full strength, from 0 to 1.
    pub flat: f64,
    /// Change of the area at full strength, as part of the background: −0.3 takes thirty percent.
    pub change: f64,
}

impl Feature {
    /// How much of its full strength it has at a depth, from 0 to 1.
    pub fn strength(&self, depth_m: f64) -> f64 {
        let away = (depth_m - self.middle_m).abs() / (self.height_m / 2.0);
        match away {
            away if away <= self.flat => 1.0,
            away if away >= 1.0 => 0.0,
            away => (1.0 + libm::cos(PI * (away - self.flat) / (1.0 - self.flat))) / 2.0,
        }
    }

    /// Its upper and lower end.
    pub fn ends_m(&self) -> [f64; 2] {
        [self.middle_m - self.height_m / 2.0, self.middle_m + self.height_m / 2.0]
    }
}

/// Height of the cells a wall is made of: constant within each.
pub const CELL_M: f64 = 0.05;

/// The true area over the nominal one, from the top of the hole to its bottom.
///
/// Invariant: as many cells as the length holds, the lowest perhaps shorter; every ratio positive.
#[derive(Debug, Clone, PartialEq)]
pub struct Wall {
    length_m: f64,
    ratio: Vec<f64>,
    background: Vec<f64>,
    /// `∫ ratio` and `∫ background` from the top to the upper end of each cell.
    sums: [Vec<f64>; 2],
}

/// No hole is narrower than this part of its area.
const LEAST_RATIO: f64 = 0.1;

impl Wall {
    /// A wall of layers and features, with a wander drawn from `chance`. Boundaries blend over `blend_m`.
    pub fn new(layers: &[Layer], features: &[Feature], blend_m: f64, chance: &mut Chance) -> Self {
        let length_m = layers.last().map_or(0.0, |lowest| lowest.bottom_m);
        let middles: Vec<f64> = middles(length_m).collect();
        let mut background = Vec::with_capacity(middles.len());
        for (index, layer) in layers.iter().enumerate() {
            let mut wander = Wander::new(layer, chance);
            let inside = |depth: &&f64| layer.top_m <= **depth && **depth < layer.bottom_m;
            for depth in middles.iter().filter(inside) {
                let mean = blended(layers, index, *depth, blend_m);
                background.push((mean * (1.0 + wander.at(*depth, chance))).max(LEAST_RATIO));
            }
        }
        Wall::of(length_m, background, features)
    }

    /// A wall with the given background, one ratio a cell from the top down, and features on it.
    pub fn of(length_m: f64, background: Vec<f64>, features: &[Feature]) -> Self {
        let changed = |(depth, background): (f64, &f64)| {
            let change: f64 = features.iter().map(|feature| feature.change * feature.strength(depth)).sum();
            (background * (1.0 + change)).max(LEAST_RATIO)
        };
        let ratio: Vec<f64> = middles(length_m).zip(&background).map(changed).collect();
        let sums = [&ratio, &background].map(|cells| running(cells, length_m));
        Wall { length_m, ratio, background, sums }
    }

    /// Length of the hole.
    pub fn length_m(&self) -> f64 {
        self.length_m
    }

    /// The ratio of every cell of [`CELL_M`], from the top down.
    pub fn cells(&self) -> &[f64] {
        &self.ratio
    }

    /// The mean ratio of a stretch; depths beyond the hole count as its ends. `None` for an empty stretch.
    pub fn mean_ratio(&self, stretch_m: [f64; 2]) -> Option<f64> {
        self.mean(&self.sums[0], &self.ratio, stretch_m)
    }

    /// The mean ratio the stretch would have without features.
    pub fn mean_background(&self, stretch_m: [f64; 2]) -> Option<f64> {
        self.mean(&self.sums[1], &self.background, stretch_m)
    }

    /// Area the features take from a stretch, as part of its background; negative where they add.
    pub fn loss(&self, stretch_m: [f64; 2]) -> Option<f64> {
        Some(1.0 - self.mean_ratio(stretch_m)? / self.mean_background(stretch_m)?)
    }

    /// The greatest loss over any stretch of a height, with the depth of its upper end. `None` when the
    /// height does not fit in the hole.
    pub fn greatest_loss(&self, height_m: f64) -> Option<(f64, f64)> {
        let places = 0..self.ratio.len();
        let tops = places.map(|cell| cell as f64 * CELL_M).filter(|top| top + height_m <= self.length_m);
        let losses = tops.filter_map(|top| Some((self.loss([top, top + height_m])?, top)));
        losses.max_by(|one, other| one.0.total_cmp(&other.0))
    }

    fn mean(&self, sums: &[f64], cells: &[f64], stretch_m: [f64; 2]) -> Option<f64> {
        let [top, bottom] = stretch_m.map(|depth| depth.clamp(0.0, self.length_m));
        let to = |depth: f64| {
            let cell = ((depth / CELL_M) as usize).min(cells.len() - 1);
            sums[cell] + cells[cell] * (depth - cell as f64 * CELL_M)
        };
        (top < bottom).then(|| (to(bottom) - to(top)) / (bottom - top))
    }
}

/// The middle of every cell.
fn middles(length_m: f64) -> impl Iterator<Item = f64> {
    let count = libm::ceil(length_m / CELL_M - 1e-9) as usize;
    (0..count).map(move |cell| (cell as f64 * CELL_M + length_m.min((cell + 1) as f64 * CELL_M)) / 2.0)
}

fn running(cells: &[f64], length_m: f64) -> Vec<f64> {
    let mut sum = 0.0;
    let mut sums = Vec::with_capacity(cells.len());
    for (cell, ratio) in cells.iter().enumerate() {
        sums.push(sum);
        sum += ratio * CELL_M.min(length_m - cell as f64 * CELL_M);
    }
    sums
}

/// The mean of a layer, blending into its neighbours within half of `blend_m` of a boundary.
fn blended(layers: &[Layer], index: usize, depth_m: f64, blend_m: f64) -> f64 {
    let own = layers[index];
    let share = |away: f64| match away < blend_m / 2.0 {
        true => (1.0 - libm::sin(PI * away / blend_m)) / 2.0,
        false => 0.0,
    };
    let toward =
        |other: Option<&Layer>, away: f64| other.map_or(0.0, |other| share(away) * (other.mean - own.mean));
    let above = index.checked_sub(1).and_then(|above| layers.get(above));
    own.mean + toward(above, depth_m - own.top_m) + toward(layers.get(index + 1), own.bottom_m - depth_m)
}

/// A wander of mean 0: exponential heights at knots, a cosine from each to the next. Its bulges are
/// larger than its hollows.
struct Wander {
    wander: f64,
    run_m: f64,
    knot_m: f64,
    ends: [f64; 2],
}

/// A cosine between two independent knots has, averaged along the way, 3/4 of the variance of a knot.
const VARIANCE_BETWEEN_KNOTS: f64 = 0.75;

impl Wander {
    fn new(layer: &Layer, chance: &mut Chance) -> Self {
        let ends = [chance.exponential() - 1.0, chance.exponential() - 1.0];
        // The first knot lies anywhere above the layer, so that no depth is a knot more often than another.
        let knot_m = layer.top_m - layer.run_m * chance.part();
        Wander { wander: layer.wander, run_m: layer.run_m, knot_m, ends }
    }

    fn at(&mut self, depth_m: f64, chance: &mut Chance) -> f64 {
        while depth_m >= self.knot_m + self.run_m {
            self.knot_m += self.run_m;
            self.ends = [self.ends[1], chance.exponential() - 1.0];
        }
        let way = (1.0 - libm::cos(PI * (depth_m - self.knot_m) / self.run_m)) / 2.0;
        let height = self.ends[0] * (1.0 - way) + self.ends[1] * way;
        self.wander * height / libm::sqrt(VARIANCE_BETWEEN_KNOTS)
    }
}
