//! A job's own limits: the contract wins, and what it replaced stays in sight.

use criteria::{
    Change, Measured, NoLimit, Override, Refusal, Set, SetInForce, Situation, Sure, Verdict, judge,
};
use quantity::Length;

fn set() -> Set {
    Set::shipped("roadside-common-practice-1").expect("a shipped set")
}

fn wanted(criterion: &str, change: Change) -> Override {
    Override {
        criterion: criterion.to_owned(),
        change,
        reason: "Contract 4.2".to_owned(),
        who: "R. Okafor".to_owned(),
    }
}

fn limit(value: &str, unit: &str) -> Change {
    Change::Limit { value: value.to_owned(), unit: unit.to_owned() }
}

#[track_caller]
fn accepted(change: Override) -> SetInForce {
    let (set, refused) = set().in_force(&[change]);
    assert_eq!(refused, []);
    set
}

/// Sediment of so many inches by the set in force.
fn sediment(set: &SetInForce, inches: f64) -> Verdict {
    let value = Measured::amount(Length::inches(inches));
    let criterion = set.get("roadside/sediment-max").expect("the criterion");
    judge(criterion, Some(value), &Situation::default().dimensions).verdict
}

#[test]
fn another_limit_is_judged_by_and_the_original_stays_in_sight() {
    let plain = set().in_force(&[]).0;
    assert!(matches!(sediment(&plain, 0.8), Verdict::Meets { .. }));
    let changed = accepted(wanted("roadside/sediment-max", limit("1/2", "in")));
    assert!(matches!(sediment(&changed, 0.8), Verdict::Fails { .. }));
    let one = changed.get("roadside/sediment-max").expect("the criterion");
    assert_eq!(*one.original, *set().get("roadside/sediment-max").expect("the criterion"));
    let change = one.changed.as_ref().expect("a change");
    assert_eq!((change.reason.as_str(), change.who.as_str()), ("Contract 4.2", "R. Okafor"));
    assert_eq!((one.original.sure, one.sure()), (Sure::CommonPractice, Sure::Job));
}

#[test]
fn the_limit_may_be_written_in_another_unit() {
    // 12.7 mm is half an inch by the definition of the inch.
    let changed = accepted(wanted("roadside/sediment-max", limit("12.7", "mm")));
    assert!(matches!(sediment(&changed, 0.5), Verdict::Meets { .. }));
    assert!(matches!(sediment(&changed, 0.51), Verdict::Fails { .. }));
}

#[test]
fn turned_off_is_no_limit_set_and_not_met() {
    let changed = accepted(wanted("roadside/sediment-max", Change::TurnedOff));
    assert_eq!(sediment(&changed, 9.0), Verdict::NoLimitSet(NoLimit::TurnedOff));
    let fact = "bottom.sediment.max";
    let judged = changed.judge(fact, None, &Situation::default());
    assert_eq!(judged[0].1.verdict, Verdict::NoLimitSet(NoLimit::TurnedOff));
    assert!(judged[0].0.is_some(), "the criterion that was turned off is still shown");
}

#[track_caller]
fn refused(change: Override, expected: Refusal) {
    let criterion = change.criterion.clone();
    let (in_force, refused) = set().in_force(&[change]);
    assert_eq!(refused.len(), 1);
    assert_eq!((refused[0].criterion.as_str(), &refused[0].why), (criterion.as_str(), &expected));
    assert_eq!(in_force, set().in_force(&[]).0, "the original limits stay in force");
}

#[test]
fn a_change_that_cannot_be_meant_is_refused_and_named() {
    let sediment = "roadside/sediment-max";
    let meant = Some(sediment.to_owned());
    refused(wanted("roadside/sediment-mx", limit("1", "in")), Refusal::UnknownCriterion(meant));
    refused(wanted(sediment, limit("1,5", "in")), Refusal::NotANumber("1,5".to_owned()));
    refused(wanted(sediment, limit("1", "pcf")), Refusal::UnitUnknown("pcf".to_owned()));
    refused(wanted("roadside/line-watertight", limit("1", "in")), Refusal::UnitUnknown("in".to_owned()));
    refused(wanted("roadside/concrete-without-delay", limit("2", "h")), Refusal::WrongShape);
    let range = Change::Range { low: "0".to_owned(), high: "1".to_owned(), unit: "in".to_owned() };
    refused(wanted(sediment, range), Refusal::WrongShape);
    let silent = Override { reason: " ".to_owned(), ..wanted(sediment, Change::TurnedOff) };
    refused(silent, Refusal::NoReason);
    let nameless = Override { who: String::new(), ..wanted(sediment, Change::TurnedOff) };
    refused(nameless, Refusal::NoName);
}

#[test]
fn two_changes_of_one_criterion_are_a_question_for_the_person_who_made_them() {
    let twice = [
        wanted("roadside/sediment-max", limit("2", "in")),
        wanted("roadside/sediment-max", limit("3", "in")),
    ];
    let (in_force, refused) = set().in_force(&twice);
    assert_eq!(refused[0].why, Refusal::ChangedTwice);
    assert!(matches!(sediment(&in_force, 2.5), Verdict::Fails { .. }), "the first one is in force");
}

#[track_caller]
fn written(low: Option<&str>, high: Option<&str>, expected: Change) {
    assert_eq!(Change::written(low, high), expected);
}

#[test]
fn a_limit_as_the_record_holds_it_is_taken_apart() {
    let range = |low: &str, high: &str, unit: &str| Change::Range {
        low: low.to_owned(),
        high: high.to_owned(),
        unit: unit.to_owned(),
    };
    written(Some("1 1/2 in"), None, limit("1 1/2", "in"));
    written(Some("5ft"), None, limit("5", "ft"));
    written(Some("1/4 in/ft"), None, limit("1/4", "in/ft"));
    written(Some("64 pcf"), Some("72 pcf"), range("64", "72", "pcf"));
    written(Some("8"), Some("11"), range("8", "11", ""));
    written(Some("64"), Some("72 pcf"), range("64", "72", "pcf"));
    written(None, None, Change::TurnedOff);
}

#[test]
fn two_units_in_one_range_are_refused_rather_than_guessed() {
    let change = Change::written(Some("64 pcf"), Some("1.2 g/cm³"));
    let fhwa = Set::shipped("fhwa-aashto-style-1").expect("a shipped set");
    let (_, refused) = fhwa.in_force(&[wanted("fhwa/mineral-density-concrete-fresh", change)]);
    assert!(matches!(refused[0].why, Refusal::NotANumber(_)), "{refused:?}");
}

#[test]
fn a_range_upside_down_is_refused() {
    let fhwa = Set::shipped("fhwa-aashto-style-1").expect("a shipped set");
    let change = Change::written(Some("9 in"), Some("7 in"));
    let (_, refused) = fhwa.in_force(&[wanted("fhwa/slump-wet", change)]);
    assert_eq!(refused[0].why, Refusal::Reversed);
}
