//! A table from its description: rows for entries, or for the items of a list in them.

use super::spec::{Col, From, Spec};
use super::{Column, Row, Source, Table};
use crate::entry::{quantity_text, value_text};
use crate::label;
use crate::phrase::small;
use quantity::{Depth, Elevation, Entered};
use record::{FieldSpec, KindSpec, Line, Shape, Value, kinds::kind_of};
use std::collections::BTreeMap;

type Group = BTreeMap<String, Value>;

/// The table of a description.
pub(super) fn rows(spec: &Spec, source: &Source<'_, '_>) -> Table {
    let lines = source.log.lines.iter().filter(|line| spec.kinds.contains(&line.body.kind().word));
    let rows = lines.flat_map(|line| rows_of(spec, line, source)).collect();
    let columns = spec.columns.iter().map(|col| column(col, spec, source)).collect();
    let (title, note) = (spec.title.to_owned(), spec.note.to_owned());
    with_further(Table { id: spec.id, title, note, columns, rows })
}

/// The table of a kind that has no description: a column for each of its fields.
pub(super) fn plain(kind: &'static KindSpec, source: &Source<'_, '_>) -> Table {
    let lines = source.log.lines.iter().filter(|line| line.body.kind().word == kind.word);
    let mut rows = Vec::new();
    for line in lines {
        let group = line.body.to_group();
        let cells = kind.fields.iter().map(|field| cell(field, &group, source));
        let mut cells: Vec<Option<String>> =
            [Some(source.show.stamp(line.at))].into_iter().chain(cells).collect();
        cells.push(Some(line.entry.author.clone()));
        rows.push(source.row(line, cells));
    }
    let fields = kind.fields.iter().map(|field| field_column(field, source));
    let ends = [plain_column("Time", 1.2), plain_column("Entered by", 1.2)];
    let [time, by] = ends;
    let columns = [time].into_iter().chain(fields).chain([by]).collect();
    without_blank_columns(Table {
        id: kind.word,
        title: label::kind(kind),
        note: String::new(),
        columns,
        rows,
    })
}

fn rows_of(spec: &Spec, line: &Line<'_>, source: &Source<'_, '_>) -> Vec<Row> {
    let (kind, group) = (line.body.kind(), line.body.to_group());
    let items: Vec<Option<&Group>> = match group.get(spec.items) {
        Some(Value::List(items)) => items.iter().map(as_group).collect(),
        _ => vec![None],
    };
    let make = |(index, item): (usize, &Option<&Group>)| {
        let place = Place { spec, line, kind, group: &group, item: *item, source };
        let mut cells: Vec<Option<String>> = spec.columns.iter().map(|col| place.cell(col)).collect();
        cells.push(place.further(index == 0));
        source.row(line, cells)
    };
    items.iter().enumerate().map(make).collect()
}

fn as_group(value: &Value) -> Option<&Group> {
    if let Value::Group(group) = value { Some(group) } else { None }
}

/// One row in the making.
struct Place<'p, 's, 'r> {
    spec: &'p Spec,
    line: &'p Line<'r>,
    kind: &'static KindSpec,
    group: &'p Group,
    item: Option<&'p Group>,
    source: &'p Source<'s, 'r>,
}

impl Place<'_, '_, '_> {
    fn cell(&self, col: &Col) -> Option<String> {
        match col.from {
            From::Time => Some(self.source.show.stamp(self.line.at)),
            From::By => Some(self.line.entry.author.clone()),
            From::Kind => Some(label::kind(self.kind)),
            From::Field(name) => cell(field_of(self.kind, name)?, self.group, self.source),
            From::Item(name) => cell(item_field(self.kind, self.spec.items, name)?, self.item?, self.source),
            From::Level(name) => self.level(self.group, name),
            From::ItemLevel(name) => self.level(self.item?, name),
            From::Made(make) => make(self.source, self.line),
        }
    }

    /// The elevation that follows from a depth that was typed.
    fn level(&self, group: &Group, name: &str) -> Option<String> {
        let Value::Text(stored) = group.get(name)? else { return None };
        let depth = Entered::<Depth>::from_stored(stored).ok()?.value();
        let corrected = match self.group.get("tape_correction") {
            Some(Value::Text(stored)) => {
                Depth(depth.0 + Entered::<quantity::Length>::from_stored(stored).ok()?.value())
            }
            _ => depth,
        };
        let named = match self.group.get("reference") {
            Some(Value::Text(name)) => Some(name.as_str()),
            _ => None,
        };
        let (reference, _) = self.source.assessment.picture.references.in_force(named, self.line.at)?;
        let level = Elevation::of_depth(reference, corrected);
        Some(self.source.show.bare(self.source.show.elevation(level)))
    }

    /// Every field that has no column; those of the entry itself only in its first row.
    fn further(&self, first: bool) -> Option<String> {
        let mut texts = if first { self.further_of_entry() } else { Vec::new() };
        texts.extend(self.further_of_item());
        (!texts.is_empty()).then(|| texts.join("; "))
    }

    fn further_of_entry(&self) -> Vec<String> {
        let shown = |name: &str| {
            name == self.spec.items
                || self.spec.columns.iter().any(|col| matches!(col.from, From::Field(field) if field == name))
        };
        let rest = self.kind.fields.iter().filter(|field| !shown(field.name));
        rest.filter_map(|field| self.labelled(field, self.group)).collect()
    }

    fn further_of_item(&self) -> Vec<String> {
        let Some(item) = self.item else { return Vec::new() };
        let shown = |name: &str| {
            self.spec.columns.iter().any(|col| matches!(col.from, From::Item(field) if field == name))
        };
        let rest = item_fields(self.kind, self.spec.items).iter().filter(|field| !shown(field.name));
        rest.filter_map(|field| self.labelled(field, item)).collect()
    }

    fn labelled(&self, field: &FieldSpec, group: &Group) -> Option<String> {
        let text = value_text(group.get(field.name)?, (field.shape)(), self.source.show);
        Some(format!("{} {text}", small(&label::field(field))))
    }
}

/// The content of a field, without the unit that stands in the head of its column.
fn cell(field: &FieldSpec, group: &Group, source: &Source<'_, '_>) -> Option<String> {
    let value = group.get(field.name)?;
    let text = match ((field.shape)(), value) {
        (Shape::Quantity(kind, _), Value::Text(stored)) => quantity_text(kind, stored),
        (shape, value) => value_text(value, shape, source.show),
    };
    let unit = unit_of(field, source);
    let bare = text.strip_suffix(unit).filter(|rest| !unit.is_empty() && rest.ends_with(' '));
    Some(bare.map_or(text.clone(), |bare| bare.trim_end().to_owned()))
}

/// The unit a bare number in a field has on this job.
fn unit_of(field: &FieldSpec, source: &Source<'_, '_>) -> &'static str {
    match (field.shape)() {
        Shape::Quantity(kind, scale) => {
            source.show.defaults().unit(kind, scale).map_or("", |unit| unit.symbol)
        }
        _ => "",
    }
}

fn field_of(kind: &'static KindSpec, name: &str) -> Option<&'static FieldSpec> {
    kind.fields.iter().find(|field| field.name == name)
}

fn item_field(kind: &'static KindSpec, items: &str, name: &str) -> Option<&'static FieldSpec> {
    item_fields(kind, items).iter().find(|field| field.name == name)
}

/// The fields of the items of a list.
fn item_fields(kind: &'static KindSpec, items: &str) -> &'static [FieldSpec] {
    match field_of(kind, items).map(|field| (field.shape)()) {
        Some(Shape::List(of)) => match of() {
            Shape::Group(fields) => fields,
            _ => &[],
        },
        _ => &[],
    }
}

fn column(col: &Col, spec: &Spec, source: &Source<'_, '_>) -> Column {
    let kinds = || spec.kinds.iter().filter_map(|word| kind_of(word));
    let field = match col.from {
        From::Field(name) => kinds().find_map(|kind| field_of(kind, name)),
        From::Item(name) => kinds().find_map(|kind| item_field(kind, spec.items, name)),
        _ => None,
    };
    let title = match (col.title, field) {
        ("", Some(field)) => label::field(field),
        (title, _) => title.to_owned(),
    };
    let unit = field.map_or_else(|| (col.unit)(source.show), |field| unit_of(field, source)).to_owned();
    let may_be_blank = col.may_be_blank;
    Column { title, unit, numeric: col.numeric, weight: col.weight, may_be_blank }
}

fn field_column(field: &FieldSpec, source: &Source<'_, '_>) -> Column {
    let numeric = matches!((field.shape)(), Shape::Quantity(..) | Shape::Count);
    let weight = if matches!((field.shape)(), Shape::Text | Shape::List(_)) { 2.0 } else { 1.0 };
    let unit = unit_of(field, source).to_owned();
    Column { title: label::field(field), unit, numeric, weight, may_be_blank: field.may_be_blank }
}

fn plain_column(title: &str, weight: f64) -> Column {
    Column { title: title.to_owned(), unit: String::new(), numeric: false, weight, may_be_blank: false }
}

/// Gives the fields without a column one of their own, when there are any.
fn with_further(mut table: Table) -> Table {
    let further = table.columns.len();
    if table.rows.iter().any(|row| row.cells[further].is_some()) {
        table.columns.push(Column { may_be_blank: true, ..plain_column("Further", 2.5) });
    } else {
        for row in &mut table.rows {
            row.cells.truncate(further);
        }
    }
    table
}

/// A column in which no entry of the record has anything is left out where it may be blank.
fn without_blank_columns(mut table: Table) -> Table {
    let kept: Vec<bool> = (0..table.columns.len())
        .map(|index| {
            !table.columns[index].may_be_blank || table.rows.iter().any(|row| row.cells[index].is_some())
        })
        .collect();
    let mut index = 0..;
    table.columns.retain(|_| kept[index.next().unwrap_or_default()]);
    for row in &mut table.rows {
        let mut index = 0..;
        row.cells.retain(|_| kept[index.next().unwrap_or_default()]);
    }
    table
}
