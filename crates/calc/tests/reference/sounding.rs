//! Elevations as written beside their depths.

use calc::sounding::check_elevation;

use super::{Checks, Given, Output, Outputs};

pub(super) const CHECKS: Checks = &[("sounding::elevation", elevation)];

fn elevation(given: &Given) -> Result<Outputs, String> {
    let check = check_elevation(
        given.quantity("reference")?,
        given.quantity("depth")?,
        given.quantity("written")?,
        given.quantity("allowance")?,
    );
    let said = if check.agrees { "agree" } else { "disagree" };
    Ok(Outputs::from([
        ("follows_ft", Output::Number(check.follows.0.to_feet())),
        ("difference_ft", Output::Number(check.difference.to_feet())),
        ("they", Output::Text(said.to_owned())),
    ]))
}
