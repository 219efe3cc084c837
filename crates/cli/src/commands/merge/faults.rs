//! The lines of a file that are no entries: where each stands, what is wrong with it, which entry it says it is.
//!
//! Never: tell what a line claims as if it were proved.

use std::path::Path;
use wire::{Claim, WireError};

/// Lines that are told one by one; whoever has more of them has another file before them.
const TOLD_MOST: usize = 20;

/// Every faulty line, and how many beside them are sound.
pub(super) fn told(path: &Path, text: &str, errors: &[WireError]) -> String {
    let lines: Vec<&str> = text.lines().collect();
    let mut told: Vec<String> = Vec::new();
    for error in errors.iter().take(TOLD_MOST) {
        told.push(format!("{}: {error}.", path.display()));
        told.extend(lines.get(error.line - 1).and_then(|line| Claim::of(line)).map(|claim| claimed(&claim)));
    }
    if errors.len() > TOLD_MOST {
        told.push(format!("{} lines more are no entries either.", errors.len() - TOLD_MOST));
    }
    let written = lines.iter().filter(|line| !line.trim().is_empty()).count();
    told.push(sound(written - errors.len()));
    told.join("\n")
}

fn sound(lines: usize) -> String {
    match lines {
        0 => "No other line is an entry.".to_owned(),
        1 => "The one line beside is as it was signed.".to_owned(),
        lines => format!("The {lines} other lines are each as they were signed."),
    }
}

/// `It says it is entry 12 of the device 1a2b3c4d: concrete_sounded of S-1, seen 2025-05-13T10:41:00-06:00.`
fn claimed(claim: &Claim) -> String {
    let number = claim.seq.map_or_else(|| "an entry".to_owned(), |seq| format!("entry number {seq}"));
    let device = claim.device.as_ref().map_or_else(String::new, |device| format!(" of the device {device}"));
    let kind = claim.kind.as_deref().unwrap_or("of no kind");
    let shaft = claim.shaft.as_ref().map_or_else(String::new, |shaft| format!(" of {shaft}"));
    let seen = claim.observed_at.as_ref().map_or_else(String::new, |seen| format!(", seen {seen}"));
    format!("It says it is {number}{device}: {kind}{shaft}{seen}.")
}
