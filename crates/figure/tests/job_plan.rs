//! The plan of a job: sound with any data, and said in full.

mod reading;
mod shafts;

use expect_test::expect;
use figure::{JobPlan, Mark, PlacedShaft, Progress, Scale, Size, job_plan_svg};
use proptest::prelude::*;
use reading::{flaw, texts};
use shafts::job::{bridge, shaft};

fn said(svg: &str) -> String {
    texts(svg).iter().map(|text| format!("{:<9} {}\n", text.class, text.words)).collect()
}

#[test]
fn a_bridge_names_every_shaft_with_its_stage() {
    expect![[r#"
        title     Mill Cross bridge
        subtitle  12 May 2031, 14:10
        label     planned
        label     set out
        label     hole open
        label     placing
        label     concrete in
        strong    N
        tick      50 ft
        label     A-1 Done
        label     A-2 After the pour
        label     B-1 Pour
        label     B-2 Drilling
        label     C-1 Before drilling
        label     C-2 Planned
        head      Coordinates not recorded
        strong    S-1
        tick      Planned
    "#]]
    .assert_eq(&said(&job_plan_svg(&bridge(), Size::points(420.0, 320.0))));
}

/// The middle of the ring drawn for a shaft, in order.
fn rings(svg: &str) -> Vec<(f64, f64)> {
    let number = |line: &str, name: &str| -> f64 {
        let from = line.find(&format!(" {name}=\"")).expect("the attribute") + name.len() + 3;
        line[from..].split('"').next().expect("an end").parse().expect("a number")
    };
    let rings = svg.lines().filter(|line| line.starts_with("<circle") && line.contains("r=\"7.0\""));
    rings.map(|line| (number(line, "cx"), number(line, "cy"))).collect()
}

#[test]
fn one_scale_both_ways_with_north_up_and_east_to_the_right() {
    // B-1 to C-1: 90 ft east and 4 ft north; A-1 to A-2: 24 ft north.
    let rings = rings(&job_plan_svg(&bridge(), Size::points(420.0, 320.0)));
    let per_foot = (rings[4].0 - rings[2].0) / 90.0;
    assert!(per_foot > 0.0);
    let north = (rings[0].1 - rings[1].1) / per_foot;
    assert!((north - 24.0).abs() < 0.2, "{north} ft");
    assert!((rings[0].0 - rings[1].0).abs() < 0.11);
}

#[test]
fn one_shaft_stands_in_the_middle_and_no_shaft_says_so() {
    let one = JobPlan { shafts: vec![bridge().shafts.remove(0)], ..bridge() };
    let svg = job_plan_svg(&one, Size::points(420.0, 320.0));
    assert_eq!(flaw(&svg), None);
    assert_eq!(rings(&svg).len(), 1);
    assert!(!svg.contains("scale-bar"), "one place tells no distance");
    let none = job_plan_svg(&JobPlan { shafts: Vec::new(), ..bridge() }, Size::points(420.0, 320.0));
    assert!(said(&none).contains("othing"), "{}", said(&none));
}

#[test]
fn a_thousand_shafts_are_all_drawn_and_those_without_a_name_are_counted() {
    let place = |index: usize| Some(((index % 40) as f64 * 10.0, (index / 40) as f64 * 10.0));
    let shafts =
        (0..1000).map(|index| shaft(&format!("P-{index}"), "Planned", Progress::Planned, place(index)));
    let plan = JobPlan { shafts: shafts.collect(), ..bridge() };
    let svg = job_plan_svg(&plan, Size::points(560.0, 460.0));
    assert_eq!(flaw(&svg), None);
    assert_eq!(rings(&svg).len(), 1000);
    assert!(svg.contains("without room for their names"));
}

fn coordinate() -> BoxedStrategy<f64> {
    prop_oneof![
        10 => -500.0..500.0f64,
        2 => 4.9e6..5.1e6f64,
        1 => Just(0.0),
        1 => prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(1e300), Just(-1e300)],
    ]
    .boxed()
}

fn any_shaft() -> impl Strategy<Value = PlacedShaft> {
    let progress = prop_oneof![
        Just(Progress::Planned),
        Just(Progress::SetOut),
        Just(Progress::Hole),
        Just(Progress::Concrete),
        Just(Progress::Placed)
    ];
    let mark = prop_oneof![Just(Mark::Meets), Just(Mark::Fails), Just(Mark::NoLimit), Just(Mark::Doubtful)];
    let words = prop_oneof![Just(String::new()), "[A-Za-z0-9 #&<>\"µ-]{1,30}"];
    (words.clone(), words, progress, mark, prop::option::of((coordinate(), coordinate()))).prop_map(
        |(name, stage, progress, mark, place_m)| PlacedShaft {
            name,
            stage,
            progress,
            mark,
            place_m,
            ..PlacedShaft::default()
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_plan_is_sound_whatever_the_shafts(
        shafts in prop::collection::vec(any_shaft(), 0..30),
        size in (240.0..760.0f64, 220.0..760.0f64),
    ) {
        let plan = JobPlan { title: "Job".into(), distance: Scale::meters(), shafts, ..JobPlan::default() };
        prop_assert_eq!(flaw(&job_plan_svg(&plan, Size::points(size.0, size.1))), None);
    }
}
