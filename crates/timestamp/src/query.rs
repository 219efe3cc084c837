//! What is asked of a service.

use crate::doubt::Doubt;
use crate::hash::{sha256, sha256_id};
use rasn::types::{Integer, OctetString};
use rasn_cms::tsp::{MessageImprint, TimeStampReq};
use rasn_pkix::AlgorithmIdentifier;

/// The query for a token over some bytes, in DER: their SHA-256, a number used once, and the wish for the certificate.
/// It is sent as `application/timestamp-query`.
///
/// **Errors** never for a hash and a number of fixed size; what the writer says would be passed on.
///
/// **Source**: [RFC-3161], section 2.4.1.
pub fn query(bytes: &[u8], once: u64) -> Result<Vec<u8>, Doubt> {
    let query = TimeStampReq {
        version: 1,
        message_imprint: imprint(bytes),
        req_policy: None,
        nonce: Some(Integer::from(once)),
        cert_req: true,
        extensions: None,
    };
    rasn::der::encode(&query).map_err(Doubt::unreadable)
}

fn imprint(bytes: &[u8]) -> MessageImprint {
    MessageImprint {
        hash_algorithm: AlgorithmIdentifier { algorithm: sha256_id(), parameters: None },
        hashed_message: OctetString::from(sha256(bytes)),
    }
}
