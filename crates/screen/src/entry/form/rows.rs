//! From what was typed to the neutral tree a body is read from.
//!
//! A row nobody wrote in is left out, and what is wrong in a later row still points at the row a person
//! sees. A group nobody began is left out as well.
//!
//! Never: read a quantity, drop a text.

use super::Form;
use record::Value;
use record::field::{FieldSpec, Shape};
use record::kinds::kind_of;
use std::collections::BTreeMap;

/// Which row of the form a row of the tree is.
#[derive(Debug, Default)]
pub(super) struct Kept(Vec<(String, String)>);

impl Kept {
    /// A path of the tree as the form shows it.
    pub(super) fn as_shown(&self, path: &str) -> String {
        let below = |prefix: &str| {
            path.strip_prefix(prefix).is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
        };
        let longest = self.0.iter().filter(|(kept, _)| below(kept)).max_by_key(|(kept, _)| kept.len());
        longest.map_or_else(|| path.to_owned(), |(kept, shown)| format!("{shown}{}", &path[kept.len()..]))
    }
}

/// The tree of a form, and which of its rows stand in it.
pub(super) fn tree(form: &Form) -> (BTreeMap<String, Value>, Kept) {
    let mut builder = Builder { form, kept: Kept::default() };
    let at = At { shown: String::new(), tree: String::new() };
    let group = builder.group(form.kind.fields, &at);
    (group, builder.kept)
}

/// A place, as the form shows it and as it stands in the tree.
struct At {
    shown: String,
    tree: String,
}

impl At {
    fn below(&self, name: &str) -> At {
        let join = |path: &str| if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") };
        At { shown: join(&self.shown), tree: join(&self.tree) }
    }

    fn row(&self, shown: usize, kept: usize) -> At {
        At { shown: format!("{}[{shown}]", self.shown), tree: format!("{}[{kept}]", self.tree) }
    }
}

struct Builder<'f> {
    form: &'f Form,
    kept: Kept,
}

impl Builder<'_> {
    fn group(&mut self, fields: &[FieldSpec], at: &At) -> BTreeMap<String, Value> {
        let mut group = BTreeMap::new();
        for field in fields {
            if let Some(value) = self.value(field, (field.shape)(), &at.below(field.name)) {
                group.insert(field.name.to_owned(), value);
            }
        }
        group
    }

    fn value(&mut self, field: &FieldSpec, shape: Shape, at: &At) -> Option<Value> {
        let blank = self.form.answers.is_blank_below(&at.shown);
        match shape {
            Shape::List(item) => self.list(field, item(), at),
            _ if blank && field.may_be_blank => None,
            Shape::Group(inner) => Some(Value::Group(self.group(inner, at))),
            Shape::Body => Some(self.body(at)),
            _ if blank => None,
            Shape::Moment => Some(Value::Text(self.moment(&at.shown))),
            _ => Some(Value::Text(self.form.text(&at.shown).to_owned())),
        }
    }

    fn list(&mut self, field: &FieldSpec, item: Shape, at: &At) -> Option<Value> {
        let mut items = Vec::new();
        for row in 0..self.form.answers.rows(&at.shown) {
            let here = at.row(row, items.len());
            if self.form.answers.is_blank_below(&here.shown) {
                continue;
            }
            self.kept.0.push((here.tree.clone(), here.shown.clone()));
            items.extend(self.value(field, item, &here));
        }
        (!items.is_empty()).then_some(Value::List(items))
    }

    fn body(&mut self, at: &At) -> Value {
        let word = self.form.text(&at.below("kind").shown).to_owned();
        let mut group = BTreeMap::new();
        if let Some(kind) = kind_of(&word) {
            let inner = self.group(kind.fields, &at.below("body"));
            group.insert("body".to_owned(), Value::Group(inner));
        }
        group.insert("kind".to_owned(), Value::Text(word));
        Value::Group(group)
    }

    /// A clock time as a moment; what names none stays as typed, and the fault says so.
    fn moment(&self, path: &str) -> String {
        let text = self.form.text(path);
        self.form.clock(path).moment(text).map_or_else(|| text.to_owned(), |moment| moment.to_string())
    }
}
