//! Every kind of entry has a form: what it asks can be typed and gives the body it should, the form
//! survives a killed tab, and what was written comes back into a form unchanged.

use record::field::How;
use record::kinds::KINDS;
use record::{Body, Record, Shape, Value};
use screen::entry::{Ask, Echo, Form, When, keys};
use std::collections::BTreeMap;
use testkit::{Tablet, at};

/// A job in US units whose coordinates are in survey feet, so that the samples read as typed.
fn record() -> Record {
    let opened = testkit::body(
        "job_opened",
        &[
            ("name", "Test job"),
            ("time_zone", "America/Denver"),
            ("units", "us"),
            ("lengths", "feet_tenths"),
            ("coordinate_foot", "survey"),
        ],
    );
    let mut tablet = Tablet::new(1).about(None);
    testkit::record([&tablet.write("07:00", opened)])
}

/// The sample of a kind; the one density that only a job in metres with a decimal comma can type is
/// another one.
fn sample(of: Body) -> Body {
    let word = of.kind().word;
    let group = of.to_group().into_iter().map(|(name, value)| (name, typeable(value))).collect();
    Body::from_group(word, &group, "", &How::Stored).expect("the sample stays one")
}

fn typeable(value: Value) -> Value {
    match value {
        Value::Text(text) if text == "1,03 {g/cm³,}" => Value::Text("64.3 {pcf}".to_owned()),
        Value::List(items) => Value::List(items.into_iter().map(typeable).collect()),
        Value::Group(group) => {
            Value::Group(group.into_iter().map(|(name, value)| (name, typeable(value))).collect())
        }
        other => other,
    }
}

/// Types a stored tree into a form the way a person would: bare numbers where the field has a unit.
fn type_in(form: &mut Form, fields: &[record::FieldSpec], group: &BTreeMap<String, Value>, before: &str) {
    for field in fields {
        let Some(value) = group.get(field.name) else { continue };
        type_value(form, (field.shape)(), value, &format!("{before}{}", field.name));
    }
}

fn type_value(form: &mut Form, shape: Shape, value: &Value, path: &str) {
    match (shape, value) {
        (Shape::List(item), Value::List(items)) => {
            for (row, one) in items.iter().enumerate() {
                while rows(form, path) <= row {
                    form.add(path);
                }
                type_value(form, item(), one, &format!("{path}[{row}]"));
            }
        }
        (Shape::Group(fields), Value::Group(group)) => type_in(form, fields, group, &format!("{path}.")),
        (Shape::Body, Value::Group(group)) => {
            let (Some(Value::Text(word)), Some(Value::Group(body))) = (group.get("kind"), group.get("body"))
            else {
                panic!("a body has a kind and fields")
            };
            form.set(&format!("{path}.kind"), word);
            let kind = record::kinds::kind_of(word).expect("a kind");
            type_in(form, kind.fields, body, &format!("{path}.body."));
        }
        (_, Value::Flag(flag)) => form.set(path, if *flag { "yes" } else { "no" }),
        (Shape::Quantity(..), Value::Text(text)) => {
            form.set(path, text.split(" {").next().unwrap_or(text));
            assert!(matches!(form.echo(path), Echo::Understood { .. }), "{path}: {:?}", form.echo(path));
        }
        (Shape::Moment, Value::Text(_)) => form.set(path, "10:41"),
        (_, Value::Text(text)) => form.set(path, text),
        other => panic!("{path}: {other:?}"),
    }
}

fn rows(form: &Form, list: &str) -> usize {
    let head = form.fields().into_iter().find(|field| field.path == list);
    match head.expect("a list has a head").ask {
        Ask::List { rows, .. } => rows,
        other => panic!("{list} asks for {other:?}"),
    }
}

fn form(word: &str, record: &Record) -> Form {
    Form::new(word, record, Some("S-1"), at("11:20")).expect("a form of a known kind")
}

#[test]
fn every_kind_can_be_typed_in_full_and_in_brief() {
    let record = record();
    for kind in KINDS {
        for wanted in [sample(testkit::minimal(kind)), sample(testkit::full(kind))] {
            let mut form = form(kind.word, &record);
            type_in(&mut form, kind.fields, &wanted.to_group(), "");
            assert_eq!(form.body().expect("it reads"), wanted, "{}", kind.word);
        }
    }
}

#[test]
fn a_form_survives_a_killed_tab() {
    let record = record();
    for kind in KINDS {
        let wanted = sample(testkit::full(kind));
        let mut first = form(kind.word, &record);
        type_in(&mut first, kind.fields, &wanted.to_group(), "");
        let again = Form::from_text(&first.to_text(), &record).expect("it is one of ours");
        assert_eq!(again.body().expect("it reads"), wanted, "{}", kind.word);
        assert_eq!((again.at(), again.shaft()), (first.at(), first.shaft()));
        assert_eq!(again.fields(), first.fields());
    }
    assert!(Form::from_text("", &record).is_none());
    assert!(Form::from_text("form 2\nkind\tremark", &record).is_none());
    assert!(Form::from_text("form 1\nkind\tno_such\nat\t2031-04-08T11:20:00-06:00", &record).is_none());
}

#[test]
fn what_was_written_comes_back_into_a_form_unchanged() {
    let record = record();
    for kind in KINDS {
        let written = sample(testkit::full(kind));
        let form = Form::of_body(&written, &record, Some("S-1"), at("11:20"));
        assert_eq!(form.body().expect("it reads"), written, "{}", kind.word);
    }
}

#[test]
fn a_blank_form_names_exactly_its_needed_fields() {
    let record = record();
    for kind in KINDS {
        let form = form(kind.word, &record);
        assert!(form.is_blank(), "{}: nothing is entered by itself", kind.word);
        let mut needed: Vec<String> = kind
            .fields
            .iter()
            .filter(|field| !field.may_be_blank)
            .map(|field| field.name.to_owned())
            .collect();
        let mut named: Vec<String> =
            form.body().err().unwrap_or_default().into_iter().map(|fault| fault.path).collect();
        needed.sort();
        named.sort();
        assert_eq!(named, needed, "{}", kind.word);
    }
}

#[test]
fn every_field_is_asked_for_once_needed_ones_first() {
    let record = record();
    for kind in KINDS {
        let asked = form(kind.word, &record).fields();
        let top: Vec<&str> =
            asked.iter().filter(|field| field.level == 0).map(|field| field.path.as_str()).collect();
        let spread = kind.fields.iter().filter(|field| matches!((field.shape)(), Shape::Body)).count();
        assert_eq!(top.len() + spread, kind.fields.len(), "{}: {top:?}", kind.word);
        assert!(asked.is_sorted_by_key(|field| field.when), "{}", kind.word);
        for field in &asked {
            assert!(!field.label.is_empty(), "{}.{}", kind.word, field.path);
            assert!(field.when == When::Needed || field.level > 0 || !field.required, "{}", field.path);
        }
    }
}

/// A form that asks for twenty things at once is not filled in by a gloved hand in the rain.
#[test]
fn no_form_of_the_hole_asks_for_more_than_a_hand_writes() {
    let record = record();
    for kind in KINDS {
        let asked = form(kind.word, &record).fields();
        let at_once = asked.iter().filter(|field| field.level == 0 && field.when != When::More).count();
        let most = if kind.family <= record::Family::Plan { 13 } else { 8 };
        assert!(at_once <= most, "{} asks for {at_once} things at once", kind.word);
    }
}

#[test]
fn every_kind_a_person_writes_is_reachable_by_a_key_and_no_two_keys_read_alike() {
    let groups = keys::all();
    let words: Vec<&str> = groups.iter().flat_map(|group| &group.keys).map(|key| key.word).collect();
    let all: Vec<&str> = KINDS.iter().filter(|kind| !kind.is_made()).map(|kind| kind.word).collect();
    assert_eq!(words, all);
    let mut labels: Vec<&str> =
        groups.iter().flat_map(|group| &group.keys).map(|key| key.label.as_str()).collect();
    labels.sort_unstable();
    let count = labels.len();
    labels.dedup();
    assert_eq!(labels.len(), count, "two keys read alike");
    assert!(labels.iter().all(|label| label.len() <= 28), "a key is too long for a thumb");
}
