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
