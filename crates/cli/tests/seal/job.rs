//! The demo's job, and its first shaft signed and sealed.

use super::desk::{Desk, Did, demo, sorted};

/// Signatures of shaft S-1 of the demo, given after everything that was entered about it.
pub(crate) const SIGNED: &str = r#"
[job]
key = "harrow-vale"

[[day]]
date = 2025-06-18
shaft = "S-1"
author = "R. Quill"
device = "tablet 1"
log = [ { at = "09:00", entry = "signed", name = "R. Quill", role = "inspector", statement = "With survey and breaks." } ]

[[day]]
date = 2025-06-18
shaft = "S-1"
author = "I. Vane"
device = "office"
log = [ { at = "10:00", entry = "signed", name = "I. Vane", role = "engineer" } ]
"#;

/// The job as its notes tell it.
pub(crate) fn demo_job() -> Desk {
    let desk = Desk::new();
    let notes = sorted(&demo("harrow-vale"), ".toml");
    let words: Vec<&str> = ["enter"].into_iter().chain(notes.iter().map(String::as_str)).collect();
    desk.run(&[&words[..], &["--job", "j"]].concat()).ends(0);
    desk
}

/// Seals a shaft of it.
pub(crate) fn seal(desk: &Desk, shaft: &str) -> Did {
    desk.run(&["seal", shaft, "--by", "I. Vane", "--job", "j"])
}

/// The job with its first shaft sealed, the package beside it.
pub(crate) fn sealed_job() -> Desk {
    let desk = demo_job();
    desk.write("signed.toml", SIGNED);
    desk.says("enter signed.toml --job j").ends(0);
    seal(&desk, "S-1").ends(0).says("Shaft S-1 is sealed: 123 entries").says("S-1-sealed.pdf");
    desk
}
