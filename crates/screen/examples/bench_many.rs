//! How long a job of hundreds of shafts takes: reckoned shaft by shaft, put together, drawn, and again after one entry.
//!
//! The shafts are rehearsals of all scenarios, each from a seed of its own, put into one job.
//! Run: `cargo run --release -p screen --example bench_many`; with the name of a file behind it, the record is written
//! there too, for a desk to serve.
//!
//! Units: milliseconds. Never: fail because a machine is slow.

use quantity::Moment;
use record::entry::FileHash;
use record::field::UnitSystem;
use record::{Held, Record};
use rehearse::day::{AUTHOR, Chosen, Day, SHAFT, Which, set_of};
use rehearse::scenario::Scenario;
use screen::live::{AcrossScreen, OfficeScreen, Reckoned, ReckonedJob, touched};
use std::time::Instant;
use wire::{Key, Pen, Times};

const SHAFTS: usize = 320;
const JOB: &str = "rehearsal-many";

fn day(scenario: Scenario, seed: u64) -> Option<Day> {
    let set = set_of(UnitSystem::Us);
    let file = FileHash::from_hex(&criteria::Set::shipped(set)?.sha256)?;
    let chosen = Chosen { set: set.to_owned(), file };
    Day::of(Which { seed, scenario, system: UnitSystem::Us }, Some(&chosen)).ok()
}

/// Entries of so many shafts in the order written; the last is one entry more.
fn entries() -> Vec<Held> {
    let key = Key::of_secret([9; 32]);
    let mut pen = Pen::new(&key, JOB, AUTHOR, None);
    let mut all = Vec::new();
    let scenarios = (1..).flat_map(|seed| Scenario::all().map(move |scenario| (scenario, seed)));
    for (index, day) in scenarios.filter_map(|(scenario, seed)| day(scenario, seed)).take(SHAFTS).enumerate()
    {
        let name = format!("P-{:03}", index + 1);
        // What is about the whole job is said once.
        let own = |shaft: Option<&str>| shaft == Some(SHAFT) || index == 0;
        for said in day.said.iter().filter(|said| own(said.shaft)) {
            let at = said.observed_at;
            let times = Times { observed_at: at, noted_at: None, entered_at: at };
            let shaft = said.shaft.map(|_| name.as_str());
            all.push(Held::Known(pen.write(shaft, times, said.body.clone())));
        }
    }
    all
}

fn timed<T>(what: &str, work: impl FnOnce() -> T) -> T {
    let start = Instant::now();
    let done = work();
    println!("{what:52} {:9.1} ms", start.elapsed().as_secs_f64() * 1000.0);
    done
}

fn reckoned(record: &Record, at: Moment) -> Vec<Reckoned> {
    record.shafts().into_iter().map(|shaft| Reckoned::of(record, shaft, at)).collect()
}

fn main() {
    let mut entries = entries();
    let last = entries.pop().expect("entries");
    let end = entries.iter().filter_map(|held| match held {
        Held::Known(entry) => Some(entry.observed_at),
        Held::Newer(_) => None,
    });
    let at = end.max().expect("entries");
    let before = Record::of(entries.clone()).expect("one job");
    let now = Record::of(entries.into_iter().chain([last])).expect("one job");
    if let Some(path) = std::env::args().nth(1) {
        std::fs::write(&path, wire::write_lines(&now)).expect("the file can be written");
    }
    println!("{SHAFTS} shafts, {} entries", before.len());
    let mut all = timed("every shaft reckoned, one after the other", || reckoned(&before, at));
    let start = Instant::now();
    let longest = before.shafts().into_iter().map(|shaft| {
        let start = Instant::now();
        std::hint::black_box(Reckoned::of(&before, shaft, at));
        start.elapsed().as_secs_f64() * 1000.0
    });
    let longest = longest.fold(0.0, f64::max);
    println!("{:52} {longest:9.1} ms", "the longest of them: what a finger may wait");
    println!("{:52} {:9.1} ms", "all of them again", start.elapsed().as_secs_f64() * 1000.0);
    let refs: Vec<&Reckoned> = all.iter().collect();
    let screen = timed("put together", || AcrossScreen::together(&[&before], &refs, at));
    for word in ["taken", "concrete", "hours", "readings"] {
        let drawn = timed(&format!("drawn: {word}"), || screen.drawings(word, 640.0, &|_| "/way".to_owned()));
        println!("{:52} {:9} kB", "", drawn.iter().map(String::len).sum::<usize>() / 1000);
    }
    timed("the page of all jobs put together", || {
        OfficeScreen::together(&[ReckonedJob { record: &before, shafts: &all, at }], &|_, shaft| {
            shaft.to_owned()
        })
    });
    timed("after one entry more: what it touches, reckoned", || {
        let touched = touched(&before, &now).expect("an entry of a shaft");
        for one in all.iter_mut().filter(|one| touched.contains(&one.row.name)) {
            *one = Reckoned::of(&now, &one.row.name, at);
        }
    });
}
