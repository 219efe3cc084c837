//! How long it takes to read notes of 500 lines: prints the median of 50 readings.
//!
//! `cargo run --release -p notes --example import_time`

use notes::{Nothing, Source, read};
use std::time::Instant;

const HEAD: &str = r#"
job = { key = "a", date = 2026-05-01, author = "A", name = "A", time_zone = "America/Denver",
        units = "us", lengths = "feet_tenths" }
shaft = { id = "S-1", structure = "sign", top = 5280, tip = 5262, method = "wet", bore = "42 in" }
[[day]]
date = 2026-05-04
shaft = "S-1"
author = "A"
log = [
"#;
const RUN: &str = r#"entry = "tool_run", from = 4, to = "12'-6", tool = "auger""#;
const SOUNDING: &str = r#"entry = "concrete_sounded", points = { center = 42.6, north = "42.4 ft" }"#;
const LOAD: &str = r#"entry = "load_arrived", ticket = 4411, volume = "9.5 yd3", batched = "06:31""#;

fn main() {
    let mut text = HEAD.to_owned();
    for line in 0..500 {
        let fields = [RUN, SOUNDING, LOAD][line % 3];
        text.push_str(&format!("  {{ at = \"{:02}:{:02}\", {fields} }},\n", 7 + line / 60, line % 60));
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
