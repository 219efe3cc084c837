//! What is left of the advice of a criterion that fails, once nobody can follow it any more.
//!
//! Never: call a finding settled; only the entry of a person does that.

use crate::finding;
use crate::show::Show;
use assess::Finding;
use record::Log;

/// The same thing was measured again later and meets, by this finding.
pub fn measured_again(later: &Finding, log: &Log<'_>, show: &Show) -> String {
    let value = finding::finding(later, log, show).value;
    let when = later.at.map_or_else(String::new, |at| format!(" {}", show.moment(at)));
    format!("Measured again{when}: {value}, which meets. Left is that somebody decides about it.")
}

/// The work a finding is about is over.
pub fn too_late() -> &'static str {
    "The work it is about is done. Left is that somebody decides about it."
}
