//! The stored and sent form of entries: one frozen module per version.
//!
//! What is written here has to be readable in ten years, by us and by a stranger with thirty lines of any
//! language (docs/record-format.md). A line is the canonical JSON of RFC 8785; its id is the SHA-256 of
//! the line without id and signature, and the device signs the same bytes with Ed25519 (RFC 8032).
//!
//! Words: *line* = one entry as JSON; *draft* = an entry that has no id and no signature yet.
//! Never: hold logic beyond conversion, draw a key by itself, read a clock.

mod canonical;
mod claim;
mod draft;
mod error;
mod file;
pub mod http;
mod key;
mod seals;
mod tree;
pub mod v1;

pub use canonical::{digest_of_ids, sha256};
pub use claim::Claim;
pub use draft::{Draft, Pen, Times};
pub use error::{LineFault, WireError};
pub use file::{digest, read_lines, write_lines};
pub use key::Key;
pub use v1::{Reader, read, read_kept, write};
