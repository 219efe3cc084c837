//! What the drawings say, as text, and one small drawing of each kind byte for byte.
//!
//! Refreshed with `UPDATE_EXPECT=1`; whoever refreshes them reads the difference.

mod reading;
mod shafts;

use expect_test::expect_file;
use figure::*;
use reading::texts;
use shafts::{at, day, ft, holes, inch, profiles, tests_of_the_day as tests, yd3};

/// Every text of a drawing in the order of writing, one a line, with its class.
fn said(svg: &str) -> String {
    texts(svg).iter().map(|text| format!("{:<9} {}\n", text.class, text.words)).collect()
}

#[test]
fn what_the_drawings_say() {
    let letter = Size::points(540.0, 640.0);
    let wide = Size::points(720.0, 440.0);
    let half = Size::points(360.0, 250.0);
    expect_file!["snapshots/said-section.txt"].assert_eq(&said(&section_svg(&holes::us_section(), letter)));
    expect_file!["snapshots/said-slender.txt"].assert_eq(&said(&section_svg(&holes::slender(), letter)));
    expect_file!["snapshots/said-curve.txt"].assert_eq(&said(&volume_curve_svg(&holes::us_curve(), letter)));
    expect_file!["snapshots/said-profile.txt"]
        .assert_eq(&said(&profile_svg(&profiles::us_profile(), letter)));
    expect_file!["snapshots/said-day.txt"].assert_eq(&said(&time_depth_svg(&day::one_day(), wide)));
    expect_file!["snapshots/said-days.txt"].assert_eq(&said(&time_depth_svg(&day::several_days(), wide)));
    expect_file!["snapshots/said-base.txt"].assert_eq(&said(&base_plan_svg(&tests::base(), half)));
    expect_file!["snapshots/said-cage.txt"].assert_eq(&said(&cage_section_svg(&tests::cage(), half)));
    expect_file!["snapshots/said-slump.txt"].assert_eq(&said(&slump_svg(&tests::slump(), letter)));
    expect_file!["snapshots/said-fluid.txt"].assert_eq(&said(&fluid_tests_svg(&tests::fluid(), letter)));
    expect_file!["snapshots/said-position.txt"].assert_eq(&said(&position_svg(&tests::position(), half)));
}

fn small_section() -> Section {
    Section {
        title: "S".into(),
        ground_m: Some(0.0),
        strata: vec![Stratum { bottom_m: None, ground: Ground::Clay, label: "Clay".into(), top_m: 0.0 }],
        drilled: vec![Bore {
            top_m: 0.0,
            bottom_m: ft(20.0),
            top_diameter_m: inch(36.0),
            bottom_diameter_m: inch(36.0),
        }],
        levels: vec![Level {
            kind: LevelKind::Concrete,
            depth_m: ft(12.0),
            label: "Concrete".into(),
            ..Level::default()
        }],
        depth: Scale::feet(),
        ..Section::default()
    }
}

#[test]
fn the_description_of_a_stratum_is_whole_or_left_out_on_narrow_paper() {
    let mut section = small_section();
    section.strata[0].label = "conglomeratic sandstone".into();
    let words = |width: f64| said(&section_svg(&section, Size::points(width, 440.0)));
    assert!(words(540.0).contains("conglomeratic sandstone"), "{}", words(540.0));
    let narrow = words(180.0);
    assert!(!narrow.contains("label "), "no chopped word: {narrow}");
    assert!(narrow.contains("tick      0.0"), "the depth of its top stays: {narrow}");
}

fn small_curve() -> VolumeCurve {
    VolumeCurve {
        title: "V".into(),
        depth: Scale::feet(),
        volume: Scale::cubic_yards(),
        theoretical: vec![
            CurvePoint { depth_m: ft(20.0), volume_m3: 0.0 },
            CurvePoint { depth_m: 0.0, volume_m3: yd3(5.2) },
        ],
        placed: vec![PlacedPoint {
            depth_m: ft(9.0),
            volume_m3: yd3(3.0),
            label: "1".into(),
            ..PlacedPoint::default()
        }],
        intervals: vec![Interval {
            top_m: ft(9.0),
            bottom_m: ft(20.0),
            ratio: Some(1.04),
            standard_error: Some(0.03),
            running_ratio: Some(1.04),
            mark: Mark::Meets,
        }],
        ..VolumeCurve::default()
    }
}

fn small_day() -> TimeDepth {
    TimeDepth {
        title: "D".into(),
        depth: Scale::feet(),
        runs: vec![ToolRun {
            started: Some(at("08:00")),
            ended: at("08:20"),
            to_m: ft(20.0),
            tool: "auger".into(),
        }],
        concrete: vec![AtDepth { at: at("09:40"), depth_m: ft(9.0) }],
        loads: vec![LoadTick { from: at("09:20"), to: None, ticket: "7".into(), mark: Mark::Meets }],
        ..TimeDepth::default()
    }
}

#[test]
fn one_small_drawing_of_each_kind_byte_for_byte() {
    let size = Size::points(260.0, 220.0);
    expect_file!["snapshots/section.svg"].assert_eq(&section_svg(&small_section(), size));
    expect_file!["snapshots/volume-curve.svg"].assert_eq(&volume_curve_svg(&small_curve(), size));
    expect_file!["snapshots/time-depth.svg"].assert_eq(&time_depth_svg(&small_day(), size));
    expect_file!["snapshots/base-plan.svg"].assert_eq(&base_plan_svg(&tests::base(), size));
    expect_file!["snapshots/cage-section.svg"].assert_eq(&cage_section_svg(&tests::cage(), size));
    expect_file!["snapshots/position.svg"].assert_eq(&position_svg(&tests::position(), size));
}
