//! How long the screens of a full shaft take, beside the assessment they rest on.
//!
//! The shaft is made up: 500 entries, 40 loads sounded, 60 tool runs, 60 fluid tests, 20 lifts of a casing.
//! Run: `cargo run --release -p screen --example bench_screen`.
//!
//! Units: milliseconds, the median of all rounds. Never: fail because a machine is slow.

use assess::{Rules, assess};
use figure::Size;
use notes::{Criteria, Source, Surroundings};
use quantity::Moment;
use record::entry::FileHash;
use record::{Held, Log, Record};
use screen::live;
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
    let screen = live::shaft(&record, "S-1", at);
    println!("entries {}, findings {:?}, next {}", record.len(), screen.counts, screen.next.len());
    let told = |what: &str, round: &mut dyn FnMut()| println!("{what:24} {:8.3} ms", median(round));
    told("rules", &mut || _ = black_box(Rules::of(&log)));
    told("fold", &mut || _ = black_box(Log::of(&record, Some("S-1"), Some(at))));
    told("fold, rules and assess", &mut || {
        let log = Log::of(&record, Some("S-1"), Some(at));
        let set = Rules::of(&log).map_or_else(|_| set.clone(), |rules| rules.set);
        black_box(assess(&log, &set, at));
    });
    told("screen of the shaft", &mut || _ = black_box(live::shaft(&record, "S-1", at)));
    told("all findings", &mut || _ = black_box(live::findings(&record, "S-1", at)));
    told("screen of the job", &mut || _ = black_box(live::job(&record, at)));
    told("readiness", &mut || _ = black_box(live::readiness(&record, "S-1", at, live::Before::Concrete)));
    told("review", &mut || _ = black_box(live::review(&record, "S-1", at)));
    told("sheet", &mut || _ = black_box(live::sheet(&record, "S-1", at)));
    let size = Size::points(560.0, 700.0);
    let drawn = ("section", Size::points(560.0, 700.0));
    told("shaft with section", &mut || _ = black_box(live::shaft_drawn(&record, "S-1", at, drawn)));
    told("section", &mut || _ = black_box(live::drawing(&record, "S-1", (at, "section"), size)));
    told("day", &mut || _ = black_box(live::drawing(&record, "S-1", (at, "day"), size)));
}
