//! Reads the conditions of a criterion.
//!
//! Never: accept a word that is none of the topic's own; it would never apply.

use super::{unit_named, units_of};
use crate::conditions::{Edge, Range, Topic, When};
use crate::facts::Measure;
use crate::fields::Fields;
use crate::limit::{LimitUnit, Printed};

/// The conditions in a criterion's table; none when there is no `when`.
pub(super) fn read(fields: &mut Fields<'_, '_>) -> When {
    let mut when = When::default();
    let Some(mut table) = fields.table("when") else { return when };
    for topic in Topic::all() {
        if !table.has(topic.key()) {
            continue;
        }
        if topic.words().is_empty() {
            range(&mut table, topic).map(|range| when.ranges.insert(topic, range));
        } else {
            words(&mut table, topic).map(|words| when.words.insert(topic, words));
        }
    }
    table.excuse(Topic::all().map(Topic::key));
    fields.problems.extend(table.finish());
    when
}

fn words(table: &mut Fields<'_, '_>, topic: Topic) -> Option<Vec<&'static str>> {
    let expected = format!("a list of {}", topic.words().join(", "));
    let list = table.list(topic.key())?;
    let mut found = Vec::new();
    for (value, line) in &list {
        let word = value.as_str().unwrap_or_default();
        match topic.words().iter().find(|known| **known == word) {
            Some(known) => found.push(*known),
            None => table.wrong(*line, topic.key(), format!("\"{word}\""), &expected),
        }
    }
    if list.is_empty() {
        table.wrong(table.line_of(topic.key()), topic.key(), "an empty list".to_owned(), &expected);
    }
    (!found.is_empty()).then_some(found)
}

fn range(table: &mut Fields<'_, '_>, topic: Topic) -> Option<Range> {
    let measure = Measure::Amount(topic.range_of()?);
    let mut fields = table.table(topic.key())?;
    let unit_text = fields.required("unit", &units_of(measure));
    let unit = unit_text.and_then(|text| unit_named(measure, text));
    if let (Some(text), None) = (unit_text, unit) {
        fields.wrong(fields.line_of("unit"), "unit", format!("\"{text}\""), &units_of(measure));
    }
    let low = edge(&mut fields, ("above", "from"), unit);
    let high = edge(&mut fields, ("below", "up_to"), unit);
    if !["above", "from", "below", "up_to"].iter().any(|key| fields.has(key)) {
        fields.wrong(fields.line, "above", "nothing".to_owned(), "above, from, below or up_to");
    }
    table.problems.extend(fields.finish());
    Some(Range { low, high })
}

/// One end: the first key leaves the edge itself out, the second takes it in.
fn edge(
    fields: &mut Fields<'_, '_>,
    keys: (&'static str, &'static str),
    unit: Option<LimitUnit>,
) -> Option<Edge> {
    let (outside, inside) = (fields.text(keys.0), fields.text(keys.1));
    if outside.is_some() && inside.is_some() {
        fields.wrong(fields.line_of(keys.1), keys.1, "both".to_owned(), "only one of the two");
    }
    let (text, key, included) = match (outside, inside) {
        (Some(text), _) => (text, keys.0, false),
        (None, Some(text)) => (text, keys.1, true),
        (None, None) => return None,
    };
    let LimitUnit::Unit(of) = unit? else { return None };
    let Some(printed) = Printed::parse(text, LimitUnit::Unit(of)) else {
        fields.wrong(fields.line_of(key), key, format!("\"{text}\""), "a number in quotes");
        return None;
    };
    Some(Edge { text: text.to_owned(), unit: of, value: printed.value, included })
}
