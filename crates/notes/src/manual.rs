//! The part of the manual that follows from the declared kinds.

/// The kinds.
pub fn kinds_manual() -> String { String::new() }
/// The tables.
pub fn tables_manual() -> String { String::new() }
