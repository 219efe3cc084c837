//! The body of an entry in one phrase, and the elevation that follows from its depth.

use super::field::{field_lines, fields_text};
use crate::show::Show;
use assess::Picture;
use quantity::{Depth, Elevation};
use record::{Body, Line};

/// What an entry says, without its kind and time.
pub fn entry_text(body: &Body, show: &Show) -> String {
    fields_text(body.kind().fields, &body.to_group(), show)
}

/// The same, field by field: its name, its label, and what was written.
pub fn entry_lines(body: &Body, show: &Show) -> Vec<(&'static str, String, String)> {
    field_lines(body.kind().fields, &body.to_group(), show)
}

/// The elevation of the one level an entry is about; of several points the mean the assessment took.
pub fn derived(line: &Line<'_>, picture: &Picture<'_>) -> Option<Elevation> {
    let id = line.entry.id;
    let sounded = picture.concrete.iter().map(|level| (level.entry, level.surface.mean.value));
    let bottom = picture.bottom.soundings.iter().map(|one| (one.entry, one.surface.mean.value));
    match sounded.chain(bottom).find(|(entry, _)| *entry == id) {
        Some((_, level)) => Some(level),
        None => picture.references.elevation(depth_of(line.body)?, line.at),
    }
}

/// The depth an entry is about.
fn depth_of(body: &Body) -> Option<Depth> {
    match body {
        Body::ToolRun(run) => Some(run.to.value()),
        Body::BottomReached(reached) => Some(reached.depth.value()),
        Body::OverExcavated(more) => Some(more.to.value()),
        Body::FluidLevel(level) => Some(level.depth.value()),
        Body::Groundwater(water) => Some(water.depth.value()),
        Body::CasingAdvanced(advanced) => Some(advanced.shoe.value()),
        Body::TipMoved(moved) => Some(moved.tip.value()),
        _ => None,
    }
}
