//! Findings of every sort, over limits made up for this test: EXAMPLE-000 is no document.

mod support;

use assess::{Disposition, Finding, Subject};
use criteria::{Change, Measured, Override, Set, SetInForce, Situation};
use expect_test::{Expect, expect};
use quantity::{Density, Fraction, FunnelTime, Length};
use record::EntryId;
use record::choices::Decision;
use support::{Fields, Site, at, list, log, text};
use wording::Show;

/// The example set: one criterion for each sort of rule.
const CRITERIA: &[(&str, &str)] = &[
    (
        "density",
        "measures = \"fluid.density.introduced\"\nstage = \"excavation\"\nrule = \"below\"\nlimit = \"1.10\"\nunit = \"g/cm³\"\naccuracy = \"0.01\"",
    ),
    (
        "funnel",
        "measures = \"fluid.viscosity.introduced\"\nstage = \"excavation\"\nrule = \"between\"\nlow = \"32\"\nhigh = \"50\"\nunit = \"s/qt\"",
    ),
    (
        "tip",
        "measures = \"line.tip_above_bottom\"\nstage = \"placing\"\nrule = \"at_most\"\nsmaller_of = [{ times = \"1/4\", of = \"diameter\" }, { value = \"6\" }]\nunit = \"in\"",
    ),
    (
        "spacing",
        "measures = \"cage.clear_spacing\"\nstage = \"before_concrete\"\nrule = \"at_least\"\nsum_of = [{ times = \"5\", of = \"aggregate_size\" }]\nunit = \"in\"",
    ),
    (
        "top",
        "measures = \"asbuilt.top_deviation\"\nstage = \"after\"\nrule = \"within\"\nminus = \"3\"\nplus = \"1\"\nunit = \"in\"",
    ),
    ("breach", "measures = \"line.breached\"\nstage = \"placing\"\nrule = \"no\""),
    (
        "bottom",
        "measures = \"bottom.tip_above_plan\"\nstage = \"before_concrete\"\nrule = \"at_most\"\nlimit = \"0\"\nunit = \"ft\"",
    ),
    ("acceptance", "measures = \"placing.after_acceptance\"\nstage = \"placing\"\nrule = \"yes\""),
    ("tubes", "measures = \"tubes.inspected\"\nstage = \"before_concrete\"\nrule = \"yes\""),
    (
        "sand",
        "measures = \"fluid.sand.introduced\"\nstage = \"excavation\"\nrule = \"at_most\"\nlimit = \"4\"\nunit = \"%\"\nwhen = { fluid = [\"mineral\"] }",
    ),
];

fn set(overrides: &[Override]) -> SetInForce {
    let head =
        "[set]\nid = \"example-1\"\ntitle = \"Example\"\nedition = \"1\"\nabout = \"Made up for a test.\"\n";
    let tail = "sure = \"from_memory\"\nsource = \"EXAMPLE-000\"\nclause = \"5.1\"\nverify = \"Open the paper.\"\n\
                why = \"It matters.\"\nif_fails = \"It is done again.\"\n";
    let one = |(name, rule): &(&str, &str)| {
        format!("[[criterion]]\nid = \"example/{name}\"\ntitle = \"Example of {name}\"\n{rule}\n{tail}")
    };
    let text: String = CRITERIA.iter().map(one).collect();
    let set = Set::parse(&format!("{head}{text}")).unwrap_or_else(|problems| panic!("{problems:?}"));
    let (in_force, refused) = set.in_force(overrides);
    assert_eq!(refused, []);
    in_force
}

/// The finding about a value of a fact.
fn finding(set: &SetInForce, fact: &str, value: Option<Measured>, situation: &Situation) -> Finding {
    let (criterion, judgement) = set.judge(fact, value, situation).remove(0);
    Finding {
        fact: criteria::facts::named(fact).expect("a fact of the list"),
        criterion: criterion.cloned(),
        subject: Subject::Shaft,
        value,
        aside: None,
        judgement,
        at: None,
        evidence: Vec::new(),
        disputed: false,
        dispositions: Vec::new(),
    }
}

#[track_caller]
fn check(findings: &[Finding], expected: Expect) {
    let log = record::Log::default();
    let told = findings.iter().map(|one| {
        let text = wording::finding(one, &log, &Show::of(None));
        format!(
            "{}: {}\n  {} | {} | {}",
            text.verdict, text.sentence, text.limit, text.source, text.sure_note
        )
    });
    expected.assert_eq(&told.collect::<Vec<_>>().join("\n"));
}

fn dimensions() -> Situation {
    let dimensions = criteria::Dimensions::new().with(criteria::Dimension::Diameter, Length::inches(30.0));
    Situation { dimensions, ..Situation::default() }
}

#[test]
fn values_inside_on_and_outside_their_limits() {
    let set = set(&[]);
    let nothing = Situation::default();
    let density = |value| Some(Density::grams_per_cubic_centimeter(value).into());
    let inches = |value| Some(Measured::from(Length::inches(value)));
    check(
        &[
            finding(&set, "fluid.density.introduced", density(1.04), &nothing),
            finding(&set, "fluid.density.introduced", density(1.105), &nothing),
            finding(&set, "fluid.density.introduced", density(1.10), &nothing),
            finding(
                &set,
                "fluid.viscosity.introduced",
                Some(FunnelTime::seconds_per_quart(30.0).into()),
                &nothing,
            ),
            finding(&set, "line.tip_above_bottom", inches(6.5), &dimensions()),
            finding(&set, "asbuilt.top_deviation", inches(-3.25), &nothing),
            finding(&set, "asbuilt.top_deviation", inches(0.5), &nothing),
            finding(&set, "line.breached", Some(true.into()), &nothing),
            finding(&set, "line.breached", Some(false.into()), &nothing),
            finding(&set, "tubes.inspected", Some(false.into()), &nothing),
        ],
        expect![[r#"
            meets: Example of density: 1.04 g/cm³; the limit is less than 1.10 g/cm³. 0.06 g/cm³ to spare. From memory: verify before use.
              less than 1.10 g/cm³ | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            fails: Example of density: 1.11 g/cm³; the limit is less than 1.10 g/cm³. 0.01 g/cm³ over. That is closer to the limit than the instrument can tell (± 0.01 g/cm³). From memory: verify before use.
              less than 1.10 g/cm³ | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            fails: Example of density: 1.1 g/cm³; the limit is less than 1.10 g/cm³. On the limit, which does not meet. That is closer to the limit than the instrument can tell (± 0.01 g/cm³). From memory: verify before use.
              less than 1.10 g/cm³ | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            fails: Example of funnel: 30 s/qt; the limits are 32 to 50 s/qt. 2 s/qt under. From memory: verify before use.
              32 to 50 s/qt | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            fails: Example of tip: 6.5 in; the limit is 6 in at most (the smaller of 1/4 of the planned diameter and 6 in). 0.5 in over. From memory: verify before use.
              6 in at most (the smaller of 1/4 of the planned diameter and 6 in) | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            fails: Example of top: -3.25 in; the limits are 3 in below to 1 in above. 0.25 in too low. From memory: verify before use.
              3 in below to 1 in above | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            meets: Example of top: 0.5 in; the limits are 3 in below to 1 in above. 0.5 in to spare. From memory: verify before use.
              3 in below to 1 in above | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            fails: Example of breach: yes, and it must not be so: “The discharge end came out of the concrete, or fluid entered the line, after the pour had begun”. From memory: verify before use.
              it must not be so | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            meets: Example of breach: no, as required. From memory: verify before use.
              it must not be so | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            fails: Example of tubes: no. Required: “Every access tube was inspected before concrete”. From memory: verify before use.
              it has to be so | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper."#]],
    );
}

#[test]
fn what_cannot_be_judged_says_what_is_missing() {
    let set = set(&[]);
    let nothing = Situation::default();
    let inches = |value| Some(Measured::from(Length::inches(value)));
    check(
        &[
            finding(
                &set,
                "fluid.viscosity.introduced",
                Some(FunnelTime::seconds_per_liter(38.0).into()),
                &nothing,
            ),
            finding(&set, "line.tip_above_bottom", inches(5.0), &nothing),
            finding(&set, "cage.clear_spacing", inches(4.0), &nothing),
            finding(&set, "fluid.sand.introduced", Some(Fraction::percent(3.0).into()), &nothing),
            finding(&set, "fluid.density.introduced", None, &nothing),
            finding(&set, "tubes.inspected", None, &nothing),
            finding(&set, "cage.cover", inches(4.0), &nothing),
        ],
        expect![[r#"
            cannot say: Example of funnel: 38 s/L; whether that meets cannot be said. The reading is in s/L and the limit in s/qt: a funnel time for one volume is no multiple of that for another. To settle it, test again and read the time in s/qt. From memory: verify before use.
              32 to 50 s/qt | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            cannot say: Example of tip: 5 in; whether that meets cannot be said. The limit hangs on the planned diameter, which the record does not hold. To settle it, enter “Shaft planned” (bore). From memory: verify before use.
              at most the smaller of 1/4 of the planned diameter and 6 in | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            cannot say: Example of spacing: 4 in; whether that meets cannot be said. The limit hangs on the aggregate size, which the record does not hold. To settle it, enter “Mix approved” (aggregate). From memory: verify before use.
              at least 5 times the aggregate size | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            cannot say: Example of sand: 3 %; whether that meets cannot be said. The record does not say what the drilling fluid is made of. To settle it, enter “Fluid introduced” (fluid) or “Fluid approved” (fluid). From memory: verify before use.
              4 % at most | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            not measured: Example of density: not measured; the limit is less than 1.10 g/cm³. To settle it, enter “Fluid test” (stage and density). From memory: verify before use.
              less than 1.10 g/cm³ | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            not measured: Example of tubes: not measured. To settle it, enter “Tubes checked” (good). From memory: verify before use.
              it has to be so | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper.
            no limit set: Least clear cover from the outermost steel to the nominal wall: 4 in; no limit is set in the criteria in force.
               |  | "#]],
    );
}

#[test]
fn a_limit_the_job_changed_shows_both_and_why() {
    let change = |criterion: &str, change| Override {
        criterion: criterion.to_owned(),
        change,
        reason: "special provision 7".to_owned(),
        who: "A. Reed".to_owned(),
    };
    let limit = Change::Limit { value: "4".to_owned(), unit: "in".to_owned() };
    let set = set(&[change("example/tip", limit), change("example/density", Change::TurnedOff)]);
    let inches = Some(Measured::from(Length::inches(4.5)));
    let density = Some(Density::grams_per_cubic_centimeter(1.2).into());
    check(
        &[
            finding(&set, "line.tip_above_bottom", inches, &dimensions()),
            finding(&set, "fluid.density.introduced", density, &Situation::default()),
        ],
        expect![[r#"
            fails: Example of tip: 4.5 in; the limit is 4 in at most. 0.5 in over. Changed for this job to 4 in at most by A. Reed: special provision 7. Before: at most the smaller of 1/4 of the planned diameter and 6 in (EXAMPLE-000, 5.1).
              4 in at most | set for this job | Changed for this job to 4 in at most by A. Reed: special provision 7. Before: at most the smaller of 1/4 of the planned diameter and 6 in (EXAMPLE-000, 5.1).
            no limit set: Example of density: 74.9 pcf; no limit is set, because this job turned it off. Turned off for this job by A. Reed: special provision 7. Before: less than 1.10 g/cm³ (EXAMPLE-000, 5.1).
               | set for this job | Turned off for this job by A. Reed: special provision 7. Before: less than 1.10 g/cm³ (EXAMPLE-000, 5.1)."#]],
    );
}

#[test]
fn a_disputed_finding_and_a_decided_one_say_so() {
    let set = set(&[]);
    let value = Some(Measured::from(Length::inches(7.0)));
    let mut disputed = finding(&set, "line.tip_above_bottom", value, &dimensions());
    disputed.disputed = true;
    disputed.dispositions = vec![Disposition {
        entry: EntryId([1; 32]),
        at: at("14:22"),
        decision: Decision::Accepted,
        reason: "line lowered before the first charge".to_owned(),
        by: "A. Reed".to_owned(),
    }];
    let log = record::Log::default();
    let text = wording::finding(&disputed, &log, &Show::of(None).on_day_of(at("14:22")));
    expect![[r#"
        Example of tip: 7 in; the limit is 6 in at most (the smaller of 1/4 of the planned diameter and 6 in). 1 in over. From memory: verify before use. An entry it rests on is in dispute: a person has to decide which reading stands.
        Accepted by A. Reed, 14:22: line lowered before the first charge."#]].assert_eq(&format!("{}\n{}", text.sentence, text.dispositions[0].sentence));
}

#[test]
fn what_was_measured_and_is_in_dispute_is_not_told_as_unmeasured() {
    let set = set(&[]);
    let mut disputed = finding(&set, "line.tip_above_bottom", None, &dimensions());
    disputed.disputed = true;
    check(
        &[disputed],
        expect![[r#"
        in dispute: Example of tip: measured and in dispute; the limit is 6 in at most (the smaller of 1/4 of the planned diameter and 6 in). From memory: verify before use. An entry it rests on is in dispute: a person has to decide which reading stands.
          6 in at most (the smaller of 1/4 of the planned diameter and 6 in) | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper."#]],
    );
}

#[test]
fn a_bottom_above_its_plan_is_too_shallow() {
    let set = set(&[]);
    let tip = finding(&set, "bottom.tip_above_plan", Some(Length::feet(0.1).into()), &Situation::default());
    check(
        &[tip],
        expect![[r#"
        fails: Example of bottom: 0.1 ft; the limit is 0 ft at most. 0.1 ft too shallow. From memory: verify before use.
          0 ft at most | EXAMPLE-000, 5.1 | From memory: verify before use. Open the paper."#]],
    );
}

/// The finding that concrete came before something was accepted, resting on entries of these kinds.
#[track_caller]
fn check_acceptance(rests_on: &[&str], expected: &str) {
    let mut site = Site::new();
    let cage: Fields<'_> = &[
        ("diameter", text("42 in")),
        ("bars", list(&["count=12 size=#9"])),
        ("hoops", list(&["sort=hoops size=#5 spacing=6_in"])),
    ];
    let planned = site.write("06:00", "cage_planned", cage);
    let written = [
        ("cage_planned", planned),
        ("bottom_accepted", site.write("09:00", "bottom_accepted", &[("by", text("I. Vane"))])),
        ("cage_checked", site.write("09:30", "cage_checked", &cage[1..])),
        ("discharge_started", site.write("10:50", "discharge_started", &[("ticket", text("4411"))])),
    ];
    let of_kind = |word: &&str| written.iter().find(|row| row.0 == *word).expect("written").1;
    let evidence = rests_on.iter().map(of_kind).collect();
    let record = site.record();
    let log = log(&record);
    let set = set(&[]);
    let finding = Finding {
        evidence,
        ..finding(&set, "placing.after_acceptance", Some(Measured::Truth(false)), &Situation::default())
    };
    let told = wording::finding(&finding, &log, &Show::of(None)).sentence;
    let told = told.split(" Not accepted ").nth(1).unwrap_or_else(|| panic!("{told}"));
    assert_eq!(told.split(". ").next(), Some(expected));
}

#[test]
fn concrete_before_an_acceptance_names_which_one_was_missing() {
    check_acceptance(&["discharge_started", "cage_checked"], "before the first concrete: the bottom");
    check_acceptance(
        &["discharge_started", "bottom_accepted"],
        "before the first concrete: the cage (checked and set)",
    );
    check_acceptance(
        &["discharge_started"],
        "before the first concrete: the bottom and the cage (checked and set)",
    );
}

/// A share that is off tells neither which way nor from what; the sentence does.
#[test]
fn an_interval_that_departs_says_which_way_and_from_what() {
    let set = set(&[]);
    let departs = |own, rest| {
        let finding = Finding {
            aside: Some(assess::Aside::Ratios { own, rest }),
            ..finding(&set, "volume.departure", Some(Fraction::percent(50.0).into()), &Situation::default())
        };
        let told = wording::finding(&finding, &record::Log::default(), &Show::of(None)).sentence;
        told.split_once(" It took ").unwrap_or_else(|| panic!("{told}")).1.to_owned()
    };
    assert!(
        departs(1.62, 1.08).starts_with("1.62 times its nominal bore, the rest of the shaft 1.08: more.")
    );
    assert!(
        departs(0.54, 1.08).starts_with("0.54 times its nominal bore, the rest of the shaft 1.08: less.")
    );
}
