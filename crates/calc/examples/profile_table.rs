//! Prints as-built profiles of fixed pours, one JSON object a line, for `profile_reference.py`.
//!
//! Each line holds all that went in, the accounts that were weighed, and what came out: ratios of stretches,
//! concrete still needed, blind spots. The script works them out again from the textbook formulas.
//!
//! Units: SI; errors are standard errors. Never: print what was not computed by the crate.

use calc::curve::{LoadError, Pour, Station};
use calc::estimate::Estimate;
use calc::geometry::{Bore, Part, Piece};
use calc::mixture::Mixture;
use calc::profile::{Ground, Prior, Profile, RareThing, Stratum, profile};
use quantity::{Elevation, Fraction, Length, Volume};

/// A piece: its upper end, lower end and diameter, and 1 where it is the inside of a casing.
type Piece4 = [f64; 4];

struct Case {
    name: &'static str,
    /// The hole as it stands at the stations from each number on.
    holes: &'static [(usize, &'static [Piece4])],
    /// Level, standard error, and loads since the station before.
    stations: &'static [(f64, f64, &'static [f64])],
    part_loads: &'static [usize],
    judged: &'static [usize],
    jumps: &'static [f64],
    /// Top of a stratum, and what earlier shafts showed in it.
    strata: &'static [(f64, f64, f64)],
    load_error: [f64; 2],
    shared_tape: f64,
    heights: &'static [f64],
}

const CASES: [Case; 4] = [
    Case {
        name: "one interval",
        holes: &[(0, &[[20.0, 0.0, 1.2, 0.0]])],
        stations: &[(9.0, 0.03, &[11.0])],
        part_loads: &[],
        judged: &[],
        jumps: &[],
        strata: &[],
        load_error: [0.02, 0.01],
        shared_tape: 0.0,
        heights: &[2.0],
    },
    Case {
        name: "a neck, sounded after each load",
        holes: &[(0, &[[20.0, 0.0, 1.5, 0.0]])],
        stations: &[
            (4.0, 0.03, &[7.6]),
            (8.05, 0.03, &[7.6]),
            (12.4, 0.02, &[7.0]),
            (16.5, 0.03, &[7.6]),
            (19.9, 0.03, &[6.4]),
        ],
        part_loads: &[],
        judged: &[],
        jumps: &[7.0],
        strata: &[],
        load_error: [0.015, 0.01],
        shared_tape: 0.02,
        heights: &[1.0, 2.5],
    },
    Case {
        name: "halves of loads, strata that earlier shafts met, a level misread",
        holes: &[(0, &[[18.0, 10.0, 1.5, 0.0], [10.0, 0.0, 1.2, 0.0]])],
        stations: &[
            (3.1, 0.03, &[3.8]),
            (6.3, 0.03, &[3.8]),
            (8.6, 0.03, &[3.8]),
            (11.9, 0.03, &[3.8]),
            (13.9, 0.03, &[3.8]),
            (16.0, 0.03, &[3.8]),
        ],
        part_loads: &[0, 2, 4],
        judged: &[5],
        jumps: &[5.5],
        strata: &[(18.0, 1.15, 0.09), (9.0, 1.05, 0.07)],
        load_error: [0.015, 0.01],
        shared_tape: 0.03,
        heights: &[1.5],
    },
    Case {
        name: "a casing that is pulled",
        holes: &[(0, &[[20.0, 12.0, 1.0, 1.0], [12.0, 0.0, 1.2, 0.0]]), (3, &[[20.0, 0.0, 1.2, 0.0]])],
        stations: &[
            (6.0, 0.03, &[7.3]),
            (12.0, 0.03, &[7.2]),
            (18.0, 0.03, &[4.71]),
            (15.85, 0.04, &[]),
            (19.5, 0.03, &[2.5, 2.1]),
        ],
        part_loads: &[],
        judged: &[2, 4, 4],
        jumps: &[],
        strata: &[],
        load_error: [0.015, 0.01],
        shared_tape: 0.01,
        heights: &[2.0],
    },
];

fn main() {
    CASES.iter().for_each(print);
}

fn at(meters: f64) -> Elevation {
    Elevation(Length::meters(meters))
}

fn bore(pieces: &[Piece4]) -> Bore {
    let piece = |&[top, bottom, diameter, cased]: &Piece4| {
        let part = if cased > 0.0 { Part::Casing } else { Part::Shaft };
        Piece::cylinder(part, Length::meters(diameter), at(top), at(bottom))
    };
    Bore::new(pieces.iter().map(piece).collect()).expect("a hole")
}

fn prior(case: &Case) -> Prior {
    Prior {
        shared_tape: Length::meters(case.shared_tape),
        heights: case.heights.iter().map(|height| Length::meters(*height)).collect(),
        ..Prior::default()
    }
}

fn estimate(case: &Case, prior: &Prior) -> Profile {
    let bores: Vec<(usize, Bore)> = case.holes.iter().map(|(from, pieces)| (*from, bore(pieces))).collect();
    let hole = |station: usize| {
        &bores.iter().rfind(|(from, _)| *from <= station).expect("a hole from the first station on").1
    };
    let stations = case.stations.iter().enumerate().map(|(number, (level, error, loads))| Station {
        level: Estimate::new(at(*level), Length::meters(*error)),
        loads: loads.iter().map(|load| Volume::cubic_meters(*load)).collect(),
        wasted: Volume::cubic_meters(0.0),
        held: Volume::cubic_meters(0.0),
        bore: hole(number),
    });
    let pour = Pour {
        base: Estimate::new(at(0.0), Length::meters(0.03)),
        bore: hole(0),
        stations: stations.collect(),
        load_error: LoadError { each: case.load_error[0], shared: case.load_error[1] },
        least_rise: Length::ZERO,
    };
    let stratum = |&(top, ratio, error): &(f64, f64, f64)| Stratum {
        top: at(top),
        earlier: Some(Estimate::new(ratio, error)),
    };
    let ground = Ground {
        strata: case.strata.iter().map(stratum).collect(),
        jumps: case.jumps.iter().map(|level| at(*level)).collect(),
        part_loads: case.part_loads.to_vec(),
        judged: case.judged.to_vec(),
    };
    profile(&pour, &ground, prior).expect("a profile").0
}

fn print(case: &Case) {
    let prior = prior(case);
    let profile = estimate(case, &prior);
    let fields = [
        format!("\"name\":\"{}\"", case.name),
        format!("\"given\":{{{}}}", given(case).join(",")),
        format!("\"prior\":{{{}}}", told(&prior).join(",")),
        format!("\"edges\":{}", list(edges(&profile))),
        format!("\"accounts\":[{}]", accounts(&profile)),
        format!("\"found\":{{{}}}", found(case, &profile).join(",")),
    ];
    println!("{{{}}}", fields.join(","));
}

fn given(case: &Case) -> Vec<String> {
    let pieces = |pieces: &[Piece4]| lists(pieces.iter().map(|piece| piece.to_vec()));
    let holes = case.holes.iter().map(|(from, hole)| format!("[{from},{}]", pieces(hole)));
    let loads = case.stations.iter().map(|station| station.2.to_vec());
    vec![
        format!("\"holes\":[{}]", holes.collect::<Vec<_>>().join(",")),
        format!("\"base\":[0,{}]", 0.03),
        format!("\"levels\":{}", list(case.stations.iter().map(|station| station.0))),
        format!("\"tape\":{}", list(case.stations.iter().map(|station| station.1))),
        format!("\"loads\":{}", lists(loads)),
        format!("\"part_loads\":{}", list(case.part_loads.iter().map(|at| *at as f64))),
        format!("\"judged\":{}", list(case.judged.iter().map(|at| *at as f64))),
        format!("\"jumps\":{}", list(case.jumps.iter().copied())),
        format!("\"strata\":{}", lists(case.strata.iter().map(|one| vec![one.0, one.1, one.2]))),
        format!("\"load_error\":{}", list(case.load_error)),
    ]
}

fn told(prior: &Prior) -> Vec<String> {
    let numbers = [
        ("ratio", prior.ratio),
        ("shaft_spread", prior.shaft_spread),
        ("stratum_spread", prior.stratum_spread),
        ("gentle_spread", prior.gentle_spread),
        ("gentle_length", prior.gentle_length.to_meters()),
        ("shared_tape", prior.shared_tape.to_meters()),
        ("part_load_error", prior.part_load_error),
        ("judged_error", prior.judged_error.to_cubic_meters()),
        ("misread", prior.misread),
        ("misread_by", prior.misread_by.to_meters()),
        ("wrong_ticket", prior.wrong_ticket),
        ("wrong_ticket_by", prior.wrong_ticket_by),
    ];
    let shapes = prior.shapes.iter().map(|shape| vec![shape.change, shape.spread, shape.per_meter]);
    let mut told: Vec<String> = numbers.iter().map(|(name, value)| format!("\"{name}\":{value:e}")).collect();
    told.push(format!("\"scales\":{}", lists(prior.scales.iter().map(|one| vec![one.factor, one.weight]))));
    told.push(format!("\"shapes\":{}", lists(shapes)));
    told.push(format!("\"heights\":{}", list(prior.heights.iter().map(|one| one.to_meters()))));
    told
}

fn edges(profile: &Profile) -> Vec<f64> {
    let cells = profile.cells();
    let bottoms = cells.iter().map(|cell| cell.bottom.0.to_meters());
    bottoms.chain(cells.last().map(|cell| cell.top.0.to_meters())).collect()
}

fn accounts(profile: &Profile) -> String {
    let thing = |thing: &RareThing| match thing {
        RareThing::Shape { which, top, bottom } => {
            let ends = [bottom.0.to_meters(), top.0.to_meters()];
            format!("[\"shape\",{which},{:e},{:e}]", ends[0], ends[1])
        }
        RareThing::Misread { at } => format!("[\"misread\",{at}]"),
        RareThing::WrongTicket { at } => format!("[\"ticket\",{at}]"),
    };
    let told = profile.accounts().into_iter().map(|account| {
        let things: Vec<String> = account.things.iter().map(|one| thing(&one.0)).collect();
        format!("[{:e},{:e},[{}]]", account.weight, account.factor, things.join(","))
    });
    told.collect::<Vec<_>>().join(",")
}

fn found(case: &Case, profile: &Profile) -> Vec<String> {
    let highest = profile.cells().last().expect("a cell").top.0.to_meters();
    let mut ends = vec![0.0];
    ends.extend(case.stations.iter().map(|station| station.0));
    ends.extend([highest, 0.0]);
    let stretches = ends.windows(2).map(|two| [two[0].min(two[1]), two[0].max(two[1])]);
    let rows = stretches.filter(|two| two[0] < two[1]).map(|[bottom, top]| {
        let mixture = profile.stretch(at(top), at(bottom)).expect("a stretch");
        [vec![bottom, top], figures(&mixture)].concat()
    });
    let range = [at(0.0), at(highest)];
    let lost = profile.loss_probability(range, Length::meters(1.0), Fraction::percent(15.0));
    let spots = profile.blind_spots(Length::meters(1.0)).expect("a height");
    let spots = spots.iter().step_by(7).map(|spot| {
        let alarm = profile.alarm(spot.top, spot.bottom).expect("a stretch").expect("a readable stretch");
        vec![spot.bottom.0.to_meters(), spot.top.0.to_meters(), spot.loss, alarm]
    });
    vec![
        format!("\"stretches\":{}", lists(rows)),
        format!("\"remaining\":{}", list(figures(&profile.remaining(at(highest)).expect("a level")))),
        format!("\"lost\":{:e}", lost.expect("a range")),
        format!("\"spots\":{}", lists(spots)),
    ]
}

/// Mean, standard deviation, and the ends of the bands of 90 and 50 %.
fn figures(mixture: &Mixture) -> Vec<f64> {
    let quantile = |probability| mixture.quantile(probability).expect("a probability");
    [vec![mixture.mean(), mixture.sd()], [0.05, 0.25, 0.75, 0.95].map(quantile).to_vec()].concat()
}

fn list(values: impl IntoIterator<Item = f64>) -> String {
    let values: Vec<String> = values.into_iter().map(|value| format!("{value:e}")).collect();
    format!("[{}]", values.join(","))
}

fn lists(rows: impl IntoIterator<Item = Vec<f64>>) -> String {
    let rows: Vec<String> = rows.into_iter().map(list).collect();
    format!("[{}]", rows.join(","))
}
