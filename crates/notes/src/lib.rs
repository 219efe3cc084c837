//! notes.
