//! Slump, fluid, base, cage and position of invented shafts.

use super::{at, ft, inch};
use figure::*;
use quantity::{Moment, units};

pub fn slump() -> SlumpSheet {
    let batches = [
        ("12:50", "13:31", "13:40", 8.5),
        ("13:04", "13:46", "13:55", 8.0),
        ("13:21", "14:00", "14:08", 7.5),
        ("13:30", "14:31", "14:41", 6.0),
        ("14:10", "14:50", "15:00", 8.25),
        ("14:30", "15:08", "15:17", 8.0),
    ];
    let loads = batches
        .iter()
        .enumerate()
        .map(|(k, (batch, from, to, slump))| {
            let batched = at(batch);
            let expected = (0..=8)
                .map(|step| {
                    let minutes = f64::from(step) * 30.0;
                    let value = slump + 0.5 - 4.5 * (minutes / 240.0).powf(1.4);
                    SlumpPoint {
                        at: batched.plus_seconds((minutes * 60.0) as i64),
                        slump_m: inch(value),
                        mark: Mark::NoLimit,
                    }
                })
                .collect();
            LoadLife {
                label: format!("{}", k + 1),
                batched: (k != 2).then_some(batched),
                discharge_from: Some(at(from)),
                discharge_to: Some(at(to)),
                life_ends: (k != 2).then(|| {
                    batched.plus_seconds((14_400.0 * ((slump - 4.5) / 4.5_f64).powf(1.0 / 1.4)) as i64)
                }),
                tests: vec![SlumpPoint {
                    at: at(from),
                    slump_m: inch(*slump),
                    mark: if k == 3 { Mark::Fails } else { Mark::Meets },
                }],
                expected: if k == 2 { Vec::new() } else { expected },
                mark: if k == 0 { Mark::Doubtful } else { Mark::Meets },
            }
        })
        .collect();
    SlumpSheet {
        title: "Shaft B-12: slump and the life of each load".into(),
        subtitle: "mix 4000-DS; expectation from the trial of 12 April and the tests of the day".into(),
        slump: Scale::inches(),
        limit_m: Some(inch(5.0)),
        end: Some(at("15:40")),
        end_label: "casing out (planned)".into(),
        loads,
        blanks: vec!["batch time of load 3".into()],
        words: Words::default(),
    }
}

fn point(moment: Moment, value: Option<f64>, mark: Mark, label: &str) -> FluidPoint {
    FluidPoint { at: moment, value, mark, label: label.to_owned() }
}

fn panel(
    title: &str,
    scale: Scale,
    limits: (Option<f64>, Option<f64>, Option<f64>),
    values: [(Option<f64>, Mark); 5],
) -> FluidPanel {
    let si = |v: f64| v * scale.unit.numerator as f64 / scale.unit.denominator as f64;
    let times = ["08:20", "10:18", "12:10", "12:55", "12:58"];
    let names = ["F1 tank", "F2 mid", "F3 bottom", "F4 bottom", "F5 mid"];
    let points =
        times.iter().zip(names).zip(values).map(|((t, n), (v, m))| point(at(t), v.map(si), m, n)).collect();
    FluidPanel {
        title: title.to_owned(),
        scale,
        low: limits.0.map(si),
        high: limits.1.map(si),
        accuracy: limits.2.map(si),
        points,
    }
}

pub fn fluid() -> FluidTests {
    use Mark::{Doubtful, Fails, Meets, NoLimit, NotMeasured};
    FluidTests {
        title: "Shaft B-12: fluid tests against their limits".into(),
        subtitle: "bentonite, fresh water; limits of the criteria set small-shafts".into(),
        panels: vec![
            panel(
                "Density",
                Scale::of(&units::POUND_PER_CUBIC_FOOT, 1),
                (Some(64.3), Some(75.0), Some(0.6)),
                [
                    (Some(65.0), Meets),
                    (Some(68.2), Meets),
                    (Some(74.8), Doubtful),
                    (Some(69.0), Meets),
                    (Some(68.1), Meets),
                ],
            ),
            panel(
                "Viscosity",
                Scale::of(&units::SECOND_PER_QUART, 0),
                (Some(28.0), Some(45.0), Some(0.5)),
                [
                    (Some(38.0), Meets),
                    (Some(36.0), Meets),
                    (Some(34.0), Meets),
                    (Some(36.0), Meets),
                    (None, NotMeasured),
                ],
            ),
            panel(
                "pH",
                Scale::of(&units::PH, 1),
                (Some(8.0), Some(11.0), None),
                [
                    (Some(9.0), Meets),
                    (Some(9.0), Meets),
                    (Some(8.5), Meets),
                    (Some(8.5), Meets),
                    (Some(8.5), Meets),
                ],
            ),
            panel(
                "Sand",
                Scale::of(&units::PERCENT, 1),
                (None, Some(4.0), Some(0.25)),
                [
                    (Some(0.3), Meets),
                    (Some(3.0), NoLimit),
                    (Some(6.5), Fails),
                    (Some(2.0), Meets),
                    (Some(1.5), Meets),
                ],
            ),
        ],
        blanks: Vec::new(),
        words: Words::default(),
    }
}

pub fn base() -> BasePlan {
    let ring = [("N", 0.0), ("E", 90.0), ("S", 180.0), ("W", 270.0)];
    let mut points = vec![BasePoint {
        thickness_m: Some(inch(0.5)),
        label: "C".into(),
        mark: Mark::Meets,
        ..BasePoint::default()
    }];
    for ((label, angle), thickness) in ring.into_iter().zip([Some(0.25), Some(1.75), None, Some(0.5)]) {
        let angle: f64 = f64::to_radians(angle);
        points.push(BasePoint {
            x_m: inch(18.0) * angle.sin(),
            y_m: inch(18.0) * angle.cos(),
            thickness_m: thickness.map(inch),
            label: label.into(),
            mark: if label == "E" { Mark::Fails } else { Mark::Meets },
        });
    }
    BasePlan {
        title: "Shaft B-12: sediment on the base".into(),
        subtitle: "sounded 13:12 with the flat weight".into(),
        thickness: Scale::of(&units::INCH, 2),
        diameter_m: Some(inch(48.0)),
        width: Scale::inches(),
        points,
        north_degrees: Some(25.0),
        orientation: String::new(),
        statements: vec![
            (Mark::Fails, "Thickest 1.75 in, limit 1 in".into()),
            (Mark::NoLimit, "Mean of 4 points 0.75 in".into()),
            (Mark::NotMeasured, "Share of the area above ½ in: too few points".into()),
        ],
        blanks: vec!["thickness at S".into()],
        words: Words::default(),
    }
}

pub fn cage() -> CageSection {
    CageSection {
        title: "Shaft B-12: cage".into(),
        subtitle: "section below the casing".into(),
        width: Scale::inches(),
        hole_diameter_m: Some(inch(48.0)),
        casing_diameter_m: None,
        cage_diameter_m: Some(inch(40.0)),
        bars: 12,
        bar_diameter_m: inch(1.128),
        hoop_diameter_m: inch(0.5),
        tubes: 4,
        tube_diameter_m: inch(2.375),
        spacers: 5,
        clear_spacing_m: Some(inch(8.81)),
        clear_spacing_mark: Mark::Meets,
        cover_m: Some(inch(4.0)),
        cover_mark: Mark::Meets,
        statements: vec![
            (Mark::NoLimit, "12 #9, 12.0 in²".into()),
            (Mark::Meets, "#4 hoops at 12 in".into()),
            (Mark::Fails, "4 tubes found, 5 required".into()),
            (Mark::NotMeasured, "every intersection tied: not recorded".into()),
        ],
        blanks: Vec::new(),
        words: Words::default(),
    }
}

pub fn position() -> Position {
    Position {
        title: "Shaft B-12: position and plumb".into(),
        subtitle: "centre at the cut-off, surveyed 12 May 2031".into(),
        width: Scale::inches(),
        offset: Scale::inches(),
        depth: Scale::feet(),
        planned_diameter_m: Some(inch(48.0)),
        built_diameter_m: Some(inch(49.0)),
        east_m: Some(inch(1.6)),
        north_m: Some(inch(-0.9)),
        tolerance_m: Some(inch(3.0)),
        mark: Mark::Meets,
        plumb: [(0.0, 0.0), (15.0, 1.5), (30.0, 2.25), (45.0, 4.5), (60.0, 7.0)]
            .map(|(depth, offset)| PlumbPoint { depth_m: ft(depth), offset_m: inch(offset) })
            .into(),
        plumb_limit: Some(0.0208),
        plumb_mark: Mark::Meets,
        north_degrees: Some(0.0),
        statements: vec![
            (Mark::Meets, "1.6 in east, 0.9 in south of the plan".into()),
            (Mark::Meets, "lean 0.97 %, limit 2.08 %".into()),
        ],
        blanks: vec!["plumb in the second direction".into()],
        words: Words::default(),
    }
}
