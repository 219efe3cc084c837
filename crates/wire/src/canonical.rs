//! Canonical JSON (RFC 8785) and SHA-256 of it.

use record::EntryId;
use serde_json::{Map, Value};
use sha2::{Digest, Sha256};

/// The canonical bytes of a JSON object. [RFC-8785]
pub(crate) fn canonical(object: &Map<String, Value>) -> String {
    serde_json_canonicalizer::to_string(object)
        .expect("texts, booleans and small whole numbers have one form")
}

/// SHA-256 of some bytes. [FIPS-180-4]
pub fn sha256(bytes: &[u8]) -> [u8; 32] {
    Sha256::digest(bytes).into()
}

/// The digest of a set of entries: SHA-256 over their ids in hexadecimal, ascending, each with a line feed.
///
/// Two people who compare it know that they hold the same entries, in whatever order they came.
pub fn digest_of_ids(ids: impl IntoIterator<Item = EntryId>) -> [u8; 32] {
    let ids: std::collections::BTreeSet<EntryId> = ids.into_iter().collect();
    let mut hasher = Sha256::new();
    for id in ids {
        hasher.update(format!("{id}\n"));
    }
    hasher.finalize().into()
}
