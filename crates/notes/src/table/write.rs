//! A log as a table: every line of one kind, also those that do not stand, and how each stands.
//!
//! A field is a column; lists and groups have a column for each field of each item, `points[1].depth`.
//! What people typed is written as they typed it wherever the job supplies the same unit; where it would
//! be read as another one, the unit stands behind it in braces, as in the record.

use super::ROW_HEADINGS;
use crate::context::defaults_of;
use record::field::{Defaults, FieldSpec, Shape};
use record::kinds::{JobOpened, KindSpec};
use record::{Line, Log, Standing, Value};
use std::collections::BTreeMap;

type Group = BTreeMap<String, Value>;

/// The lines of a kind as CSV: commas between cells, or semicolons where the comma is the decimal sign.
///
/// A table without lines has its headings.
pub fn csv_of(kind: &KindSpec, log: &Log<'_>) -> String {
    let defaults = log.last::<JobOpened>().map(|(_, opened)| defaults_of(opened));
    let lines: Vec<&Line<'_>> = log.lines.iter().filter(|line| line.body.kind().word == kind.word).collect();
    let groups: Vec<Group> = lines.iter().map(|line| line.body.to_group()).collect();
    let mut columns = Vec::new();
    for field in kind.fields {
        let held = groups.iter().filter_map(|group| group.get(field.name)).collect();
        lay(field.name.to_owned(), (field.shape)(), held, &mut columns);
    }
    let comma = defaults.is_some_and(|defaults| defaults.comma);
    let mut writer =
        csv::WriterBuilder::new().delimiter(if comma { b';' } else { b',' }).from_writer(Vec::new());
    let row_headings = ROW_HEADINGS
        .iter()
        .map(|(heading, _)| *heading)
        .filter(|heading| *heading != "date" && *heading != "device");
    let headings: Vec<&str> =
        row_headings.clone().chain(columns.iter().map(|(path, _)| path.as_str())).collect();
    // Writing to memory cannot fail, and every row has as many cells as there are headings.
    let mut put = |cells: &[String]| writer.write_record(cells).expect("memory takes every row");
    put(&headings.iter().map(|heading| (*heading).to_owned()).collect::<Vec<_>>());
    for (line, group) in lines.iter().zip(&groups) {
        let own = columns.iter().map(|(path, shape)| cell(at(group, path), *shape, defaults));
        put(&row_headings.clone().map(|heading| about(line, heading)).chain(own).collect::<Vec<_>>());
    }
    String::from_utf8(writer.into_inner().expect("memory takes every row")).expect("texts are UTF-8")
}

/// The columns of a field: as many as the longest of its lists needs, and at least one.
fn lay(path: String, shape: Shape, held: Vec<&Value>, columns: &mut Vec<(String, Shape)>) {
    match shape {
        Shape::Group(fields) => lay_group(&path, fields, &held, columns),
        Shape::List(item) => {
            let items = |value: &&Value| if let Value::List(items) = value { items.len() } else { 0 };
            for index in 0..held.iter().map(items).max().unwrap_or(0).max(1) {
                let each = held.iter().filter_map(|value| match value {
                    Value::List(items) => items.get(index),
                    _ => None,
                });
                lay(format!("{path}[{}]", index + 1), item(), each.collect(), columns);
            }
        }
        Shape::Body => {}
        leaf => columns.push((path, leaf)),
    }
}

fn lay_group(path: &str, fields: &'static [FieldSpec], held: &[&Value], columns: &mut Vec<(String, Shape)>) {
    for field in fields {
        let inner = held.iter().filter_map(|value| match value {
            Value::Group(group) => group.get(field.name),
            _ => None,
        });
        lay(format!("{path}.{}", field.name), (field.shape)(), inner.collect(), columns);
    }
}

/// What stands at a path counted from 1.
fn at<'g>(group: &'g Group, path: &str) -> Option<&'g Value> {
    let (first, rest) = path.split_once('.').map_or((path, None), |(first, rest)| (first, Some(rest)));
    let (name, index) = first.split_once('[').map_or((first, None), |(name, index)| (name, Some(index)));
    let mut value = group.get(name)?;
    if let Some(index) = index {
        let Value::List(items) = value else { return None };
        value = items.get(index.trim_end_matches(']').parse::<usize>().ok()?.checked_sub(1)?)?;
    }
    match (rest, value) {
        (None, value) => Some(value),
        (Some(rest), Value::Group(inner)) => at(inner, rest),
        _ => None,
    }
}

fn cell(value: Option<&Value>, shape: Shape, defaults: Option<Defaults>) -> String {
    match (value, shape) {
        (Some(Value::Flag(flag)), _) => if *flag { "yes" } else { "no" }.to_owned(),
        (Some(Value::Text(text)), Shape::Quantity(kind, scale)) => {
            let symbol = defaults.and_then(|defaults| defaults.unit(kind, scale)).map(|unit| unit.symbol);
            typed(text, symbol, defaults.is_some_and(|defaults| defaults.comma)).to_owned()
        }
        (Some(Value::Text(text)), _) => text.clone(),
        _ => String::new(),
    }
}

/// What was typed, where the job would read it the same; the stored form otherwise.
fn typed<'t>(stored: &'t str, symbol: Option<&str>, comma: bool) -> &'t str {
    let Some((typed, mark)) = stored.strip_suffix('}').and_then(|rest| rest.rsplit_once(" {")) else {
        return stored;
    };
    let (unit, marked) = mark.strip_suffix(',').map_or((mark, false), |unit| (unit, true));
    let same_sign = marked == (comma && typed.contains(['.', ',']));
    let same_unit = Some(unit) == symbol || (unit.is_empty() && marked);
    if same_sign && same_unit { typed } else { stored }
}

/// What the row headings say of a line.
fn about(line: &Line<'_>, heading: &str) -> String {
    let entry = line.entry;
    match heading {
        "shaft" => entry.shaft.clone().unwrap_or_default(),
        "at" => line.at.to_string(),
        "noted" => entry.noted_at.map(|noted| noted.to_string()).unwrap_or_default(),
        "author" => entry.author.clone(),
        "status" => match line.standing {
            Standing::Stands => "stands",
            Standing::Struck { .. } => "struck",
            Standing::Disputed { .. } => "disputed",
        }
        .to_owned(),
        "late_minutes" => line.late_minutes().map(|minutes| format!("{minutes:.0}")).unwrap_or_default(),
        "corrected_because" => line.reason.unwrap_or_default().to_owned(),
        "entry_id" => entry.id.to_string(),
        _ => unreachable!("every heading of a row that is written is named here"),
    }
}
