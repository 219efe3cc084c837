//! Whether the service of a token is one that somebody trusts.

use crate::token::Token;
use rustls_pki_types::{CertificateDer, TrustAnchor, UnixTime, pem::PemObject};
use std::time::Duration;
use webpki::{EndEntityCert, KeyUsage, anchor_from_trusted_cert, ring as ways};

/// The purpose of a certificate that signs tokens, as the bytes of its number 1.3.6.1.5.5.7.3.8.
const FOR_TIME_STAMPS: &[u8] = &[0x2b, 0x06, 0x01, 0x05, 0x05, 0x07, 0x03, 0x08];

/// Certificates that are trusted because somebody says so.
#[derive(Debug)]
pub struct Roots(Vec<CertificateDer<'static>>);

impl Roots {
    /// The certificates of a text in PEM. `None` when there is none in it, or one cannot be read.
    pub fn from_pem(text: &[u8]) -> Option<Self> {
        let roots: Vec<CertificateDer<'static>> =
            CertificateDer::pem_slice_iter(text).collect::<Result<_, _>>().ok()?;
        let usable = !roots.is_empty() && roots.iter().all(|root| anchor_from_trusted_cert(root).is_ok());
        usable.then_some(Roots(roots))
    }
}

/// How far the word of a service goes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Trust {
    /// Its certificate leads to one of the roots, was good at the time of the token, and is for time stamps.
    Rooted,
    /// It does not; what is wrong.
    Unrooted(String),
}

impl Token {
    /// Whether the certificate of the service leads to one of these roots, at the time the token tells.
    ///
    /// **Source**: [RFC-5280], section 6, as `webpki` follows it; [RFC-3161], section 2.3, for the purpose.
    pub fn trust(&self, roots: &Roots) -> Trust {
        match self.led_to(roots) {
            Ok(()) => Trust::Rooted,
            Err(error) => Trust::Unrooted(error.to_string()),
        }
    }

    fn led_to(&self, roots: &Roots) -> Result<(), webpki::Error> {
        let signer = CertificateDer::from(self.signed.signer.as_slice());
        let others: Vec<CertificateDer<'_>> =
            self.signed.others.iter().map(|other| CertificateDer::from(other.as_slice())).collect();
        let anchors: Vec<TrustAnchor<'_>> =
            roots.0.iter().map(anchor_from_trusted_cert).collect::<Result<_, _>>()?;
        let seconds = u64::try_from(self.time().seconds()).unwrap_or_default();
        let time = UnixTime::since_unix_epoch(Duration::from_secs(seconds));
        let usage = KeyUsage::required(FOR_TIME_STAMPS);
        let signer = EndEntityCert::try_from(&signer)?;
        signer.verify_for_usage(WAYS, &anchors, &others, time, usage, None, None).map(|_| ())
    }
}

/// The ways certificates may be signed.
const WAYS: &[&dyn rustls_pki_types::SignatureVerificationAlgorithm] = &[
    ways::ECDSA_P256_SHA256,
    ways::ECDSA_P256_SHA384,
    ways::ECDSA_P384_SHA256,
    ways::ECDSA_P384_SHA384,
    ways::ED25519,
    ways::RSA_PKCS1_2048_8192_SHA256,
    ways::RSA_PKCS1_2048_8192_SHA384,
    ways::RSA_PKCS1_2048_8192_SHA512,
];
