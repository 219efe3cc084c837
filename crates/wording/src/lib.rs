//! wording.
