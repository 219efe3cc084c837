//! Sets of facts about an element: properties under names of our own.
//!
//! What nobody recorded is left out; a property is never zero for "don't know".

use super::model::label;
use super::step::{Ref, Step, Value};

/// A set of properties before it is written.
pub(super) struct Facts {
    pub(super) name: &'static str,
    rows: Vec<Row>,
}

struct Row {
    entity: &'static str,
    name: &'static str,
    says: Option<&'static str>,
    values: Vec<Value>,
}

/// A text may be as long as it likes; a label may not.
const TEXT: &str = "IFCTEXT";

impl Facts {
    pub(super) fn new(name: &'static str) -> Self {
        Facts { name, rows: Vec::new() }
    }

    /// A text somebody wrote, or a word of ours.
    pub(super) fn text(&mut self, name: &'static str, text: Option<&str>) {
        self.single(name, text.map(|text| Value::typed(TEXT, Value::Text(text.to_owned()))));
    }

    /// A length or a level in metres.
    pub(super) fn length(&mut self, name: &'static str, meters: Option<f64>) {
        self.single(name, meters.map(|meters| Value::typed("IFCLENGTHMEASURE", Value::Real(meters))));
    }

    /// A volume in cubic metres.
    pub(super) fn volume(&mut self, name: &'static str, cubic_meters: Option<f64>) {
        self.single(name, cubic_meters.map(|volume| Value::typed("IFCVOLUMEMEASURE", Value::Real(volume))));
    }

    /// A plain number.
    pub(super) fn number(&mut self, name: &'static str, number: Option<f64>) {
        self.single(name, number.map(|number| Value::typed("IFCREAL", Value::Real(number))));
    }

    /// A count.
    pub(super) fn whole(&mut self, name: &'static str, count: usize) {
        let count = i64::try_from(count).unwrap_or(i64::MAX);
        self.single(name, Some(Value::typed("IFCINTEGER", Value::Whole(count))));
    }

    /// Yes or no.
    pub(super) fn flag(&mut self, name: &'static str, flag: Option<bool>) {
        self.single(name, flag.map(|flag| Value::typed("IFCBOOLEAN", Value::Flag(flag))));
    }

    /// An estimate with the ends of its band.
    pub(super) fn band(&mut self, name: &'static str, mean: f64, ends: [f64; 2]) {
        let number = |number: f64| Value::typed("IFCREAL", Value::Real(number));
        let [low, high] = ends;
        let values = vec![number(high), number(low), Value::Blank, number(mean)];
        let says = Some("Set point: mean. Bounds: the band that holds it with a probability of 90 %.");
        self.rows.push(Row { entity: "IFCPROPERTYBOUNDEDVALUE", name, says, values });
    }

    /// A row of lengths in metres; a place in it belongs to the same place of the set's other rows.
    pub(super) fn lengths(&mut self, name: &'static str, says: &'static str, meters: &[f64]) {
        let each = meters.iter().map(|meters| Value::typed("IFCLENGTHMEASURE", Value::Real(*meters)));
        let values = vec![Value::List(each.collect()), Value::Blank];
        self.rows.push(Row { entity: "IFCPROPERTYLISTVALUE", name, says: Some(says), values });
    }

    fn single(&mut self, name: &'static str, value: Option<Value>) {
        let row = |value| Row {
            entity: "IFCPROPERTYSINGLEVALUE",
            name,
            says: None,
            values: vec![value, Value::Blank],
        };
        self.rows.extend(value.map(row));
    }

    /// The set as an instance.
    pub(super) fn write(self, step: &mut Step, id: Value) -> Ref {
        let write = |row: Row| {
            let head = [Value::Text(label(row.name)), Value::maybe(row.says)];
            step.add(row.entity, &[&head[..], &row.values[..]].concat())
        };
        let rows: Vec<Ref> = self.rows.into_iter().map(write).collect();
        let name = Value::Text(self.name.to_owned());
        step.add("IFCPROPERTYSET", &[id, Value::Blank, name, Value::Blank, Value::refs(&rows)])
    }
}
