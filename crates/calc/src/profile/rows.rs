//! What was placed between soundings, what each cell adds to it, and how far that can be trusted.
//!
//! A row stands for one used station: the volume placed since the one before equals the sum over the cells of their
//! volume in between times their ratio, but for the errors of tape and tickets. A casing that was pulled in between
//! takes its known inside away and brings the hole.

use quantity::Volume;

use super::cells::{Grid, cased, volume_m3};
use super::{Ground, Prior};
use crate::curve::{LoadError, Pour, Station};
use crate::dense::{Square, dot};
use crate::estimate::Level;
use crate::geometry::Bore;

/// Variance in m⁶ that every volume has: a tenth of a litre keeps two equal readings apart.
const LEAST_VARIANCE_M6: f64 = 1e-8;

/// Values of neighbouring cells; zero for all others.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Row {
    first: usize,
    values: Vec<f64>,
}

impl Row {
    pub(super) fn of(dense: &[f64]) -> Self {
        let first = dense.iter().position(|value| *value != 0.0).unwrap_or(0);
        let end = dense.iter().rposition(|value| *value != 0.0).map_or(first, |last| last + 1);
        Row { first, values: dense[first..end].to_vec() }
    }

    pub(super) fn dot(&self, dense: &[f64]) -> f64 {
        dot(&self.values, &dense[self.first..])
    }

    pub(super) fn at(&self, cell: usize) -> f64 {
        cell.checked_sub(self.first).and_then(|at| self.values.get(at)).copied().unwrap_or(0.0)
    }

    pub(super) fn dense(&self, size: usize) -> Vec<f64> {
        (0..size).map(|cell| self.at(cell)).collect()
    }
}

/// One end of a row: a sounded level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Sounded {
    pub(super) level_m: f64,
    /// Nominal area there.
    pub(super) area_m2: f64,
    /// A casing stands there.
    pub(super) cased: bool,
    pub(super) tape_m: f64,
    /// Standard error of the volume placed at that moment, which is gone at the next one.
    pub(super) held_m3: f64,
}

/// All rows of a pour.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Rows {
    /// Which station each row stands for.
    pub(super) stations: Vec<usize>,
    /// What each cell adds to the volume, per unit of its ratio.
    pub(super) rows: Vec<Row>,
    /// Volume inside standing casing, which no ratio changes.
    pub(super) known_m3: Vec<f64>,
    /// Placed by the tickets.
    pub(super) placed_m3: Vec<f64>,
    /// Sum of the loads.
    pub(super) loads_m3: Vec<f64>,
    /// The largest load.
    pub(super) largest_m3: Vec<f64>,
    /// Sum of products of loads that share a ticket.
    pub(super) tickets_m6: Square,
    /// Variance of what was judged by eye: left in a truck that goes home, or run over the top.
    pub(super) judged_m6: Vec<f64>,
    /// The base and the level of each row.
    pub(super) sounded: Vec<Sounded>,
    /// Placed after the last row, at stations that were left out.
    pub(super) after_m3: f64,
}

impl Rows {
    pub(super) fn new(pour: &Pour, ground: &Ground, prior: &Prior, grid: &Grid) -> Self {
        let inside = |at: &usize| {
            let station = &pour.stations[*at];
            station.bore.check_level(station.level.value).is_ok() && station.level.value >= pour.base.value
        };
        let stations: Vec<usize> = (0..pour.stations.len()).filter(inside).collect();
        let spans: Vec<&[Station]> = stations
            .iter()
            .enumerate()
            .map(|(row, at)| &pour.stations[if row == 0 { 0 } else { stations[row - 1] + 1 }..=*at])
            .collect();
        let below = below(pour, grid, &stations);
        let mut rows = Rows {
            rows: below.windows(2).map(|two| difference(&two[1].0, &two[0].0)).collect(),
            known_m3: below.windows(2).map(|two| two[1].1 - two[0].1).collect(),
            placed_m3: placed(pour, &stations),
            loads_m3: spans.iter().map(|span| loads_m3(span).sum()).collect(),
            largest_m3: spans.iter().map(|span| loads_m3(span).fold(0.0, f64::max)).collect(),
            tickets_m6: tickets(&spans, &stations, ground),
            judged_m6: judged(&stations, ground, prior),
            sounded: std::iter::once(sounded(pour.base, pour.bore))
                .chain(stations.iter().map(|at| sounded(pour.stations[*at].level, pour.stations[*at].bore)))
                .collect(),
            after_m3: 0.0,
            stations,
        };
        let total: f64 = (0..pour.stations.len()).map(|at| placed_m3(pour, at)).sum();
        rows.after_m3 = total - rows.placed_m3.iter().sum::<f64>();
        rows.doubt_part_loads(pour, ground, prior);
        rows
    }

    pub(super) fn len(&self) -> usize {
        self.rows.len()
    }

    /// Each part-emptied truck is doubtful at its own sounding.
    fn doubt_part_loads(&mut self, pour: &Pour, ground: &Ground, prior: &Prior) {
        for (row, at) in self.stations.iter().enumerate() {
            if ground.part_loads.contains(at) {
                let before = pour.stations[*at].loads.last();
                let after = pour.stations.get(at + 1).and_then(|station| station.loads.first());
                let truck: f64 = before.into_iter().chain(after).map(|load| load.to_cubic_meters()).sum();
                self.sounded[row + 1].held_m3 = prior.part_load_error * truck;
            }
        }
    }

    /// How a misread level shows in each row, per metre; `ratios` are those at the levels.
    pub(super) fn misread(&self, row: usize, ratios: &[f64]) -> Vec<(usize, f64)> {
        let area_m2 = self.area_m2(row + 1, ratios);
        let mut shows = vec![(row, area_m2)];
        if row + 1 < self.len() {
            shows.push((row + 1, -area_m2));
        }
        shows
    }

    /// Area at a level, the base first.
    fn area_m2(&self, level: usize, ratios: &[f64]) -> f64 {
        let sounded = &self.sounded[level];
        if sounded.cased { sounded.area_m2 } else { sounded.area_m2 * ratios[level] }
    }

    /// Covariance of the rows from tape and tickets.
    pub(super) fn noise(&self, error: LoadError, prior: &Prior, ratios: &[f64]) -> Square {
        let areas: Vec<f64> = (0..self.sounded.len()).map(|level| self.area_m2(level, ratios)).collect();
        let own: Vec<f64> = self
            .sounded
            .iter()
            .zip(&areas)
            .map(|(sounded, area)| {
                let tape = area * sounded.tape_m;
                tape * tape + sounded.held_m3 * sounded.held_m3
            })
            .collect();
        let reference = prior.shared_tape.to_meters() * prior.shared_tape.to_meters();
        let [each, shared] = [error.each, error.shared].map(|error| error * error);
        Square::from_fn(self.len(), |one, other| {
            let tape = match one.abs_diff(other) {
                0 => own[one] + own[one + 1] + self.judged_m6[one] + LEAST_VARIANCE_M6,
                1 => -own[one.max(other)],
                _ => 0.0,
            };
            let steps = (areas[one + 1] - areas[one]) * (areas[other + 1] - areas[other]);
            let plant = self.loads_m3[one] * self.loads_m3[other];
            tape + reference * steps + each * self.tickets_m6.at(one, other) + shared * plant
        })
    }
}

fn sounded(level: Level, bore: &Bore) -> Sounded {
    let nanometer = quantity::Length::nanometers(1);
    Sounded {
        level_m: level.value.0.to_meters(),
        area_m2: bore.area_at(level.value).map_or(0.0, |area| area.to_square_meters()),
        cased: cased(bore, quantity::Elevation(level.value.0 - nanometer), level.value),
        tape_m: level.standard_error.to_meters(),
        held_m3: 0.0,
    }
}

/// Per sounded level, the base first: what each cell adds to the volume below, and what stands in casing.
fn below(pour: &Pour, grid: &Grid, stations: &[usize]) -> Vec<(Vec<f64>, f64)> {
    let mut of_bore: Vec<(&Bore, Vec<f64>)> = Vec::new();
    let mut below = vec![(vec![0.0; grid.len()], 0.0)];
    for at in stations {
        let station = &pour.stations[*at];
        if of_bore.last().is_none_or(|(bore, _)| *bore != station.bore) {
            of_bore.push((station.bore, volumes(grid, station.bore)));
        }
        let whole = &of_bore[of_bore.len() - 1].1;
        below.push(below_level(grid, station, whole));
    }
    below
}

fn volumes(grid: &Grid, bore: &Bore) -> Vec<f64> {
    grid.cells().iter().map(|cell| volume_m3(bore, cell.bottom, cell.top)).collect()
}

fn below_level(grid: &Grid, station: &Station, whole: &[f64]) -> (Vec<f64>, f64) {
    let level = station.level.value;
    let mut free = vec![0.0; grid.len()];
    let mut standing = 0.0;
    for (at, cell) in grid.cells().iter().enumerate().take_while(|(_, cell)| cell.bottom < level) {
        let volume = if cell.top <= level { whole[at] } else { volume_m3(station.bore, cell.bottom, level) };
        match cased(station.bore, cell.bottom, cell.top) {
            true => standing += volume,
            false => free[at] = volume,
        }
    }
    (free, standing)
}

fn difference(upper: &[f64], lower: &[f64]) -> Row {
    let dense: Vec<f64> = upper.iter().zip(lower).map(|(upper, lower)| upper - lower).collect();
    Row::of(&dense)
}

fn loads_m3(span: &[Station]) -> impl Iterator<Item = f64> {
    span.iter().flat_map(|station| &station.loads).map(|load| load.to_cubic_meters())
}

fn placed_m3(pour: &Pour, at: usize) -> f64 {
    let station = &pour.stations[at];
    let held_before = if at == 0 { Volume::cubic_meters(0.0) } else { pour.stations[at - 1].held };
    let loads: f64 = station.loads.iter().map(|load| load.to_cubic_meters()).sum();
    loads - station.wasted.to_cubic_meters() - station.held.to_cubic_meters() + held_before.to_cubic_meters()
}

fn placed(pour: &Pour, stations: &[usize]) -> Vec<f64> {
    let mut from = 0;
    let mut placed = Vec::new();
    for at in stations {
        placed.push((from..=*at).map(|one| placed_m3(pour, one)).sum());
        from = at + 1;
    }
    placed
}

/// What was judged before a row's station and since the row below.
fn judged(stations: &[usize], ground: &Ground, prior: &Prior) -> Vec<f64> {
    let error_m3 = prior.judged_error.to_cubic_meters();
    let mut from = 0;
    let mut judged = Vec::new();
    for at in stations {
        let count = ground.judged.iter().filter(|one| (from..=*at).contains(*one)).count();
        judged.push(count as f64 * error_m3 * error_m3);
        from = at + 1;
    }
    judged
}

/// Loads squared; a truck sounded part empty shares its ticket with the next row.
fn tickets(spans: &[&[Station]], stations: &[usize], ground: &Ground) -> Square {
    let squares: Vec<f64> = spans.iter().map(|span| loads_m3(span).map(|load| load * load).sum()).collect();
    let mut tickets =
        Square::from_fn(spans.len(), |one, other| if one == other { squares[one] } else { 0.0 });
    for row in 1..spans.len() {
        if ground.part_loads.contains(&stations[row - 1]) {
            let first = loads_m3(spans[row]).next().unwrap_or(0.0);
            let last = loads_m3(spans[row - 1]).last().unwrap_or(0.0);
            tickets.add(row, row - 1, first * last);
            tickets.add(row - 1, row, first * last);
        }
    }
    tickets
}
