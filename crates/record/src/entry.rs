//! An entry: what somebody wrote at a time, on a device, signed.
//!
//! The id is the SHA-256 of the canonical form, the device is its Ed25519 public key; both are made and
//! checked in `wire`. Here they are names.
//!
//! Never: hash, sign, read a clock.

use crate::field::{Fault, FaultKind, Field, How, Shape, text_at};
use crate::kinds::Body;
use crate::value::Value;
use quantity::Moment;
use std::fmt;

macro_rules! hexadecimal {
    ($($(#[$doc:meta])* $name:ident[$bytes:literal] is $shape:ident;)*) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub [u8; $bytes]);

        impl $name {
            /// Reads lower-case hexadecimal digits; `None` for anything else.
            pub fn from_hex(text: &str) -> Option<Self> {
                let digits = text.as_bytes();
                let small = |byte: &u8| byte.is_ascii_digit() || (b'a'..=b'f').contains(byte);
                if digits.len() != 2 * $bytes || !digits.iter().all(small) {
                    return None;
                }
                let mut bytes = [0; $bytes];
                for (index, byte) in bytes.iter_mut().enumerate() {
                    *byte = u8::from_str_radix(&text[2 * index..2 * index + 2], 16).ok()?;
                }
                Some($name(bytes))
            }

            /// The first eight digits: enough for people.
            pub fn short(&self) -> String {
                self.to_string()[..8].to_owned()
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, concat!(stringify!($name), "({})"), self.short())
            }
        }

        impl Field for $name {
            fn shape() -> Shape {
                Shape::$shape
            }
            fn put(&self) -> Option<Value> {
                Some(Value::Text(self.to_string()))
            }
            fn take(value: Option<&Value>, path: &str, _: &How<'_>) -> Result<Self, Vec<Fault>> {
                let text = text_at(value, path)?;
                $name::from_hex(text).ok_or_else(|| Fault::one(path, FaultKind::Hash(text.to_owned())))
            }
        }
    )*};
}

hexadecimal! {
    /// SHA-256 of an entry's canonical form.
    EntryId[32] is Entry;
    /// SHA-256 of a file.
    FileHash[32] is FileHash;
    /// The Ed25519 public key of a device.
    DeviceId[32] is FileHash;
    /// The Ed25519 signature of an entry's canonical form.
    Seal[64] is FileHash;
}

/// What somebody wrote at a time.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// SHA-256 of its canonical form.
    pub id: EntryId,
    /// The job it belongs to: the key chosen when the job is opened, the same in every entry of a record.
    pub job: String,
    /// The shaft it is about; `None`: the whole job.
    pub shaft: Option<String>,
    /// The device it was written on.
    pub device: DeviceId,
    /// Its number on that device, from 1.
    pub seq: u64,
    /// The entry before it on that device; `None` for the first.
    pub prev: Option<EntryId>,
    /// Who wrote it.
    pub author: String,
    /// When it was seen.
    pub observed_at: Moment,
    /// When it was written down, where it was taken over from paper later.
    pub noted_at: Option<Moment>,
    /// When it was entered on the device.
    pub entered_at: Moment,
    /// What it says.
    pub body: Body,
    /// The device's signature.
    pub seal: Seal,
}

/// An entry of a newer version: carried byte for byte, shown as "needs an update".
#[derive(Debug, Clone, PartialEq)]
pub struct Newer {
    /// SHA-256 of its canonical form.
    pub id: EntryId,
    /// Its format.
    pub format: u64,
    /// The job it belongs to.
    pub job: String,
    /// The shaft it is about.
    pub shaft: Option<String>,
    /// The device it was written on.
    pub device: DeviceId,
    /// Its number on that device.
    pub seq: u64,
    /// The entry before it on that device.
    pub prev: Option<EntryId>,
    /// When it was seen.
    pub observed_at: Moment,
    /// The line as it came.
    pub line: String,
}

/// What a record holds under an id.
#[derive(Debug, Clone, PartialEq)]
#[allow(clippy::large_enum_variant, reason = "almost every one is known")]
pub enum Held {
    /// An entry of a version we know.
    Known(Entry),
    /// An entry of a newer version.
    Newer(Newer),
}

impl Held {
    /// Its id.
    pub fn id(&self) -> EntryId {
        match self {
            Held::Known(entry) => entry.id,
            Held::Newer(newer) => newer.id,
        }
    }

    /// The device and its number there.
    pub fn place(&self) -> (DeviceId, u64) {
        match self {
            Held::Known(entry) => (entry.device, entry.seq),
            Held::Newer(newer) => (newer.device, newer.seq),
        }
    }

    /// The entry before it on its device.
    pub fn prev(&self) -> Option<EntryId> {
        match self {
            Held::Known(entry) => entry.prev,
            Held::Newer(newer) => newer.prev,
        }
    }

    /// The job it belongs to.
    pub fn job(&self) -> &str {
        match self {
            Held::Known(entry) => &entry.job,
            Held::Newer(newer) => &newer.job,
        }
    }

    /// The shaft it is about.
    pub fn shaft(&self) -> Option<&str> {
        match self {
            Held::Known(entry) => entry.shaft.as_deref(),
            Held::Newer(newer) => newer.shaft.as_deref(),
        }
    }
}
