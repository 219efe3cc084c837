//! Every field of every kind comes back as it was given, typed and stored; faults are told all at once.

use proptest::prelude::*;
use record::Body;
use record::field::{FaultKind, FieldSpec, How, Shape};
use record::kinds::{Family, KINDS, kind_of};
use std::collections::BTreeSet;
use testkit::{any, body, faults, full, metric_body, minimal};

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn a_body_taken_apart_and_put_together_is_the_same(body in any::body()) {
        let group = body.to_group();
        prop_assert_eq!(Body::from_group(body.kind().word, &group, "", &How::Stored), Ok(body));
    }
}

#[test]
fn the_smallest_and_the_full_body_of_every_kind_come_back() {
    for kind in KINDS {
        for body in [minimal(kind), full(kind)] {
            let again = Body::from_group(kind.word, &body.to_group(), "", &How::Stored);
            assert_eq!(again, Ok(body), "{}", kind.word);
        }
    }
}

#[test]
fn a_kind_without_a_field_it_needs_says_which() {
    for kind in KINDS {
        for field in kind.fields.iter().filter(|field| !field.may_be_blank) {
            let mut group = full(kind).to_group();
            group.remove(field.name);
            let faults = Body::from_group(kind.word, &group, "", &How::Stored).expect_err("it is needed");
            let told: Vec<_> = faults.iter().map(|fault| (fault.path.as_str(), &fault.kind)).collect();
            assert_eq!(told, [(field.name, &FaultKind::Missing)], "{}", kind.word);
        }
    }
}

#[test]
fn words_are_used_once_and_every_family_has_kinds() {
    let words: BTreeSet<&str> = KINDS.iter().map(|kind| kind.word).collect();
    assert_eq!(words.len(), KINDS.len());
    let families: BTreeSet<Family> = KINDS.iter().map(|kind| kind.family).collect();
    assert_eq!(families.len(), 10);
    for kind in KINDS {
        assert!(!kind.meaning.trim().is_empty(), "{}", kind.word);
        assert_eq!(kind_of(kind.word).map(|found| found.meaning), Some(kind.meaning));
        every_field(kind.word, kind.fields);
    }
    assert!(kind_of("nonsense").is_none());
}

fn every_field(at: &str, fields: &[FieldSpec]) {
    let names: BTreeSet<&str> = fields.iter().map(|field| field.name).collect();
    assert_eq!(names.len(), fields.len(), "{at}");
    for field in fields {
        let path = format!("{at}.{}", field.name);
        assert!(field.meaning.trim().ends_with(['.', '?']), "{path}: a meaning is a sentence");
        let small = |sign: char| sign.is_ascii_lowercase() || sign == '_';
        assert!(field.name.chars().all(small), "{path}: a name is in small letters");
        every_shape(&path, (field.shape)());
    }
}

fn every_shape(at: &str, shape: Shape) {
    match shape {
        Shape::Group(fields) => every_field(at, fields),
        Shape::List(item) => every_shape(at, item()),
        Shape::Choice(words) => {
            let distinct: BTreeSet<&str> = words.iter().map(|word| word.word).collect();
            assert_eq!(distinct.len(), words.len(), "{at}");
        }
        _ => {}
    }
}

#[track_caller]
fn check(kind: &str, fields: &[(&str, &str)], expected: &[(&str, &str)]) {
    let told: Vec<(String, String)> =
        faults(kind, fields).into_iter().map(|fault| (fault.path, name(&fault.kind).to_owned())).collect();
    let told: Vec<(&str, &str)> = told.iter().map(|(path, kind)| (path.as_str(), kind.as_str())).collect();
    assert_eq!(told, expected);
}

fn name(kind: &FaultKind) -> &'static str {
    match kind {
        FaultKind::Missing => "missing",
        FaultKind::UnknownField(_) => "unknown field",
        FaultKind::Sort { .. } => "sort",
        FaultKind::Word { .. } => "word",
        FaultKind::Count(_) => "count",
        FaultKind::Moment(_) => "moment",
        FaultKind::Hash(_) => "hash",
        FaultKind::UnknownKind(_) => "unknown kind",
        FaultKind::Quantity(_) => "quantity",
    }
}

#[test]
fn all_faults_of_a_body_are_told_in_one_go() {
    let fields = [
        ("depth", "four"),
        ("place", "roof"),
        ("viscosity", "38"),
        ("sand", "3.5"),
        ("mood", "cheerful"),
        ("ph", "8.5"),
    ];
    let expected =
        [("mood", "unknown field"), ("place", "word"), ("depth", "quantity"), ("stage", "missing")];
    check("fluid_test", &fields, &expected);
    check(
        "concrete_sounded",
        &[("points[0].depth", "41 ft"), ("points[1].place", "center")],
        &[("points[1].depth", "missing")],
    );
    check("pieces_removed", &[("name", "T"), ("count", "two")], &[("count", "count")]);
    check("pieces_removed", &[("name", "T"), ("count", "1000001")], &[("count", "count")]);
    check("photo", &[("file", "0F"), ("caption", "rig")], &[("file", "hash")]);
    check("tool_run", &[("to", "4 ft"), ("by_hand", "maybe")], &[("by_hand", "word")]);
    check("nonsense", &[], &[("", "unknown kind")]);
}

#[test]
fn what_a_person_leaves_out_is_supplied_by_the_job() {
    let stored = |body: &Body, field: &str| format!("{:?}", body.to_group()[field]);
    assert_eq!(stored(&body("tool_run", &[("to", "4.5")]), "to"), "Text(\"4.5 {ft}\")");
    assert_eq!(stored(&metric_body("tool_run", &[("to", "1.37")]), "to"), "Text(\"1.37 {m}\")");
    assert_eq!(stored(&body("tool_run", &[("to", "1.37 m")]), "to"), "Text(\"1.37 m\")");
    assert_eq!(
        stored(&body("concrete_test", &[("ticket", "1"), ("slump", "8 1/2")]), "slump"),
        "Text(\"8 1/2 {in}\")"
    );
    assert_eq!(
        stored(&metric_body("concrete_test", &[("ticket", "1"), ("slump", "200")]), "slump"),
        "Text(\"200 {mm}\")"
    );
    assert_eq!(
        stored(&body("casing_set", &[("name", "C"), ("stay", " Temporary ")]), "stay"),
        "Text(\"temporary\")"
    );
    assert!(!body("tool_run", &[("to", "4.5"), ("tool", "  ")]).to_group().contains_key("tool"));
}
