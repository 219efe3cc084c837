//! Any bytes, taken for every body that is said over HTTP, by the desk and by a tablet.
//!
//! Must hold: no panic; every line of a delivery that is not blank has one answer, in their order, and what
//! is refused says why; the same delivery again changes nothing; a body that reads is written so that it
//! reads back to the same; a tablet that is sent any page goes on asking. A mutated line seldom has the
//! right hash, so every line is also tried with the device, id and signature made good.

#![no_main]

#[path = "../mended/repaired.rs"]
mod repaired;

use libfuzzer_sys::fuzz_target;
use record::{EntryId, Record};
use repaired::repaired;
use serde::{Serialize, de::DeserializeOwned};
use std::collections::BTreeMap;
use std::convert::Infallible;
use sync::desk::{self, Offered, Shelf, Taken};
use sync::{Answer, Kept, Tablet, What};
use wire::http::{
    Arrived, Hashes, Hello, JobState, Jobs, Missing, Pair, Paired, Pushed, Refusal, SiteClock, State,
};
use wire::Key;

fuzz_target!(|bytes: &[u8]| {
    every_body(bytes);
    let text = String::from_utf8_lossy(bytes);
    delivered(&text);
    let repaired: String = text.lines().filter_map(repaired).map(|line| line + "\n").collect();
    delivered(&repaired);
    pulled(&text);
    pulled(&repaired);
});

fn every_body(bytes: &[u8]) {
    macro_rules! bodies { ($($body:ty),*) => {$( body::<$body>(bytes); )*}; }
    bodies!(Arrived, Hashes, JobState, Jobs, Missing, Pair, Paired, Pushed, Refusal);
    // A speed is read to the last digit or the one before, so these need not come back the same.
    for clock in [
        serde_json::from_slice::<Hello>(bytes).ok().and_then(|hello| hello.clock),
        serde_json::from_slice::<SiteClock>(bytes).ok(),
    ] {
        assert!(clock.is_none_or(|clock| clock.speed.is_finite()));
    }
    if let Some(kept) = std::str::from_utf8(bytes).ok().and_then(Kept::of_text) {
        assert_eq!(Kept::of_text(&kept.to_text()), Some(kept));
    }
}

fn body<T: Serialize + DeserializeOwned>(bytes: &[u8]) {
    let Ok(read) = serde_json::from_slice::<T>(bytes) else { return };
    let once = serde_json::to_string(&read).expect("a body has a form");
    let again: T = serde_json::from_str(&once).expect("what was written reads");
    assert_eq!(serde_json::to_string(&again).expect("a body has a form"), once);
}

fn delivered(text: &str) {
    let mut desk = Desk::default();
    let first = match desk::push(&mut desk, text) {
        Ok(pushed) => pushed,
        Err(never) => match never {},
    };
    let lines: Vec<usize> = text
        .split('\n')
        .enumerate()
        .filter(|(_, line)| !line.trim().is_empty())
        .map(|(at, _)| at + 1)
        .collect();
    assert_eq!(first.answers.iter().map(|answer| answer.line).collect::<Vec<_>>(), lines);
    for answer in &first.answers {
        assert_eq!(answer.state == State::Refused, answer.refusal.is_some());
        if let Some(refusal) = &answer.refusal {
            assert!(refusal.row().is_some() && !refusal.what.is_empty(), "a refusal says why");
        }
    }
    let (kept, last) = (desk.lines.clone(), first.cursor);
    let Ok(second) = desk::push(&mut desk, text);
    assert!(second.answers.iter().all(|answer| answer.state != State::Stored));
    assert_eq!((desk.lines, second.cursor), (kept, last));
}

/// A desk in memory.
#[derive(Default)]
struct Desk {
    /// Job and line, in the order of arrival.
    lines: Vec<(String, String)>,
    ids: BTreeMap<EntryId, String>,
}

impl Shelf for Desk {
    type Trouble = Infallible;

    fn keep(&mut self, entries: Vec<Offered>) -> Result<Vec<Taken>, Infallible> {
        let keep = |Offered { held, line }| match self.ids.get(&held.id()) {
            Some(kept) if *kept == line => Taken::Known,
            Some(_) => Taken::SameId,
            None => {
                self.ids.insert(held.id(), line.clone());
                self.lines.push((held.job().to_owned(), line));
                Taken::Stored
            }
        };
        Ok(entries.into_iter().map(keep).collect())
    }

    fn after(&mut self, job: &str, cursor: u64, limit: usize) -> Result<Vec<(u64, String)>, Infallible> {
        let numbered = (1_u64..).zip(&self.lines).filter(|(arrival, (of, _))| *arrival > cursor && of == job);
        Ok(numbered.take(limit).map(|(arrival, (_, line))| (arrival, line.clone())).collect())
    }

    fn state(&mut self, job: &str) -> Result<JobState, Infallible> {
        let own = (1_u64..).zip(&self.lines).filter(|(_, (of, _))| of == job);
        let (mut entries, mut cursor) = (0, 0);
        own.for_each(|(arrival, _)| (entries, cursor) = (entries + 1, arrival));
        Ok(JobState { job: job.to_owned(), entries, cursor, sum: None })
    }

    fn last(&mut self) -> Result<u64, Infallible> {
        Ok(self.lines.len() as u64)
    }
}

/// A tablet is sent the lines as a page, twice; whatever they are, it asks again.
fn pulled(text: &str) {
    let own = Key::of_secret([9; 32]).device();
    let mut tablet = Tablet::resume("J-1", own, Kept::default(), &Record::new());
    for _ in 0..2 {
        let ask = tablet.ask().expect("nothing is open");
        assert!(matches!(ask.what, What::Pull { .. }), "there is nothing to bring");
        let lines: Vec<String> = text.lines().map(str::to_owned).collect();
        let cursor = lines.len() as u64;
        tablet.heard(ask.number, Answer::Page { lines, cursor, more: true });
        tablet.look();
    }
    assert!(tablet.ask().is_some() && tablet.waiting() == 0);
    let kept = tablet.kept();
    assert_eq!(Kept::of_text(&kept.to_text()), Some(kept));
}
