//! What people write later: corrections, disputes, decisions; and what a moment in the past may know.

mod story;

use assess::Outcome::{self, Fails, Meets, NotMeasured};
use assess::{Assessment, Subject};
use proptest::prelude::*;
use record::{Log, Record};
use story::{Story, Told, of, one, outcomes, roadside};

const HAND: &str = r#"{ at = "06:35", entry = "utilities_cleared", ticket = "A-100", hand_dug = 4 }"#;

fn labelled() -> Story {
    roadside::story().with(HAND, r#"{ at = "06:35", as = "dug", entry = "utilities_cleared", hand_dug = 3 }"#)
}

fn correction(feet: &str) -> String {
    format!(
        r##"{{ at = "12:00", entry = "correction", replaces = "#dug", reason = "paced again", body = {{ entry = "utilities_cleared", hand_dug = {feet} }} }}"##
    )
}

#[track_caller]
fn verdict(told: &Told, expected: Outcome) {
    assert_eq!(outcomes(&told.end(), "roadside/utilities-hand-dug"), [expected]);
}

#[test]
fn a_correction_changes_the_verdict_and_only_from_then_on() {
    verdict(&labelled().told(), Fails);
    let corrected = labelled().and(&correction("4.5")).told();
    verdict(&corrected, Meets);
    assert_eq!(outcomes(&corrected.at("11:59"), "roadside/utilities-hand-dug"), [Fails]);
}

#[test]
fn a_dispute_leaves_the_value_out_and_marks_what_hangs_on_it() {
    let disputed = labelled().and(&correction("4.5")).and(&correction("2"));
    let told = disputed.told();
    let end = told.end();
    let dug = one(&end, "utilities.hand_dug_depth");
    // The tool run by hand still says four feet; whether more was dug hangs on the dispute.
    assert!(dug.disputed);
    let cleared = one(&end, "utilities.cleared");
    assert!(cleared.disputed && cleared.value.is_none());
    assert_eq!(cleared.evidence.len(), 2, "both candidates");
    assert!(!one(&end, "cage.ties").disputed);
}

#[test]
fn a_disputed_test_shows_once_without_a_value() {
    let test = |ph: &str, time: &str| {
        format!(
            r##"{{ at = "{time}", entry = "correction", replaces = "#ph", reason = "misread", body = {{ entry = "fluid_test", place = "hole", depth = 13, stage = "before_concrete", ph = {ph} }} }}"##
        )
    };
    let story = roadside::story()
        .with(r#"{ at = "09:56", entry"#, r#"{ at = "09:56", as = "ph", entry"#)
        .and(&test("8", "13:00"))
        .and(&test("7", "13:05"));
    let told = story.told();
    let end = told.end();
    let about = Subject::Test(told.ids["ph"]);
    let shown: Vec<_> =
        of(&end, "fluid.ph.before_concrete").into_iter().filter(|f| f.subject == about).collect();
    assert_eq!(shown.len(), 1);
    assert!(shown[0].disputed && shown[0].value.is_none());
    // The other test of the round stands, undisputed.
    assert_eq!(of(&end, "fluid.ph.before_concrete").iter().filter(|f| !f.disputed).count(), 1);
}

#[test]
fn a_closed_dispute_marks_nothing() {
    let closing = r##"{ at = "14:00", entry = "dispute_closed", about = "#dug", keeps = "#dug", reason = "the first was right" }"##;
    let told = labelled().and(&correction("4.5")).and(&correction("2")).and(closing).told();
    verdict(&told, Fails);
    assert!(told.end().findings.iter().all(|finding| !finding.disputed));
}

#[test]
fn a_decision_stands_beside_the_finding_it_is_about() {
    let decided = r#"{ at = "15:00", entry = "finding_disposed", criterion = "roadside/utilities-hand-dug", decision = "accepted", reason = "probed with a rod", by = "R. Ferrow" }"#;
    let told = labelled().and(decided).told();
    let end = told.end();
    let finding = one(&end, "utilities.hand_dug_depth");
    assert_eq!((finding.outcome(), finding.is_open()), (Fails, false));
    assert_eq!(finding.dispositions[0].by, "R. Ferrow");
}

#[test]
fn a_changed_limit_is_the_one_in_force() {
    let changed = roadside::story().with("[[mix]]", "[[limit]]\ncriterion = \"roadside/utilities-hand-dug\"\nlimit = \"5 ft\"\nreason = \"contract 4.2\"\nby = \"R. Ferrow\"\n\n[[mix]]");
    verdict(&changed.told(), Fails);
}

#[test]
fn a_moment_in_the_pour_knows_nothing_that_came_later() {
    let told = roadside::story().told();
    let during = told.at("10:33");
    assert_eq!(during.picture.loads.iter().filter(|load| load.done.is_some()).count(), 1);
    assert_eq!(during.picture.concrete.len(), 1);
    assert!(of(&during, "placing.duration").is_empty(), "the pour is not over");
    assert!(of(&during, "slump.until_finished").is_empty());
    let later: Vec<_> = during.findings.iter().filter(|f| f.at.is_some_and(|at| at > during.at)).collect();
    assert!(later.is_empty(), "{later:#?}");
}

#[test]
fn cylinders_made_amid_the_pour_do_not_end_it() {
    let story = roadside::story()
        .and(r#"{ at = "10:31", entry = "cylinders_made", set = "C0", ticket = 1, count = 2 }"#);
    let told = story.told();
    assert!(of(&told.at("10:33"), "placing.good_concrete_at_top").is_empty());
}

#[test]
fn what_is_missing_is_named_once_each() {
    let told = roadside::story().without("sediment_measured").told();
    let end = told.end();
    let names: Vec<&str> = end.missing().iter().map(|fact| fact.name).collect();
    assert!(names.contains(&"bottom.sediment.max") && names.contains(&"bottom.sediment_recorded"));
    assert!(names.contains(&"fluid.within_limits_for_concrete"), "no limits came with the product");
    let mut once = names.clone();
    once.dedup();
    assert_eq!(once, names);
}

#[test]
fn a_truck_written_down_by_two_people_counts_once() {
    let again = r#"{ at = "10:11", entry = "load_arrived", ticket = " 1", mix = "W-4000", volume = 5 }"#;
    let volume = |story: Story| {
        let told = story.told();
        let end = told.end();
        end.reckoning.pour.expect("a pour").discharged.to_cubic_yards()
    };
    assert_eq!(volume(roadside::story()), volume(roadside::story().and(again)));
}

#[test]
fn findings_stand_in_the_defined_order() {
    let told = roadside::story().without("tip_moved").without("bottom_accepted").told();
    let end = told.end();
    let key: Vec<(Outcome, criteria::Stage)> =
        end.findings.iter().map(|f| (f.outcome(), f.fact.stage)).collect();
    assert!(key.is_sorted());
    assert_eq!(end.findings[0].outcome(), Fails);
    assert!(end.findings.iter().any(|finding| finding.outcome() == NotMeasured));
}

#[test]
fn a_line_made_up_again_under_the_same_name_starts_afresh() {
    let again = roadside::story()
        .and(r#"{ at = "10:37", entry = "line_made_up", name = "tremie", line = "tremie", inside = 10, pieces = [ { length = 10, count = 2 } ], tip = 19, watertight = true }"#);
    let told = again.told();
    let end = told.end();
    assert_eq!(end.picture.lines.len(), 2);
    assert_eq!(end.picture.lines[0].steps.len(), 2, "made up, and lifted once");
    assert_eq!(end.picture.lines[1].steps.len(), 1);
    // The second line never started at the bottom: its tip at 19 ft says nothing of the start.
    assert_eq!(outcomes(&end, "roadside/line-tip-start"), [Meets]);
}

fn as_text(assessment: &Assessment<'_>) -> String {
    let Assessment { findings, forecasts, questions, issues, .. } = assessment;
    format!("{findings:?}{forecasts:?}{questions:?}{issues:?}")
}

fn trouble() -> Told {
    labelled().and(&correction("4.5")).and(&correction("2")).told()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// Entries reach a record in any order and by any way: the assessment is the same.
    #[test]
    fn nothing_depends_on_arrival(order in Just(trouble().record.entries().cloned().collect::<Vec<_>>()).prop_shuffle(), cut in 0_usize..60) {
        let told = trouble();
        let (left, right) = order.split_at(cut.min(order.len()));
        let [left, right] = [left, right].map(|half| Record::of(half.to_vec()).expect("one job"));
        let record = right.merge(&left).expect("one job");
        let other = Told { record, shaft: told.shaft, ids: told.ids.clone() };
        prop_assert_eq!(as_text(&told.end()), as_text(&other.end()));
    }

    /// A moment sees what was seen by then, and nothing else: the same as a record that ends there.
    #[test]
    fn a_moment_is_a_record_that_ends_there(minutes in 380_i64..700) {
        let told = roadside::story().told();
        let time = format!("{:02}:{:02}", minutes / 60, minutes % 60);
        let at = told.at(&time);
        let seen = told.record.entries().filter(|held| match held {
            record::Held::Known(entry) => entry.observed_at <= at.at,
            record::Held::Newer(_) => true,
        });
        let record = Record::of(seen.cloned()).expect("one job");
        prop_assert!(Log::of(&record, Some("S-1"), None).end().is_none_or(|end| end <= at.at));
        let cut = Told { record, shaft: told.shaft, ids: told.ids.clone() };
        let cut = cut.assessed(at.at);
        prop_assert_eq!(as_text(&at), as_text(&cut));
    }
}
