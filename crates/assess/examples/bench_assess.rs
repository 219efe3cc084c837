//! How long a full shaft takes: folding the record into its log, and assessing it, apart and together.
//!
//! The shaft is made up: 500 entries, 40 loads sounded, 60 tool runs, 60 fluid tests, 20 lifts of a casing.
//! Run: `cargo run --release -p assess --example bench_assess`.
//!
//! Units: milliseconds, the median of all rounds. Never: fail because a machine is slow.

use assess::{Assessment, Rules, assess};
use notes::{Criteria, Source, Surroundings};
use quantity::Moment;
use record::entry::FileHash;
use record::{Held, Log, Record};
use std::hint::black_box;
use std::time::Instant;
use wire::{Key, Pen, Times};

/// The notes of the shaft.
const NOTES: &str = include_str!("../../../benches/full-shaft/notes.toml");

struct Shipped;

impl Surroundings for Shipped {
    fn criteria(&self, key: &str) -> Option<Criteria> {
        let file = FileHash::from_hex(&criteria::Set::shipped(key)?.sha256)?;
        Some(Criteria { file, text: None })
    }
}

fn record() -> Record {
    let source = Source { name: "notes.toml", bytes: NOTES.as_bytes() };
    let notes = notes::read(source, None, &Shipped).expect("the notes are good");
    let key = Key::of_secret([7; 32]);
    let mut pen = Pen::new(&key, "bench", "A. Inspector", None);
    let entered_at = Moment::parse("2025-05-20T12:00:00-06:00").expect("a moment");
    let mut entries = Vec::new();
    notes.write(|drafted, body| {
        let times = Times { observed_at: drafted.observed_at, noted_at: None, entered_at };
        let entry = pen.write(drafted.shaft.as_deref(), times, body);
        let id = entry.id;
        entries.push(Held::Known(entry));
        id
    });
    Record::of(entries).expect("one job")
}

/// The median of many rounds, in milliseconds.
fn median(mut round: impl FnMut()) -> f64 {
    let mut times: Vec<f64> = (0..200)
        .map(|_| {
            let start = Instant::now();
            round();
            start.elapsed().as_secs_f64() * 1000.0
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

fn main() {
    let record = record();
    let log = Log::of(&record, Some("S-1"), None);
    let at = log.end().expect("entries");
    let set = Rules::of(&log).expect("criteria").set;
    let whole = || -> Assessment<'_> { assess(&Log::of(&record, Some("S-1"), Some(at)), &set, at) };
    let found = whole();
    println!(
        "entries {}, findings {}, forecasts {}",
        record.len(),
        found.findings.len(),
        found.forecasts.len()
    );
    println!("fold     {:.3} ms", median(|| drop(black_box(Log::of(&record, Some("S-1"), Some(at))))));
    println!("criteria {:.3} ms", median(|| drop(black_box(Rules::of(&log)))));
    let picture = assess::Picture::of(&log, at);
    println!("picture  {:.3} ms", median(|| drop(black_box(assess::Picture::of(&log, at)))));
    println!("reckon   {:.3} ms", median(|| drop(black_box(assess::Reckoning::of(&log, &picture)))));
    let reckoning = assess::Reckoning::of(&log, &picture);
    let sources = assess::facts::Sources { log: &log, picture: &picture, reckoning: &reckoning };
    println!("facts    {:.3} ms", median(|| drop(black_box(assess::facts::all(&sources)))));
    println!("questions {:.3} ms", median(|| drop(black_box(record::plausible::questions(&log)))));
    println!("assess   {:.3} ms", median(|| drop(black_box(assess(&log, &set, at)))));
    println!("together {:.3} ms", median(|| drop(black_box(whole()))));
}
