//! Days of invented shafts for the time–depth sheet.

use super::holes::us_strata;
use super::{at, ft, on};
use figure::*;
use quantity::Moment;

fn run(started: &str, ended: &str, to_ft: f64, tool: &str) -> ToolRun {
    ToolRun { started: Some(at(started)), ended: at(ended), to_m: ft(to_ft), tool: tool.to_owned() }
}

fn deep(moment: Moment, feet: f64) -> AtDepth {
    AtDepth { at: moment, depth_m: ft(feet) }
}

fn test(moment: Moment, feet: Option<f64>, mark: Mark, label: &str) -> TestMark {
    TestMark { at: moment, depth_m: feet.map(ft), mark, label: label.to_owned() }
}

fn span(from: &str, to: Option<&str>, label: &str) -> SpanMark {
    SpanMark { from: at(from), to: to.map(at), label: label.to_owned() }
}

fn load(from: &str, to: Option<&str>, ticket: &str, mark: Mark) -> LoadTick {
    LoadTick { from: at(from), to: to.map(at), ticket: ticket.to_owned(), mark }
}

/// One full day, from the surface casing to the last load.
pub fn one_day() -> TimeDepth {
    let runs = [
        ("07:25", "07:34", 4.0, "54 in auger"),
        ("07:38", "07:46", 8.0, "54 in auger"),
        ("07:50", "07:59", 12.0, "54 in auger"),
        ("08:31", "08:40", 16.5, "48 in auger"),
        ("08:44", "08:53", 20.5, "48 in auger"),
        ("08:58", "09:08", 24.8, "48 in auger"),
        ("09:12", "09:22", 28.6, "48 in auger"),
        ("09:27", "09:38", 32.0, "48 in auger"),
        ("09:43", "09:56", 35.1, "48 in auger"),
        ("10:02", "10:16", 38.4, "48 in auger"),
        ("10:22", "10:34", 44.0, "48 in auger"),
        ("10:40", "10:52", 50.0, "48 in auger"),
        ("10:58", "11:14", 54.2, "rock auger"),
        ("11:20", "11:38", 58.6, "rock auger"),
        ("11:44", "12:02", 62.3, "rock auger"),
    ];
    TimeDepth {
        title: "Shaft B-12: the day".into(),
        subtitle: "48 in, 62.3 ft, wet · 1 finding fails, 2 in doubt, 31 met".into(),
        depth: Scale::feet(),
        zero_label: "top of casing".into(),
        zero_elevation_m: Some(ft(102.5)),
        ground_m: Some(ft(1.0)),
        strata: us_strata(),
        runs: runs.into_iter().map(|(a, b, d, t)| run(a, b, d, t)).collect(),
        base_soundings: vec![
            test(at("12:24"), Some(62.2), Mark::Meets, "62.2"),
            test(at("13:12"), Some(62.1), Mark::Meets, "62.1"),
        ],
        concrete: vec![
            deep(at("13:42"), 53.0),
            deep(at("13:58"), 41.5),
            deep(at("14:10"), 33.0),
            deep(at("14:43"), 21.5),
            deep(at("15:02"), 10.0),
            deep(at("15:21"), 1.8),
        ],
        tremie: vec![
            deep(at("13:25"), 61.9),
            deep(at("14:02"), 51.9),
            deep(at("14:14"), 44.0),
            deep(at("14:47"), 31.9),
            deep(at("15:06"), 21.9),
        ],
        tremie_out: Some(at("15:24")),
        casings: vec![CasingLine {
            label: "Casing 54 in".into(),
            shoe: vec![deep(at("08:12"), 12.0), deep(at("15:30"), 6.0)],
            out: Some(at("15:40")),
        }],
        fluid_level: vec![
            deep(at("08:25"), 4.0),
            deep(at("09:40"), 3.0),
            deep(at("11:00"), 5.1),
            deep(at("12:20"), 3.2),
            deep(at("13:25"), 3.0),
            deep(at("15:21"), 1.6),
        ],
        groundwater: vec![deep(at("07:59"), 9.4)],
        fluid_tests: vec![
            test(at("08:20"), None, Mark::Meets, "F1 tank"),
            test(at("10:18"), Some(20.0), Mark::Meets, "F2"),
            test(at("12:10"), Some(60.0), Mark::Fails, "F3"),
            test(at("12:55"), Some(60.0), Mark::Meets, "F4"),
            test(at("12:58"), Some(30.0), Mark::NotMeasured, "F5"),
        ],
        cages: vec![CageSet {
            at: at("13:05"),
            top_m: Some(ft(3.0)),
            bottom_m: Some(ft(61.8)),
            label: "Cage set".into(),
        }],
        cleaning: vec![span("12:12", Some("12:22"), "Cleaning"), span("12:30", Some("12:50"), "Desanding")],
        loads: vec![
            load("13:31", Some("13:40"), "40117", Mark::Meets),
            load("13:46", Some("13:55"), "40118", Mark::Meets),
            load("14:00", Some("14:08"), "40121", Mark::NoLimit),
            load("14:31", Some("14:41"), "40125", Mark::Doubtful),
            load("14:50", Some("15:00"), "40126", Mark::Meets),
            load("15:08", None, "40129", Mark::Meets),
        ],
        interruptions: vec![span("14:12", Some("14:31"), "Truck late")],
        flags: vec![
            Flag { at: at("12:10"), depth_m: Some(ft(60.0)), number: "1".into(), mark: Mark::Fails },
            Flag { at: at("14:08"), depth_m: Some(ft(33.0)), number: "2".into(), mark: Mark::Doubtful },
            Flag { at: at("14:31"), depth_m: None, number: "3".into(), mark: Mark::Doubtful },
        ],
        planned_tip_m: Some(ft(61.0)),
        blanks: vec!["end of load 40129".into(), "second reading of groundwater".into()],
        words: Words::default(),
    }
}

/// Drilled on one day, caged the next, poured three days later with many loads.
pub fn several_days() -> TimeDepth {
    let runs = (0..14)
        .map(|k| {
            let minutes = 8 * 60 + k * 17;
            let clock = |m: i32| format!("{:02}:{:02}", m / 60, m % 60);
            ToolRun {
                started: (k % 5 != 0).then(|| on(5, &clock(minutes))),
                ended: on(5, &clock(minutes + 11)),
                to_m: 1.4 * f64::from(k + 1),
                tool: if k < 9 { "bucket 880".into() } else { "core barrel".into() },
            }
        })
        .collect();
    let clock = |m: i32| format!("{:02}:{:02}", m / 60, m % 60);
    let loads: Vec<LoadTick> = (0..22)
        .map(|k| LoadTick {
            from: on(9, &clock(7 * 60 + 30 + k * 12)),
            to: Some(on(9, &clock(7 * 60 + 38 + k * 12))),
            ticket: format!("B{}", 7702 + k),
            mark: if k == 12 { Mark::Fails } else { Mark::Meets },
        })
        .collect();
    let level =
        |k: i32| AtDepth { at: on(9, &clock(7 * 60 + 39 + k * 12)), depth_m: 19.6 - f64::from(k) * 0.88 };
    TimeDepth {
        title: "Pile P31: all days".into(),
        subtitle: "880 mm, 19.6 m, under bentonite".into(),
        zero_label: "guide wall".into(),
        zero_elevation_m: Some(48.2),
        ground_m: Some(0.3),
        strata: vec![
            super::holes::stratum(0.3, 4.0, "Made ground: brick, ash"),
            super::holes::stratum(4.0, 11.0, "Sand"),
            super::holes::stratum(11.0, 20.0, "Marl, grey, stiff"),
        ],
        runs,
        concrete: (0..22).map(level).collect(),
        tremie: (0..5)
            .map(|k| AtDepth { at: on(9, &clock(7 * 60 + 20 + k * 62)), depth_m: 19.4 - f64::from(k) * 2.9 })
            .collect(),
        loads,
        tremie_out: Some(on(9, "12:05")),
        fluid_level: vec![
            AtDepth { at: on(5, "08:00"), depth_m: 0.6 },
            AtDepth { at: on(5, "12:00"), depth_m: 0.9 },
            AtDepth { at: on(6, "07:30"), depth_m: 1.3 },
            AtDepth { at: on(9, "07:00"), depth_m: 0.7 },
        ],
        cages: vec![CageSet {
            at: on(6, "10:30"),
            top_m: Some(0.8),
            bottom_m: Some(19.4),
            label: "Cage".into(),
        }],
        planned_tip_m: Some(19.5),
        ..TimeDepth::default()
    }
}
