//! Prints inputs and outputs of the numerical formulas, one JSON object a line, for `formulas_check.py`.
//!
//! Interpolation, straight fits, areas of nearest parts, least covers and the propagation of errors are
//! recomputed there with `numpy` and `scipy`, which share nothing with this crate.
//!
//! Units: SI; errors are standard errors. Never: print what was not computed by the crate.

#[path = "formulas/chances.rs"]
mod chances;

use calc::axis::{Axis, AxisReading, Offset, fit_axis};
use calc::base::{Base, Weighing};
use calc::cover::{HoleStretch, PlacedCage, least_cover};
use calc::curve::{LoadError, Pour, Station, volume_curve};
use calc::estimate::Estimate;
use calc::fluid_pressure::{Balance, Column, ColumnErrors};
use calc::geometry::{Bore, Part, Piece};
use calc::plane::{BasePoint, best_plane};
use calc::settling::{FluidStretch, SandSample, Settled, settled_thickness};
use calc::slump::{Adjustment, DayCurve, SlumpAtAge, SlumpErrors, SlumpTrial};
use quantity::{Density, Depth, Elevation, Fraction, Length, Slope, Span, Volume};

/// Ages in minutes and slumps in millimetres of made-up trials, all of them falling.
const TRIALS: [&[(f64, f64)]; 3] = [
    &[(0.0, 215.9), (120.0, 177.8), (240.0, 101.6)],
    &[(10.0, 230.0), (45.0, 222.0), (90.0, 205.0), (135.0, 180.0), (180.0, 140.0), (225.0, 95.0)],
    &[(0.0, 190.0), (300.0, 60.0)],
];

fn main() {
    TRIALS.iter().for_each(|trial| interpolation(trial));
    lives();
    planes();
    axes();
    shares();
    settling();
    covers();
    excess();
    curves();
    chances::all();
}

/// One line: a name, and fields that are already JSON.
fn line(check: &str, fields: &[(&str, String)]) {
    let fields: Vec<String> = fields.iter().map(|(name, value)| format!("\"{name}\":{value}")).collect();
    println!("{{\"check\":\"{check}\",{}}}", fields.join(","));
}

fn number(value: f64) -> String {
    assert!(value.is_finite(), "JSON has no word for {value}");
    format!("{value:?}")
}

fn list(values: impl IntoIterator<Item = f64>) -> String {
    let values: Vec<String> = values.into_iter().map(number).collect();
    format!("[{}]", values.join(","))
}

fn lists(rows: impl IntoIterator<Item = Vec<f64>>) -> String {
    let rows: Vec<String> = rows.into_iter().map(list).collect();
    format!("[{}]", rows.join(","))
}

fn millimeters(value: f64) -> Length {
    Length::meters(value / 1000.0)
}

fn trial_of(points: &[(f64, f64)]) -> SlumpTrial {
    let points: Vec<SlumpAtAge> = points.iter().map(|&point| at_age(point)).collect();
    SlumpTrial::new(&points).expect("a trial in order").0
}

fn at_age((minutes, slump): (f64, f64)) -> SlumpAtAge {
    SlumpAtAge { age: Span::minutes(minutes), slump: millimeters(slump) }
}

/// The trial at many ages, and the ages of many slumps, ends and knots among them.
fn interpolation(points: &[(f64, f64)]) {
    let trial = trial_of(points);
    let (first, last) = (points[0], points[points.len() - 1]);
    let between = |from: f64, to: f64| (0..=40).map(move |step| from + (to - from) * f64::from(step) / 40.0);
    let ages: Vec<f64> = between(first.0, last.0).chain(points.iter().map(|point| point.0)).collect();
    let slumps: Vec<f64> = between(first.1, last.1).chain(points.iter().map(|point| point.1)).collect();
    let slump_at = |age: &f64| trial.slump_at(Span::minutes(*age)).expect("inside the trial").to_meters();
    let age_at = |slump: &f64| trial.age_at(millimeters(*slump)).expect("inside the trial").to_minutes();
    line(
        "interpolation",
        &[
            ("trial_min", list(points.iter().map(|point| point.0))),
            ("trial_m", list(points.iter().map(|point| point.1 / 1000.0))),
            ("ages_min", list(ages.iter().copied())),
            ("slumps_m", list(ages.iter().map(slump_at))),
            ("wanted_m", list(slumps.iter().map(|slump| slump / 1000.0))),
            ("reached_min", list(slumps.iter().map(age_at))),
        ],
    );
}

/// Lives with their errors, by offset and by scale, of tested and untested loads.
fn lives() {
    // The limit lies well inside a straight stretch of the trial, so that first order is good enough.
    let (test_mm, between_mm, limit_mm) = (1.5, 3.0, 120.0);
    let tests: [&[(f64, f64)]; 4] =
        [&[(60.0, 190.0)], &[(40.0, 210.0), (100.0, 192.0)], &[(150.0, 160.0)], &[]];
    for points in TRIALS {
        let trial = trial_of(points);
        for (name, adjustment) in [("offset", Adjustment::Offset), ("scale", Adjustment::Scale)] {
            let errors = SlumpErrors { test: millimeters(test_mm), between_loads: millimeters(between_mm) };
            let loads: Vec<Vec<SlumpAtAge>> =
                tests.iter().map(|load| load.iter().map(|&test| at_age(test)).collect()).collect();
            let (day, issues) = DayCurve::fit(&trial, &loads, adjustment, errors).expect("a day");
            assert!(issues.is_empty(), "tests inside the trial");
            let asked = [60.0, 130.0];
            let slumps: Vec<Vec<Estimate<Length>>> = (0..tests.len())
                .map(|load| {
                    asked.map(|age| day.slump_at(load, Span::minutes(age)).expect("a slump")).to_vec()
                })
                .collect();
            let each = |read: fn(&Estimate<Length>) -> Length| {
                lists(slumps.iter().map(|load| load.iter().map(|one| read(one).to_meters()).collect()))
            };
            let lives: Vec<_> =
                (0..tests.len()).map(|load| day.life(load, millimeters(limit_mm)).expect("a life")).collect();
            let interval = |load| {
                let interval = day.life_interval(load, millimeters(limit_mm), 0.9).expect("an interval");
                let ends = [interval.earliest, interval.furthest];
                ends.map(|age| age.expect("inside the trial").to_minutes()).to_vec()
            };
            let intervals = lists((0..tests.len()).map(interval));
            line(
                "life",
                &[
                    ("adjustment", format!("\"{name}\"")),
                    ("trial_min", list(points.iter().map(|point| point.0))),
                    ("trial_m", list(points.iter().map(|point| point.1 / 1000.0))),
                    ("tests", test_lists(&tests)),
                    ("test_error_m", number(test_mm / 1000.0)),
                    ("between_error_m", number(between_mm / 1000.0)),
                    ("limit_m", number(limit_mm / 1000.0)),
                    ("age_min", list(lives.iter().map(|life| life.value.to_minutes()))),
                    ("asked_min", list(asked)),
                    ("slump_m", each(|slump| slump.value)),
                    ("slump_error_m", each(|slump| slump.standard_error)),
                    ("interval_min", intervals),
                    ("error_min", list(lives.iter().map(|life| life.standard_error.to_minutes()))),
                ],
            );
        }
    }
}

/// For each load its tests as pairs of minutes and metres.
fn test_lists(tests: &[&[(f64, f64)]]) -> String {
    let load = |load: &&[(f64, f64)]| lists(load.iter().map(|test| vec![test.0, test.1 / 1000.0]));
    format!("[{}]", tests.iter().map(load).collect::<Vec<_>>().join(","))
}

fn point([x, y, value]: [f64; 3]) -> BasePoint {
    BasePoint { x: Length::meters(x), y: Length::meters(y), value: Length::meters(value) }
}

fn planes() {
    let bases: [&[[f64; 3]]; 3] = [
        &[[0.0, 0.0, 18.30], [0.4, 0.0, 18.33], [0.0, 0.4, 18.31], [-0.4, 0.0, 18.26], [0.0, -0.4, 18.29]],
        &[[0.1, 0.2, 12.0], [0.5, -0.1, 12.04], [-0.3, 0.6, 11.95]],
        &[
            [1.0, 0.2, 30.1],
            [1.1, 0.9, 30.2],
            [0.2, 1.3, 30.0],
            [0.4, 0.3, 30.15],
            [0.9, 1.2, 29.9],
            [0.6, 0.7, 30.05],
        ],
    ];
    for base in bases {
        let points: Vec<BasePoint> = base.iter().map(|&one| point(one)).collect();
        let plane = best_plane(&points, Length::meters(0.03)).expect("a plane");
        line(
            "plane",
            &[
                ("points", lists(base.iter().map(|one| one.to_vec()))),
                ("reading_error", number(0.03)),
                ("at_centre", number(plane.at_centre.to_meters())),
                ("along_x", number(plane.along_x.to_part())),
                ("along_y", number(plane.along_y.to_part())),
                ("slope", number(plane.slope.value.to_part())),
                ("slope_error", number(plane.slope.standard_error.to_part())),
                ("left_over", number(plane.left_over.to_meters())),
            ],
        );
    }
}

/// Readings of depth, east, north.
fn axes() {
    let holes: [&[[f64; 3]]; 2] = [
        &[
            [0.0, 0.012, -0.004],
            [3.0, 0.031, 0.002],
            [6.0, 0.048, 0.011],
            [9.5, 0.081, 0.012],
            [14.0, 0.102, 0.025],
        ],
        &[[1.0, 0.0, 0.02], [11.0, -0.07, 0.05]],
    ];
    let asked = [-1.0, 0.0, 7.3, 20.0];
    for hole in holes {
        let reading = |&[depth, east, north]: &[f64; 3]| AxisReading {
            depth: Depth(Length::meters(depth)),
            offset: Offset { east: Length::meters(east), north: Length::meters(north) },
        };
        let readings: Vec<AxisReading> = hole.iter().map(reading).collect();
        let fitted = fit_axis(&readings, Length::meters(0.006)).expect("an axis");
        let depth = |meters: &f64| Depth(Length::meters(*meters));
        line(
            "axis",
            &[
                ("readings", lists(hole.iter().map(|one| one.to_vec()))),
                ("reading_error", number(0.006)),
                ("asked", list(asked)),
                ("east", list(asked.iter().map(|at| fitted.axis.offset_at(depth(at)).east.to_meters()))),
                ("north", list(asked.iter().map(|at| fitted.axis.offset_at(depth(at)).north.to_meters()))),
                ("error", list(asked.iter().map(|at| fitted.errors.offset_error_at(depth(at)).to_meters()))),
                ("lean", number(fitted.axis.lean().to_part())),
                ("lean_error", number(fitted.errors.lean.to_part())),
            ],
        );
    }
}

fn shares() {
    let bases: [&[[f64; 2]]; 3] = [
        &[[0.0, 0.0], [0.4, 0.0], [0.0, 0.4], [-0.4, 0.0], [0.0, -0.4]],
        &[[0.1, 0.05], [0.45, -0.2], [-0.3, 0.4]],
        &[[0.55, 0.0], [-0.2, -0.5], [0.0, 0.1], [0.1, 0.12], [-0.58, 0.05], [0.3, 0.4], [0.3, -0.45]],
    ];
    for base in bases {
        let points: Vec<BasePoint> = base.iter().map(|&[x, y]| point([x, y, 0.0])).collect();
        let weighing = Weighing::NearestPart { radius: Length::meters(0.6) };
        let base_shares = Base::new(&points, weighing).expect("a base").shares();
        line(
            "shares",
            &[
                ("points", lists(base.iter().map(|one| one.to_vec()))),
                ("radius", number(0.6)),
                ("shares", list(base_shares.iter().map(|share| share.to_part()))),
            ],
        );
    }
}

fn settling() {
    let columns: [&[[f64; 2]]; 3] =
        [&[[20.0, 0.04]], &[[3.0, 0.002], [12.0, 0.011], [23.5, 0.045]], &[[24.0, 0.08], [0.0, 0.01]]];
    for column in columns {
        let sample = |&[depth, sand]: &[f64; 2]| SandSample {
            depth: Depth(Length::meters(depth)),
            sand: Fraction::part(sand),
        };
        let samples: Vec<SandSample> = column.iter().map(sample).collect();
        let stretch = FluidStretch { top: Depth(Length::meters(0.0)), bottom: Depth(Length::meters(24.0)) };
        let settled = Settled { porosity: Fraction::part(0.4), sand_error: Fraction::part(0.005) };
        let thickness = settled_thickness(&samples, stretch, settled).expect("a thickness");
        line(
            "settling",
            &[
                ("samples", lists(column.iter().map(|one| one.to_vec()))),
                ("bottom", number(24.0)),
                ("porosity", number(0.4)),
                ("sand_error", number(0.005)),
                ("thickness", number(thickness.value.to_meters())),
                ("error", number(thickness.standard_error.to_meters())),
            ],
        );
    }
}

/// An axis of `[east, north]` offsets at depth zero and `[east, north]` leans.
fn axis([east, north, lean_east, lean_north]: [f64; 4]) -> Axis {
    Axis {
        depth: Depth(Length::ZERO),
        offset: Offset { east: Length::meters(east), north: Length::meters(north) },
        lean_east: Slope::part(lean_east),
        lean_north: Slope::part(lean_north),
    }
}

fn covers() {
    let stretches = [[0.0, 7.0, 1.27], [7.0, 16.0, 1.22], [16.0, 21.0, 1.07]];
    let pairs = [
        ([0.0, 0.0, 0.004, 0.0], [0.0, 0.0, 0.0, 0.0]),
        ([0.03, -0.02, -0.002, 0.003], [0.0, 0.01, 0.001, -0.001]),
        ([0.06, 0.0, -0.006, 0.0], [0.0, 0.0, 0.0, 0.0]),
    ];
    for (hole, cage) in pairs {
        let stretch = |&[top, bottom, diameter]: &[f64; 3]| HoleStretch {
            top: Depth(Length::meters(top)),
            bottom: Depth(Length::meters(bottom)),
            diameter: Length::meters(diameter),
        };
        let hole_stretches: Vec<HoleStretch> = stretches.iter().map(stretch).collect();
        let placed = PlacedCage {
            axis: axis(cage),
            top: Depth(Length::meters(0.5)),
            bottom: Depth(Length::meters(20.8)),
            outside: Length::meters(0.91),
        };
        let least = least_cover(axis(hole), &hole_stretches, placed).expect("a cover");
        line(
            "cover",
            &[
                ("stretches", lists(stretches.map(|one| one.to_vec()))),
                ("hole", list(hole)),
                ("cage", list(cage)),
                ("top", number(0.5)),
                ("bottom", number(20.8)),
                ("outside", number(0.91)),
                ("cover", number(least.cover.to_meters())),
                ("depth", number(least.depth.to_meters())),
            ],
        );
    }
}

fn excess() {
    let column = |density, surface| Column {
        density: Density::kilograms_per_cubic_meter(density),
        surface: Elevation(Length::meters(surface)),
    };
    let balance = Balance { inside: column(1060.0, 0.2), outside: column(999.6, -1.4) };
    let (density, surface) = (10.0, 0.03);
    let errors = ColumnErrors {
        density: Density::kilograms_per_cubic_meter(density),
        surface: Length::meters(surface),
    };
    for level in [-2.0, -10.0, -24.0] {
        let at = Elevation(Length::meters(level));
        line(
            "excess",
            &[
                ("inside", list([1060.0, 0.2])),
                ("outside", list([999.6, -1.4])),
                ("errors", list([density, surface])),
                ("level", number(level)),
                ("excess_pa", number(balance.excess(at).to_pascals())),
                ("error_pa", number(balance.excess_error(errors, at).to_pascals())),
            ],
        );
    }
}

/// One pour: pieces of the hole as `[diameter, top, bottom]`, loads, and depths to concrete after each.
struct PourCase {
    pieces: &'static [[f64; 3]],
    loads: &'static [f64],
    depths: &'static [f64],
    /// Base, tape, each load, all loads.
    errors: [f64; 4],
}

const POURS: [PourCase; 3] = [
    PourCase {
        pieces: &[[1.2192, 0.0, 18.288]],
        loads: &[6.881, 6.881, 6.881, 3.058],
        depths: &[12.984, 7.590, 2.408, 0.0],
        errors: [0.03, 0.03, 0.02, 0.01],
    },
    PourCase {
        pieces: &[[1.5, 0.0, 6.0], [1.3, 6.0, 24.0]],
        loads: &[8.0, 8.0, 8.0, 7.5, 7.0],
        depths: &[18.3, 12.6, 7.2, 3.4, 0.1],
        errors: [0.05, 0.05, 0.015, 0.0],
    },
    PourCase {
        pieces: &[[0.9, 0.0, 12.0]],
        loads: &[4.2, 4.4],
        depths: &[6.1, 0.2],
        errors: [0.0, 0.06, 0.0, 0.02],
    },
];

fn curves() {
    POURS.iter().for_each(curve);
}

fn curve(case: &PourCase) {
    let level = |depth: f64| Elevation(Length::meters(-depth));
    let piece = |&[diameter, top, bottom]: &[f64; 3]| {
        Piece::cylinder(Part::Shaft, Length::meters(diameter), level(top), level(bottom))
    };
    let bore = Bore::new(case.pieces.iter().map(piece).collect()).expect("a hole");
    let [base, tape, each, shared] = case.errors;
    let none = Volume::cubic_meters(0.0);
    let station = |(&load, &depth): (&f64, &f64)| Station {
        level: Estimate::new(level(depth), Length::meters(tape)),
        loads: vec![Volume::cubic_meters(load)],
        wasted: none,
        held: none,
        bore: &bore,
    };
    let pour = Pour {
        base: Estimate::new(bore.bottom(), Length::meters(base)),
        bore: &bore,
        stations: case.loads.iter().zip(case.depths).map(station).collect(),
        load_error: LoadError { each, shared },
        least_rise: Length::ZERO,
    };
    let (curve, issues) = volume_curve(&pour);
    assert!(issues.is_empty(), "a pour without doubts: {issues:?}");
    let ratios = curve.intervals.iter().map(|one| one.ratio.expect("a ratio"));
    let diameters = curve.intervals.iter().map(|one| one.diameter.expect("a diameter"));
    let totals = curve.intervals.iter().map(|one| one.cumulative.ratio.expect("a ratio"));
    let departures = curve.intervals.iter().map(|one| one.departure.expect("other intervals").difference);
    line(
        "curve",
        &[
            ("pieces", lists(case.pieces.iter().map(|one| one.to_vec()))),
            ("loads", list(case.loads.iter().copied())),
            ("depths", list(case.depths.iter().copied())),
            ("errors", list(case.errors)),
            ("ratio", lists(ratios.map(|one| vec![one.value, one.standard_error]))),
            (
                "diameter",
                lists(diameters.map(|one| vec![one.value.to_meters(), one.standard_error.to_meters()])),
            ),
            ("cumulative", lists(totals.map(|one| vec![one.value, one.standard_error]))),
            ("departure", lists(departures.map(|one| vec![one.value, one.standard_error]))),
        ],
    );
}
