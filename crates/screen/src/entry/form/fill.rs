//! From a body that was written back to the texts of a form, for a correction.
//!
//! A field reads as it was typed; the unit stands beside it where the job's own unit has changed since.
//!
//! Never: convert what was typed.

use super::answers::Answers;
use crate::entry::time::{Clock, typed_text};
use quantity::{
    Area, Density, Entered, Force, Fraction, FunnelTime, Inflow, Kind, Length, Mass, Moment, Ph, Pressure,
    Quantity, Reading, Slope, Span, Temperature, Volume, WaterCement,
};
use record::field::{Defaults, FieldSpec, Scale, Shape};
use record::kinds::kind_of;
use record::{Body, Value};
use std::collections::BTreeMap;

/// The answers that give a body.
pub(super) fn answers(body: &Body, defaults: Defaults, clock: Clock) -> Answers {
    let mut fill = Fill { defaults, clock, answers: Answers::default() };
    fill.group(body.kind().fields, &body.to_group(), "");
    fill.answers
}

struct Fill {
    defaults: Defaults,
    clock: Clock,
    answers: Answers,
}

impl Fill {
    fn group(&mut self, fields: &[FieldSpec], group: &BTreeMap<String, Value>, before: &str) {
        for field in fields {
            if let Some(value) = group.get(field.name) {
                self.value((field.shape)(), value, &format!("{before}{}", field.name));
            }
        }
    }

    fn value(&mut self, shape: Shape, value: &Value, path: &str) {
        match (shape, value) {
            (Shape::List(item), Value::List(items)) => {
                for (row, one) in items.iter().enumerate() {
                    self.answers.add_row(path);
                    self.value(item(), one, &format!("{path}[{row}]"));
                }
            }
            (Shape::Group(fields), Value::Group(group)) => self.group(fields, group, &format!("{path}.")),
            (Shape::Body, Value::Group(group)) => self.body(group, path),
            (Shape::Quantity(kind, scale), Value::Text(stored)) => {
                self.answers.set(path, &typed(stored, kind, scale, self.defaults));
            }
            (Shape::Moment, Value::Text(text)) => {
                let moment = Moment::parse(text).ok();
                let typed = moment.map_or_else(|| text.clone(), |moment| typed_text(moment, self.clock));
                self.answers.set(path, &typed);
            }
            (_, Value::Flag(flag)) => self.answers.set(path, if *flag { "yes" } else { "no" }),
            (_, Value::Text(text)) => self.answers.set(path, text),
            _ => {}
        }
    }

    fn body(&mut self, group: &BTreeMap<String, Value>, path: &str) {
        let Some(Value::Text(word)) = group.get("kind") else { return };
        self.answers.set(&format!("{path}.kind"), word);
        if let (Some(kind), Some(Value::Group(inner))) = (kind_of(word), group.get("body")) {
            self.group(kind.fields, inner, &format!("{path}.body."));
        }
    }
}

/// A stored quantity as a person types it in this field today.
pub(in crate::entry) fn typed(stored: &str, kind: Kind, scale: Scale, defaults: Defaults) -> String {
    let field = Reading { unit: defaults.unit(kind, scale), comma: defaults.comma };
    match kind {
        Kind::Length => text::<Length>(stored, field),
        Kind::Area => text::<Area>(stored, field),
        Kind::Volume => text::<Volume>(stored, field),
        Kind::Density => text::<Density>(stored, field),
        Kind::Mass => text::<Mass>(stored, field),
        Kind::Force => text::<Force>(stored, field),
        Kind::Pressure => text::<Pressure>(stored, field),
        Kind::Temperature => text::<Temperature>(stored, field),
        Kind::Span => text::<Span>(stored, field),
        Kind::FunnelTime => text::<FunnelTime>(stored, field),
        Kind::Fraction => text::<Fraction>(stored, field),
        Kind::Ph => text::<Ph>(stored, field),
        Kind::Slope => text::<Slope>(stored, field),
        Kind::Inflow => text::<Inflow>(stored, field),
        Kind::WaterCement => text::<WaterCement>(stored, field),
    }
}

fn text<Q: Quantity>(stored: &str, field: Reading) -> String {
    let Ok(entered) = Entered::<Q>::from_stored(stored) else { return stored.to_owned() };
    let same =
        |text: &str| Entered::<Q>::parse(text, field).is_ok_and(|read| read.value() == entered.value());
    let typed = entered.typed().to_owned();
    if same(&typed) { typed } else { entered.shown() }
}
