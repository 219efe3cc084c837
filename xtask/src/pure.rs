//! The pure crates: those that reckon alike on a tablet and at the desk.
//!
//! All of them are part of the app, so the build of the app shows that they build for the browser; one file
//! access or clock in them would be found by a person beside a hole.

/// The crates that know no clock, chance, file or network.
pub(crate) const PURE: &[&str] = &[
    "quantity", "calc", "record", "criteria", "assess", "figure", "drawing", "wire", "wording", "notes",
    "sync", "screen", "rehearse",
];
