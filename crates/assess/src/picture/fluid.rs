//! Fluid surface and groundwater as they were read.

use super::reference::References;
use quantity::{Elevation, Moment};
use record::kinds::{FluidLevel, Groundwater};
use record::{EntryId, Log};

/// The fluid surface was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FluidStep {
    /// When.
    pub at: Moment,
    /// Elevation of the fluid surface.
    pub surface: Elevation,
    /// Groundwater outside, where it was read with it.
    pub groundwater: Option<Elevation>,
    /// The entry.
    pub entry: EntryId,
}

/// Groundwater was met or had come to rest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterStep {
    /// When.
    pub at: Moment,
    /// Its elevation.
    pub level: Elevation,
    /// It had come to rest.
    pub at_rest: bool,
    /// The entry.
    pub entry: EntryId,
}

pub(super) fn levels(log: &Log<'_>, references: &References) -> Vec<FluidStep> {
    let step = |(line, level): (&record::Line<'_>, &FluidLevel)| {
        Some(FluidStep {
            at: line.at,
            surface: references.elevation(level.depth.value(), line.at)?,
            groundwater: level.groundwater.as_ref().and_then(|d| references.elevation(d.value(), line.at)),
            entry: line.entry.id,
        })
    };
    log.each::<FluidLevel>().filter_map(step).collect()
}

pub(super) fn groundwater(log: &Log<'_>, references: &References) -> Vec<WaterStep> {
    let step = |(line, water): (&record::Line<'_>, &Groundwater)| {
        let level = references.elevation(water.depth.value(), line.at)?;
        Some(WaterStep { at: line.at, level, at_rest: water.at_rest == Some(true), entry: line.entry.id })
    };
    log.each::<Groundwater>().filter_map(step).collect()
}
