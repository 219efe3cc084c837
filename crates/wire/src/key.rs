//! The key of a device: it signs what the device writes, and its public half is the device's name.
//!
//! The 32 secret bytes come from the caller, who draws them and keeps them.

use ed25519_dalek::{Signature, Signer, SigningKey, VerifyingKey};
use record::{DeviceId, Seal};

/// An Ed25519 key. [RFC-8032]
pub struct Key(SigningKey);

impl Key {
    /// The key of 32 secret bytes.
    pub fn of_secret(secret: [u8; 32]) -> Self {
        Key(SigningKey::from_bytes(&secret))
    }

    /// The secret bytes, to be kept by the caller.
    pub fn secret(&self) -> [u8; 32] {
        self.0.to_bytes()
    }

    /// The public key: the device's name.
    pub fn device(&self) -> DeviceId {
        DeviceId(self.0.verifying_key().to_bytes())
    }

    /// The signature of some bytes.
    pub fn seal(&self, bytes: &[u8]) -> Seal {
        Seal(self.0.sign(bytes).to_bytes())
    }
}

/// Whether a device signed these bytes. Strict: weak keys and other spellings of a signature are refused.
pub(crate) fn is_sealed(device: &DeviceId, bytes: &[u8], seal: &Seal) -> bool {
    let signature = Signature::from_bytes(&seal.0);
    VerifyingKey::from_bytes(&device.0).is_ok_and(|key| key.verify_strict(bytes, &signature).is_ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Vector {
        secret: &'static str,
        public: &'static str,
        message: &'static [u8],
        signature: &'static str,
    }

    /// Source: [RFC-8032] 7.1, tests 1 to 3; from memory, computed again with the Python library
    /// cryptography 50.0.2.
    const VECTORS: [Vector; 3] = [
        Vector {
            secret: "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
            public: "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
            message: b"",
            signature: "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555\
                fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
        },
        Vector {
            secret: "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
            public: "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
            message: &[0x72],
            signature: "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da\
                085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
        },
        Vector {
            secret: "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
            public: "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
            message: &[0xaf, 0x82],
            signature: "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac\
                18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
        },
    ];

    #[test]
    fn the_vectors_of_the_standard() {
        for vector in VECTORS {
            let secret = DeviceId::from_hex(vector.secret).expect("64 digits").0;
            let key = Key::of_secret(secret);
            assert_eq!(key.device().to_string(), vector.public);
            assert_eq!(key.seal(vector.message).to_string(), vector.signature);
            assert!(is_sealed(&key.device(), vector.message, &key.seal(vector.message)));
            assert!(!is_sealed(&key.device(), b"another message", &key.seal(vector.message)));
            assert_eq!(key.secret(), secret);
        }
    }

    /// The order of the group, little endian: 2^252 + 27742317777372353535851937790883648493. [RFC-8032] 5.1.
    const ORDER: [u8; 32] = [
        0xed, 0xd3, 0xf5, 0x5c, 0x1a, 0x63, 0x12, 0x58, 0xd6, 0x9c, 0xf7, 0xa2, 0xde, 0xf9, 0xde, 0x14, 0, 0,
        0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0x10,
    ];

    #[test]
    fn the_same_signature_in_another_spelling_is_refused() {
        let key = Key::of_secret([7; 32]);
        let seal = key.seal(b"41 ft");
        let mut other = seal;
        let mut carry = 0_u16;
        for (byte, order) in other.0[32..].iter_mut().zip(ORDER) {
            let sum = u16::from(*byte) + u16::from(order) + carry;
            (*byte, carry) = (sum.to_le_bytes()[0], sum >> 8);
        }
        assert_eq!(carry, 0, "the sum still has 256 bits");
        assert!(is_sealed(&key.device(), b"41 ft", &seal));
        assert!(!is_sealed(&key.device(), b"41 ft", &other));
    }

    #[test]
    fn a_key_that_would_sign_anything_is_no_device() {
        let mut neutral = [0; 32];
        neutral[0] = 1;
        let mut seal = [0; 64];
        seal[0] = 1;
        for message in [&b"41 ft"[..], b"43 ft"] {
            assert!(!is_sealed(&DeviceId(neutral), message, &Seal(seal)));
        }
    }
}
