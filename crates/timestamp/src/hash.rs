//! The hashes a token may be made with, by their numbers.

use crate::doubt::Doubt;
use rasn::types::{ObjectIdentifier, Oid};
use ring::digest::{Algorithm, SHA1_FOR_LEGACY_USE_ONLY, SHA256, SHA384, SHA512, digest};

/// Number and function. SHA-1 names certificates in older tokens and signs nothing here.
///
/// **Source**: [RFC-5754], section 2 (from memory; answers of OpenSSL are read with it).
const HASHES: [(&[u32], &Algorithm); 4] = [
    (&[1, 3, 14, 3, 2, 26], &SHA1_FOR_LEGACY_USE_ONLY),
    (SHA256_ID, &SHA256),
    (&[2, 16, 840, 1, 101, 3, 4, 2, 2], &SHA384),
    (&[2, 16, 840, 1, 101, 3, 4, 2, 3], &SHA512),
];

const SHA256_ID: &[u32] = &[2, 16, 840, 1, 101, 3, 4, 2, 1];

/// The number of SHA-256.
pub(crate) fn sha256_id() -> ObjectIdentifier {
    Oid::const_new(SHA256_ID).to_owned()
}

pub(crate) fn sha256(bytes: &[u8]) -> Vec<u8> {
    digest(&SHA256, bytes).as_ref().to_vec()
}

/// SHA-1 of a certificate, as tokens before 2010 name theirs.
pub(crate) fn sha1(bytes: &[u8]) -> Vec<u8> {
    digest(&SHA1_FOR_LEGACY_USE_ONLY, bytes).as_ref().to_vec()
}

/// The hash of some bytes by the number of the function.
pub(crate) fn hashed(by: &ObjectIdentifier, bytes: &[u8]) -> Result<Vec<u8>, Doubt> {
    let known = HASHES.iter().find(|(id, _)| by.as_ref() == *id);
    let (_, function) = known.ok_or_else(|| Doubt::Unknown(format!("the hash {by}")))?;
    Ok(digest(function, bytes).as_ref().to_vec())
}
