//! Other shafts: printed pours, a casing pulled from wet concrete, a pour of eight trucks.

use super::Story;

const JOB: &str = r##"
[job]
key = "story"
date = 2031-05-01
author = "A. Inspector"
name = "Worked cases"
time_zone = "America/Denver"
units = "us"
lengths = "feet_tenths"
rehearsal = true

[criteria]
set = "fhwa-aashto-style-1"
"##;

const DAY: &str = "\n[[day]]\ndate = 2031-05-07\nshaft = \"S-1\"\nauthor = \"A. Inspector\"\n";

fn story(shaft: &str, log: &[String]) -> Story {
    let lines: Vec<&str> = log.iter().map(String::as_str).collect();
    Story::new("S-1", &format!("{JOB}{shaft}{DAY}"), &lines)
}

/// A pour as a training text prints it: loads, and a depth with an elevation after each. Nothing else.
pub fn printed(reference: f64, tip: f64, loads: &[(f64, f64, f64)]) -> Story {
    let shaft = format!(
        "[[shaft]]\nid = \"S-1\"\nstructure = \"bridge\"\ntop = {reference:.1}\ntip = {tip:.1}\nmethod = \"wet\"\nbore = \"42 in\"\n"
    );
    let mut log = vec![format!(
        r#"{{ at = "07:00", entry = "reference_set", name = "top", elevation = {reference:.1} }}"#
    )];
    for (index, (volume, depth, elevation)) in loads.iter().enumerate() {
        let (hour, ticket) = (8 + index, index + 1);
        log.push(format!(
            r#"{{ at = "{hour:02}:00", entry = "load_arrived", ticket = {ticket}, volume = {volume:.1} }}"#
        ));
        log.push(format!(
            r#"{{ at = "{hour:02}:30", entry = "concrete_sounded", after = {ticket}, depth = {depth:.1}, elevation = {elevation:.1} }}"#
        ));
    }
    story(&shaft, &log)
}

/// A casing of 47 in inside and 48 in outside in a 50 in hole, 25 ft deep; concrete 1 ft below its top.
pub fn casing() -> Story {
    let shaft = "[[shaft]]\nid = \"S-1\"\nstructure = \"bridge\"\nground = 100.0\ntop = 100.0\ntip = 40.0\ngroundwater = 94.0\nmethod = \"temporary_casing\"\nbore = \"50 in\"\n";
    let mut log: Vec<String> = [
        r#"{ at = "07:00", entry = "reference_set", name = "top of casing", elevation = 100.0 }"#,
        r#"{ at = "07:10", entry = "casing_set", name = "outer", stay = "temporary", outside = 48, inside = 47, top = 100.0, shoe = 25 }"#,
        r#"{ at = "08:00", entry = "bottom_sounded", purpose = "before_concrete", points = { center = 60 } }"#,
        r#"{ at = "09:00", entry = "load_arrived", ticket = 1, volume = 29 }"#,
        r#"{ at = "09:10", entry = "discharge_started", ticket = 1 }"#,
        r#"{ at = "09:40", entry = "discharge_ended", ticket = 1 }"#,
        r#"{ at = "09:45", entry = "concrete_sounded", after = 1, depth = 1.0 }"#,
    ]
    .map(str::to_owned)
    .to_vec();
    for (minute, shoe) in [(50, 20), (52, 15), (54, 10), (56, 5)] {
        log.push(format!(
            r#"{{ at = "09:{minute}", entry = "casing_lifted", name = "outer", shoe = {shoe} }}"#
        ));
    }
    log.push(r#"{ at = "09:58", entry = "casing_out", name = "outer" }"#.to_owned());
    story(shaft, &log)
}

/// Eight trucks, one every 20 minutes, 15 minutes each, 45 minutes of haul; casing out 30 minutes after the last.
pub fn eight_trucks(late: i64) -> Story {
    let shaft = "[[mix]]\nmix = \"M\"\nslump_end = 5\ntrial = [ { age = 0, slump = 8 }, { age = \"240 min\", slump = 5 }, { age = \"300 min\", slump = 3 } ]\n\n[[shaft]]\nid = \"S-1\"\nstructure = \"bridge\"\ntop = 100.0\ntip = 40.0\nmethod = \"temporary_casing\"\nbore = \"48 in\"\nmix = \"M\"\n\n[shaft.pour]\nduration = \"155 min\"\nafter = \"30 min\"\n";
    let clock = |minutes: i64| format!("{:02}:{:02}", minutes / 60, minutes % 60);
    let mut log = vec![
        r#"{ at = "07:00", entry = "reference_set", name = "top", elevation = 100.0 }"#.to_owned(),
        r#"{ at = "07:10", entry = "casing_set", name = "outer", stay = "temporary", outside = 48, wall = "1/2 in", top = 100.0, shoe = 20 }"#.to_owned(),
    ];
    for truck in 0..8 {
        let start = 600 + 20 * truck + if truck == 7 { late } else { 0 };
        let (batched, ticket) = (clock(start - 45), truck + 1);
        log.push(format!(r#"{{ at = "{}", entry = "load_arrived", ticket = {ticket}, mix = "M", volume = 4, batched = "{batched}" }}"#, clock(start - 2)));
        log.push(format!(r#"{{ at = "{}", entry = "discharge_started", ticket = {ticket} }}"#, clock(start)));
        log.push(format!(
            r#"{{ at = "{}", entry = "discharge_ended", ticket = {ticket} }}"#,
            clock(start + 15)
        ));
    }
    let end = 600 + 140 + late + 15;
    log.push(format!(r#"{{ at = "{}", entry = "over_poured", good = true }}"#, clock(end)));
    log.push(format!(r#"{{ at = "{}", entry = "casing_out", name = "outer" }}"#, clock(end + 30)));
    story(shaft, &log)
}
