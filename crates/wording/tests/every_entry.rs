//! Every entry is shown somewhere: one of each kind is written with all its fields, and each is looked for.

mod support;

use quantity::Kind;
use record::kinds::KINDS;
use record::{FieldSpec, Shape, Value};
use std::collections::BTreeMap;
use support::{Site, at, log};

/// Writes a different value into every field, and remembers how each will be printed.
struct Filler {
    next: u32,
    other: String,
    expected: Vec<String>,
}

impl Filler {
    fn group(&mut self, fields: &[FieldSpec]) -> BTreeMap<String, Value> {
        fields.iter().map(|field| (field.name.to_owned(), self.value((field.shape)()))).collect()
    }

    fn value(&mut self, shape: Shape) -> Value {
        self.next += 1;
        let number = self.next;
        match shape {
            Shape::Text => self.text(format!("words {number} here"), None),
            Shape::Flag => Value::Flag(true),
            Shape::Count => self.text(number.to_string(), None),
            Shape::Moment => {
                let clock = format!("{:02}:{:02}", 10 + number / 60, number % 60);
                self.text(at(&clock).to_string(), Some(clock))
            }
            Shape::Quantity(kind, _) => {
                self.text(format!("{number}{}", unit(kind)), Some(number.to_string()))
            }
            Shape::Choice(words) => {
                let word = words[number as usize % words.len()].word;
                self.text(word.to_owned(), Some(wording::label::choice(word)))
            }
            Shape::Entry => self.text(self.other.clone(), Some(self.other[..8].to_owned())),
            Shape::FileHash => self.text(format!("{number:064x}"), None),
            Shape::List(of) => Value::List(vec![self.value(of()), self.value(of())]),
            Shape::Group(fields) => Value::Group(self.group(fields)),
            Shape::Body => {
                let words = self.text("another remark".to_owned(), None);
                let inner = [("text".to_owned(), words)].into_iter().collect();
                let group =
                    [("kind".to_owned(), support::text("remark")), ("body".to_owned(), Value::Group(inner))];
                Value::Group(group.into_iter().collect())
            }
        }
    }

    fn text(&mut self, stored: String, printed: Option<String>) -> Value {
        self.expected.push(printed.unwrap_or_else(|| stored.clone()));
        Value::Text(stored)
    }
}

/// A unit that no field has as its own, where there is one: the cell must show it.
fn unit(kind: Kind) -> &'static str {
    match kind {
        Kind::Length => " yd",
        Kind::Area => " m²",
        Kind::Volume => " ft³",
        Kind::Density => " lb/gal",
        Kind::Mass => " t",
        Kind::Force => " kN",
        Kind::Pressure => " bar",
        Kind::Temperature => " K",
        Kind::Span => " h",
        Kind::FunnelTime => " s/L",
        Kind::Fraction => " %",
        Kind::Ph | Kind::WaterCement => " {}",
        Kind::Slope => " mm/m",
        Kind::Inflow => " m/h",
    }
}

#[test]
fn every_field_of_every_kind_is_printed_in_some_table() {
    for kind in KINDS {
        let mut site = Site::new();
        let other = site.write("07:00", "remark", &[("text", support::text("the first remark"))]);
        let mut filler = Filler { next: 200, other: other.to_string(), expected: Vec::new() };
        let fields = filler.group(kind.fields);
        let fields: Vec<(&str, Value)> =
            fields.iter().map(|(name, value)| (name.as_str(), value.clone())).collect();
        let id = site.write("09:00", kind.word, &fields);
        let cells = all_cells(&site);
        for expected in &filler.expected {
            let found = cells.iter().any(|cell| cell.contains(expected.as_str()));
            assert!(found, "{}: `{expected}` is in no table:\n{}", kind.word, cells.join("\n"));
        }
        assert!(is_named(&site, &id.short()), "{}: its row does not name it", kind.word);
    }
}

#[test]
fn an_entry_with_nothing_but_what_it_must_hold_is_shown_too() {
    for kind in KINDS {
        let mut site = Site::new();
        let other = site.write("07:00", "remark", &[("text", support::text("the first remark"))]);
        let mut filler = Filler { next: 200, other: other.to_string(), expected: Vec::new() };
        let needed: Vec<(&str, Value)> = kind
            .fields
            .iter()
            .filter(|field| !field.may_be_blank)
            .map(|field| (field.name, filler.value((field.shape)())))
            .collect();
        let id = site.write("09:00", kind.word, &needed);
        assert!(is_named(&site, &id.short()), "{}: no row names it", kind.word);
    }
}

fn all_cells(site: &Site) -> Vec<String> {
    let tables = tables(site);
    let rows = tables.iter().flat_map(|table| &table.rows);
    rows.flat_map(|row| row.cells.iter().flatten().cloned()).collect()
}

/// Whether a row belongs to the entry.
fn is_named(site: &Site, id: &str) -> bool {
    tables(site).iter().flat_map(|table| &table.rows).any(|row| row.entry.as_deref() == Some(id))
}

fn tables(site: &Site) -> Vec<wording::Table> {
    let record = site.record();
    let log = log(&record);
    let set = criteria::Set::shipped("roadside-common-practice-1").unwrap();
    let (in_force, _) = set.in_force(&[]);
    let assessment = assess::assess(&log, &in_force, at("18:00"));
    let tables = wording::tables(&log, &assessment, &wording::Show::of_log(&log));
    for table in &tables {
        for row in &table.rows {
            assert_eq!(row.cells.len(), table.columns.len(), "{}", table.id);
        }
    }
    tables
}
