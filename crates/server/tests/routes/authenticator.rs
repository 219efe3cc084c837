//! A device that holds a passkey, as the standard describes it: for a test that plays honest and dishonest ones.
//!
//! Source: W3C Web Authentication Level 2, sections 5.8.1 (client data), 6.1 (authenticator data), 6.5.1 (attested credential
//! data), 8.7 (no attestation); RFC 9053 section 7.1.1 (the public key). From memory.

use ring::rand::SystemRandom;
use ring::signature::{ECDSA_P256_SHA256_ASN1_SIGNING, EcdsaKeyPair, KeyPair};
use serde_json::{Value, json};

/// Somebody is there, and the device has seen who.
const PRESENT_AND_SEEN: u8 = 0x05;
/// A new key is in it.
const NEW: u8 = 0x40;

pub(crate) struct Authenticator {
    key: EcdsaKeyPair,
    id: [u8; 16],
    /// What it calls the person by.
    handle: String,
    pub(crate) counter: u32,
    /// Where the page is that asks.
    pub(crate) origin: String,
    /// The name the passkey is bound to.
    pub(crate) name: String,
    pub(crate) flags: u8,
}

impl Authenticator {
    pub(crate) fn new(number: u8) -> Self {
        let chance = SystemRandom::new();
        let secret = EcdsaKeyPair::generate_pkcs8(&ECDSA_P256_SHA256_ASN1_SIGNING, &chance).expect("a key");
        let key = EcdsaKeyPair::from_pkcs8(&ECDSA_P256_SHA256_ASN1_SIGNING, secret.as_ref(), &chance);
        Authenticator {
            key: key.expect("a key"),
            id: [number; 16],
            handle: String::new(),
            counter: 1,
            origin: "https://office.example".to_owned(),
            name: "office.example".to_owned(),
            flags: PRESENT_AND_SEEN,
        }
    }

    /// Makes a passkey for a question.
    pub(crate) fn make(&mut self, question: &Value) -> Value {
        self.handle = question["user"]["id"].as_str().expect("a handle").to_owned();
        let client = self.client("webauthn.create", question);
        let mut data = self.data(NEW);
        data.extend([0; 16]);
        data.extend([0, self.id.len() as u8]);
        data.extend(self.id);
        data.extend(self.public());
        // A map of three: no attestation, nothing to say of it, the data.
        let mut object = b"\xa3\x63fmt\x64none\x67attStmt\xa0\x68authData\x58".to_vec();
        object.push(u8::try_from(data.len()).expect("short"));
        object.extend(data);
        self.answer(&json!({ "clientDataJSON": text(&client), "attestationObject": text(&object) }))
    }

    /// Answers a question with the passkey.
    pub(crate) fn show(&self, question: &Value) -> Value {
        let (client, data) = (self.client("webauthn.get", question), self.data(0));
        let signed = [data.as_slice(), &wire::sha256(&client)].concat();
        let signature = self.key.sign(&SystemRandom::new(), &signed).expect("signed");
        self.answer(&json!({
            "clientDataJSON": text(&client),
            "authenticatorData": text(&data),
            "signature": text(signature.as_ref()),
            "userHandle": self.handle,
        }))
    }

    fn answer(&self, response: &Value) -> Value {
        let id = text(&self.id);
        json!({ "id": id, "rawId": id, "type": "public-key", "response": response })
    }

    fn client(&self, kind: &str, question: &Value) -> Vec<u8> {
        let challenge = &question["challenge"];
        json!({ "type": kind, "challenge": challenge, "origin": self.origin, "crossOrigin": false })
            .to_string()
            .into_bytes()
    }

    fn data(&self, further: u8) -> Vec<u8> {
        let counter = self.counter.to_be_bytes();
        [&wire::sha256(self.name.as_bytes())[..], &[self.flags | further], &counter].concat()
    }

    /// The public key as a map: an elliptic key, ES256, on P-256, at x and y.
    fn public(&self) -> Vec<u8> {
        let point = self.key.public_key().as_ref();
        let (x, y) = (&point[1..33], &point[33..65]);
        [b"\xa5\x01\x02\x03\x26\x20\x01\x21\x58\x20", x, b"\x22\x58\x20", y].concat()
    }
}

/// Base64 for addresses, without padding (RFC 4648 section 5).
fn text(bytes: &[u8]) -> String {
    const SIGNS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
    let mut text = String::new();
    for piece in bytes.chunks(3) {
        let whole =
            piece.iter().fold(0, |whole, byte| whole << 8 | u32::from(*byte)) << (8 * (3 - piece.len()));
        for at in 0..=piece.len() {
            text.push(char::from(SIGNS[(whole >> (18 - 6 * at)) as usize & 63]));
        }
    }
    text
}
