//! `--json` prints nothing that docs/json.md does not name.

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;

use desk::{Desk, demo, sorted};
use serde_json::Value;
use std::collections::BTreeSet;

/// Every member of a value, however deep. What a person entered (`body`) is described with the kinds of entries.
fn members(value: &Value, found: &mut BTreeSet<String>) {
    match value {
        Value::Array(items) => items.iter().for_each(|item| members(item, found)),
        Value::Object(object) => {
            for (name, inner) in object {
                found.insert(name.clone());
                if name != "body" {
                    members(inner, found);
                }
            }
        }
        _ => {}
    }
}

/// A desk with the demo jobs entered: between them they have a figure of every topic.
fn demos() -> Desk {
    let desk = Desk::new();
    for (job, folder) in [("us", "harrow-vale"), ("metric", "lindmoor"), ("printed", "printed")] {
        let notes = sorted(&demo(folder), ".toml");
        let words: Vec<&str> = ["enter"].into_iter().chain(notes.iter().map(String::as_str)).collect();
        desk.run(&[&words[..], &["--job", job]].concat()).ends(0);
    }
    desk
}

#[test]
fn every_member_is_named_on_the_page() {
    let page = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/json.md"))
        .expect("the page");
    let desk = demos();
    let mut found = BTreeSet::new();
    for job in ["us", "metric", "printed"] {
        for line in ["check --json", "shafts --json", "limits --json"] {
            members(&desk.says(&format!("{line} --job {job}")).ends(0).json(), &mut found);
        }
        members(&desk.says(&format!("verify {job} --json")).ends(0).json(), &mut found);
        members(&desk.says(&format!("inspect {job} --json")).ends(0).json(), &mut found);
    }
    members(&desk.says("compare us metric printed --json").ends(0).json(), &mut found);
    for line in ["log S-2 --json --job us", "kinds --json", "limits --json"] {
        members(&desk.says(line).ends(0).json(), &mut found);
    }
    let unnamed: Vec<&String> = found.iter().filter(|name| !page.contains(&format!("`{name}`"))).collect();
    assert!(unnamed.is_empty(), "docs/json.md does not name {unnamed:?}");
    assert!(found.len() > 150, "the demo jobs reach the figures: {}", found.len());
}

/// Every topic of the reckoning is there for some shaft of the demo jobs, and filled.
#[test]
fn every_topic_has_figures() {
    let desk = demos();
    let all: Vec<Value> = ["us", "metric"]
        .iter()
        .flat_map(|job| {
            desk.says(&format!("check --json --job {job}")).json().as_array().expect("a list").clone()
        })
        .collect();
    let filled = |value: &Value| !value.is_null() && value.as_array().is_none_or(|items| !items.is_empty());
    let topics = [
        "hole",
        "curve",
        "pour",
        "embedment",
        "lifts",
        "slump_life",
        "tickets",
        "fluid",
        "base",
        "cage",
        "as_built",
        "strength",
        "payment",
    ];
    for topic in topics {
        assert!(all.iter().any(|shaft| filled(&shaft["figures"][topic])), "no shaft has {topic}");
    }
    let names: Vec<&String> = all[0]["figures"].as_object().expect("figures").keys().collect();
    assert_eq!(names.len(), topics.len(), "{names:?}");
}

/// Floats go out with every digit: what a script reads is what was reckoned.
#[test]
fn the_same_record_gives_the_same_json() {
    let desk = demos();
    let once = desk.says("check --json --job us").ends(0).out;
    assert_eq!(once, desk.says("check --json --job us").ends(0).out);
}
