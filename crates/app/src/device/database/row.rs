//! Rows as the browser keeps them: plain objects of texts and numbers.

use js_sys::{Object, Reflect, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};

/// A row that is being put together.
pub(in crate::device) struct Row(Object);

impl Row {
    /// A row without cells.
    pub(in crate::device) fn new() -> Self {
        Row(Object::new())
    }

    /// The same with a cell more.
    pub(in crate::device) fn with(self, name: &str, value: impl Into<JsValue>) -> Self {
        // A plain object takes every cell.
        Reflect::set(&self.0, &JsValue::from_str(name), &value.into()).expect("a plain object is open");
        self
    }
}

impl From<Row> for JsValue {
    fn from(row: Row) -> JsValue {
        row.0.into()
    }
}

fn cell(row: &JsValue, name: &str) -> Option<JsValue> {
    if !row.is_object() {
        return None;
    }
    Reflect::get(row, &JsValue::from_str(name)).ok().filter(|value| !value.is_undefined() && !value.is_null())
}

/// A cell of text.
pub(in crate::device) fn text(row: &JsValue, name: &str) -> Option<String> {
    cell(row, name)?.as_string()
}

/// A cell with a number.
pub(in crate::device) fn number(row: &JsValue, name: &str) -> Option<f64> {
    cell(row, name)?.as_f64()
}

/// Bytes as a value.
pub(in crate::device) fn bytes(bytes: &[u8]) -> JsValue {
    Uint8Array::from(bytes).into()
}

/// The bytes of a value, or of a cell of it.
pub(in crate::device) fn bytes_of(value: &JsValue) -> Option<Vec<u8>> {
    let array = value.dyn_ref::<Uint8Array>().cloned().or_else(|| cell(value, "bytes")?.dyn_into().ok())?;
    Some(array.to_vec())
}
