//! A sheet: one entry, a row for each of its fields, blanks shown as blanks.

use super::{Column, Row, Source, Table};
use crate::entry::value_text;
use crate::label;
use crate::phrase::small;
use record::kinds::kind_of;
use record::{Line, Shape, Value};

/// The field that names an entry in the title of its sheet.
const NAMES: &[(&str, &str)] = &[
    ("job_opened", "name"),
    ("criteria_chosen", "set"),
    ("mix_approved", "mix"),
    ("fluid_approved", "product"),
    ("strata_expected", "boring"),
    ("line_made_up", "name"),
];

/// A sheet for each entry of a kind.
pub(super) fn sheets(word: &str, source: &Source<'_, '_>) -> Vec<Table> {
    let lines = source.log.lines.iter().filter(|line| line.body.kind().word == word);
    lines.map(|line| sheet(line, source)).collect()
}

fn sheet(line: &Line<'_>, source: &Source<'_, '_>) -> Table {
    let kind = kind_of(line.body.kind().word).expect("a body has a kind");
    let group = line.body.to_group();
    let entered = format!("{}, {}", source.show.moment(line.at), line.entry.author);
    let mut rows = vec![source.row(line, vec![Some("Entered".to_owned()), Some(entered)])];
    for field in kind.fields {
        let label = label::field(field);
        match (group.get(field.name), (field.shape)()) {
            (Some(Value::List(items)), Shape::List(of)) => {
                rows.extend(items.iter().enumerate().map(|(index, item)| {
                    row(&format!("{label} {}", index + 1), Some(list_item(item, of(), source)))
                }));
            }
            (value, shape) => {
                rows.push(row(&label, value.map(|value| value_text(value, shape, source.show))));
            }
        }
    }
    let name = NAMES.iter().find(|row| row.0 == kind.word).and_then(|row| group.get(row.1));
    let title = match name {
        Some(Value::Text(name)) => format!("{}: {name}", label::kind(kind)),
        _ => label::kind(kind),
    };
    Table { id: kind.word, title, note: String::new(), columns: columns(), rows }
}

/// An item of a list without its brackets.
fn list_item(item: &Value, shape: Shape, source: &Source<'_, '_>) -> String {
    let (Value::Group(group), Shape::Group(fields)) = (item, shape) else {
        return value_text(item, shape, source.show);
    };
    let texts = fields.iter().filter_map(|field| {
        let text = value_text(group.get(field.name)?, (field.shape)(), source.show);
        Some(format!("{} {text}", small(&label::field(field))))
    });
    texts.collect::<Vec<_>>().join(", ")
}

fn row(label: &str, value: Option<String>) -> Row {
    Row { cells: vec![Some(label.to_owned()), value], marks: Vec::new(), time: None, entry: None }
}

fn columns() -> Vec<Column> {
    let column = |title: &str, weight| Column {
        title: title.to_owned(),
        unit: String::new(),
        numeric: false,
        weight,
        may_be_blank: false,
    };
    vec![column("Item", 1.0), column("As written", 2.5)]
}
