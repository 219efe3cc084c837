//! Verdicts: on, inside and outside the limit, and everything that is no comparison at all.

use criteria::{
    Conditions, Difference, Dimension, Dimensions, Measured, NoLimit, Obstacle, Set, Situation, Topic,
    Verdict,
};
use expect_test::expect;
use quantity::{Density, Entered, FunnelTime, Length, Number, Quantity, Slope, units};

/// A file with one criterion, told by its rule lines.
fn file(fact: &str, stage: &str, rule: &str) -> String {
    format!(
        r#"
[set]
id = "example-1"
title = "Example, made up for this test"
edition = "1"
about = "Nothing real"

[[criterion]]
id = "example/one"
title = "The only one"
measures = "{fact}"
stage = "{stage}"
{rule}
sure = "job"
why = "For the test."
if_fails = "Nothing."
"#
    )
}

/// Judges by one criterion; the cases below do not know the calls.
#[track_caller]
fn check(rule: (&str, &str, &str), value: impl Into<Measured>, expected: &str) {
    let (fact, stage, rule) = rule;
    let set = Set::parse(&file(fact, stage, rule)).expect("the file of the test");
    let (set, _) = set.in_force(&[]);
    let judged = set.judge(fact, Some(value.into()), &Situation::default());
    assert_eq!(judged.len(), 1);
    let note = if judged[0].1.within_accuracy { ", within the accuracy of the instrument" } else { "" };
    assert_eq!(format!("{}{note}", say(&judged[0].1.verdict)), expected);
}

/// Differences to nine decimals: far finer than any instrument, coarser than a float.
fn say(verdict: &Verdict) -> String {
    let nine = |difference: Option<Difference>| {
        let text = difference.map(|difference| format!("{:.9}", difference.in_unit()));
        text.map_or("–".to_owned(), |text| text.trim_end_matches('0').trim_end_matches('.').to_owned())
    };
    match verdict {
        Verdict::Meets { margin } => format!("meets {}", nine(*margin)),
        Verdict::Fails { excess, side } => format!("fails {} {side:?}", nine(*excess)),
        other => format!("{other:?}"),
    }
}

fn entered<Q: Quantity>(text: &str) -> Q {
    Entered::<Q>::parse(text, quantity::Reading::default()).expect("a quantity").value()
}

const SEDIMENT: (&str, &str, &str) =
    ("bottom.sediment.max", "before_concrete", "rule = \"at_most\"\nlimit = \"1.5\"\nunit = \"in\"");

#[test]
fn the_same_length_in_another_unit_lies_on_the_same_limit() {
    // 1.5 in is 38.1 mm: exact by the definition of the inch.
    check(SEDIMENT, entered::<Length>("1.5 in"), "meets 0");
    check(SEDIMENT, entered::<Length>("38.1 mm"), "meets 0");
    check(SEDIMENT, entered::<Length>("38.100001 mm"), "fails 0.000000039 Above");
}

#[test]
fn a_strict_rule_fails_on_its_limit() {
    let rule =
        ("bottom.sediment.half_area", "before_concrete", "rule = \"below\"\nlimit = \"1/2\"\nunit = \"in\"");
    check(rule, entered::<Length>("0.5 in"), "fails 0 Above");
    check(rule, entered::<Length>("0.4 in"), "meets 0.1");
}

#[test]
fn a_computed_value_has_a_stated_slack_and_no_more() {
    let rule = ("asbuilt.plumbness", "after", "rule = \"at_most\"\nlimit = \"0.02\"\nunit = \"m/m\"");
    // One part in 10^10 beyond the limit is rounding, one part in 10^6 is not.
    check(rule, Slope::part(0.02 * (1.0 + 1e-10)), "meets 0");
    check(rule, Slope::part(0.02 * (1.0 + 1e-6)), "fails 0.00000002 Above");
}

#[test]
fn a_deviation_may_differ_by_side() {
    let rule =
        ("asbuilt.top_deviation", "after", "rule = \"within\"\nminus = \"3\"\nplus = \"1\"\nunit = \"in\"");
    check(rule, entered::<Length>("1 in"), "meets 0");
    check(rule, entered::<Length>("-3 in"), "meets 0");
    check(rule, entered::<Length>("0 in"), "meets 1");
    check(rule, entered::<Length>("1.5 in"), "fails 0.5 Above");
    check(rule, entered::<Length>("-3.5 in"), "fails 0.5 Below");
}

#[test]
fn a_value_nearer_than_the_instrument_can_tell_says_so_on_both_sides() {
    let rule = (
        "fluid.density.before_concrete",
        "before_concrete",
        "rule = \"between\"\nlow = \"64.3\"\nhigh = \"75.0\"\nunit = \"pcf\"\naccuracy = \"0.6\"",
    );
    let density = |text| entered::<Density>(text);
    check(rule, density("74.4 pcf"), "meets 0.6, within the accuracy of the instrument");
    check(rule, density("75.5 pcf"), "fails 0.5 Above, within the accuracy of the instrument");
    check(rule, density("70.0 pcf"), "meets 5");
}

#[test]
fn a_difference_of_temperatures_does_not_know_where_the_scale_begins() {
    let rule =
        ("concrete.temperature_difference", "after", "rule = \"at_most\"\nlimit = \"36\"\nunit = \"°F\"");
    // 36 °F of difference are 20 K.
    check(rule, Measured::temperature_step(20.0), "meets 0");
    check(rule, Measured::temperature_step(25.0), "fails 9 Above");
}

#[test]
fn a_margin_of_temperature_is_a_difference_too() {
    let rule =
        ("concrete.temperature", "placing", "rule = \"between\"\nlow = \"50\"\nhigh = \"90\"\nunit = \"°F\"");
    check(rule, quantity::Temperature::fahrenheit(86.0), "meets 4");
}

const MARSH: (&str, &str, &str) = (
    "fluid.viscosity.before_concrete",
    "before_concrete",
    "rule = \"between\"\nlow = \"28\"\nhigh = \"45\"\nunit = \"s/qt\"",
);

#[test]
fn a_liter_time_never_meets_or_fails_a_quart_limit() {
    check(MARSH, entered::<FunnelTime>("40 s/qt"), "meets 5");
    let (set, _) = Set::parse(&file(MARSH.0, MARSH.1, MARSH.2)).unwrap().in_force(&[]);
    let liter = Measured::funnel(entered::<FunnelTime>("40 s/L"));
    let judged = set.judge(MARSH.0, Some(liter), &Situation::default());
    let other = Obstacle::OtherVolume { measured: &units::SECOND_PER_LITER, limit: &units::SECOND_PER_QUART };
    assert_eq!(judged[0].1.verdict, Verdict::CannotSay(vec![other]));
}

#[test]
fn yes_and_no_have_no_margin() {
    let tied = ("line.watertight", "placing", "rule = \"yes\"");
    check(tied, true, "meets –");
    check(tied, false, "fails – Otherwise");
    let breach = ("line.breached", "placing", "rule = \"no\"");
    check(breach, true, "fails – Otherwise");
    check(breach, false, "meets –");
}

#[test]
fn what_is_only_reported_has_no_limit_and_what_is_absent_is_not_measured() {
    let text = file("volume.ratio.interval", "placing", "rule = \"report\"");
    let (set, _) = Set::parse(&text).unwrap().in_force(&[]);
    let judge = |value| set.judge("volume.ratio.interval", value, &Situation::default())[0].1.verdict.clone();
    assert_eq!(judge(Some(Measured::ratio(0.7))), Verdict::NoLimitSet(NoLimit::ReportOnly));
    assert_eq!(judge(None), Verdict::NotMeasured);
}

#[test]
fn a_fact_the_set_does_not_know_has_no_limit_set() {
    let (set, _) = Set::parse(&file(MARSH.0, MARSH.1, MARSH.2)).unwrap().in_force(&[]);
    let judged = set.judge("bottom.sediment.max", Some(Length::inches(9.0).into()), &Situation::default());
    assert!(judged[0].0.is_none());
    assert_eq!(judged[0].1.verdict, Verdict::NoLimitSet(NoLimit::NotInSet));
}

#[test]
fn a_value_of_another_sort_is_not_compared() {
    check(SEDIMENT, true, "CannotSay([OtherSort])");
    check(SEDIMENT, Slope::part(0.01), "CannotSay([OtherSort])");
}

/// ICE specification for piling, errata to Table B1.4: 75 mm, and below the commencing surface 13.3 mm for
/// each metre more. At 6 m: 75 + 6000/75 = 155 mm, worked by hand. [SPERW-2]
#[test]
fn a_limit_may_grow_with_depth() {
    let rule = "rule = \"at_most\"\nunit = \"mm\"\n\
        sum_of = [{ value = \"75\" }, { times = \"1/75\", of = \"cutoff_depth\" }]";
    let (set, _) = Set::parse(&file("asbuilt.position_offset", "after", rule)).unwrap().in_force(&[]);
    let dimensions = Dimensions::new().with(Dimension::CutoffDepth, Length::meters(6.0));
    let situation = Situation { conditions: Conditions::new(), dimensions };
    let judge = |value: Option<Measured>, situation: &Situation| {
        set.judge("asbuilt.position_offset", value, situation)[0].1.clone()
    };
    let on = judge(Some(entered::<Length>("155 mm").into()), &situation);
    assert_eq!(say(&on.verdict), "meets 0");
    let high = on.limits.and_then(|limits| limits.high).map(Number::to_f64);
    assert_eq!(high, Some(0.155));
    let missing = judge(Some(entered::<Length>("155 mm").into()), &Situation::default());
    let obstacle = Obstacle::DimensionUnknown(Dimension::CutoffDepth);
    assert_eq!(missing.verdict, Verdict::CannotSay(vec![obstacle]));
    assert_eq!(judge(None, &Situation::default()).verdict, Verdict::NotMeasured);
}

/// ACI 117 for drilled piers, from memory: the smaller of 3 in and one twenty-fourth of the diameter. The
/// two are equal at 72 in. [ACI-117]
#[test]
fn the_smaller_of_two_limits_changes_with_the_diameter() {
    let rule = "rule = \"at_most\"\nunit = \"in\"\n\
        smaller_of = [{ value = \"3\" }, { times = \"1/24\", of = \"diameter\" }]";
    let (set, _) = Set::parse(&file("asbuilt.position_offset", "after", rule)).unwrap().in_force(&[]);
    let limit = |feet: f64| {
        let dimensions = Dimensions::new().with(Dimension::Diameter, Length::feet(feet));
        let situation = Situation { conditions: Conditions::new(), dimensions };
        let judged = set.judge("asbuilt.position_offset", None, &situation);
        let limits = judged[0].1.limits.expect("a limit although nothing was measured");
        limits.unit.reading_from_si(limits.high.expect("an upper limit"))
    };
    assert_eq!(limit(4.0), 2.0);
    assert_eq!(limit(6.0), 3.0);
    assert_eq!(limit(10.0), 3.0);
}

#[test]
fn a_condition_nobody_recorded_is_named_instead_of_assumed() {
    let rule = "rule = \"at_most\"\nlimit = \"64\"\nunit = \"pcf\"\nwhen = { fluid = [\"polymer\"], water = [\"fresh\"] }";
    let fact = "fluid.density.introduced";
    let (set, _) = Set::parse(&file(fact, "excavation", rule)).unwrap().in_force(&[]);
    let judge = |conditions: Conditions| {
        let situation = Situation { conditions, dimensions: Dimensions::new() };
        let value = Measured::amount(entered::<Density>("63.5 pcf"));
        say(&set.judge(fact, Some(value), &situation)[0].1.verdict)
    };
    let polymer = Conditions::new().with(Topic::Fluid, "polymer");
    expect!["CannotSay([ConditionUnknown(Fluid), ConditionUnknown(Water)])"]
        .assert_eq(&judge(Conditions::new()));
    expect!["CannotSay([ConditionUnknown(Water)])"].assert_eq(&judge(polymer.clone()));
    expect!["meets 0.5"].assert_eq(&judge(polymer.clone().with(Topic::Water, "fresh")));
    expect!["NoLimitSet(NotInSet)"].assert_eq(&judge(polymer.with(Topic::Water, "salt")));
}

#[test]
fn the_side_of_a_failure_is_named() {
    let rule = ("line.embedment.least", "placing", "rule = \"at_least\"\nlimit = \"10\"\nunit = \"ft\"");
    check(rule, entered::<Length>("-1 ft"), "fails 11 Below");
}
