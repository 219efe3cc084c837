//! The hole cut into short pieces, each with one ratio.
//!
//! Never: let a cell cross a boundary of strata, a shoe or a change of diameter.

use quantity::{Area, Elevation, InOrder, Length};

use super::{Ground, Prior, ProfileError};
use crate::curve::Pour;
use crate::geometry::{Bore, Part};

/// As many cells are aimed for; cuts add a few.
const CELLS: usize = 600;
/// No cell needs to be shorter, in metres.
const LEAST_CELL_M: f64 = 0.02;

/// A short piece of the hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cell {
    /// Its upper end.
    pub top: Elevation,
    /// Its lower end.
    pub bottom: Elevation,
    /// Its nominal area, less steel, as the hole stands at the last station.
    pub nominal: Area,
    /// A casing stands there at the last station: its inside is known and its ratio is 1.
    pub cased: bool,
}

/// The cells from the bottom up, with what is expected of each.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Grid {
    cells: Vec<Cell>,
    /// The lower ends and the last upper end.
    pub(super) edges_m: Vec<f64>,
    /// Nominal volume of each cell at the last station, in a hole without casing or in the casing.
    pub(super) nominal_m3: Vec<f64>,
    /// Which stratum each cell lies in.
    pub(super) stratum: Vec<usize>,
    /// Expected ratio of each cell.
    pub(super) expected: Vec<f64>,
    /// Variance of the offset of its stratum.
    pub(super) offset_variance: Vec<f64>,
    /// Correlation of the gentle shape with the cell below; zero where it may jump.
    pub(super) carried: Vec<f64>,
}

impl Grid {
    pub(super) fn new(pour: &Pour, ground: &Ground, prior: &Prior) -> Result<Self, ProfileError> {
        let last = pour.stations.last().map_or(pour.bore, |station| station.bore);
        let base = pour.base.value;
        if pour.bore.check_level(base).is_err() || base >= pour.bore.top() {
            return Err(ProfileError::BaseOutside { level: base });
        }
        let jumps = jumps(pour, ground);
        let edges = edges(pour, &jumps);
        let cells: Vec<Cell> = edges.windows(2).map(|ends| cell(last, ends[0], ends[1])).collect();
        let stratum: Vec<usize> =
            edges[1..].iter().map(|top| jumps.iter().filter(|jump| **jump < *top).count()).collect();
        let of_ground: Vec<(f64, f64)> = edges[1..].iter().map(|top| expected(ground, prior, *top)).collect();
        Ok(Grid {
            edges_m: edges.iter().map(|edge| edge.0.to_meters()).collect(),
            nominal_m3: cells.iter().map(|cell| volume_m3(last, cell.bottom, cell.top)).collect(),
            carried: carried(&cells, &stratum, prior),
            expected: of_ground.iter().map(|one| one.0).collect(),
            offset_variance: of_ground.iter().map(|one| one.1).collect(),
            stratum,
            cells,
        })
    }

    pub(super) fn cells(&self) -> &[Cell] {
        &self.cells
    }

    pub(super) fn len(&self) -> usize {
        self.cells.len()
    }

    /// How much of each cell a stretch covers, from 0 to 1.
    pub(super) fn covered(&self, bottom_m: f64, top_m: f64) -> impl Iterator<Item = (usize, f64)> {
        let first = self.edges_m.partition_point(|edge| *edge <= bottom_m).saturating_sub(1);
        let ends = self.edges_m[first..].windows(2).take_while(move |ends| ends[0] < top_m);
        ends.enumerate().filter_map(move |(at, ends)| {
            let part = (top_m.min(ends[1]) - bottom_m.max(ends[0])) / (ends[1] - ends[0]);
            (part > 0.0).then_some((first + at, part))
        })
    }

    /// The cell in which a level lies; the upper one where two meet.
    pub(super) fn holding(&self, level_m: f64) -> usize {
        let above = self.edges_m.partition_point(|edge| *edge <= level_m);
        above.saturating_sub(1).min(self.len() - 1)
    }
}

/// Volume between two levels as far as it lies in a hole.
pub(super) fn volume_m3(bore: &Bore, bottom: Elevation, top: Elevation) -> f64 {
    let (low, high) = (bottom.max(bore.bottom()), top.min(bore.top()));
    if high <= low {
        return 0.0;
    }
    bore.volume_between(low, high).map_or(0.0, |volume| volume.to_cubic_meters())
}

/// Whether a casing stands between two levels that hold no change of diameter between them.
pub(super) fn cased(bore: &Bore, bottom: Elevation, top: Elevation) -> bool {
    let middle = Elevation(bottom.0 + Length::meters(top.above(bottom).to_meters() / 2.0));
    let holds = |piece: &&crate::geometry::Piece| piece.bottom < middle && middle <= piece.top;
    bore.pieces().iter().find(holds).is_some_and(|piece| piece.part == Part::Casing)
}

fn cell(bore: &Bore, bottom: Elevation, top: Elevation) -> Cell {
    let area_m2 = volume_m3(bore, bottom, top) / top.above(bottom).to_meters();
    Cell { top, bottom, nominal: Area::square_meters(area_m2), cased: cased(bore, bottom, top) }
}

/// Levels at which the ratio may jump, upward, without repeats.
fn jumps(pour: &Pour, ground: &Ground) -> Vec<Elevation> {
    let tops = ground.strata.iter().map(|stratum| stratum.top);
    let mut jumps: Vec<Elevation> = tops.chain(ground.jumps.iter().copied()).collect();
    let pulled = bores(pour).flat_map(Bore::pieces).filter(|piece| piece.part == Part::Casing);
    jumps.extend(pulled.map(|piece| piece.bottom));
    jumps.put_in_order();
    jumps.dedup();
    jumps
}

fn bores<'a>(pour: &'a Pour) -> impl Iterator<Item = &'a Bore> {
    std::iter::once(pour.bore).chain(pour.stations.iter().map(|station| station.bore))
}

fn edges(pour: &Pour, jumps: &[Elevation]) -> Vec<Elevation> {
    let base = pour.base.value;
    let top = bores(pour).map(Bore::top).max().unwrap_or(base);
    let mut cuts: Vec<Elevation> = jumps.to_vec();
    cuts.extend(bores(pour).flat_map(Bore::pieces).flat_map(|piece| [piece.top, piece.bottom]));
    cuts.retain(|cut| base < *cut && *cut < top);
    cuts.push(top);
    cuts.put_in_order();
    cuts.dedup();
    let step_m = (top.above(base).to_meters() / CELLS as f64).max(LEAST_CELL_M);
    let mut edges = vec![base];
    for cut in cuts {
        let from = edges[edges.len() - 1];
        let height_m = cut.above(from).to_meters();
        let count = (height_m / step_m - 1e-9).ceil().max(1.0) as usize;
        let part = |at: usize| Length::meters(height_m * at as f64 / count as f64);
        edges.extend((1..count).map(|at| Elevation(from.0 + part(at))));
        edges.push(cut);
    }
    edges.dedup();
    edges
}

/// Expected ratio and variance of the stratum below a level.
fn expected(ground: &Ground, prior: &Prior, top: Elevation) -> (f64, f64) {
    let stratum = ground.strata.iter().filter(|stratum| top <= stratum.top).min_by_key(|stratum| stratum.top);
    match stratum.and_then(|stratum| stratum.earlier) {
        Some(earlier) => {
            let own = earlier.standard_error * earlier.standard_error;
            let beyond_shaft = own - prior.shaft_spread * prior.shaft_spread;
            (earlier.value, beyond_shaft.max(LEAST_OFFSET * LEAST_OFFSET))
        }
        None => (prior.ratio, prior.stratum_spread * prior.stratum_spread),
    }
}

/// The least spread of a stratum that earlier shafts have shown. Judgement.
const LEAST_OFFSET: f64 = 0.02;

fn carried(cells: &[Cell], stratum: &[usize], prior: &Prior) -> Vec<f64> {
    let middle = |at: usize| (cells[at].bottom.0.to_meters() + cells[at].top.0.to_meters()) / 2.0;
    let length_m = prior.gentle_length.to_meters();
    (0..cells.len())
        .map(|at| match at > 0 && stratum[at] == stratum[at - 1] {
            true => libm::exp(-(middle(at) - middle(at - 1)) / length_m),
            false => 0.0,
        })
        .collect()
}
