//! What only many shafts show, asked for on the command line.

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;

use desk::{Desk, demo, sorted};
use expect_test::expect;
use serde_json::Value;

/// The demo jobs entered.
fn jobs() -> Desk {
    let desk = Desk::new();
    for job in ["harrow-vale", "lindmoor", "printed"] {
        let notes = sorted(&demo(job), ".toml");
        let words: Vec<&str> = ["enter"].into_iter().chain(notes.iter().map(String::as_str)).collect();
        desk.run(&[&words[..], &["--job", job]].concat()).ends(0);
    }
    desk
}

#[test]
fn three_jobs_side_by_side() {
    expect![[r#"

        What shafts took over the drawing
        Placed over theoretical, of shafts whose pour is over. The interval holds the mean of such shafts
        nine times in ten; ground, method and crew are seldom apart in a few shafts, so no line says why.
          All together:
            every shaft whose pour is over: 1.10 (1.03–1.18); 5 shafts; from shaft to shaft ± 0.07
          By ground:
            fill: 1.09 (0.90–1.28); 3 shafts; from shaft to shaft ± 0.11
            clay: 1.03 (1.01–1.06); 3 shafts; from shaft to shaft ± 0.00
            silt: 1.04 ± 0.01; 1 shaft; one alone says little of the next
            sand: 1.31 ± 0.02; 1 shaft; one alone says little of the next
            gravel: 1.00 ± 0.01; 1 shaft; one alone says little of the next
            weathered rock: 1.09 ± 0.02; 1 shaft; one alone says little of the next
          By method:
            wet: 1.12 (1.01–1.22); 4 shafts; from shaft to shaft ± 0.08
            temporary casing: 1.06 ± 0.01; 1 shaft; one alone says little of the next
          By crew:
            B. Stell: 1.03 ± 0.01; 1 shaft; one alone says little of the next
            J. Hollins: 1.09 ± 0.01; 1 shaft; one alone says little of the next
            L. Moosbauer: 1.06 ± 0.01; 1 shaft; one alone says little of the next

        Concrete
        By tickets and what was written beside them. An order nobody wrote down is not counted as none.
          All shafts:
            Ordered: 6.00 yd³; 1 shaft; 5 without a figure
            Delivered: 163.16 yd³; 6 shafts
            Placed: 152.51 yd³; 6 shafts
            Sent back: 6.00 yd³; 6 shafts
            Wasted or left in lines: 4.65 yd³; 6 shafts
            Theoretical, as far as sounded: 137.94 yd³; 6 shafts

        Where the hours went
        Between two written moments; a shaft that lacks one of them is not counted.
          Half of the shafts took less:
            Drilling: first tool in to bottom reached: 6 h 15 min; 4 shafts; from 2 h 38 min to 8 h 10 min
            Cleaning: bottom reached to bottom accepted: 2 h 3 min; 4 shafts; from 1 h 16 min to 19 h 10 min
            Waiting: bottom accepted and cage set to first concrete: 21 min; 4 shafts; from 14 min to 22 min
            Pour: first concrete to last: 1 h 10 min; 6 shafts; from 19 min to 2 h 46 min

        Fluid and fresh concrete
        From the lowest reading to the highest, of all shafts. What a reading was held against stands in the
        drawing.
          Fluid:
            Density: 62.6 pcf to 71.2 pcf; 17 readings of 3 shafts
            Marsh time of a quart: 36 s to 58 s; 17 readings of 3 shafts
            pH: 8.9 to 9.8; 17 readings of 3 shafts
            Sand: 0.0 % to 6.0 %; 17 readings of 3 shafts; 1 of them fails
          Fresh concrete:
            Slump: 3 1/2 in to 8 1/4 in; 15 readings of 4 shafts; 1 of them fails
            Spread: 23 1/4 in; 1 reading of 1 shaft

        What fails, and how often
        Findings of all shafts by the criterion they come from, the one that fails most often first.
          Criteria in force:
            Interval against the shaft's own running ratio: fails 11, 8 open; meets 4; 0 not measured or not
              to be judged
            Concrete only after cage and bottom are accepted: fails 2, 2 open; meets 3; 0 not measured or
              not to be judged
            Slump until the casing is out and every insert is in: fails 1; meets 2; 2 not measured or not to
              be judged
            Slump when placed, as approved for mix DS-4000: fails 1; meets 8; 1 not measured or not to be
              judged
            Sand, as approved for fluid Mirgolit 60: fails 1; meets 3; 0 not measured or not to be judged
            Line never jerked to speed the discharge: fails 1; meets 1; 0 not measured or not to be judged
            Ticket checked: batch time: never failed; meets 9; 8 not measured or not to be judged
            Ticket checked: mix: never failed; meets 9; 8 not measured or not to be judged
            Ticket checked: revolutions: never failed; meets 9; 8 not measured or not to be judged
            Ticket checked: water-cement ratio: never failed; meets 9; 8 not measured or not to be judged
            Depth of the bottom sounded and recorded: never failed; meets 3; 2 not measured or not to be
              judged
            Bottom at the required tip or deeper: never failed; meets 3; 2 not measured or not to be judged
            Fluid sampled and tested at the time of concreting: never failed; meets 2; 2 not measured or not
              to be judged
            Fluid within its limits at the time of concreting: never failed; meets 2; 2 not measured or not
              to be judged
            Over-pour until good concrete shows: never failed; meets 3; 2 not measured or not to be judged
            Discharge end near the bottom at the start: never failed; meets 2; 2 not measured or not to be
              judged
            Tremie or pump line watertight: never failed; meets 2; 2 not measured or not to be judged
            Sediment at the worst point: never failed; meets 3; 2 not measured or not to be judged
            Sediment measured and recorded: never failed; meets 3; 2 not measured or not to be judged
            All construction tolerances checked: never failed; meets 3; 2 not measured or not to be judged
            Concrete temperature, as approved for mix DS-4000: never failed; meets 9; 1 not measured or not
              to be judged
            103 criteria more: never failed; meets 269; 0 not measured or not to be judged

        Who wrote, and how late
        From seeing to writing down. It says when something was written, not how good the work was.
          Authors:
            R. Quill: 3 late, the longest after 5 h 15 min; 271 entries; half of them written down at once;
              the last 2025-05-21 10:40
            B. Ostrang: none late; 2 entries; half of them written down at once; the last 2025-07-02 09:00
            D. Pike: none late; 4 entries; half of them written down at once; the last 2025-05-13 15:30
            F. Tiefenfeld: none late; 1 entry; half of them written down at once; the last 2025-06-02 19:22
            I. Vane: none late; 11 entries; half of them written down at once; the last 2025-06-17 16:05
            K. Aumer: none late; 131 entries; half of them written down at once; the last 2025-06-16 13:20
            M. Oakes: none late; 19 entries; half of them written down at once; the last 2025-06-17 15:10
            S. Reitmoos: none late; 6 entries; half of them written down at once; the last 2025-06-30 10:12
            T. Ashgrove: none late; 53 entries; half of them written down at once; the last 2025-05-21 08:50
            desk: none late; 38 entries; half of them written down at once; the last 2025-01-08 11:16
    "#]]
    .assert_eq(&jobs().says("compare harrow-vale lindmoor printed").ends(0).out);
}

#[test]
fn each_figure_leads_to_its_shafts_and_entries() {
    let desk = jobs();
    desk.says("compare harrow-vale --places").ends(0).says("harrow-vale S-2: 1.31 ± 0.02");
    let told = desk.says("compare harrow-vale --json").ends(0).json();
    let log = desk.says("log S-2 --json --job harrow-vale").ends(0).json();
    let written: Vec<&Value> = log.as_array().expect("lines").iter().map(|line| &line["entry"]).collect();
    let of_sand = told["taken"].as_array().expect("groups").iter().find(|one| one["what"] == "sand");
    let part = &of_sand.expect("S-2 met sand")["parts"][0];
    assert_eq!(part["place"]["shaft"], "S-2");
    let entries = part["entries"].as_array().expect("entries");
    assert!(entries.len() > 5 && entries.iter().all(|entry| written.contains(&entry)), "{entries:?}");
}

#[test]
fn concrete_adds_up_to_what_each_shaft_says() {
    let desk = jobs();
    let told = desk.says("compare harrow-vale --json").ends(0).json();
    let placed: f64 =
        told["concrete"].as_array().expect("shafts").iter().filter_map(|one| one["placed_m3"].as_f64()).sum();
    let check = desk.says("check --json --job harrow-vale").json();
    let each = check.as_array().expect("shafts").iter();
    let sum: f64 =
        each.filter_map(|shaft| shaft["figures"]["payment"]["concrete"]["placed_m3"].as_f64()).sum();
    assert!(sum > 10.0 && (placed - sum).abs() < 1e-9, "{placed} beside {sum}");
}

#[test]
fn a_folder_that_is_no_job_is_named() {
    jobs().says("compare harrow-vale nowhere").ends(1).says("nowhere");
}

#[test]
fn the_drawings_are_files_in_which_nothing_leads_anywhere() {
    let desk = jobs();
    desk.says("compare harrow-vale lindmoor --draw pictures").ends(0).says("across-fluid.svg");
    for word in ["taken", "fluid", "fresh", "concrete", "hours"] {
        let svg = desk.read(&format!("pictures/across-{word}.svg"));
        assert!(svg.starts_with("<svg") && !svg.contains("<a "), "{word}: {svg}");
        assert!(svg.contains("S-2") || word == "taken", "{word} names its shafts: {svg}");
    }
}

#[test]
fn readings_say_where_they_were_taken_and_what_they_were_held_against() {
    let told = jobs().says("compare harrow-vale --json").ends(0).json();
    let all = |part: &str| told[part].as_array().expect("a list").clone();
    let sand: Vec<Value> = all("readings").into_iter().filter(|one| one["measure"] == "sand").collect();
    let failed = sand.iter().find(|one| one["outcome"] == "fails").expect("sand failed at S-2");
    assert_eq!((&failed["from"], &failed["place"]["shaft"]), (&Value::from("hole"), &Value::from("S-2")));
    let limits: Vec<Value> = all("limits").into_iter().filter(|one| one["measure"] == "sand").collect();
    let held =
        limits.iter().any(|one| one["is"] == "most" && one["value"].as_f64() < failed["value"].as_f64());
    assert!(held, "{limits:?}");
    assert!(all("readings").iter().any(|one| one["measure"] == "slump_m" && one["ticket"].is_string()));
}
