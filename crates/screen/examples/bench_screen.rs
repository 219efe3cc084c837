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

const HEAD: &str = r##"
[job]
key = "bench"
date = 2031-05-01
author = "A. Inspector"
name = "A shaft to measure"
time_zone = "America/Denver"
units = "us"
lengths = "feet_tenths"
rehearsal = true
[criteria]
set = "fhwa-aashto-style-1"
[[mix]]
mix = "M"
strength = 4000
slump_end = 4
w_cm = 0.44
aggregate = "3/8 in"
trial = [ { age = 0, slump = 8.5 }, { age = "240 min", slump = 6 }, { age = "600 min", slump = 4 } ]
[[shaft]]
id = "S-1"
structure = "bridge"
ground = 100.0
top = 100.0
tip = -100.0
groundwater = 90.0
method = "wet"
bore = "72 in"
mix = "M"
[shaft.cage]
length = 199
diameter = "60 in"
bars = { count = 24, size = "#11" }
hoops = { sort = "hoops", size = "#5", spacing = 12 }
top = 99.0
tubes = { count = 6, inside = 2 }
[[day]]
date = 2031-05-07
shaft = "S-1"
author = "A. Inspector"
"##;

struct Shipped;

impl Surroundings for Shipped {
    fn criteria(&self, key: &str) -> Option<Criteria> {
        let file = FileHash::from_hex(&criteria::Set::shipped(key)?.sha256)?;
        Some(Criteria { file, text: None })
    }
}

fn clock(minute: usize) -> String {
    format!("{:02}:{:02}", minute / 60, minute % 60)
}

/// The lines of the log, in the order written.
fn lines() -> Vec<String> {
    let mut lines = vec![
        r#"{ at = "00:01", entry = "reference_set", name = "top", elevation = 100.0 }"#.to_owned(),
        r#"{ at = "00:02", entry = "casing_set", name = "outer", stay = "temporary", outside = 74, inside = 73, top = 100.0, shoe = 60 }"#.to_owned(),
        r#"{ at = "00:03", entry = "fluid_introduced", product = "Slurry", fluid = "mineral" }"#.to_owned(),
    ];
    for run in 0..60 {
        let (from, to) = (run as f64 * 200.0 / 60.0, (run + 1) as f64 * 200.0 / 60.0);
        let (at, out) = (clock(5 + 8 * run), clock(11 + 8 * run));
        lines.push(format!(r#"{{ at = "{at}", entry = "tool_run", out = "{out}", from = {from:.2}, to = {to:.2}, material = "clay" }}"#));
        lines.push(format!(r#"{{ at = "{at}", entry = "fluid_level", depth = 2, groundwater = 10 }}"#));
        lines.push(format!(r#"{{ at = "{out}", entry = "fluid_test", place = "hole", depth = {from:.1}, stage = "drilling", density = "66 pcf", viscosity = "38 s/qt", ph = 9, sand = 1 }}"#));
    }
    lines.push(r#"{ at = "08:20", entry = "bottom_reached", depth = 200 }"#.to_owned());
    lines.push(r#"{ at = "08:30", entry = "bottom_sounded", purpose = "before_concrete", points = { center = 200, north = 200, south = 200, east = 200, west = 200 } }"#.to_owned());
    lines.push(r#"{ at = "08:31", entry = "sediment_measured", points = { center = "1/2 in", north = 0, south = 0 } }"#.to_owned());
    lines.push(r#"{ at = "08:32", entry = "bottom_accepted", by = "R. Ferrow" }"#.to_owned());
    lines.push(r#"{ at = "08:40", entry = "line_made_up", name = "tremie", line = "tremie", inside = 10, pieces = [ { length = 10, count = 20 } ], tip = 199.5, watertight = true }"#.to_owned());
    for load in 0..40 {
        let (at, ticket) = (540 + 10 * load, load + 1);
        let depth = 200.0 - (load + 1) as f64 * 4.9;
        lines.push(format!(r#"{{ at = "{}", entry = "load_arrived", ticket = {ticket}, mix = "M", volume = 5.3, batched = "{}", water = 1400, cementitious = 3500, ticket_checked = true }}"#, clock(at - 5), clock(at - 45)));
        lines.push(format!(
            r#"{{ at = "{}", entry = "concrete_test", ticket = {ticket}, slump = 8 }}"#,
            clock(at - 2)
        ));
        lines.push(format!(r#"{{ at = "{}", entry = "discharge_started", ticket = {ticket} }}"#, clock(at)));
        lines.push(format!(
            r#"{{ at = "{}", entry = "discharge_ended", ticket = {ticket}, revolutions = 120 }}"#,
            clock(at + 6)
        ));
        lines.push(format!(
            r#"{{ at = "{}", entry = "concrete_sounded", after = {ticket}, depth = {depth:.1} }}"#,
            clock(at + 7)
        ));
        if load >= 4 {
            lines.push(format!(
                r#"{{ at = "{}", entry = "tip_moved", name = "tremie", tip = {:.1}, slowly = true }}"#,
                clock(at + 8),
                depth + 15.0
            ));
        }
    }
    for lift in 0..20 {
        lines.push(format!(
            r#"{{ at = "{}", entry = "casing_lifted", name = "outer", shoe = {} }}"#,
            clock(960 + 2 * lift),
            58 - 2 * lift
        ));
    }
    while lines.len() < 500 {
        let at = clock(1010 + lines.len() % 60);
        lines.push(format!(r#"{{ at = "{at}", entry = "remark", text = "quiet" }}"#));
    }
    lines
}

fn record() -> Record {
    let text = format!("{HEAD}log = [\n{}\n]\n", lines().join(",\n"));
    let source = Source { name: "bench.toml", bytes: text.as_bytes() };
    let notes = notes::read(source, None, &Shipped).expect("the notes are good");
    let key = Key::of_secret([7; 32]);
    let mut pen = Pen::new(&key, "bench", "A. Inspector", None);
    let entered_at = Moment::parse("2031-05-20T12:00:00-06:00").expect("a moment");
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
