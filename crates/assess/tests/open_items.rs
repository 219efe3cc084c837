//! What waits on a shaft, and for whom; it is gone once somebody settled it.

mod story;

use assess::open_items::{Open, OpenItem, WaitsFor, open_items};
use record::Log;
use story::{Story, Told, roadside};

const HAND: &str = r#"{ at = "06:35", entry = "utilities_cleared", ticket = "A-100", hand_dug = 4 }"#;

/// A day with a hole dug by hand to less than it should be, which is a finding that fails.
fn day() -> Story {
    roadside::story().with(HAND, r#"{ at = "06:35", as = "dug", entry = "utilities_cleared", hand_dug = 3 }"#)
}

fn found(told: &Told) -> Vec<OpenItem> {
    let log = Log::of(&told.record, Some("S-1"), None);
    open_items(&told.record, "S-1", &log, &told.end())
}

fn word(open: &Open) -> &'static str {
    match open {
        Open::Finding(_) => "finding",
        Open::Hold(_) => "hold",
        Open::Dispute(_) => "dispute",
        Open::Asked(_) => "asked",
        Open::Odd(_) => "odd",
        Open::Signature { again: None, .. } => "signature",
        Open::Signature { .. } => "signature again",
    }
}

#[track_caller]
fn check(story: &Story, expected: &[(&str, &str)]) {
    let found = found(&story.told());
    let line = |item: &OpenItem| {
        let whom = match &item.waits_for {
            WaitsFor::Part(role) => role.word().to_owned(),
            WaitsFor::Person(name) => name.clone(),
        };
        (word(&item.open), whom)
    };
    let found: Vec<(&str, String)> = found.iter().map(line).collect();
    let expected: Vec<(&str, String)> =
        expected.iter().map(|(word, whom)| (*word, (*whom).to_owned())).collect();
    assert_eq!(found, expected);
}

const SIGNATURES: [(&str, &str); 2] = [("signature", "inspector"), ("signature", "engineer")];

#[test]
fn a_finding_that_fails_waits_for_the_engineer_until_it_is_decided() {
    check(&roadside::story(), &SIGNATURES);
    let open = [&[("finding", "engineer")], &SIGNATURES[..]].concat();
    check(&day(), &open);
    let decided = r#"{ at = "15:00", entry = "finding_disposed", criterion = "roadside/utilities-hand-dug", decision = "accepted", reason = "probed with a rod" }"#;
    check(&day().and(decided), &SIGNATURES);
}

#[test]
fn a_hold_waits_until_it_is_released_and_the_next_one_by_that_name_again() {
    let hold = r#"{ at = "14:00", entry = "hold_placed", hold = "backfill", reason = "no survey" }"#;
    let open = [&[("hold", "engineer")], &SIGNATURES[..]].concat();
    check(&roadside::story().and(hold), &open);
    let release = r#"{ at = "14:30", entry = "hold_released", hold = " backfill", by = "I. Vane" }"#;
    check(&roadside::story().and(hold).and(release), &SIGNATURES);
    let again = r#"{ at = "15:00", entry = "hold_placed", hold = "backfill", reason = "rain" }"#;
    check(&roadside::story().and(hold).and(release).and(again), &open);
}

/// It waits for whom it names, else for the one who wrote the entry it is about.
#[test]
fn a_question_waits_for_somebody_until_that_question_is_answered() {
    let ask = |label: &str, to: &str| {
        format!(
            r##"{{ at = "14:00", as = "{label}", entry = "question_asked", about = "#dug", question = "how deep exactly?"{to} }}"##
        )
    };
    let decided = r#"{ at = "15:00", entry = "finding_disposed", criterion = "roadside/utilities-hand-dug", decision = "accepted", reason = "probed with a rod" }"#;
    let story = day().and(decided).and(&ask("one", "")).and(&ask("two", r#", to = "D. Pike""#));
    let both = [&[("asked", "A. Inspector"), ("asked", "D. Pike")], &SIGNATURES[..]].concat();
    check(&story, &both);
    let answer = |question: &str| {
        format!(
            r##"{{ at = "14:30", entry = "question_answered", about = "#one", question = "{question}", answer = "3 ft 2" }}"##
        )
    };
    check(&story.clone().and(&answer("asked")), &both[1..]);
    check(&story.and(&answer("value_unusual")), &both);
}

#[test]
fn a_dispute_waits_for_the_engineer_and_an_odd_reading_for_who_wrote_it() {
    let correction = |feet: &str| {
        format!(
            r##"{{ at = "12:00", entry = "correction", replaces = "#dug", reason = "paced again", body = {{ entry = "utilities_cleared", hand_dug = {feet} }} }}"##
        )
    };
    let disputed = day().and(&correction("4.5")).and(&correction("5"));
    check(&disputed, &[&[("dispute", "engineer")], &SIGNATURES[..]].concat());
    let odd = r#"{ at = "14:00", entry = "fluid_test", place = "tank", stage = "drilling", ph = 85 }"#;
    check(&roadside::story().and(odd), &[&[("odd", "A. Inspector")], &SIGNATURES[..]].concat());
}

/// While concrete goes in nobody is asked to sign; what came after a signature has to be signed for.
#[test]
fn signatures_wait_once_the_pour_is_over() {
    let told = roadside::story().told();
    let at = told.at("10:33");
    let log = Log::of(&told.record, Some("S-1"), Some(at.at));
    assert_eq!(open_items(&told.record, "S-1", &log, &at), []);
    let sign = |time: &str, role: &str| {
        format!(r#"{{ at = "{time}", entry = "signed", name = "A. Inspector", role = "{role}" }}"#)
    };
    let signed = roadside::story().and(&sign("18:00", "inspector")).and(&sign("18:05", "engineer"));
    check(&signed, &[]);
    let later = signed.and(r#"{ at = "18:30", entry = "remark", text = "form is off" }"#);
    check(&later, &[("signature again", "inspector"), ("signature again", "engineer")]);
}
