//! Laws of every screen: it is there at any prefix of any record, it holds no number that is none, every
//! reference leads somewhere, and two screens of one moment are one.

#[path = "live/demo.rs"]
mod demo;

use demo::{harrow_vale_entries, lindmoor_entries};
use figure::Size;
use proptest::prelude::*;
use quantity::Moment;
use record::kinds::KINDS;
use record::{Held, Record};
use screen::live::{self, Before, Card, Look, ShaftScreen};
use std::collections::BTreeSet;
use testkit::{Tablet, at};

/// Everything a screen shows of a shaft, as one text.
fn everything(record: &Record, shaft: &str, at: Moment) -> String {
    let screen = live::shaft(record, shaft, at);
    sound(record, &screen);
    let drawn = screen.drawings.iter().map(|one| one.word);
    let drawn = drawn.filter_map(|word| live::drawing(record, shaft, (at, word), Size::points(420.0, 300.0)));
    let drawn: String = drawn.collect();
    let job = live::job(record, at);
    let told = (
        screen,
        live::findings(record, shaft, at),
        [Before::Drilling, Before::Concrete].map(|before| live::readiness(record, shaft, at, before)),
        live::review(record, shaft, at),
        live::sheet(record, shaft, at),
    );
    format!("{told:?}{}{job:?}{drawn}", job.plan(Size::points(420.0, 300.0), &|shaft| format!("/{shaft}")))
}

/// What holds of every shaft screen.
fn sound(record: &Record, screen: &ShaftScreen) {
    for big in &screen.figures {
        assert!(!big.value.is_empty() && !big.label.is_empty(), "{big:?}");
    }
    for next in &screen.next {
        assert!(record::kinds::kind_of(next.kind).is_some(), "{next:?}");
        assert!(!next.what.is_empty(), "{next:?}");
    }
    for want in cards(screen).flat_map(|card| &card.wants) {
        let kind = record::kinds::kind_of(want.kind).expect("a kind of the record");
        for field in &want.fields {
            assert!(kind.fields.iter().any(|one| one.name == *field), "{want:?}");
        }
    }
    let ids: BTreeSet<String> = record.entries().map(|held| held.id().to_string()).collect();
    for id in cards(screen).flat_map(|card| &card.evidence) {
        assert!(ids.contains(id), "{id} is no entry of the record");
    }
    unique("card", cards(screen).map(|card| card.id.as_str()));
    unique("clock", screen.clocks.iter().map(|clock| clock.id.as_str()));
    unique("figure", screen.figures.iter().map(|big| big.label.as_str()));
    for attention in &screen.attention {
        assert!(cards(screen).any(|card| card.id == attention.card), "{attention:?}");
    }
    assert!(live::newly(&calls(screen), screen).is_empty(), "what was shown does not call again");
}

fn cards(screen: &ShaftScreen) -> impl Iterator<Item = &Card> {
    let all = [&screen.findings, &screen.forecasts, &screen.questions, &screen.doubts, &screen.record];
    all.into_iter().flatten()
}

#[track_caller]
fn unique<'s>(what: &str, ids: impl Iterator<Item = &'s str>) {
    let mut seen = BTreeSet::new();
    for id in ids {
        assert!(seen.insert(id), "two of one {what}: {id}");
    }
}

#[track_caller]
fn no_number_that_is_none(told: &str) {
    for word in ["NaN", "inf ", "inf\"", "-inf"] {
        if let Some(place) = told.find(word) {
            let start = told[..place].char_indices().rev().nth(120).map_or(0, |(index, _)| index);
            panic!("{}", &told[start..place + word.len()]);
        }
    }
}

/// A brief look is the whole look but for the estimates: nothing rings again when they come.
fn the_estimates_alone_wait(brief: ShaftScreen, whole: &ShaftScreen) {
    assert_eq!(without_estimates(&brief), without_estimates(whole));
    assert!(live::newly(&calls(&brief), whole).is_empty());
}

/// A screen without shape, order and the played day.
fn without_estimates(screen: &ShaftScreen) -> ShaftScreen {
    let mut screen = screen.clone();
    let estimate =
        |id: &str| id.starts_with("still_to_order") || ESTIMATED.iter().any(|word| id.starts_with(word));
    screen.figures.retain(|big| !["to_order", "in_time"].contains(&big.word));
    screen.forecasts.retain(|card| !estimate(&card.id));
    screen.doubts.retain(|card| !estimate(&card.id));
    screen.attention.retain(|one| !estimate(&one.card));
    screen.next.retain(|step| !estimate(&step.id));
    ShaftScreen { shape: None, ..screen }
}

fn calls(screen: &ShaftScreen) -> Vec<String> {
    screen.attention.iter().map(|one| one.id.clone()).collect()
}

/// What begins the ids of cards and steps that come from an estimate.
const ESTIMATED: [&str; 6] =
    ["doubt:wide", "doubt:took_less", "doubt:neck_possible", "doubt:misread", "doubt:wrong_ticket", "shape:"];

/// The record after each entry, looked at when that entry was seen; the slow screens after every tenth.
fn every_prefix(entries: &[Held], shaft: &str) {
    for count in 0..=entries.len() {
        let record = Record::of(entries[..count].iter().cloned()).expect("one job");
        let last = entries[..count].last();
        let at = last.map_or(Moment::at(0, 0), |held| match held {
            Held::Known(entry) => entry.observed_at,
            Held::Newer(entry) => entry.observed_at,
        });
        let screen = live::shaft(&record, shaft, at);
        sound(&record, &screen);
        no_number_that_is_none(&format!("{screen:?}"));
        the_estimates_alone_wait(Look::briefly(&record, shaft, at).screen(), &screen);
        if count % 10 == 0 {
            no_number_that_is_none(&everything(&record, shaft, at));
        }
    }
}

#[test]
fn the_long_day_has_a_screen_at_every_prefix() {
    every_prefix(&harrow_vale_entries(), "S-2");
}

#[test]
fn the_day_of_lifts_has_a_screen_at_every_prefix() {
    every_prefix(&lindmoor_entries(), "P-7");
}

#[test]
fn an_empty_record_and_an_unknown_shaft_have_screens() {
    no_number_that_is_none(&everything(&Record::new(), "S-1", Moment::at(0, 0)));
    let record = Record::of(harrow_vale_entries()).expect("one job");
    no_number_that_is_none(&everything(&record, "no such shaft", at("12:00")));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_entries_in_any_order_have_a_screen(
        kinds in prop::collection::vec((0..KINDS.len(), any::<bool>(), 0..36i64), 1..60),
    ) {
        let mut tablet = Tablet::new(1).about(Some("S-2"));
        let entries: Vec<Held> = kinds.into_iter().map(|(kind, full, later)| {
            let body = if full { testkit::full(&KINDS[kind]) } else { testkit::minimal(&KINDS[kind]) };
            let seen = at("10:00").plus_seconds(later * 600);
            Held::Known(tablet.enter(seen, None, seen, body))
        }).collect();
        let record = Record::of(entries).expect("one job");
        no_number_that_is_none(&everything(&record, "S-2", at("16:00")));
    }

    #[test]
    fn a_part_of_the_long_day_has_a_screen_and_the_same_one_each_time(
        kept in prop::collection::vec(any::<bool>(), 190..200),
        minutes in 0..9000i64,
    ) {
        let entries = harrow_vale_entries();
        let part = entries.into_iter().zip(kept.into_iter().cycle());
        let part: Vec<Held> = part.filter_map(|(entry, kept)| kept.then_some(entry)).collect();
        let backwards: Vec<Held> = part.iter().rev().cloned().collect();
        let moment = demo::at("2025-05-12T06:00:00-06:00").plus_seconds(minutes * 60);
        let [told, again] = [part, backwards].map(|part| {
            everything(&Record::of(part).expect("one job"), "S-2", moment)
        });
        no_number_that_is_none(&told);
        prop_assert!(told == again, "the order entries arrive in shows");
    }
}
