//! The neutral tree a body is taken apart into and put together from.
//!
//! The stored form, the field notes, the spreadsheets and the printed log all speak of the same fields;
//! this tree is what they have in common. It holds texts as they were typed, never numbers.
//!
//! Never: know JSON, TOML or CSV.

use std::collections::BTreeMap;

/// A field's content, or a group of fields.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Value {
    /// Text as typed.
    Text(String),
    /// A yes or a no.
    Flag(bool),
    /// Several of the same shape, in the order written.
    List(Vec<Value>),
    /// Named fields. A blank field is absent.
    Group(BTreeMap<String, Value>),
}

impl Value {
    /// What this is called in a message.
    pub fn describe(&self) -> &'static str {
        match self {
            Value::Text(_) => "a text",
            Value::Flag(_) => "a yes or no",
            Value::List(_) => "a list",
            Value::Group(_) => "a group of fields",
        }
    }
}
