//! Every item an inspector has to record has a place, and the page that says so cannot rot.

use record::field::{FieldSpec, Shape};
use record::kinds::{KINDS, kind_of};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// What an entry itself holds beside its body.
const OF_EVERY_ENTRY: &[&str] =
    &["author", "device", "entered_at", "id", "noted_at", "observed_at", "prev", "seal", "seq", "shaft"];

fn house() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn text(name: &str) -> String {
    std::fs::read_to_string(house().join(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// One row of the page.
struct Item {
    name: String,
    fields: Vec<String>,
    drawings: Vec<String>,
    facts: Vec<String>,
}

fn quoted(cell: &str) -> Vec<String> {
    cell.split('`').skip(1).step_by(2).map(str::to_owned).collect()
}

fn items(page: &str) -> Vec<Item> {
    let rows = page.lines().filter(|line| line.starts_with("| ") && !line.starts_with("| item "));
    let row = |line: &str| {
        let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
        assert_eq!(cells.len(), 4, "four cells a row: {line}");
        Item {
            name: cells[0].to_owned(),
            fields: quoted(cells[1]),
            drawings: cells[2].split_whitespace().map(str::to_owned).collect(),
            facts: quoted(cells[3]),
        }
    };
    rows.map(row).collect()
}

/// Whether `kind.field.field` leads somewhere.
fn exists(path: &str) -> bool {
    let mut steps = path.split('.');
    let kind = steps.next().unwrap_or_default();
    if kind == "entry" {
        return steps.next().is_some_and(|name| OF_EVERY_ENTRY.contains(&name)) && steps.next().is_none();
    }
    let Some(kind) = kind_of(kind) else { return false };
    let mut fields: &[FieldSpec] = kind.fields;
    let mut found = false;
    for step in steps {
        let Some(field) = fields.iter().find(|field| field.name == step) else { return false };
        found = true;
        fields = inside((field.shape)());
    }
    found
}

fn inside(shape: Shape) -> &'static [FieldSpec] {
    match shape {
        Shape::Group(fields) => fields,
        Shape::List(item) => inside(item()),
        _ => &[],
    }
}

#[test]
fn every_field_drawing_and_fact_on_the_page_exists() {
    let facts = text("criteria/facts.md");
    for item in items(&text("docs/coverage.md")) {
        assert!(!item.fields.is_empty(), "`{}` has no place in the entries", item.name);
        for field in &item.fields {
            assert!(exists(field), "`{}`: there is no field {field}", item.name);
        }
        for drawing in &item.drawings {
            let file = house().join(format!("crates/figure/src/{drawing}.rs"));
            assert!(file.is_file(), "`{}`: there is no drawing {drawing}", item.name);
        }
        for fact in &item.facts {
            assert!(facts.contains(&format!("| `{fact}` |")), "`{}`: there is no fact {fact}", item.name);
        }
    }
}

#[test]
fn a_field_that_is_not_there_is_noticed() {
    assert!(exists("concrete_sounded.points.depth") && exists("entry.seq"));
    for wrong in ["concrete_sounded", "concrete_sounded.points.mood", "nonsense.depth", "entry", "entry.mood"]
    {
        assert!(!exists(wrong), "{wrong}");
    }
}

/// A field no item needs is either superfluous or an item is missing from the page.
#[test]
fn every_field_of_every_kind_serves_an_item() {
    let items = items(&text("docs/coverage.md"));
    let used: BTreeSet<&String> = items.iter().flat_map(|item| &item.fields).collect();
    let mut all = Vec::new();
    for kind in KINDS {
        leaves(kind.word, kind.fields, &mut all);
    }
    // `correction.body` holds a whole body of its own and has no fields to list.
    let idle: Vec<&String> = all.iter().filter(|path| !used.contains(path)).collect();
    assert!(idle.is_empty(), "no item of docs/coverage.md names {idle:#?}");
}

/// The paths of everything a person can fill in.
fn leaves(at: &str, fields: &[FieldSpec], all: &mut Vec<String>) {
    for field in fields {
        let path = format!("{at}.{}", field.name);
        match inside((field.shape)()) {
            [] => all.push(path),
            deeper => leaves(&path, deeper, all),
        }
    }
}

#[test]
fn the_count_on_the_page_is_right() {
    let page = text("docs/coverage.md");
    let items = items(&page);
    let names: BTreeSet<&str> = items.iter().map(|item| item.name.as_str()).collect();
    assert_eq!(names.len(), items.len(), "an item is listed twice");
    let covered =
        items.iter().filter(|item| !item.fields.is_empty() && item.fields.iter().all(|at| exists(at)));
    let fields: BTreeSet<&String> = items.iter().flat_map(|item| &item.fields).collect();
    let count = format!(
        "**{} items listed, {} covered, by {} fields of {} kinds of entries.**",
        items.len(),
        covered.count(),
        fields.len(),
        KINDS.len()
    );
    println!("{count}");
    assert!(page.lines().any(|line| line == count), "docs/coverage.md has to say: {count}");
}
