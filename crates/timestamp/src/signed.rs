//! The signature of a token: over what, by whom, and whether it holds.

use crate::doubt::Doubt;
use crate::hash::{hashed, sha1};
use rasn::prelude::*;
use rasn_cms::{CertificateChoices, ContentInfo, SignedData, SignerIdentifier, SignerInfo};
use rasn_pkix::{AlgorithmIdentifier, Certificate, SubjectKeyIdentifier};
use rustls_pki_types::{CertificateDer, SignatureVerificationAlgorithm};
use webpki::{EndEntityCert, ring as ways};

const SIGNED_DATA: &Oid = Oid::const_new(&[1, 2, 840, 113_549, 1, 7, 2]);
const TOKEN_CONTENT: &Oid = rasn_cms::tsp::TST_INFO;
const CONTENT_TYPE: &Oid = Oid::ISO_MEMBER_BODY_US_RSADSI_PKCS9_CONTENT_TYPE;
const MESSAGE_DIGEST: &Oid = Oid::ISO_MEMBER_BODY_US_RSADSI_PKCS9_MESSAGE_DIGEST;
const SIGNER: &Oid = Oid::ISO_MEMBER_BODY_US_RSADSI_PKCS9_SMIME_AA_SIGNING_CERTIFICATE;
const SIGNER_2: &Oid = Oid::ISO_MEMBER_BODY_US_RSADSI_PKCS9_SMIME_AA_SIGNING_CERTIFICATE_V2;
const KEY_NAME: &Oid = Oid::const_new(&[2, 5, 29, 14]);
const TEXT_OF_NAMES: [(&[u32], &str); 3] =
    [(&[2, 5, 4, 3], "CN"), (&[2, 5, 4, 10], "O"), (&[2, 5, 4, 6], "C")];

/// What was signed, and with which certificate; proved when it was read.
#[derive(Debug, Clone)]
pub(crate) struct Signed {
    /// The bytes that say what the token says.
    pub(crate) content: Vec<u8>,
    /// The certificate whose key signed.
    pub(crate) signer: Vec<u8>,
    /// The other certificates that came with it.
    pub(crate) others: Vec<Vec<u8>>,
}

/// A certificate by its hash ([RFC-5035]).
#[derive(AsnType, Debug, Clone, Decode, Encode)]
struct ByHash2 {
    hash_algorithm: Option<AlgorithmIdentifier>,
    hash: OctetString,
    issuer: Option<Any>,
}

/// The same with SHA-1, as older tokens have it ([RFC-5035]).
#[derive(AsnType, Debug, Clone, Decode, Encode)]
struct ByHash1 {
    hash: OctetString,
    issuer: Option<Any>,
}

#[derive(AsnType, Debug, Clone, Decode, Encode)]
struct Signers2 {
    certificates: SequenceOf<ByHash2>,
    policies: Option<Any>,
}

#[derive(AsnType, Debug, Clone, Decode, Encode)]
struct Signers1 {
    certificates: SequenceOf<ByHash1>,
    policies: Option<Any>,
}

impl Signed {
    /// Reads the signed part and proves it.
    pub(crate) fn read(token: &ContentInfo) -> Result<Self, Doubt> {
        if *token.content_type != *SIGNED_DATA {
            return Err(Doubt::Unreadable(format!("{} is not signed data", token.content_type)));
        }
        let data: SignedData = rasn::der::decode(token.content.as_bytes()).map_err(Doubt::unreadable)?;
        let inside = &data.encap_content_info;
        let content = inside.content.as_ref().filter(|_| *inside.content_type == *TOKEN_CONTENT);
        let content = content.ok_or_else(|| Doubt::Unreadable("no token in it".to_owned()))?.to_vec();
        let mut signers: Vec<&SignerInfo> = data.signer_infos.to_vec();
        let (Some(info), true) = (signers.pop(), signers.is_empty()) else {
            return Err(Doubt::Unreadable("not one signature".to_owned()));
        };
        let certificates: Vec<Certificate> =
            data.certificates.iter().flat_map(|set| set.to_vec()).filter_map(certificate).collect();
        let (own, others): (Vec<_>, Vec<_>) =
            certificates.into_iter().partition(|certificate| is_signer(&info.sid, certificate));
        let signer = encoded(own.first().ok_or(Doubt::NoSigner)?)?;
        let others = others.iter().map(encoded).collect::<Result<_, _>>()?;
        let signed = Signed { content, signer, others };
        signed.proved(info)?;
        Ok(signed)
    }

    /// What was signed is what the token says, by the certificate it names, with the key of that certificate.
    fn proved(&self, info: &SignerInfo) -> Result<(), Doubt> {
        let attributes = info.signed_attrs.as_ref().ok_or(Doubt::Altered)?;
        let one = |wanted: &Oid| {
            let all = attributes.to_vec();
            let found = all.into_iter().find(|attribute| *attribute.r#type == *wanted)?;
            found.values.to_vec().first().map(|value| value.as_bytes().to_vec())
        };
        let said: ObjectIdentifier = read(&one(CONTENT_TYPE).ok_or(Doubt::Altered)?)?;
        let digest: OctetString = read(&one(MESSAGE_DIGEST).ok_or(Doubt::Altered)?)?;
        let wanted = hashed(&info.digest_algorithm.algorithm, &self.content)?;
        if *said != *TOKEN_CONTENT || digest[..] != wanted[..] {
            return Err(Doubt::Altered);
        }
        self.names_signer(one(SIGNER_2).as_deref(), one(SIGNER).as_deref())?;
        let message = rasn::der::encode(attributes).map_err(Doubt::unreadable)?;
        self.holds(&message, info)
    }

    /// The first certificate named by its hash is the one that signed, so that no other of the same name can be put there.
    fn names_signer(&self, newer: Option<&[u8]>, older: Option<&[u8]>) -> Result<(), Doubt> {
        let (named, own) = match (newer, older) {
            (Some(bytes), _) => {
                let first =
                    read::<Signers2>(bytes)?.certificates.into_iter().next().ok_or(Doubt::NoSigner)?;
                let by = first.hash_algorithm.map_or_else(crate::hash::sha256_id, |by| by.algorithm);
                (first.hash, hashed(&by, &self.signer)?)
            }
            (None, Some(bytes)) => {
                let first =
                    read::<Signers1>(bytes)?.certificates.into_iter().next().ok_or(Doubt::NoSigner)?;
                (first.hash, sha1(&self.signer))
            }
            (None, None) => return Err(Doubt::NoSigner),
        };
        if named[..] == own[..] { Ok(()) } else { Err(Doubt::NoSigner) }
    }

    fn holds(&self, message: &[u8], info: &SignerInfo) -> Result<(), Doubt> {
        let der = CertificateDer::from(self.signer.as_slice());
        let certificate = EndEntityCert::try_from(&der).map_err(Doubt::unreadable)?;
        let tried: Vec<_> = signing_ways(&info.digest_algorithm.algorithm)
            .into_iter()
            .map(|way| certificate.verify_signature(way, message, &info.signature))
            .collect();
        let fitted = |error: &webpki::Error| matches!(error, webpki::Error::InvalidSignatureForPublicKey);
        match tried.iter().any(Result::is_ok) {
            true => Ok(()),
            false if tried.iter().any(|one| one.as_ref().is_err_and(fitted)) => Err(Doubt::BadSignature),
            false => Err(Doubt::Unknown(format!(
                "the signature {} over the hash {}",
                info.signature_algorithm.algorithm, info.digest_algorithm.algorithm
            ))),
        }
    }

    /// `CN=…, O=…, C=…` of the certificate that signed.
    pub(crate) fn signer_name(&self) -> String {
        let Ok(certificate) = rasn::der::decode::<Certificate>(&self.signer) else { return String::new() };
        let rasn_pkix::Name::RdnSequence(names) = &certificate.tbs_certificate.subject;
        let parts: Vec<_> = names.iter().flat_map(|set| set.to_vec().into_iter().cloned()).collect();
        let named = TEXT_OF_NAMES.iter().filter_map(|(id, word)| {
            let part = parts.iter().find(|part| part.r#type.as_ref() == *id)?;
            Some(format!("{word}={}", text(part.value.as_bytes())?))
        });
        named.collect::<Vec<_>>().join(", ")
    }
}

/// The ways of signing that go with a hash.
fn signing_ways(hash: &ObjectIdentifier) -> Vec<&'static dyn SignatureVerificationAlgorithm> {
    match hash.as_ref() {
        [2, 16, 840, 1, 101, 3, 4, 2, 1] => {
            vec![ways::RSA_PKCS1_2048_8192_SHA256, ways::ECDSA_P256_SHA256, ways::ECDSA_P384_SHA256]
        }
        [2, 16, 840, 1, 101, 3, 4, 2, 2] => {
            vec![ways::RSA_PKCS1_2048_8192_SHA384, ways::ECDSA_P256_SHA384, ways::ECDSA_P384_SHA384]
        }
        [2, 16, 840, 1, 101, 3, 4, 2, 3] => vec![ways::RSA_PKCS1_2048_8192_SHA512, ways::ED25519],
        _ => Vec::new(),
    }
}

fn read<T: Decode>(bytes: &[u8]) -> Result<T, Doubt> {
    rasn::der::decode(bytes).map_err(Doubt::unreadable)
}

fn encoded(certificate: &Certificate) -> Result<Vec<u8>, Doubt> {
    rasn::der::encode(certificate).map_err(Doubt::unreadable)
}

fn certificate(choice: &CertificateChoices) -> Option<Certificate> {
    match choice {
        CertificateChoices::Certificate(certificate) => Some((**certificate).clone()),
        _ => None,
    }
}

fn is_signer(wanted: &SignerIdentifier, certificate: &Certificate) -> bool {
    let told = &certificate.tbs_certificate;
    match wanted {
        SignerIdentifier::IssuerAndSerialNumber(by) => {
            by.issuer == told.issuer && by.serial_number == told.serial_number
        }
        SignerIdentifier::SubjectKeyIdentifier(wanted) => {
            let extensions = told.extensions.iter().flat_map(|all| all.iter());
            let name = extensions.into_iter().find(|one| *one.extn_id == *KEY_NAME);
            name.and_then(|one| rasn::der::decode::<SubjectKeyIdentifier>(&one.extn_value).ok()).as_ref()
                == Some(wanted)
        }
    }
}

/// The text of a part of a name, whichever of the kinds of text it is written in.
fn text(bytes: &[u8]) -> Option<String> {
    let utf8 = rasn::der::decode::<Utf8String>(bytes).ok();
    utf8.or_else(|| {
        rasn::der::decode::<PrintableString>(bytes)
            .ok()
            .map(|text| String::from_utf8_lossy(text.as_bytes()).into_owned())
    })
}
