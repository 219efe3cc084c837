//! `kinds`: what can be entered, for people who write notes.

use crate::problem::Problem;
use crate::screen::Screen;
use record::field::{FieldSpec, Shape};
use record::kinds::{KINDS, KindSpec};
use serde_json::{Value, json};

pub(crate) fn run(wanted: Option<&str>, as_json: bool, screen: &mut Screen) -> Result<(), Problem> {
    let chosen: Vec<&KindSpec> =
        KINDS.iter().filter(|kind| wanted.is_none_or(|word| kind.word == word)).collect();
    if chosen.is_empty() {
        let what = format!("There is no kind of entry `{}`.", wanted.unwrap_or_default());
        return Err(Problem::new(what, "Nothing was listed.", "List them all with `shaftbook kinds`."));
    }
    if as_json {
        let all: Vec<Value> = chosen.iter().map(|kind| json_of(kind)).collect();
        screen.json(&Value::Array(all));
        return Ok(());
    }
    let brief = wanted.is_none();
    for kind in chosen {
        screen.set_in(0, 21, &format!("{:<20} {}", kind.word, kind.meaning.trim()));
        if !brief {
            kind.fields.iter().for_each(|field| print_field(field, 1, screen));
        }
    }
    Ok(())
}

fn print_field(field: &FieldSpec, depth: usize, screen: &mut Screen) {
    let blank = if field.may_be_blank { "" } else { " (needed)" };
    let text = format!("{:<22} {}{blank} {}", field.name, field.meaning.trim(), said((field.shape)()));
    screen.set_in(2 * depth, 23, &text);
    if let Some(fields) = inner((field.shape)()) {
        fields.iter().for_each(|field| print_field(field, depth + 1, screen));
    }
}

fn inner(shape: Shape) -> Option<&'static [FieldSpec]> {
    match shape {
        Shape::Group(fields) => Some(fields),
        Shape::List(item) => inner(item()),
        _ => None,
    }
}

/// A shape in a few words.
fn said(shape: Shape) -> String {
    match shape {
        Shape::Text => "[text]".to_owned(),
        Shape::Flag => "[yes or no]".to_owned(),
        Shape::Count => "[whole number]".to_owned(),
        Shape::Moment => "[time]".to_owned(),
        Shape::Quantity(kind, _) => format!("[{}]", kind.noun()),
        Shape::Choice(words) => {
            let words: Vec<&str> = words.iter().map(|choice| choice.word).collect();
            format!("[{}]", words.join(" | "))
        }
        Shape::Entry => "[entry]".to_owned(),
        Shape::FileHash => "[file]".to_owned(),
        Shape::List(item) => format!("list of {}", said(item())),
        Shape::Group(_) => "[fields]".to_owned(),
        Shape::Body => "[a whole entry]".to_owned(),
    }
}

fn json_of(kind: &KindSpec) -> Value {
    let fields: Vec<Value> = kind.fields.iter().map(field_json).collect();
    json!({ "kind": kind.word, "meaning": kind.meaning.trim(), "fields": fields })
}

fn field_json(field: &FieldSpec) -> Value {
    let fields: Option<Vec<Value>> =
        inner((field.shape)()).map(|fields| fields.iter().map(field_json).collect());
    json!({ "name": field.name, "meaning": field.meaning.trim(), "may_be_blank": field.may_be_blank,
        "holds": said((field.shape)()), "fields": fields })
}
