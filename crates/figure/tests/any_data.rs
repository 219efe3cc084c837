//! Whatever the data are, the drawing stays a drawing: no number that is none, nothing off the page, no
//! label over another.

mod reading;

use figure::*;
use proptest::prelude::*;
use quantity::Moment;
use reading::flaw;

/// A value as a careless caller may bring it.
fn value() -> BoxedStrategy<f64> {
    prop_oneof![
        20 => -5.0..60.0f64,
        2 => 0.0..0.2f64,
        1 => Just(0.0),
        1 => prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(f64::NEG_INFINITY), Just(1e300), Just(-1e300)],
    ].boxed()
}

fn maybe() -> BoxedStrategy<Option<f64>> {
    prop_oneof![3 => value().prop_map(Some), 1 => Just(None)].boxed()
}

fn moment() -> BoxedStrategy<Moment> {
    prop_oneof![5 => 0..40_000i64, 1 => 0..900_000i64]
        .prop_map(|s| Moment::at(1_935_000_000 + s, -21_600))
        .boxed()
}

fn mark() -> BoxedStrategy<Mark> {
    prop_oneof![
        Just(Mark::Meets),
        Just(Mark::Fails),
        Just(Mark::NotMeasured),
        Just(Mark::NoLimit),
        Just(Mark::Doubtful)
    ]
    .boxed()
}

fn words() -> BoxedStrategy<String> {
    prop_oneof![
        Just(String::new()),
        "[A-Za-z0-9 #&<>\"µ½²]{1,24}",
        Just("a very long description that nobody would ever write on a drawing".to_owned()),
        Just("line\nbreak\u{0}and control".to_owned()),
    ]
    .boxed()
}

fn size() -> impl Strategy<Value = Size> {
    (240.0..760.0f64, 220.0..760.0f64).prop_map(|(w, h)| Size::points(w, h))
}

fn stratum() -> BoxedStrategy<Stratum> {
    (value(), maybe(), words())
        .prop_map(|(top_m, bottom_m, label)| Stratum {
            top_m,
            bottom_m,
            ground: Ground::of_description(&label),
            label,
        })
        .boxed()
}

fn bore() -> BoxedStrategy<Bore> {
    (value(), value(), 0.2..4.0f64, value())
        .prop_map(|(a, b, d, e)| Bore {
            top_m: a.min(b),
            bottom_m: a.max(b),
            top_diameter_m: d,
            bottom_diameter_m: if e > 3.0 { d } else { e },
        })
        .boxed()
}

fn level() -> BoxedStrategy<Level> {
    let kind = prop_oneof![
        Just(LevelKind::Concrete),
        Just(LevelKind::Fluid),
        Just(LevelKind::Groundwater),
        Just(LevelKind::Planned),
        Just(LevelKind::Measured),
    ];
    (kind, value(), words(), mark())
        .prop_map(|(kind, depth_m, label, mark)| Level { kind, depth_m, label, mark, note: String::new() })
        .boxed()
}

fn section() -> BoxedStrategy<Section> {
    let ground = (maybe(), maybe(), prop::collection::vec(stratum(), 0..8));
    let holes = (prop::collection::vec(bore(), 0..3), prop::collection::vec(bore(), 0..3));
    let profile = prop::collection::vec((value(), 0.1..3.0f64, 0.0..0.5f64), 0..9);
    let casings = prop::collection::vec((value(), value(), value(), any::<bool>(), words()), 0..3);
    let inside = (
        prop::option::of((value(), value(), value(), maybe(), prop::collection::vec(value(), 0..5))),
        prop::option::of((value(), value(), maybe(), prop::collection::vec(value(), 0..9), mark())),
        prop::option::of((value(), mark())),
    );
    let rest =
        (prop::collection::vec(level(), 0..14), words(), words(), prop::collection::vec(words(), 0..4));
    (ground, holes, profile, casings, inside, rest)
        .prop_map(|(ground, holes, profile, casings, inside, rest)| Section {
            title: rest.1,
            subtitle: rest.2,
            zero_elevation_m: ground.0,
            ground_m: ground.1,
            strata: ground.2,
            planned: holes.0,
            drilled: holes.1,
            profile: profile
                .into_iter()
                .map(|(depth_m, d, e)| ProfilePoint { depth_m, low_m: d - e, estimate_m: d, high_m: d + e })
                .collect(),
            casings: casings
                .into_iter()
                .map(|(top_m, shoe_m, diameter_m, permanent, label)| Casing {
                    top_m,
                    shoe_m,
                    diameter_m,
                    permanent,
                    label,
                })
                .collect(),
            cage: inside.0.map(|(top_m, bottom_m, diameter_m, hoop_spacing_m, spacers_m)| Cage {
                top_m,
                bottom_m,
                diameter_m,
                hoop_spacing_m,
                spacers_m,
                tubes: 3,
                label: String::new(),
            }),
            tremie: inside.1.map(|(tip_m, top_m, diameter_m, joints_m, embedment_mark)| Tremie {
                tip_m,
                top_m,
                diameter_m,
                joints_m,
                embedment_mark,
            }),
            sediment: inside.2.map(|(thickness_m, mark)| Sediment { thickness_m, mark }),
            levels: rest.0,
            blanks: rest.3,
            ..Section::default()
        })
        .boxed()
}

fn curve() -> BoxedStrategy<VolumeCurve> {
    let theory = prop::collection::vec((value(), value()), 0..5);
    let placed = prop::collection::vec((value(), maybe(), value(), maybe(), words(), mark()), 0..12);
    let intervals = prop::collection::vec((value(), value(), maybe(), maybe(), maybe(), mark()), 0..12);
    (theory, placed, intervals, words())
        .prop_map(|(theory, placed, intervals, title)| VolumeCurve {
            title,
            theoretical: theory
                .into_iter()
                .map(|(depth_m, volume_m3)| CurvePoint { depth_m, volume_m3 })
                .collect(),
            placed: placed
                .into_iter()
                .map(|(depth_m, depth_error_m, volume_m3, volume_error_m3, label, mark)| PlacedPoint {
                    depth_m,
                    depth_error_m,
                    volume_m3,
                    volume_error_m3,
                    label,
                    mark,
                })
                .collect(),
            intervals: intervals
                .into_iter()
                .map(|(top_m, bottom_m, ratio, standard_error, running_ratio, mark)| Interval {
                    top_m,
                    bottom_m,
                    ratio,
                    standard_error,
                    running_ratio,
                    mark,
                })
                .collect(),
            ..VolumeCurve::default()
        })
        .boxed()
}

fn profile() -> BoxedStrategy<ProfileSheet> {
    let cell =
        (value(), value(), value(), value(), value()).prop_map(|(a, b, ratio, low, high)| ProfileCell {
            top_m: a.min(b),
            bottom_m: a.max(b),
            ratio,
            half: (low, ratio),
            most: (low, high),
            cased: low < 0.5,
        });
    let read =
        (value(), value(), value()).prop_map(|(top_m, bottom_m, ratio)| ReadRatio { top_m, bottom_m, ratio });
    let point = (value(), maybe()).prop_map(|(depth_m, loss)| BlindPoint { depth_m, loss });
    let blind_spots = (words(), prop::collection::vec(point, 0..9))
        .prop_map(|(height, points)| BlindSpots { height, points });
    let lists = (
        prop::collection::vec(cell, 0..9),
        prop::collection::vec(read, 0..6),
        prop::collection::vec(value(), 0..6),
        prop::collection::vec(blind_spots, 0..5),
        prop::collection::vec(stratum(), 0..5),
    );
    (words(), lists)
        .prop_map(|(title, (cells, read, soundings_m, blind_spots, strata))| ProfileSheet {
            title,
            cells,
            read,
            soundings_m,
            blind_spots,
            strata,
            ..ProfileSheet::default()
        })
        .boxed()
}

fn at_depth() -> BoxedStrategy<AtDepth> {
    (moment(), value()).prop_map(|(at, depth_m)| AtDepth { at, depth_m }).boxed()
}

fn test_mark() -> BoxedStrategy<TestMark> {
    (moment(), maybe(), mark(), words())
        .prop_map(|(at, depth_m, mark, label)| TestMark { at, depth_m, mark, label })
        .boxed()
}

fn span() -> BoxedStrategy<SpanMark> {
    (moment(), prop::option::of(moment()), words())
        .prop_map(|(from, to, label)| SpanMark { from, to, label })
        .boxed()
}

fn day() -> BoxedStrategy<TimeDepth> {
    let run = (prop::option::of(moment()), moment(), value(), words())
        .prop_map(|(started, ended, to_m, tool)| ToolRun { started, ended, to_m, tool });
    let load = (moment(), prop::option::of(moment()), "[0-9]{1,9}", mark())
        .prop_map(|(from, to, ticket, mark)| LoadTick { from, to, ticket, mark });
    let cage = (moment(), maybe(), maybe(), words()).prop_map(|(at, top_m, bottom_m, label)| CageSet {
        at,
        top_m,
        bottom_m,
        label,
    });
    let flag = (moment(), maybe(), "[0-9]{1,2}", mark()).prop_map(|(at, depth_m, number, mark)| Flag {
        at,
        depth_m,
        number,
        mark,
    });
    let casing = (words(), prop::collection::vec(at_depth(), 0..4), prop::option::of(moment()))
        .prop_map(|(label, shoe, out)| CasingLine { label, shoe, out });
    let levels = || prop::collection::vec(at_depth(), 0..9);
    let lines = (levels(), levels(), levels(), levels(), prop::option::of(moment()));
    let marks = (
        prop::collection::vec(test_mark(), 0..5),
        prop::collection::vec(test_mark(), 0..9),
        prop::collection::vec(span(), 0..4),
        prop::collection::vec(span(), 0..3),
    );
    let things = (
        prop::collection::vec(run, 0..15),
        prop::collection::vec(load, 0..30),
        prop::collection::vec(cage, 0..2),
        prop::collection::vec(flag, 0..6),
        prop::collection::vec(casing, 0..3),
    );
    let ground = (maybe(), maybe(), maybe(), prop::collection::vec(stratum(), 0..6), words());
    (lines, marks, things, ground)
        .prop_map(|(lines, marks, things, ground)| TimeDepth {
            title: ground.4,
            zero_elevation_m: ground.0,
            ground_m: ground.1,
            planned_tip_m: ground.2,
            strata: ground.3,
            concrete: lines.0,
            tremie: lines.1,
            fluid_level: lines.2,
            groundwater: lines.3,
            tremie_out: lines.4,
            base_soundings: marks.0,
            fluid_tests: marks.1,
            cleaning: marks.2,
            interruptions: marks.3,
            runs: things.0,
            loads: things.1,
            cages: things.2,
            flags: things.3,
            casings: things.4,
            ..TimeDepth::default()
        })
        .boxed()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, failure_persistence: None, max_shrink_iters: 400, ..ProptestConfig::default() })]

    #[test]
    fn a_section_is_sound(section in section(), size in size()) {
        prop_assert_eq!(flaw(&section_svg(&section, size)), None);
    }

    #[test]
    fn a_volume_curve_is_sound(curve in curve(), size in size()) {
        prop_assert_eq!(flaw(&volume_curve_svg(&curve, size)), None);
    }

    #[test]
    fn a_profile_is_sound(sheet in profile(), size in size()) {
        prop_assert_eq!(flaw(&profile_svg(&sheet, size)), None);
    }

    #[test]
    fn both_on_one_axis_are_sound(section in section(), curve in curve(), size in size()) {
        prop_assert_eq!(flaw(&section_and_curve_svg(&section, &curve, size)), None);
    }

    #[test]
    fn a_day_is_sound(day in day(), size in size()) {
        prop_assert_eq!(flaw(&time_depth_svg(&day, size)), None);
    }

    #[test]
    fn a_base_plan_is_sound(
        points in prop::collection::vec((value(), value(), maybe(), words(), mark()), 0..12),
        rest in (maybe(), maybe(), words(), prop::collection::vec((mark(), words()), 0..6)),
        size in size(),
    ) {
        let points = points.into_iter().map(|(x_m, y_m, thickness_m, label, mark)| BasePoint { x_m, y_m, thickness_m, label, mark });
        let (diameter_m, north_degrees, orientation, statements) = rest;
        let plan = BasePlan { diameter_m, north_degrees, orientation, statements, points: points.collect(), ..BasePlan::default() };
        prop_assert_eq!(flaw(&base_plan_svg(&plan, size)), None);
    }

    #[test]
    fn a_cage_section_is_sound(
        diameters in (maybe(), maybe(), maybe(), value(), value(), value()),
        counts in (0..40u32, 0..9u32, 0..9u32),
        rest in (maybe(), maybe(), mark(), prop::collection::vec((mark(), words()), 0..9)),
        size in size(),
    ) {
        let cage = CageSection {
            hole_diameter_m: diameters.0,
            casing_diameter_m: diameters.1,
            cage_diameter_m: diameters.2,
            bar_diameter_m: diameters.3,
            hoop_diameter_m: diameters.4,
            tube_diameter_m: diameters.5,
            bars: counts.0,
            tubes: counts.1,
            spacers: counts.2,
            clear_spacing_m: rest.0,
            cover_m: rest.1,
            cover_mark: rest.2,
            statements: rest.3,
            ..CageSection::default()
        };
        prop_assert_eq!(flaw(&cage_section_svg(&cage, size)), None);
    }

    #[test]
    fn a_slump_sheet_is_sound(
        loads in prop::collection::vec((words(), prop::collection::vec(prop::option::of(moment()), 4), prop::collection::vec((moment(), value(), mark()), 0..4), mark()), 0..25),
        limit_m in maybe(),
        end in prop::option::of(moment()),
        size in size(),
    ) {
        let point = |(at, slump_m, mark): (Moment, f64, Mark)| SlumpPoint { at, slump_m, mark };
        let loads = loads.into_iter().map(|(label, times, tests, mark)| LoadLife {
            label,
            batched: times[0],
            discharge_from: times[1],
            discharge_to: times[2],
            life_ends: times[3],
            expected: tests.iter().copied().map(point).collect(),
            tests: tests.into_iter().map(point).collect(),
            mark,
        });
        let sheet = SlumpSheet { limit_m, end, end_label: "casing out".into(), loads: loads.collect(), ..SlumpSheet::default() };
        prop_assert_eq!(flaw(&slump_svg(&sheet, size)), None);
    }

    #[test]
    fn fluid_tests_are_sound(
        panels in prop::collection::vec((words(), maybe(), maybe(), maybe(), prop::collection::vec((moment(), maybe(), mark(), words()), 0..9)), 0..5),
        size in size(),
    ) {
        let panels = panels.into_iter().map(|(title, low, high, accuracy, points)| FluidPanel {
            title,
            low,
            high,
            accuracy,
            points: points.into_iter().map(|(at, value, mark, label)| FluidPoint { at, value, mark, label }).collect(),
            ..FluidPanel::default()
        });
        let tests = FluidTests { panels: panels.collect(), ..FluidTests::default() };
        prop_assert_eq!(flaw(&fluid_tests_svg(&tests, size)), None);
    }

    #[test]
    fn a_position_is_sound(
        plan in (maybe(), maybe(), maybe(), maybe(), maybe(), mark()),
        plumb in (prop::collection::vec((value(), value()), 0..9), maybe(), mark(), maybe()),
        statements in prop::collection::vec((mark(), words()), 0..5),
        size in size(),
    ) {
        let position = Position {
            planned_diameter_m: plan.0,
            built_diameter_m: plan.1,
            east_m: plan.2,
            north_m: plan.3,
            tolerance_m: plan.4,
            mark: plan.5,
            plumb: plumb.0.into_iter().map(|(depth_m, offset_m)| PlumbPoint { depth_m, offset_m }).collect(),
            plumb_limit: plumb.1,
            plumb_mark: plumb.2,
            north_degrees: plumb.3,
            statements,
            ..Position::default()
        };
        prop_assert_eq!(flaw(&position_svg(&position, size)), None);
    }
}
