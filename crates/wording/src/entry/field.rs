//! The content of a field as text, by its shape.
//!
//! Never: change what was typed.

use crate::label;
use crate::phrase::small;
use crate::show::Show;
use quantity::{
    Area, Density, Entered, Force, Fraction, FunnelTime, Inflow, Kind, Length, Mass, Moment, Ph, Pressure,
    Quantity, Slope, Span, Temperature, Volume, WaterCement,
};
use record::{FieldSpec, Shape, Value, kinds};
use std::collections::BTreeMap;

/// Fields whose content needs no label in front: it says itself what it is.
const SELF_TELLING: &[&str] =
    &["text", "what", "name", "points", "note", "caption", "description", "place", "thickness", "hold"];

/// The content of a field.
pub(crate) fn value_text(value: &Value, shape: Shape, show: &Show) -> String {
    match (shape, value) {
        (Shape::Quantity(kind, _), Value::Text(stored)) => quantity_text(kind, stored),
        (Shape::Choice(_), Value::Text(word)) => label::choice(word),
        (Shape::Moment, Value::Text(text)) => {
            Moment::parse(text).map_or_else(|_| text.clone(), |at| show.stamp(at))
        }
        (Shape::Entry, Value::Text(id)) => id.chars().take(8).collect(),
        (Shape::List(of), Value::List(items)) => {
            let items: Vec<String> = items.iter().map(|item| value_text(item, of(), show)).collect();
            items.join(", ")
        }
        (Shape::Group(fields), Value::Group(group)) => group_text(fields, group, show),
        (Shape::Body, Value::Group(group)) => body_text(group, show),
        (_, Value::Text(text)) => text.clone(),
        (_, Value::Flag(flag)) => if *flag { "yes" } else { "no" }.to_owned(),
        (_, Value::List(_) | Value::Group(_)) => String::new(),
    }
}

/// The fields of an entry, one after the other: `tool auger; from 0 ft; to 5.0 ft`.
pub(crate) fn fields_text(fields: &[FieldSpec], group: &BTreeMap<String, Value>, show: &Show) -> String {
    let written = fields.iter().filter_map(|field| labelled(field, group, show));
    written.collect::<Vec<_>>().join("; ")
}

/// Each field that was written: its name, its label and its text.
pub(crate) fn field_lines(
    fields: &'static [FieldSpec],
    group: &BTreeMap<String, Value>,
    show: &Show,
) -> Vec<(&'static str, String, String)> {
    let line = |field: &'static FieldSpec| {
        let text = value_text(group.get(field.name)?, (field.shape)(), show);
        Some((field.name, label::field(field), text))
    };
    fields.iter().filter_map(line).collect()
}

fn labelled(field: &FieldSpec, group: &BTreeMap<String, Value>, show: &Show) -> Option<String> {
    let text = value_text(group.get(field.name)?, (field.shape)(), show);
    if SELF_TELLING.contains(&field.name) {
        return Some(text);
    }
    Some(format!("{} {text}", small(&label::field(field))))
}

/// A small group inside a list: a sounded point is `42.6 ft center`, a bar `8 × #8`.
fn group_text(fields: &[FieldSpec], group: &BTreeMap<String, Value>, show: &Show) -> String {
    let has = |name: &str| fields.iter().any(|field| field.name == name);
    let of = |name: &str| {
        let field = fields.iter().find(|field| field.name == name)?;
        Some(value_text(group.get(name)?, (field.shape)(), show))
    };
    if has("place") {
        let reading = of("depth").or(of("thickness")).unwrap_or_default();
        return of("place").map_or(reading.clone(), |place| format!("{reading} {place}"));
    }
    let written = fields.iter().filter_map(|field| labelled(field, group, show));
    format!("({})", written.collect::<Vec<_>>().join(", "))
}

/// A whole body inside a correction.
fn body_text(group: &BTreeMap<String, Value>, show: &Show) -> String {
    let Some(Value::Text(word)) = group.get("kind") else { return String::new() };
    let Some(kind) = kinds::kind_of(word) else { return word.clone() };
    let fields = match group.get("body") {
        Some(Value::Group(body)) => fields_text(kind.fields, body, show),
        _ => String::new(),
    };
    format!("{}: {fields}", label::kind(kind)).trim_end_matches([' ', ':']).to_owned()
}

/// A stored quantity as it was typed, with the unit the field supplied.
pub(crate) fn quantity_text(kind: Kind, stored: &str) -> String {
    match kind {
        Kind::Length => shown::<Length>(stored),
        Kind::Area => shown::<Area>(stored),
        Kind::Volume => shown::<Volume>(stored),
        Kind::Density => shown::<Density>(stored),
        Kind::Mass => shown::<Mass>(stored),
        Kind::Force => shown::<Force>(stored),
        Kind::Pressure => shown::<Pressure>(stored),
        Kind::Temperature => shown::<Temperature>(stored),
        Kind::Span => shown::<Span>(stored),
        Kind::FunnelTime => shown::<FunnelTime>(stored),
        Kind::Fraction => shown::<Fraction>(stored),
        Kind::Ph => shown::<Ph>(stored),
        Kind::Slope => shown::<Slope>(stored),
        Kind::Inflow => shown::<Inflow>(stored),
        Kind::WaterCement => shown::<WaterCement>(stored),
    }
}

fn shown<Q: Quantity>(stored: &str) -> String {
    Entered::<Q>::from_stored(stored).map_or_else(|_| stored.to_owned(), |entered| entered.shown())
}
