//! HTTPS from a certificate and a key in PEM files.

use std::fmt;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tokio_rustls::TlsAcceptor;
use tokio_rustls::rustls::crypto::ring;
use tokio_rustls::rustls::pki_types::pem::{self, PemObject};
use tokio_rustls::rustls::pki_types::{CertificateDer, PrivateKeyDer};
use tokio_rustls::rustls::{self, ServerConfig};

/// A certificate with its key, ready to answer with.
#[derive(Clone)]
pub struct Tls(pub(crate) TlsAcceptor);

/// Why a certificate cannot be used.
#[derive(Debug)]
pub enum TlsError {
    /// A file cannot be read, or holds no certificate or no key.
    File {
        /// Which.
        path: PathBuf,
        /// Why.
        why: String,
    },
    /// Certificate and key do not fit together or are of a kind that is not taken.
    Unfit(String),
}

impl fmt::Display for TlsError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TlsError::File { path, why } => write!(f, "{}: {why}", path.display()),
            TlsError::Unfit(why) => write!(f, "the certificate and the key cannot be used: {why}"),
        }
    }
}

impl std::error::Error for TlsError {}

impl Tls {
    /// Reads the chain of certificates, the office's own first, and the private key.
    ///
    /// # Errors
    /// When a file is not what it should be, or the two do not belong together.
    pub fn from_pem(certificates: &Path, key: &Path) -> Result<Self, TlsError> {
        let wrong = |path: &Path, why: String| TlsError::File { path: path.to_owned(), why };
        let chain: Vec<_> = CertificateDer::pem_file_iter(certificates)
            .and_then(Iterator::collect)
            .map_err(|error| wrong(certificates, error.to_string()))?;
        if chain.is_empty() {
            return Err(wrong(certificates, "there is no certificate in it".to_owned()));
        }
        let key = PrivateKeyDer::from_pem_file(key).map_err(|error| match error {
            pem::Error::NoItemsFound => wrong(key, "there is no private key in it".to_owned()),
            error => wrong(key, error.to_string()),
        })?;
        config(chain, key).map_err(|error| TlsError::Unfit(error.to_string()))
    }
}

fn config(chain: Vec<CertificateDer<'static>>, key: PrivateKeyDer<'static>) -> Result<Tls, rustls::Error> {
    let mut config = ServerConfig::builder_with_provider(Arc::new(ring::default_provider()))
        .with_safe_default_protocol_versions()?
        .with_no_client_auth()
        .with_single_cert(chain, key)?;
    config.alpn_protocols = vec![b"h2".to_vec(), b"http/1.1".to_vec()];
    Ok(Tls(TlsAcceptor::from(Arc::new(config))))
}
