//! Bodies from the texts a person would type.

use crate::moment::at;
use quantity::Moment;
use record::field::{Defaults, Fault, How, Typed, UnitSystem};
use record::{Body, Value};
use std::collections::BTreeMap;

/// A body of a kind from its fields as typed on a job in feet: `body("tool_run", &[("to", "4 ft")])`.
///
/// A path reaches into lists and groups: `points[1].depth`. `yes` and `no` are flags.
/// Panics with the faults when the fields do not fit the kind.
#[track_caller]
pub fn body(kind: &str, fields: &[(&str, &str)]) -> Body {
    read(kind, fields, UnitSystem::Us).unwrap_or_else(|faults| panic!("{kind}: {faults:#?}"))
}

/// The same on a job in metres.
#[track_caller]
pub fn metric_body(kind: &str, fields: &[(&str, &str)]) -> Body {
    read(kind, fields, UnitSystem::Metric).unwrap_or_else(|faults| panic!("{kind}: {faults:#?}"))
}

/// The faults of fields that do not fit; empty when they do.
pub fn faults(kind: &str, fields: &[(&str, &str)]) -> Vec<Fault> {
    read(kind, fields, UnitSystem::Us).err().unwrap_or_default()
}

fn read(kind: &str, fields: &[(&str, &str)], system: UnitSystem) -> Result<Body, Vec<Fault>> {
    let moment = |text: &str| -> Option<Moment> { Some(at(text)) };
    let defaults = Defaults { system, comma: false, survey_foot: false };
    Body::from_group(kind, &tree(fields), "", &How::Typed(&Typed { defaults, moment: &moment }))
}

/// Paths and texts as the neutral tree.
///
/// Panics when two paths contradict each other.
#[track_caller]
pub fn tree(fields: &[(&str, &str)]) -> BTreeMap<String, Value> {
    let mut root = Value::Group(BTreeMap::new());
    for (path, text) in fields {
        let mut place = &mut root;
        for step in path.replace('[', ".[").split('.') {
            place = enter(place, step);
        }
        *place = Value::Text((*text).to_owned());
    }
    match root {
        Value::Group(group) => group,
        _ => unreachable!("the root stays a group"),
    }
}

/// The place one step further down, made where it is missing.
#[track_caller]
fn enter<'v>(place: &'v mut Value, step: &str) -> &'v mut Value {
    let blank = || Value::Text(String::new());
    match step.strip_prefix('[').and_then(|rest| rest.strip_suffix(']')) {
        Some(index) => {
            let index: usize = index.parse().expect("an index is a number");
            if !matches!(place, Value::List(_)) {
                *place = Value::List(Vec::new());
            }
            let Value::List(items) = place else { unreachable!("it was made a list") };
            assert!(index <= items.len(), "a list is written from its first item on");
            if index == items.len() {
                items.push(blank());
            }
            &mut items[index]
        }
        None => {
            if !matches!(place, Value::Group(_)) {
                *place = Value::Group(BTreeMap::new());
            }
            let Value::Group(group) = place else { unreachable!("it was made a group") };
            group.entry(step.to_owned()).or_insert_with(blank)
        }
    }
}
