//! Strategies for anything that can be entered, made from the declared shapes.
//!
//! A kind added later is generated without a line here. The texts cover what the stored form must carry:
//! units typed and supplied, fractions, decimal commas, signs beyond ASCII, quotes, control characters.

use crate::sample::symbols;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;
use quantity::{Kind, Moment};
use record::field::{FieldSpec, How, Shape};
use record::kinds::{KINDS, KindSpec};
use record::{Body, Value};
use std::collections::BTreeMap;

/// A body of any kind.
pub fn body() -> BoxedStrategy<Body> {
    select(KINDS).prop_flat_map(|kind| body_of(&kind)).boxed()
}

/// A body of a kind, any of its optional fields filled or blank.
pub fn body_of(kind: &KindSpec) -> BoxedStrategy<Body> {
    let word = kind.word;
    group(kind.fields)
        .prop_filter_map("a quantity that a person would be asked about", move |group| {
            Body::from_group(word, &group, "", &How::Stored).ok()
        })
        .boxed()
}

/// Any moment of the years people build in, on any clock.
pub fn moment() -> BoxedStrategy<Moment> {
    (0_i64..4_000_000_000, -14 * 60..=14 * 60_i32)
        .prop_map(|(seconds, minutes)| Moment::at(seconds, minutes * 60))
        .boxed()
}

/// Text as people and keyboards produce it; never blank.
pub fn words() -> BoxedStrategy<String> {
    let sign = prop_oneof![
        8 => "[A-Za-z0-9 .,:/#-]",
        1 => select(&["\"", "\\", "'", "é", "²", "°", "½", "\u{1F6A7}", "\u{2028}", "\u{85}", "\u{0}", "\t", "\u{7f}", "{", "}"][..])
            .prop_map(str::to_owned),
    ];
    vec(sign, 1..16)
        .prop_map(|signs| signs.concat())
        .prop_filter("a blank", |text| !text.trim().is_empty())
        .boxed()
}

type Group = BTreeMap<String, Value>;

fn group(fields: &'static [FieldSpec]) -> BoxedStrategy<Group> {
    let field = |field: &FieldSpec| {
        let name = field.name;
        let filled = value((field.shape)()).prop_map(move |value| Some((name.to_owned(), value)));
        if field.may_be_blank { prop_oneof![Just(None), filled].boxed() } else { filled.boxed() }
    };
    let fields: Vec<BoxedStrategy<Option<(String, Value)>>> = fields.iter().map(field).collect();
    fields.prop_map(|fields| fields.into_iter().flatten().collect()).boxed()
}

fn value(shape: Shape) -> BoxedStrategy<Value> {
    match shape {
        Shape::Text => words().prop_map(Value::Text).boxed(),
        Shape::Flag => any::<bool>().prop_map(Value::Flag).boxed(),
        Shape::Count => (0_u32..=1_000_000).prop_map(|count| Value::Text(count.to_string())).boxed(),
        Shape::Moment => moment().prop_map(|moment| Value::Text(moment.to_string())).boxed(),
        Shape::Quantity(kind, _) => quantity(kind).prop_map(Value::Text).boxed(),
        Shape::Choice(words) => select(words).prop_map(|word| Value::Text(word.word.to_owned())).boxed(),
        Shape::Entry | Shape::FileHash => "[0-9a-f]{64}".prop_map(Value::Text).boxed(),
        Shape::List(item) => vec(value(item()), 1..4).prop_map(Value::List).boxed(),
        Shape::Group(fields) => group(fields).prop_map(Value::Group).boxed(),
        Shape::Body => replacement(),
    }
}

/// The stored text of a quantity: with its unit typed, or supplied by the field in braces.
fn quantity(kind: Kind) -> BoxedStrategy<String> {
    let symbols = symbols(kind);
    if symbols.is_empty() {
        return (0_u32..20, 0_u32..100).prop_map(|(whole, part)| format!("{whole}.{part:02} {{}}")).boxed();
    }
    let number = prop_oneof![
        (0_u32..500).prop_map(|whole| whole.to_string()),
        (0_u32..500, 0_u32..1000).prop_map(|(whole, part)| format!("{whole}.{part:03}")),
    ];
    let typed =
        (number.clone(), select(symbols.clone())).prop_map(|(number, unit)| format!("{number} {unit}"));
    let supplied = (number, select(symbols)).prop_map(|(number, unit)| {
        let comma = if number.contains('.') { "," } else { "" };
        format!("{} {{{unit}{comma}}}", number.replace('.', ","))
    });
    match kind {
        Kind::Length => {
            let feet = (0_u32..100, 0_u32..12, 1_u32..16)
                .prop_map(|(feet, inches, part)| format!("{feet}'-{inches} {part}/16\""));
            prop_oneof![typed, supplied, feet].boxed()
        }
        _ => prop_oneof![typed, supplied].boxed(),
    }
}

/// What a correction puts in place: any body but a correction.
fn replacement() -> BoxedStrategy<Value> {
    let plain: Vec<KindSpec> = KINDS.iter().filter(|kind| kind.word != "correction").copied().collect();
    select(plain)
        .prop_flat_map(|kind| (Just(kind.word), body_of(&kind)))
        .prop_map(|(word, body)| {
            let kind = ("kind".to_owned(), Value::Text(word.to_owned()));
            Value::Group([kind, ("body".to_owned(), Value::Group(body.to_group()))].into_iter().collect())
        })
        .boxed()
}
