//! Sections and volume curves of invented shafts.

use super::{ft, inch, yd3};
use figure::*;

fn level(kind: LevelKind, depth_m: f64, label: &str, mark: Mark) -> Level {
    Level { kind, depth_m, label: label.to_owned(), mark, note: String::new() }
}

pub fn stratum(top_m: f64, bottom_m: f64, label: &str) -> Stratum {
    let ground = Ground::of_description(label);
    Stratum { top_m, bottom_m: Some(bottom_m), ground, label: label.to_owned() }
}

pub fn us_strata() -> Vec<Stratum> {
    vec![
        stratum(ft(1.0), ft(4.0), "Fill: sand, gravel"),
        stratum(ft(4.0), ft(18.0), "Stiff lean clay, brown"),
        stratum(ft(18.0), ft(33.0), "Silty fine sand, medium dense, wet"),
        stratum(ft(33.0), ft(38.0), "Gravel with cobbles"),
        stratum(ft(38.0), ft(52.0), "Sandy clay, hard"),
        stratum(ft(52.0), ft(66.0), "Shale, weathered, gray"),
    ]
}

/// 48 in, 62 ft, in the middle of its pour.
pub fn us_section() -> Section {
    let profile = (0..=50)
        .map(|k| {
            let depth = 12.0 + f64::from(k);
            let seam = (-((depth - 26.0) / 4.0).powi(2)).exp() * 9.0;
            let neck = (-((depth - 42.0) / 2.5).powi(2)).exp() * -3.5;
            let estimate = 48.6 + seam + neck;
            ProfilePoint {
                depth_m: ft(depth),
                low_m: inch(estimate - 2.2),
                estimate_m: inch(estimate),
                high_m: inch(estimate + 2.4),
            }
        })
        .collect();
    Section {
        title: "Shaft B-12: section".into(),
        subtitle: "4 May 2031, 14:10, after load 3; tremie lowered, casing still in".into(),
        depth: Scale::feet(),
        width: Scale::inches(),
        zero_label: "top of casing".into(),
        zero_elevation_m: Some(ft(102.5)),
        ground_m: Some(ft(1.0)),
        strata: us_strata(),
        planned: vec![Bore {
            top_m: ft(1.0),
            bottom_m: ft(61.0),
            top_diameter_m: inch(48.0),
            bottom_diameter_m: inch(48.0),
        }],
        drilled: vec![
            Bore {
                top_m: 0.0,
                bottom_m: ft(12.0),
                top_diameter_m: inch(54.0),
                bottom_diameter_m: inch(54.0),
            },
            Bore {
                top_m: ft(12.0),
                bottom_m: ft(62.3),
                top_diameter_m: inch(48.0),
                bottom_diameter_m: inch(48.0),
            },
        ],
        profile,
        casings: vec![Casing {
            top_m: 0.0,
            shoe_m: ft(12.0),
            diameter_m: inch(54.0),
            permanent: false,
            label: "temporary casing".into(),
        }],
        cage: Some(Cage {
            top_m: ft(3.0),
            bottom_m: ft(61.8),
            diameter_m: inch(42.0),
            hoop_spacing_m: Some(inch(12.0)),
            spacers_m: (0..7).map(|k| ft(6.0 + 9.0 * f64::from(k))).collect(),
            tubes: 4,
            label: "12 #9".into(),
        }),
        tremie: Some(Tremie {
            tip_m: ft(44.0),
            top_m: ft(-4.0),
            diameter_m: Some(inch(10.0)),
            joints_m: (0..5).map(|k| ft(-2.0 + 10.0 * f64::from(k))).collect(),
            embedment_mark: Mark::Meets,
        }),
        sediment: Some(Sediment { thickness_m: inch(0.8), mark: Mark::Meets }),
        levels: vec![
            level(LevelKind::Planned, ft(2.5), "Cut-off", Mark::NoLimit),
            level(LevelKind::Fluid, ft(3.2), "Fluid", Mark::Meets),
            level(LevelKind::Groundwater, ft(9.4), "Groundwater", Mark::NoLimit),
            level(LevelKind::Concrete, ft(31.5), "Concrete, load 3", Mark::NoLimit),
            level(LevelKind::Planned, ft(61.0), "Planned tip", Mark::NoLimit),
            level(LevelKind::Measured, ft(62.3), "Hole bottom", Mark::Meets),
        ],
        blanks: vec!["fluid temperature".into(), "spacers of the lowest level".into()],
        words: Words::default(),
    }
}

/// The volume curve of the same shaft when it was finished.
pub fn us_curve() -> VolumeCurve {
    let area = std::f64::consts::PI / 4.0 * 1.2192_f64.powi(2);
    let soundings =
        [(62.3, 0.0), (53.0, 4.2), (41.5, 9.6), (33.0, 13.2), (21.5, 21.0), (10.0, 27.5), (1.8, 32.4)];
    let placed: Vec<PlacedPoint> = soundings[1..]
        .iter()
        .enumerate()
        .map(|(k, (depth, yards))| PlacedPoint {
            depth_m: ft(*depth),
            depth_error_m: Some(ft(0.25)),
            volume_m3: yd3(*yards),
            volume_error_m3: Some(yd3(yards * 0.015)),
            label: format!("load {}", k + 1),
            mark: if k == 3 { Mark::Doubtful } else { Mark::NoLimit },
        })
        .collect();
    let intervals = soundings
        .windows(2)
        .enumerate()
        .map(|(k, pair)| {
            let theory = area * ft(pair[0].0 - pair[1].0);
            let placed = yd3(pair[1].1 - pair[0].1);
            let running = yd3(pair[1].1) / (area * ft(62.3 - pair[1].0));
            Interval {
                top_m: ft(pair[1].0),
                bottom_m: ft(pair[0].0),
                ratio: (k != 5).then_some(placed / theory),
                standard_error: (k != 5).then_some(0.05),
                running_ratio: Some(running),
                mark: [
                    Mark::NoLimit,
                    Mark::NoLimit,
                    Mark::Fails,
                    Mark::Doubtful,
                    Mark::NoLimit,
                    Mark::NoLimit,
                ][k],
            }
        })
        .collect();
    VolumeCurve {
        title: "Shaft B-12: volume curve".into(),
        subtitle: "placed 32.4 yd³, theoretical 28.1 yd³".into(),
        depth: Scale::feet(),
        volume: Scale::cubic_yards(),
        theoretical: vec![
            CurvePoint { depth_m: ft(62.3), volume_m3: 0.0 },
            CurvePoint { depth_m: ft(12.0), volume_m3: area * ft(50.3) },
            CurvePoint { depth_m: ft(1.8), volume_m3: area * ft(60.5) },
        ],
        placed,
        intervals,
        blanks: vec!["volume left in the line after load 6".into()],
        words: Words::default(),
    }
}

/// 0.6 m, 30 m: slender, metric, dry and permanently cased at the top.
pub fn slender() -> Section {
    Section {
        title: "Pile P7: section".into(),
        subtitle: "12.06.2031, 11:40, bottom accepted".into(),
        zero_label: "working platform".into(),
        zero_elevation_m: Some(213.4),
        ground_m: Some(0.0),
        width: Scale::millimeters(),
        strata: vec![
            stratum(0.0, 2.1, "Made ground"),
            stratum(2.1, 9.5, "Soft silt"),
            stratum(9.5, 22.0, "Dense sand and gravel"),
            Stratum {
                top_m: 22.0,
                bottom_m: None,
                ground: Ground::Limestone,
                label: "Limestone, strong".into(),
            },
        ],
        planned: vec![Bore { top_m: 0.0, bottom_m: 30.0, top_diameter_m: 0.6, bottom_diameter_m: 0.6 }],
        drilled: vec![Bore { top_m: 0.0, bottom_m: 30.2, top_diameter_m: 0.6, bottom_diameter_m: 0.6 }],
        casings: vec![Casing {
            top_m: -0.4,
            shoe_m: 10.0,
            diameter_m: 0.62,
            permanent: true,
            label: "permanent casing".into(),
        }],
        levels: vec![
            level(LevelKind::Measured, 30.2, "Hole bottom", Mark::Meets),
            level(LevelKind::Planned, 30.0, "Planned tip", Mark::NoLimit),
            level(LevelKind::Planned, 1.2, "Cut-off", Mark::NoLimit),
            level(LevelKind::Planned, 0.6, "Over-pour", Mark::NoLimit),
        ],
        sediment: Some(Sediment { thickness_m: 0.03, mark: Mark::Fails }),
        blanks: vec!["groundwater".into()],
        ..Section::default()
    }
}

/// 3 m wide, 5 m deep, belled: wider than the paper would like.
pub fn squat() -> Section {
    Section {
        title: "Shaft S1: section".into(),
        subtitle: "before the cage".into(),
        ground_m: Some(0.2),
        zero_label: "reference nail".into(),
        strata: vec![
            stratum(0.2, 1.1, "Topsoil"),
            stratum(1.1, 3.4, "Clayey sand"),
            stratum(3.4, 6.0, "Sandstone"),
        ],
        planned: vec![
            Bore { top_m: 0.2, bottom_m: 3.9, top_diameter_m: 2.0, bottom_diameter_m: 2.0 },
            Bore { top_m: 3.9, bottom_m: 4.7, top_diameter_m: 2.0, bottom_diameter_m: 3.0 },
            Bore { top_m: 4.7, bottom_m: 5.0, top_diameter_m: 3.0, bottom_diameter_m: 3.0 },
        ],
        drilled: vec![
            Bore { top_m: 0.2, bottom_m: 3.9, top_diameter_m: 2.05, bottom_diameter_m: 2.05 },
            Bore { top_m: 3.9, bottom_m: 4.7, top_diameter_m: 2.05, bottom_diameter_m: 3.05 },
            Bore { top_m: 4.7, bottom_m: 5.05, top_diameter_m: 3.05, bottom_diameter_m: 3.05 },
        ],
        levels: vec![
            level(LevelKind::Fluid, 4.6, "Water", Mark::Fails),
            level(LevelKind::Measured, 5.05, "Hole bottom", Mark::Meets),
            level(LevelKind::Planned, 5.0, "Planned tip", Mark::NoLimit),
            level(LevelKind::Groundwater, 3.2, "Groundwater", Mark::NoLimit),
        ],
        ..Section::default()
    }
}
