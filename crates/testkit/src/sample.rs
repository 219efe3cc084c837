//! One body of every kind, made from the declared fields: with as little as it may hold, or with all of it.

use quantity::{Kind, units};
use record::field::{FieldSpec, How, Scale, Shape};
use record::kinds::{KINDS, KindSpec};
use record::{Body, Value};
use std::collections::BTreeMap;

/// A body of a kind with only the fields that must be there.
#[track_caller]
pub fn minimal(kind: &KindSpec) -> Body {
    of(kind, false)
}

/// A body of a kind with every field filled, every list holding one item.
#[track_caller]
pub fn full(kind: &KindSpec) -> Body {
    of(kind, true)
}

fn of(kind: &KindSpec, all: bool) -> Body {
    let group = group_of(kind.fields, all);
    Body::from_group(kind.word, &group, "", &How::Stored)
        .unwrap_or_else(|faults| panic!("{}: {faults:#?}", kind.word))
}

fn group_of(fields: &[FieldSpec], all: bool) -> BTreeMap<String, Value> {
    let wanted = fields.iter().filter(|field| all || !field.may_be_blank);
    wanted.map(|field| (field.name.to_owned(), value_of((field.shape)(), field.name, all))).collect()
}

fn value_of(shape: Shape, name: &str, all: bool) -> Value {
    let text = |text: &str| Value::Text(text.to_owned());
    match shape {
        Shape::Text => Value::Text(format!("{name} in words")),
        Shape::Flag => Value::Flag(true),
        Shape::Count => text("3"),
        Shape::Moment => text("2031-04-08T10:41:00-06:00"),
        Shape::Quantity(kind, scale) => text(stored(kind, scale)),
        Shape::Choice(words) => text(words[0].word),
        Shape::Entry | Shape::FileHash => Value::Text("0f".repeat(32)),
        Shape::List(item) => Value::List(vec![value_of(item(), name, all)]),
        Shape::Group(fields) => Value::Group(group_of(fields, all)),
        Shape::Body => {
            let remark = KINDS.iter().find(|kind| kind.word == "remark").expect("a remark is a kind");
            let body = Value::Group(group_of(remark.fields, all));
            let group = [("kind".to_owned(), text("remark")), ("body".to_owned(), body)];
            Value::Group(group.into_iter().collect())
        }
    }
}

/// A stored text of a quantity; some with the unit typed, some with the unit the field supplied.
fn stored(kind: Kind, scale: Scale) -> &'static str {
    match (kind, scale) {
        (Kind::Length, Scale::Small) => "1 1/2 in",
        (Kind::Length, Scale::Coordinate) => "1204567.89 {US survey ft}",
        (Kind::Length, _) => "12.5 {ft}",
        (Kind::Volume, Scale::Liquid) => "25 gal",
        (Kind::Volume, _) => "9.5 yd³",
        (Kind::Density, Scale::Content) => "675 lb/yd³",
        (Kind::Density, _) => "1,03 {g/cm³,}",
        (Kind::Pressure, Scale::Weak) => "0.2 psf",
        (Kind::Pressure, _) => "4000 psi",
        (Kind::FunnelTime, _) => "38 s/qt",
        (Kind::Temperature, _) => "72 °F",
        (Kind::Fraction, _) => "3.5 {%}",
        (Kind::Slope, _) => "1:75",
        (Kind::Span, _) => "90 min",
        (Kind::Ph, _) => "8.5 {}",
        (Kind::WaterCement, _) => "0.42 {}",
        (Kind::Mass, _) => "2600 lb",
        (Kind::Force, _) => "12 kN",
        (Kind::Inflow, _) => "6 in/h",
        (Kind::Area, _) => "0.79 in²",
    }
}

/// Every unit of a kind that a text can name.
pub(crate) fn symbols(kind: Kind) -> Vec<&'static str> {
    let of_kind = units::ALL.iter().filter(|unit| unit.kind == kind);
    of_kind.map(|unit| unit.symbol).filter(|symbol| !symbol.is_empty()).collect()
}
