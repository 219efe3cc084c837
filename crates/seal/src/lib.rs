//! What a sealed package proves, ten years later and with nobody to ask.
//!
//! When everybody who has to sign has signed, the pages of a shaft are drawn with its entries as a file inside them: the
//! *draft*. One more entry, signed like every entry, then says what is sealed: the root of a tree of hashes over the
//! entries, the draft byte for byte, and what each of its pages draws. It is put in behind the draft, in the way PDF has
//! for changes that must not touch what is there. So the whole can be held against itself without a server, and by a
//! program that draws pages otherwise.
//!
//! Words: *sealed set* = the entries a seal covers; *draft* = a package up to where its seal was put in; *paper* = a PDF
//! as it was read; *fault* = why a paper proves nothing.
//! Never: read a file, a clock or the network; draw a page; judge what the shaft is worth.

mod error;
mod fault;
mod graft;
mod paper;
mod proof;
pub mod tree;
mod walk;

pub use error::Unreadable;
pub use fault::Fault;
pub use graft::{PLACE_HELD, grafted};
pub use paper::Paper;
pub use proof::{Proof, prove, root_of};

/// The name of the file inside the PDF that holds the sealed entries, a line each.
pub const RECORD_FILE: &str = "record.jsonl";

/// The name of the file inside the PDF that holds the entry that seals them.
pub const SEAL_FILE: &str = "seal.jsonl";
