//! The tree of a file with the place of everything in it.
//!
//! It is the neutral tree of the record before it is one: whatever is found wrong later can still be
//! shown where it was written. Numbers, dates and times keep the characters that stand in the file.

use quantity::{Gather, InOrder};
use record::Value;
use std::collections::BTreeMap;
use std::ops::Range;
use toml::de::{DeTable, DeValue};

/// Something written, and where.
#[derive(Debug, Clone)]
pub(crate) struct Node {
    pub(crate) span: Range<usize>,
    pub(crate) sort: Sort,
}

/// What is written.
#[derive(Debug, Clone)]
pub(crate) enum Sort {
    Text(String),
    Flag(bool),
    List(Vec<Node>),
    Group(Vec<Named>),
}

/// A named field, in the order written.
#[derive(Debug, Clone)]
pub(crate) struct Named {
    pub(crate) name: String,
    pub(crate) at: Range<usize>,
    pub(crate) node: Node,
}

impl Node {
    pub(crate) fn text(span: Range<usize>, text: impl Into<String>) -> Self {
        Node { span, sort: Sort::Text(text.into()) }
    }

    pub(crate) fn group(span: Range<usize>, fields: Vec<Named>) -> Self {
        Node { span, sort: Sort::Group(fields) }
    }

    pub(crate) fn list(span: Range<usize>, items: Vec<Node>) -> Self {
        Node { span, sort: Sort::List(items) }
    }

    /// The tree of a table of a file.
    pub(crate) fn of_table(table: &DeTable<'_>, span: Range<usize>, source: &str) -> Self {
        let named =
            |(key, value): (&toml::Spanned<std::borrow::Cow<'_, str>>, &toml::Spanned<DeValue<'_>>)| Named {
                name: key.get_ref().to_string(),
                at: key.span(),
                node: Node::of(value, source),
            };
        let mut fields: Vec<Named> = table.iter().map(named).collect();
        fields.put_in_order_by_key(|field| field.at.start);
        Node { span, sort: Sort::Group(fields) }
    }

    fn of(value: &toml::Spanned<DeValue<'_>>, source: &str) -> Self {
        let span = value.span();
        let written = || source.get(span.clone()).unwrap_or_default().to_owned();
        let sort = match value.get_ref() {
            DeValue::String(text) => Sort::Text(text.to_string()),
            DeValue::Boolean(flag) => Sort::Flag(*flag),
            DeValue::Integer(_) | DeValue::Float(_) | DeValue::Datetime(_) => Sort::Text(written()),
            DeValue::Array(items) => Sort::List(items.iter().map(|item| Node::of(item, source)).collect()),
            DeValue::Table(table) => return Node::of_table(table, span, source),
        };
        Node { span, sort }
    }

    /// The neutral tree.
    pub(crate) fn to_value(&self) -> Value {
        match &self.sort {
            Sort::Text(text) => Value::Text(text.clone()),
            Sort::Flag(flag) => Value::Flag(*flag),
            Sort::List(items) => Value::List(items.iter().map(Node::to_value).collect()),
            Sort::Group(fields) => Value::Group(to_group(fields)),
        }
    }

    pub(crate) fn as_text(&self) -> Option<&str> {
        match &self.sort {
            Sort::Text(text) => Some(text),
            _ => None,
        }
    }

    /// What this is called in a message.
    pub(crate) fn describe(&self) -> &'static str {
        match &self.sort {
            Sort::Text(_) => "a text",
            Sort::Flag(_) => "a yes or no",
            Sort::List(_) => "a list",
            Sort::Group(_) => "a group of fields",
        }
    }

    /// The field of a name, where this is a group that has one.
    pub(crate) fn field(&self, name: &str) -> Option<&Named> {
        match &self.sort {
            Sort::Group(fields) => fields.iter().find(|field| field.name == name),
            _ => None,
        }
    }

    pub(crate) fn item(&self, index: usize) -> Option<&Node> {
        match &self.sort {
            Sort::List(items) => items.get(index),
            _ => None,
        }
    }
}

/// Named fields as the neutral tree has them.
pub(crate) fn to_group(fields: &[Named]) -> BTreeMap<String, Value> {
    fields.iter().map(|field| (field.name.clone(), field.node.to_value())).into_map()
}
