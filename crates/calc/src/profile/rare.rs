//! The rare things that may have happened, each by itself.

use super::cells::Grid;
use super::rows::Rows;
use super::{Prior, Shape};

/// What happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// A neck or cavity of the shape with this number.
    Shape(usize),
    /// The level of this row was misread.
    Misread(usize),
    /// A load of this row is not what its ticket says.
    Ticket(usize),
}

/// One rare thing.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Rare {
    pub(super) kind: Kind,
    /// How its amount shows in the rows.
    pub(super) shows: Vec<(usize, f64)>,
    /// Expected amount: change of ratio, metres, or cubic metres.
    pub(super) mean: f64,
    pub(super) variance: f64,
    /// Natural logarithm of its odds before the readings.
    pub(super) log_odds: f64,
    /// Where it is; an empty stretch for a reading.
    pub(super) bottom_m: f64,
    pub(super) top_m: f64,
}

impl Rare {
    pub(super) fn height_m(&self) -> f64 {
        self.top_m - self.bottom_m
    }

    pub(super) fn is_shape(&self) -> bool {
        matches!(self.kind, Kind::Shape(_))
    }
}

/// Everything that is held possible.
pub(super) fn rare_things(grid: &Grid, rows: &Rows, prior: &Prior, ratios: &[f64]) -> Vec<Rare> {
    if rows.len() == 0 {
        return Vec::new();
    }
    let mut things = shapes(grid, rows, prior);
    if prior.misread > 0.0 && prior.misread_by.to_meters() > 0.0 {
        things.extend((0..rows.len()).map(|row| misread(rows, row, prior, ratios)));
    }
    if prior.wrong_ticket > 0.0 && prior.wrong_ticket_by > 0.0 {
        let loaded = (0..rows.len()).filter(|row| rows.largest_m3[*row] > 0.0);
        things.extend(loaded.map(|row| ticket(rows, row, prior)));
    }
    things
}

/// Necks and cavities of each height at places half their height apart.
fn shapes(grid: &Grid, rows: &Rows, prior: &Prior) -> Vec<Rare> {
    let (bottom_m, top_m) = (grid.edges_m[0], grid.edges_m[grid.len()]);
    let length_m = top_m - bottom_m;
    let mut shapes = Vec::new();
    for height in &prior.heights {
        let height_m = height.to_meters();
        let count = (2.0 * length_m / height_m).ceil().max(1.0);
        for place in 0..count as usize {
            let middle = bottom_m + (place as f64 + 0.5) * length_m / count;
            let ends = [middle - height_m / 2.0, middle + height_m / 2.0];
            let shows = shows(grid, rows, ends);
            if shows.is_empty() {
                continue;
            }
            let odds = length_m / count / prior.heights.len() as f64;
            shapes.extend(prior.shapes.iter().enumerate().map(|(which, shape)| Rare {
                kind: Kind::Shape(which),
                shows: shows.clone(),
                mean: shape.change,
                variance: shape.spread * shape.spread,
                log_odds: log_odds(shape, odds),
                bottom_m: ends[0],
                top_m: ends[1],
            }));
        }
    }
    shapes
}

fn log_odds(shape: &Shape, meters: f64) -> f64 {
    libm::log(shape.per_meter * meters)
}

/// How a change of ratio by one over a stretch shows in the rows.
pub(super) fn shows(grid: &Grid, rows: &Rows, ends_m: [f64; 2]) -> Vec<(usize, f64)> {
    let covered: Vec<(usize, f64)> = grid.covered(ends_m[0], ends_m[1]).collect();
    let of_row = |row: &super::rows::Row| covered.iter().map(|(cell, part)| part * row.at(*cell)).sum::<f64>();
    let volumes = rows.rows.iter().map(of_row).enumerate();
    volumes.filter(|(_, volume)| *volume != 0.0).collect()
}

fn misread(rows: &Rows, row: usize, prior: &Prior, ratios: &[f64]) -> Rare {
    let by_m = prior.misread_by.to_meters();
    let odds = prior.misread / (1.0 - prior.misread);
    of_reading(Kind::Misread(row), rows.misread(row, ratios), by_m * by_m, odds)
}

fn ticket(rows: &Rows, row: usize, prior: &Prior) -> Rare {
    let by_m3 = prior.wrong_ticket_by * rows.largest_m3[row];
    let loads = (rows.loads_m3[row] / rows.largest_m3[row]).max(1.0);
    let odds = prior.wrong_ticket * loads / (1.0 - prior.wrong_ticket);
    of_reading(Kind::Ticket(row), vec![(row, 1.0)], by_m3 * by_m3, odds)
}

fn of_reading(kind: Kind, shows: Vec<(usize, f64)>, variance: f64, odds: f64) -> Rare {
    Rare { kind, shows, mean: 0.0, variance, log_odds: libm::log(odds), bottom_m: 0.0, top_m: 0.0 }
}
