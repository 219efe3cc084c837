//! Why an answer proves nothing.

use std::fmt;

/// Why an answer of a time-stamp service proves nothing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Doubt {
    /// It is not an answer of a time-stamp service, or it ends too early; what the reader says.
    Unreadable(String),
    /// The service gave no token; its own words.
    Refused(String),
    /// The token is about other bytes.
    OtherBytes,
    /// The token answers another query.
    OtherQuery,
    /// The certificate it was signed with is not in it.
    NoSigner,
    /// What was signed is not what it says.
    Altered,
    /// The signature does not belong to the certificate.
    BadSignature,
    /// A way of hashing or signing that this program does not know.
    Unknown(String),
}

impl fmt::Display for Doubt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Doubt::Unreadable(why) => write!(f, "this is no answer of a time-stamp service ({why})"),
            Doubt::Refused(words) => write!(f, "the service gave no time stamp ({words})"),
            Doubt::OtherBytes => f.write_str("the time stamp is about another file"),
            Doubt::OtherQuery => f.write_str("the answer belongs to another query"),
            Doubt::NoSigner => f.write_str("the time stamp does not hold the certificate it was signed with"),
            Doubt::Altered => f.write_str("the time stamp was altered after it was signed"),
            Doubt::BadSignature => {
                f.write_str("the signature of the time stamp does not belong to its certificate")
            }
            Doubt::Unknown(what) => write!(f, "the time stamp uses {what}, which this program does not know"),
        }
    }
}

impl std::error::Error for Doubt {}

impl Doubt {
    pub(crate) fn unreadable(error: impl fmt::Display) -> Self {
        // Readers of ASN.1 tell long stories; the first line says where they stopped.
        let told = error.to_string();
        Doubt::Unreadable(told.lines().next().unwrap_or_default().to_owned())
    }
}
