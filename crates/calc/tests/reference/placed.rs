//! What the lines hold, and what is left for the hole.

use calc::placed::{Delivered, pipe_content, volume_placed};
use quantity::Volume;

use super::{Checks, Given, Outputs, numbers};

pub(super) const CHECKS: Checks = &[("placed::pipe_content", content), ("placed::volume", volume)];

fn content(given: &Given) -> Result<Outputs, String> {
    let area = pipe_content(given.quantity("inside_diameter")?).map_err(|error| error.to_string())?;
    numbers([("ft3_per_ft", area.to_square_feet())])
}

fn volume(given: &Given) -> Result<Outputs, String> {
    let account = Delivered {
        delivered: given.quantity("delivered")?,
        wasted: given.quantity("wasted")?,
        left_in_truck: given.quantity("left_in_truck")?,
        in_lines: given.quantity("in_lines")?,
    };
    let placed: Volume = volume_placed(&account).map_err(|error| error.to_string())?;
    numbers([("placed_yd3", placed.to_cubic_yards())])
}
