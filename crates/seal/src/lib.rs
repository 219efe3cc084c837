//! What a sealed package proves, ten years later and with nobody to ask.
//!
//! When everybody who has to sign has signed, the entries of a shaft are put under one number (the root of a tree of
//! hashes) and the drawn pages under another. Both stand in one more entry, signed like every entry. The PDF carries the
//! entries and that one as files inside it, so that the paper and the record can be held against each other without a
//! server.
//!
//! Words: *sealed set* = the entries a seal covers; *supplement* = entries of the shaft that came after it; *paper* = a PDF
//! as it was read; *fault* = why a paper proves nothing.
//! Never: read a file, a clock or the network; draw a page; judge what the shaft is worth.

mod cover;
mod error;
mod paper;
mod proof;
mod ready;
pub mod tree;
mod walk;

pub use cover::{Covered, Later};
pub use error::{Fault, Unreadable};
pub use paper::Paper;
pub use proof::{Proof, prove};
pub use ready::{Lack, lacks, needed};

/// The name of the file inside the PDF that holds the sealed entries, a line each.
pub const RECORD_FILE: &str = "record.jsonl";

/// The name of the file inside the PDF that holds the entry that seals them.
pub const SEAL_FILE: &str = "seal.jsonl";
