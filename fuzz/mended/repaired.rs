//! A mutated line made good again, so that what lies behind the proof is reached too.

use serde_json::{Map, Value};
use std::fmt::Write;
use wire::{Key, sha256};

/// The line with the fuzzer's own device, and the id and signature that follow from what it says.
pub(crate) fn repaired(line: &str) -> Option<String> {
    let key = Key::of_secret([7; 32]);
    let mut object: Map<String, Value> = serde_json::from_str(line).ok()?;
    object.remove("id");
    object.remove("sig");
    object.insert("device".to_owned(), key.device().to_string().into());
    let canonical = serde_json_canonicalizer::to_string(&object).ok()?;
    let mut id = String::new();
    for byte in sha256(canonical.as_bytes()) {
        write!(id, "{byte:02x}").ok()?;
    }
    object.insert("id".to_owned(), id.into());
    object.insert("sig".to_owned(), key.seal(canonical.as_bytes()).to_string().into());
    serde_json_canonicalizer::to_string(&object).ok()
}
