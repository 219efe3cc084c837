//! What a finding that fails asks for, as long as somebody can follow it: no order that comes too late.

#[path = "live/demo.rs"]
mod demo;

use demo::{at, harrow_vale_entries};
use record::kinds::FluidTest;
use record::{Body, Held, Record};
use screen::live::{self, Before, Ready, ShaftScreen};

/// The screen of S-2 at a moment, without the entries that `without` names.
#[track_caller]
fn screen(moment: &str, without: impl Fn(&Body) -> bool) -> ShaftScreen {
    live::shaft(&by_then(moment, without), "S-2", at(moment))
}

fn by_then(moment: &str, without: impl Fn(&Body) -> bool) -> Record {
    let at = at(moment);
    let mut entries = harrow_vale_entries();
    entries.retain(|held| match held {
        Held::Known(entry) => entry.observed_at <= at && !without(&entry.body),
        Held::Newer(_) => false,
    });
    Record::of(entries).expect("one job")
}

fn nothing(_: &Body) -> bool {
    false
}

/// What the panel says of whatever has that in its title.
fn called(screen: &ShaftScreen, title: &str) -> Vec<String> {
    let of = screen.attention.iter().filter(|one| one.title.contains(title));
    of.map(|one| format!("{} {}", one.haste.word(), one.do_now)).collect()
}

/// What the list of next steps says of a criterion.
#[track_caller]
fn to_decide(screen: &ShaftScreen, criterion: &str) -> (String, String) {
    let is = |known: &(&'static str, String)| *known == ("criterion", criterion.to_owned());
    let step = screen.next.iter().find(|step| step.known.iter().any(is)).expect("it is to be decided");
    (step.what.clone(), step.why.clone())
}

const SAND: &str = "job/fluid/Mirgolit-60/sand-before_concrete";

#[test]
fn sand_over_the_limit_calls_until_it_is_tested_again() {
    let screen = screen("2025-05-13T09:00:00-06:00", nothing);
    assert_eq!(called(&screen, "Sand"), ["soon Usually: the engineer decides; the load or the fluid waits."]);
    assert_eq!(to_decide(&screen, SAND).0, "Usually: the engineer decides; the load or the fluid waits.");
}

#[test]
fn sand_that_was_tested_again_and_meets_calls_nobody_and_waits_for_a_decision() {
    let screen = screen("2025-05-13T09:20:00-06:00", nothing);
    assert_eq!(called(&screen, "Sand"), [""; 0]);
    let (what, why) = to_decide(&screen, SAND);
    assert_eq!(what, "Have it decided: Sand, as approved for fluid Mirgolit 60, reading of 07:45.");
    assert!(
        why.ends_with("Measured again 09:15: 1.5 %, which meets. Left is that somebody decides about it."),
        "{why}"
    );
    let found = screen.findings.iter().find(|card| card.criterion == SAND).expect("the finding itself stays");
    assert!(found.open && found.title.contains("07:45"), "{found:?}");
}

#[test]
fn a_sample_from_mid_height_says_nothing_of_the_bottom() {
    let near_the_bottom = |body: &Body| match body {
        Body::FluidTest(FluidTest { sample: Some(sample), .. }) => {
            ["S2-2", "S2-3"].contains(&sample.as_str())
        }
        _ => false,
    };
    let screen = screen("2025-05-13T10:30:00-06:00", near_the_bottom);
    assert_eq!(called(&screen, "Sand"), ["soon Usually: the engineer decides; the load or the fluid waits."]);
}

#[test]
fn what_was_measured_again_and_meets_is_ready_for_concrete() {
    let sand = |moment: &str| {
        let list = live::readiness(&by_then(moment, nothing), "S-2", at(moment), Before::Concrete);
        let of = list.items.into_iter().filter(|item| item.title.starts_with("Sand, as approved"));
        of.map(|item| item.ready).collect::<Vec<Ready>>()
    };
    assert!(sand("2025-05-13T09:00:00-06:00").contains(&Ready::DoesNotMeet));
    assert!(!sand("2025-05-13T09:20:00-06:00").contains(&Ready::DoesNotMeet));
}

#[test]
fn nobody_is_told_to_pull_the_casing_that_is_out() {
    let screen = screen("2025-05-13T13:58:00-06:00", nothing);
    let told = format!("{:?} {:?}", screen.attention, screen.next);
    assert!(!told.contains("pulled at once"), "{told}");
    assert_eq!(
        called(&screen, "Slump until the casing is out"),
        ["soon The work it is about is done. Left is that somebody decides about it."]
    );
    let (what, _) = to_decide(&screen, "roadside/slump-until-finished");
    assert_eq!(what, "Have it decided: Slump until the casing is out and every insert is in.");
}

#[test]
fn a_stiff_load_that_was_mended_and_tested_again_calls_nobody() {
    let stiff = screen("2025-05-13T11:20:00-06:00", nothing);
    assert_eq!(
        called(&stiff, "Slump when placed"),
        ["now Usually: the engineer decides; the load or the fluid waits."]
    );
    let mended = screen("2025-05-13T11:28:00-06:00", nothing);
    assert_eq!(called(&mended, "Slump when placed"), [""; 0]);
}

#[test]
fn an_earlier_sounding_is_asked_for_of_the_last_interval_only() {
    let screen = screen("2025-05-13T11:59:00-06:00", nothing);
    assert_eq!(
        called(&screen, "Interval against"),
        [
            "now Usually: the next sounding is taken earlier; tape and ticket are checked; depth and size are recorded.",
            "soon The work it is about is done. Left is that somebody decides about it.",
        ]
    );
}
