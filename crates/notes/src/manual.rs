//! The parts of the manual that follow from the declared kinds: every kind with its fields, every table
//! with its headings.
//!
//! They are printed here and compared with the pages by a test, so that no page can go stale.

use crate::block::RESERVED;
use crate::table::{OTHER_WORDS, ROW_HEADINGS, Table, heading_names};
use quantity::Kind;
use record::field::{Defaults, FieldSpec, Scale, Shape, UnitSystem};
use record::kinds::{Family, KINDS, KindSpec};
use std::collections::BTreeMap;
use std::fmt::Write;

/// Every family with its heading and the way its entries are usually written.
const FAMILIES: &[(Family, &str)] = &[
    (Family::Job, "The job and its papers"),
    (Family::Plan, "What a shaft should be"),
    (Family::Before, "Before the drill turns"),
    (Family::Casing, "Casings"),
    (Family::Excavation, "Making the hole"),
    (Family::Bottom, "The bottom"),
    (Family::Cage, "The cage"),
    (Family::Pour, "The pour"),
    (Family::After, "After the pour"),
    (Family::Always, "At any time"),
];

/// Every kind of entry with its fields, as Markdown.
pub fn kinds_manual() -> String {
    let mut page = String::new();
    for (family, heading) in FAMILIES {
        put(&mut page, format_args!("### {heading}\n\n"));
        KINDS.iter().filter(|kind| kind.family == *family).for_each(|kind| kind_section(&mut page, kind));
    }
    page.trim_end().to_owned() + "\n"
}

/// Every table with its headings, as Markdown.
pub fn tables_manual() -> String {
    let mut page = "### Headings of every table\n\n| heading | meaning |\n|---|---|\n".to_owned();
    ROW_HEADINGS
        .iter()
        .for_each(|(heading, meaning)| put(&mut page, format_args!("| `{heading}` | {meaning} |\n")));
    for table in Table::named() {
        let row = |name: &String| ROW_HEADINGS.iter().any(|(heading, _)| heading == name);
        let names = heading_names(&table).into_iter().filter(|name| !row(name));
        let names = names.map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ");
        put(&mut page, format_args!("\n### `{}`\n\n{}\n\n{names}\n", table.word, table.meaning));
    }
    put(
        &mut page,
        format_args!("\n### Other words that are understood\n\n| written | taken as |\n|---|---|\n"),
    );
    let mut words: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for (word, heading) in OTHER_WORDS {
        words.entry(word).or_default().push(format!("`{heading}`"));
    }
    for (word, headings) in words {
        let headings = headings.join(" or ");
        put(&mut page, format_args!("| {} | {headings} |\n", word.replace('_', " ")));
    }
    page
}

fn put(page: &mut String, text: std::fmt::Arguments<'_>) {
    page.write_fmt(text).expect("a text takes every text");
}

fn kind_section(page: &mut String, kind: &KindSpec) {
    put(page, format_args!("#### `{}`\n\n{}\n\n", kind.word, kind.meaning.trim()));
    if kind.fields.is_empty() {
        return put(page, format_args!("It has no fields.\n\n"));
    }
    put(page, format_args!("| field | meaning | holds |\n|---|---|---|\n"));
    field_rows(page, kind.fields, "");
    put(page, format_args!("\n"));
}

fn field_rows(page: &mut String, fields: &[FieldSpec], before: &str) {
    for field in fields {
        let shape = (field.shape)();
        let needed = if field.may_be_blank { "" } else { "**needed** · " };
        let escape = if before.is_empty() && RESERVED.contains(&field.name) { "_" } else { "" };
        let name = format!("{before}{}{escape}", field.name);
        put(page, format_args!("| `{name}` | {} | {needed}{} |\n", field.meaning.trim(), holds(shape)));
        match shape {
            Shape::Group(inner) => field_rows(page, inner, &format!("{name}.")),
            Shape::List(item) => {
                if let Shape::Group(inner) = item() {
                    field_rows(page, inner, &format!("{name}[ ]."));
                }
            }
            _ => {}
        }
    }
}

/// What a field holds, in words.
fn holds(shape: Shape) -> String {
    match shape {
        Shape::Text => "text".to_owned(),
        Shape::Flag => "yes or no".to_owned(),
        Shape::Count => "whole number".to_owned(),
        Shape::Moment => "time".to_owned(),
        Shape::Quantity(kind, scale) => quantity(kind, scale),
        Shape::Choice(words) => {
            let word = |word: &record::field::ChoiceSpec| {
                format!("`{}`: {}", word.word, word.meaning.trim().trim_end_matches('.'))
            };
            words.iter().map(word).collect::<Vec<_>>().join(" · ")
        }
        Shape::Entry => "an entry: `#label`, or the first digits of its id".to_owned(),
        Shape::FileHash => "a file beside the notes, or its SHA-256".to_owned(),
        Shape::List(item) => match item() {
            Shape::Group(_) => "a list of groups:".to_owned(),
            one => format!("a list, each {}", holds(one)),
        },
        Shape::Group(_) => "a group:".to_owned(),
        Shape::Body => "an entry as it should have been: `{ entry = \"…\", … }`".to_owned(),
    }
}

fn quantity(kind: Kind, scale: Scale) -> String {
    let unit = |system| Defaults { system, ..Defaults::default() }.unit(kind, scale);
    let symbol = |system| match unit(system) {
        Some(unit) if unit.symbol.is_empty() => Some("plain number"),
        Some(unit) => Some(unit.symbol),
        None => None,
    };
    let bare = match (symbol(UnitSystem::Us), symbol(UnitSystem::Metric)) {
        (Some(us), Some(metric)) if us == metric => us.to_owned(),
        (Some(us), Some(metric)) => format!("{us} or {metric}"),
        (Some(us), None) => format!("{us} on a US job, written out on a metric one"),
        (None, _) => "unit always written".to_owned(),
    };
    let noun = kind.noun();
    let noun = noun.strip_prefix("a ").or_else(|| noun.strip_prefix("an ")).unwrap_or(noun);
    format!("{noun} ({bare})")
}
