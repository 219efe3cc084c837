//! The neutral tree of a body as JSON, and back. One to one: no number ever appears.

use record::Value;
use serde_json::Value as Json;
use std::collections::BTreeMap;

/// A group of fields as a JSON object.
pub(crate) fn object_of(group: &BTreeMap<String, Value>) -> serde_json::Map<String, Json> {
    let mut object = serde_json::Map::new();
    object.extend(group.iter().map(|(name, value)| (name.clone(), json_of(value))));
    object
}

fn json_of(value: &Value) -> Json {
    match value {
        Value::Text(text) => Json::String(text.clone()),
        Value::Flag(flag) => Json::Bool(*flag),
        Value::List(items) => Json::Array(items.iter().map(json_of).collect()),
        Value::Group(group) => Json::Object(object_of(group)),
    }
}

/// A JSON object as a group; the name of the first member that has no place in a body otherwise.
pub(crate) fn group_of(object: &serde_json::Map<String, Json>) -> Result<BTreeMap<String, Value>, String> {
    let mut group = BTreeMap::new();
    for (name, json) in object {
        group.insert(name.clone(), value_of(name, json)?);
    }
    Ok(group)
}

fn value_of(name: &str, json: &Json) -> Result<Value, String> {
    match json {
        Json::String(text) => Ok(Value::Text(text.clone())),
        Json::Bool(flag) => Ok(Value::Flag(*flag)),
        Json::Array(items) => {
            Ok(Value::List(items.iter().map(|item| value_of(name, item)).collect::<Result<_, _>>()?))
        }
        Json::Object(object) => group_of(object).map(Value::Group),
        Json::Null | Json::Number(_) => Err(name.to_owned()),
    }
}
