//! The made-up hole: its drawing, its true wall, and how high a volume of concrete stands in it.
//!
//! Words: *sleeve* = the temporary casing of a made-up hole, which comes out during the pour.
//! Units: metres and cubic metres; depths below the top of the hole, which stands at elevation 0.
//! Never: let concrete into the room behind a standing casing.

use calc::geometry::{Bore, Casing, GeometryError};
use quantity::{Elevation, Length};

use crate::chance::Chance;
use crate::ground::{Layer, layers};
use crate::wall::{Feature, FeatureSort, Wall};

/// How often a sort of feature is made, and of which size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Often {
    /// What is made.
    pub sort: FeatureSort,
    /// Part of the shafts that have one.
    pub share: f64,
    /// Change of the area at full strength.
    pub change: [f64; 2],
    /// Height, flanks included, in metres.
    pub height_m: [f64; 2],
    /// Part of the height at full strength.
    pub flat: [f64; 2],
}

/// What sort of holes are made. Every pair is "from … to", evenly likely.
#[derive(Debug, Clone, PartialEq)]
pub struct Recipe {
    /// Length of the hole.
    pub length_m: [f64; 2],
    /// Nominal diameter.
    pub diameter_m: [f64; 2],
    /// How many layers.
    pub layers: [usize; 2],
    /// Height over which boundaries blend.
    pub blend_m: [f64; 2],
    /// The features, each drawn on its own.
    pub features: Vec<Often>,
    /// Part of the shafts with a temporary casing.
    pub cased: f64,
}

impl Default for Recipe {
    /// Holes of 8–35 m and 0.75–2.1 m in 2–6 layers; a neck in three of ten, a cavity in a quarter, a seam
    /// in three of ten; none cased.
    fn default() -> Self {
        let often = |sort, share, change, height_m| Often { sort, share, change, height_m, flat: [0.0, 0.6] };
        Recipe {
            length_m: [8.0, 35.0],
            diameter_m: [0.75, 2.1],
            layers: [2, 6],
            blend_m: [0.0, 0.6],
            features: vec![
                often(FeatureSort::Neck, 0.3, [-0.50, -0.15], [1.0, 3.5]),
                often(FeatureSort::Cavity, 0.25, [0.20, 0.90], [0.8, 3.0]),
                often(FeatureSort::Seam, 0.3, [0.10, 0.40], [0.2, 0.6]),
            ],
            cased: 0.0,
        }
    }
}

/// The temporary casing of a made-up hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sleeve {
    /// Depth of its shoe before it is pulled.
    pub shoe_m: f64,
    /// Inside diameter.
    pub inside_m: f64,
    /// Outside diameter: the nominal hole once it is out.
    pub outside_m: f64,
}

/// A made-up hole: the drawing and the truth.
#[derive(Debug, Clone, PartialEq)]
pub struct Hole {
    /// Nominal diameter below the casing.
    pub diameter_m: f64,
    /// The layers from the top down.
    pub layers: Vec<Layer>,
    /// The features, deepest last.
    pub features: Vec<Feature>,
    /// True over nominal area, depth by depth.
    pub wall: Wall,
    /// The temporary casing, if there is one.
    pub sleeve: Option<Sleeve>,
}

impl Hole {
    /// The hole of a seed.
    pub fn of_seed(seed: u64, recipe: &Recipe) -> Self {
        let mut chance = Chance::of_topic(seed, "hole");
        let length_m = chance.between(recipe.length_m);
        let diameter_m = chance.between(recipe.diameter_m);
        let count = chance.whole(recipe.layers);
        let layers = layers(length_m, count, &mut Chance::of_topic(seed, "ground"));
        let features = features(recipe, length_m, &mut Chance::of_topic(seed, "features"));
        let blend_m = chance.between(recipe.blend_m);
        let wall = Wall::new(&layers, &features, blend_m, &mut Chance::of_topic(seed, "wall"));
        let cased = chance.odds(recipe.cased);
        let sleeve = cased.then(|| sleeve(length_m, diameter_m, &mut chance));
        Hole { diameter_m, layers, features, wall, sleeve }
    }

    /// Length of the hole.
    pub fn length_m(&self) -> f64 {
        self.wall.length_m()
    }

    /// The features of one sort.
    pub fn of_sort(&self, sort: FeatureSort) -> impl Iterator<Item = &Feature> {
        self.features.iter().filter(move |feature| feature.sort == sort)
    }

    /// True mean ratio of a stretch of hole, casing out. `None` for an empty stretch.
    pub fn mean_ratio(&self, stretch_m: [f64; 2]) -> Option<f64> {
        self.wall.mean_ratio(stretch_m)
    }

    /// The nominal hole with the shoe of the casing at a depth; 0 when the casing is out.
    ///
    /// # Errors
    /// When the drawing makes no hole: a diameter or a length that is not positive.
    pub fn bore(&self, shoe_m: f64) -> Result<Bore, GeometryError> {
        let at = |depth_m: f64| Elevation(Length::meters(-depth_m));
        let hole = Bore::cylinder(Length::meters(self.diameter_m), at(0.0), at(self.length_m()))?;
        let Some(sleeve) = self.sleeve else { return Ok(hole) };
        let casing = |shoe_m: f64| Casing {
            inside_diameter: Length::meters(sleeve.inside_m),
            outside_diameter: Length::meters(sleeve.outside_m),
            top: at(0.0),
            shoe: at(shoe_m),
        };
        let hole = hole.with_pulled(&[casing(sleeve.shoe_m)])?;
        match shoe_m > 0.0 {
            true => hole.with_standing(&[casing(shoe_m)]),
            false => Ok(hole),
        }
    }

    /// True volume of a stretch with the shoe of the casing at `shoe_m`, in cubic metres; 0 for an empty
    /// stretch.
    pub fn volume_m3(&self, [top_m, bottom_m]: [f64; 2], shoe_m: f64) -> f64 {
        let [top_m, bottom_m] = [top_m, bottom_m].map(|depth| depth.clamp(0.0, self.length_m()));
        self.cuts(shoe_m)
            .windows(2)
            .map(|ends| [ends[0].max(top_m), ends[1].min(bottom_m)])
            .filter(|[top, bottom]| top < bottom)
            .map(|[top, bottom]| {
                let middle = (top + bottom) / 2.0;
                let ratio = match self.stands_at(middle, shoe_m) {
                    true => 1.0,
                    false => self.wall.mean_ratio([top, bottom]).unwrap_or(1.0),
                };
                self.nominal_m2(middle, shoe_m) * ratio * (bottom - top)
            })
            .sum()
    }

    /// Depth of the surface when a volume has filled the hole from the bottom; 0 when it is full.
    pub fn depth_holding(&self, volume_m3: f64, shoe_m: f64) -> f64 {
        let length_m = self.length_m();
        if volume_m3 >= self.volume_m3([0.0, length_m], shoe_m) {
            return 0.0;
        }
        let [mut full, mut empty] = [0.0, length_m];
        while empty - full > SAME_DEPTH_M {
            let middle = (full + empty) / 2.0;
            match self.volume_m3([middle, length_m], shoe_m) > volume_m3 {
                true => full = middle,
                false => empty = middle,
            }
        }
        (full + empty) / 2.0
    }

    /// Depths between which the nominal area does not change.
    fn cuts(&self, shoe_m: f64) -> Vec<f64> {
        let shoes = [shoe_m, self.sleeve.map_or(0.0, |sleeve| sleeve.shoe_m)];
        let inside = |depth: &f64| 0.0 < *depth && *depth < self.length_m();
        let mut cuts: Vec<f64> = shoes.into_iter().filter(inside).chain([0.0, self.length_m()]).collect();
        cuts.sort_by(f64::total_cmp);
        cuts
    }

    fn stands_at(&self, depth_m: f64, shoe_m: f64) -> bool {
        self.sleeve.is_some() && depth_m < shoe_m
    }

    fn nominal_m2(&self, depth_m: f64, shoe_m: f64) -> f64 {
        let diameter = match self.sleeve {
            Some(sleeve) if depth_m < shoe_m => sleeve.inside_m,
            Some(sleeve) if depth_m < sleeve.shoe_m => sleeve.outside_m.max(self.diameter_m),
            _ => self.diameter_m,
        };
        std::f64::consts::PI * diameter * diameter / 4.0
    }
}

/// Two depths closer than this are one.
const SAME_DEPTH_M: f64 = 1e-9;

/// Features stay this far from both ends of the hole.
const CLEAR_OF_ENDS_M: f64 = 0.5;

fn features(recipe: &Recipe, length_m: f64, chance: &mut Chance) -> Vec<Feature> {
    let mut made: Vec<Feature> = Vec::new();
    for often in &recipe.features {
        let drawn = chance.odds(often.share);
        let feature = feature(often, length_m, chance);
        if drawn && made.iter().all(|other| apart(other, &feature)) {
            made.push(feature);
        }
    }
    made.sort_by(|one, other| one.middle_m.total_cmp(&other.middle_m));
    made
}

/// One feature of a sort, somewhere in the hole.
pub fn feature(often: &Often, length_m: f64, chance: &mut Chance) -> Feature {
    let room_m = (length_m - 2.0 * CLEAR_OF_ENDS_M).max(0.0);
    let height_m = chance.between(often.height_m).min(room_m);
    let ends = [CLEAR_OF_ENDS_M + height_m / 2.0, length_m - CLEAR_OF_ENDS_M - height_m / 2.0];
    Feature {
        sort: often.sort,
        middle_m: chance.between(ends),
        height_m,
        flat: chance.between(often.flat),
        change: chance.between(often.change),
    }
}

/// Two features do not lie over each other.
fn apart(one: &Feature, other: &Feature) -> bool {
    (one.middle_m - other.middle_m).abs() >= (one.height_m + other.height_m) / 2.0
}

fn sleeve(length_m: f64, diameter_m: f64, chance: &mut Chance) -> Sleeve {
    let outside_m = diameter_m + chance.between([0.05, 0.10]);
    Sleeve { shoe_m: length_m * chance.between([0.15, 0.40]), outside_m, inside_m: outside_m - 0.025 }
}
