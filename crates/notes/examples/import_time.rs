//! How long it takes to read notes of 500 lines: prints the median of 50 readings.
//!
//! `cargo run --release -p notes --example import_time`

use notes::{Nothing, Source, read};
use std::time::Instant;

const HEAD: &str = "[job]\nkey = \"a\"\ndate = 2026-05-01\nauthor = \"A\"\nname = \"A\"\ntime_zone = \"America/Denver\"\n\
    units = \"us\"\nlengths = \"feet_tenths\"\n[[shaft]]\nid = \"S-1\"\nstructure = \"sign\"\ntop = 5280\ntip = 5262\n\
    method = \"wet\"\nbore = \"42 in\"\n[[day]]\ndate = 2026-05-04\nshaft = \"S-1\"\nauthor = \"A\"\nlog = [\n";

fn main() {
    let mut text = HEAD.to_owned();
    for line in 0..500 {
        let (hour, minute) = (7 + line / 60, line % 60);
        text.push_str(&match line % 3 {
            0 => format!("  {{ at = \"{hour:02}:{minute:02}\", entry = \"tool_run\", from = 4, to = \"12'-6\\\"\", tool = \"auger\" }},\n"),
            1 => format!("  {{ at = \"{hour:02}:{minute:02}\", entry = \"concrete_sounded\", points = {{ center = 42.6, north = \"42.4 ft\" }} }},\n"),
            _ => format!("  {{ at = \"{hour:02}:{minute:02}\", entry = \"load_arrived\", ticket = {line}, volume = \"9.5 yd3\", batched = \"06:31\" }},\n"),
        });
    }
    text.push_str("]\n");
    let source = Source { name: "day.toml", bytes: text.as_bytes() };
    let mut times: Vec<f64> = (0..50)
        .map(|_| {
            let begun = Instant::now();
            let notes = read(source, None, &Nothing).expect("these notes are good");
            assert_eq!(notes.drafted.len(), 502);
            begun.elapsed().as_secs_f64() * 1000.0
        })
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{} bytes, 502 entries: {:.2} ms", text.len(), times[25]);
}
