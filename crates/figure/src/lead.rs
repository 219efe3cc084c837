//! Where a mark leads, and what it says to whoever points at it.
//!
//! A figure that is doubted is looked up: each mark of a drawing on a screen leads to the entry it was made of. On paper
//! nothing can be tapped, and a drawing without leads is the same drawing.
//!
//! Never: make up an address; it comes in with the data.

/// Where a mark leads. Empty: nowhere, and nothing is written of it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Lead {
    /// The address; empty where it leads nowhere.
    pub to: String,
    /// What it says: `S-2, load 4, 12:31: 7.5 in`.
    pub says: String,
}
