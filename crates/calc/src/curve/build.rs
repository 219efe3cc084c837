//! Builds the volume curve from its stations.
//!
//! Never: fail on a doubtful station; it stays on the curve and is named in the issues.

use quantity::{Length, Volume};

use super::propagate::{Readings, Weights};
use super::{Cumulative, Departure, Interval, Issue, Pour, Station, VolumeCurve};
use crate::estimate::{Estimate, Level, in_quadrature};
use crate::geometry::{Bore, equivalent_diameter};

/// The volume curve of a pour, with what is doubtful about it.
///
/// `p = Σ loads − wasted − (held − held before)`, `t = V(level) − V(level before)`, `r = p / t`,
/// `D = √(4 (p + steel) / (π rise))`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `V` | `bore` of each station | volume below the level in the hole as it stood then |
/// | `p`, `t` | `stations` | placed and theoretical volume of an interval |
/// | `r`, `D` | – | ratio and equivalent diameter |
///
/// Standard errors go from the tape (each level) and the tickets (each load, and shared) to each figure
/// to first order; neighbours share a sounding, and that is counted.
///
/// **Valid for** rises that are long beside the error of the tape; shorter ones than `least_rise` are
/// named. Waste and what the lines hold are taken as known.
///
/// **Errors** none: a station without a place in the hole has no ratio and is named.
///
/// **Source**: [FHWA-CONVOL] for placed, theoretical and diameter; error propagation [GUM].
///
/// ```
/// # use calc::curve::{LoadError, Pour, Station, volume_curve};
/// # use calc::estimate::{Estimate, Level};
/// # use calc::geometry::Bore;
/// # use quantity::{Elevation, Length, Volume};
/// let at = |feet| Elevation(Length::feet(feet));
/// let shaft = Bore::cylinder(Length::feet(4.0), at(0.0), at(-60.0))?;
/// let first = Station {
///     level: Estimate::new(at(-42.6), Length::feet(0.1)),
///     loads: vec![Volume::cubic_yards(9.0)],
///     wasted: Volume::cubic_yards(0.0),
///     held: Volume::cubic_yards(0.0),
///     bore: &shaft,
/// };
/// let (curve, issues) = volume_curve(&Pour {
///     base: Level::known(at(-60.0)),
///     bore: &shaft,
///     stations: vec![first],
///     load_error: LoadError { each: 0.02, shared: 0.0 },
///     least_rise: Length::feet(3.0),
/// });
/// let ratio = curve.intervals[0].ratio.expect("the surface rose");
/// assert_eq!(format!("{:.3} ± {:.3}", ratio.value, ratio.standard_error), "1.111 ± 0.023");
/// assert!(issues.is_empty());
/// # Ok::<(), calc::geometry::GeometryError>(())
/// ```
pub fn volume_curve(pour: &Pour) -> (VolumeCurve, Vec<Issue>) {
    let readings = readings(pour);
    let intervals = (0..pour.stations.len()).map(|at| interval(pour, &readings, at)).collect();
    let issues = (0..pour.stations.len()).flat_map(|at| issues(pour, &readings, at)).collect();
    (VolumeCurve { intervals }, issues)
}

fn readings(pour: &Pour) -> Readings {
    let cubic_meters = |volumes: &[Volume]| volumes.iter().map(|volume| volume.to_cubic_meters()).collect();
    let levels: Vec<(Level, &Bore)> = std::iter::once((pour.base, pour.bore))
        .chain(pour.stations.iter().map(|station| (station.level, station.bore)))
        .collect();
    Readings {
        placed_m3: (0..pour.stations.len()).map(|at| placed_m3(&pour.stations, at)).collect(),
        loads_m3: pour.stations.iter().map(|station| cubic_meters(&station.loads)).collect(),
        below_m3: levels.iter().map(|(level, bore)| below_m3(level, bore)).collect(),
        below_error_m3: levels.iter().map(|(level, bore)| below_error_m3(level, bore)).collect(),
        load_error: pour.load_error,
    }
}

fn placed_m3(stations: &[Station], at: usize) -> f64 {
    let station = &stations[at];
    let loads: f64 = station.loads.iter().map(|load| load.to_cubic_meters()).sum();
    let held_before = if at == 0 { 0.0 } else { stations[at - 1].held.to_cubic_meters() };
    loads - station.wasted.to_cubic_meters() - (station.held.to_cubic_meters() - held_before)
}

fn below_m3(level: &Level, bore: &Bore) -> Option<f64> {
    bore.volume_below(level.value).ok().map(Volume::to_cubic_meters)
}

fn below_error_m3(level: &Level, bore: &Bore) -> f64 {
    let area_m2 = bore.area_at(level.value).map_or(0.0, |area| area.to_square_meters());
    area_m2 * level.standard_error.to_meters()
}

/// The level and the hole at the beginning of an interval.
fn start<'a>(pour: &'a Pour, at: usize) -> (Level, &'a Bore) {
    match at {
        0 => (pour.base, pour.bore),
        _ => (pour.stations[at - 1].level, pour.stations[at - 1].bore),
    }
}

fn interval(pour: &Pour, readings: &Readings, at: usize) -> Interval {
    let (lower, station) = (start(pour, at).0, &pour.stations[at]);
    let ends = [(at + 1, 1.0), (at, -1.0)];
    let placed = volume(readings, readings.placed(&[at]));
    let errors = [lower.standard_error, station.level.standard_error].map(Length::to_meters);
    let rise = Estimate::new(station.level.value.above(lower.value), Length::meters(in_quadrature(&errors)));
    Interval {
        lower: lower.value,
        upper: station.level.value,
        rise,
        theoretical: readings.below(&ends).map(|sum| volume(readings, sum)),
        placed,
        ratio: readings.ratio(&[at], &ends).map(|ratio| plain(readings, &ratio)),
        diameter: diameter(pour, at, rise, placed),
        departure: departure(readings, at),
        cumulative: cumulative(readings, at),
    }
}

fn cumulative(readings: &Readings, at: usize) -> Cumulative {
    let intervals: Vec<usize> = (0..=at).collect();
    let ends = [(at + 1, 1.0), (0, -1.0)];
    Cumulative {
        placed: volume(readings, readings.placed(&intervals)),
        theoretical: readings.below(&ends).map(|sum| volume(readings, sum)),
        ratio: readings.ratio(&intervals, &ends).map(|ratio| plain(readings, &ratio)),
    }
}

/// The ratio of one interval less that of all others, up to the last station inside the hole.
fn departure(readings: &Readings, at: usize) -> Option<Departure> {
    let last = readings.below_m3.iter().rposition(Option::is_some)?;
    let others: Vec<usize> = (0..last).filter(|other| *other != at).collect();
    let own = readings.ratio(&[at], &[(at + 1, 1.0), (at, -1.0)])?;
    let rest = readings.ratio(&others, &[(last, 1.0), (0, -1.0), (at + 1, -1.0), (at, 1.0)])?;
    let difference = plain(readings, &(own.0 - rest.0, own.1.minus(&rest.1)));
    let error = difference.standard_error;
    let z = (error > 0.0).then(|| difference.value / error);
    Some(Departure { others: plain(readings, &rest), difference, z })
}

fn diameter(
    pour: &Pour,
    at: usize,
    rise: Estimate<Length>,
    placed: Estimate<Volume>,
) -> Option<Estimate<Length>> {
    let ((lower, bore_before), station) = (start(pour, at), &pour.stations[at]);
    if bore_before != station.bore || placed.value.to_cubic_meters() <= 0.0 {
        return None;
    }
    let steel = station.bore.steel_between(lower.value, station.level.value).ok()?;
    let gross = Volume::cubic_meters(placed.value.to_cubic_meters() + steel.to_cubic_meters());
    let diameter = equivalent_diameter(gross, rise.value).ok()?;
    let relative = [
        placed.standard_error.to_cubic_meters() / gross.to_cubic_meters(),
        rise.standard_error.to_meters() / rise.value.to_meters(),
    ];
    Some(Estimate::new(diameter, Length::meters(diameter.to_meters() * in_quadrature(&relative) / 2.0)))
}

fn volume(readings: &Readings, (value, weights): (f64, Weights)) -> Estimate<Volume> {
    Estimate::new(Volume::cubic_meters(value), Volume::cubic_meters(readings.standard_error(&weights)))
}

fn plain(readings: &Readings, (value, weights): &(f64, Weights)) -> Estimate<f64> {
    Estimate::new(*value, readings.standard_error(weights))
}

/// A short rise: little came, or what came did not show.
fn short(pour: &Pour, (at, placed_m3): (usize, f64), rise: Length) -> Issue {
    let (bore_before, station) = (start(pour, at).1, &pour.stations[at]);
    let area_m2 = station.bore.area_at(station.level.value).map(|area| area.to_square_meters());
    let fills =
        area_m2.ok().filter(|area_m2| *area_m2 > 0.0).map(|area_m2| Length::meters(placed_m3 / area_m2));
    let far = |fills: &Length| pour.least_rise <= *fills && rise + rise <= *fills;
    match fills.filter(far).filter(|_| bore_before == station.bore) {
        Some(fills) => Issue::HardlyRose { at, rise, fills },
        None => Issue::TinyInterval { at, rise },
    }
}

fn issues(pour: &Pour, readings: &Readings, at: usize) -> Vec<Issue> {
    let ((lower, bore_before), station) = (start(pour, at), &pour.stations[at]);
    let rise = station.level.value.above(lower.value);
    let level = station.level.value;
    let placed = readings.placed_m3[at];
    let fell = rise < Length::ZERO && bore_before == station.bore;
    let found = [
        fell.then_some(Issue::SurfaceFell { at, by: -rise }),
        (placed < 0.0).then(|| Issue::TotalFell { at, by: Volume::cubic_meters(-placed) }),
        (Length::ZERO <= rise && rise < pour.least_rise).then(|| short(pour, (at, placed), rise)),
        readings.below_m3[at + 1].is_none().then_some(Issue::OutsideBore { at, level }),
    ];
    found.into_iter().flatten().collect()
}
