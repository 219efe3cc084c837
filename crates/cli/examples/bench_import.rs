//! How long a long day of notes takes to come in: 500 lines read, signed, kept on the disk, and opened again.
//!
//! Prints `what: milliseconds`, the median of several runs.

use notes::{Notes, Nothing, Source};
use record::{Held, Record};
use std::fmt::Write;
use std::time::Instant;
use store::{Sqlite, Store};
use wire::{Key, Pen, Times};

const LINES: usize = 500;
const RUNS: usize = 11;
const KEY: [u8; 32] = [7; 32];

/// A made-up job with a day of so many lines: tool runs and fluid levels in turn.
fn day() -> String {
    let mut text = String::from(
        "[job]\nkey = \"bench\"\ndate = 2026-05-01\nauthor = \"A. Fenwick\"\nname = \"Bench\"\n\
         time_zone = \"America/Denver\"\nunits = \"us\"\nlengths = \"feet_tenths\"\n\n\
         [[shaft]]\nid = \"S-1\"\nstructure = \"sign\"\ntop = \"100.0 ft\"\ntip = \"0.0 ft\"\nmethod = \"wet\"\n\
         bore = \"42 in\"\n\n[[day]]\ndate = 2026-05-04\nshaft = \"S-1\"\nauthor = \"A. Fenwick\"\nlog = [\n",
    );
    for line in 0..LINES {
        let (hour, minute, feet) = (6 + line / 60, line % 60, line / 5);
        let kind = if line % 2 == 0 { "entry = \"tool_run\", to" } else { "entry = \"fluid_level\", depth" };
        writeln!(text, "  {{ at = \"{hour:02}:{minute:02}\", {kind} = \"{feet}'-6 1/2\\\"\" }},")
            .expect("a text takes what is written to it");
    }
    text + "]\n"
}

fn read(text: &str) -> Notes {
    let source = Source { name: "day.toml", bytes: text.as_bytes() };
    notes::read(source, None, &Nothing).unwrap_or_else(|mistakes| panic!("{}", mistakes[0]))
}

fn sign(notes: &Notes) -> Vec<Held> {
    let key = Key::of_secret(KEY);
    let mut pen = Pen::new(&key, &notes.context.key, "A. Fenwick", None);
    let mut held = Vec::new();
    notes.write(|draft, body| {
        let at = draft.observed_at;
        let entry = pen.write(
            draft.shaft.as_deref(),
            Times { observed_at: at, noted_at: None, entered_at: at },
            body,
        );
        let id = entry.id;
        held.push(Held::Known(entry));
        id
    });
    held
}

fn keep(entries: &[Held]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let mut store = Sqlite::open(&folder.path().join("record.sqlite")).expect("a store");
    store.add(entries).expect("kept");
    folder
}

fn open(folder: &tempfile::TempDir) -> Record {
    let store = Sqlite::open(&folder.path().join("record.sqlite")).expect("a store");
    store.record("bench").expect("every line proved")
}

/// Runs something several times and prints the median.
fn measure<T>(what: &str, run: impl Fn() -> T) {
    let mut times: Vec<f64> = (0..RUNS)
        .map(|_| {
            let start = Instant::now();
            std::hint::black_box(run());
            start.elapsed().as_secs_f64() * 1000.0
        })
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{what}: {:.2} ms", times[RUNS / 2]);
}

fn main() {
    let text = day();
    let notes = read(&text);
    let entries = sign(&notes);
    let folder = keep(&entries);
    assert_eq!(open(&folder).len(), entries.len());
    measure("import 500 lines: read", || read(&text));
    measure("import 500 lines: sign", || sign(&notes));
    measure("import 500 lines: keep on the disk", || keep(&entries));
    measure("import 500 lines: all of it", || keep(&sign(&read(&text))));
    measure("open a record of 500 lines, every signature proved", || open(&folder));
}
