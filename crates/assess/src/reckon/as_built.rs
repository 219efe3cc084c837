//! The shaft as built: where it stands, how it leans, how much cover is left.

use crate::picture::Picture;
use calc::axis::{Axis, AxisReading, FittedAxis, Offset, fit_axis};
use calc::cover::{HoleStretch, LeastCover, PlacedCage, least_cover};
use quantity::{Depth, Elevation, Length, Slope};
use record::kinds::{AsBuilt, CageElevation, CageSet, PlumbMeasured};
use record::{EntryId, Log};

/// The shaft as built.
#[derive(Debug, Clone, PartialEq)]
pub struct AsBuiltReckoning {
    /// Offset of the centre from its place.
    pub offset: Option<(Offset, EntryId)>,
    /// The axis of the hole, from plumb readings.
    pub axis: Option<(FittedAxis, EntryId)>,
    /// Offset at the toe, position and lean together.
    pub toe: Option<Offset>,
    /// Least cover along the cage.
    pub cover: Option<LeastCover>,
    /// The entries behind the cover.
    pub cover_entries: Vec<EntryId>,
}

impl AsBuiltReckoning {
    pub(super) fn of(log: &Log<'_>, picture: &Picture<'_>) -> Self {
        let offset = offset(log, picture);
        let axis = axis(log);
        let toe = offset
            .zip(axis.as_ref())
            .and_then(|((offset, _), (fitted, _))| toe(picture, offset, &fitted.axis));
        let (cover, cover_entries) =
            cover(log, picture, axis.as_ref()).map_or((None, Vec::new()), |(c, e)| (Some(c), e));
        AsBuiltReckoning { offset, axis, toe, cover, cover_entries }
    }
}

/// From coordinates, or as written.
fn offset(log: &Log<'_>, picture: &Picture<'_>) -> Option<(Offset, EntryId)> {
    let (line, built) = log.last::<AsBuilt>()?;
    let plan = picture.plan.as_ref().map(|plan| plan.shaft)?;
    let surveyed = built
        .easting
        .as_ref()
        .zip(plan.easting.as_ref())
        .zip(built.northing.as_ref().zip(plan.northing.as_ref()));
    let from_coordinates =
        surveyed.map(|((easting, planned_easting), (northing, planned_northing))| Offset {
            east: easting.value() - planned_easting.value(),
            north: northing.value() - planned_northing.value(),
        });
    let written = (built.east.is_some() || built.north.is_some()).then(|| Offset {
        east: built.east.as_ref().map_or(Length::ZERO, |size| size.value()),
        north: built.north.as_ref().map_or(Length::ZERO, |size| size.value()),
    });
    Some((from_coordinates.or(written)?, line.entry.id))
}

fn axis(log: &Log<'_>) -> Option<(FittedAxis, EntryId)> {
    let (line, plumb) = log.last::<PlumbMeasured>()?;
    let reading = |point: &record::kinds::excavation::PlumbPoint| AxisReading {
        depth: point.depth.value(),
        offset: Offset {
            east: point.east.as_ref().map_or(Length::ZERO, |size| size.value()),
            north: point.north.as_ref().map_or(Length::ZERO, |size| size.value()),
        },
    };
    let readings: Vec<AxisReading> = plumb.points.iter().map(reading).collect();
    Some((fit_axis(&readings, Length::inches(0.5)).ok()?, line.entry.id))
}

/// The centre at the toe: the surveyed centre, carried down along the lean.
fn toe(picture: &Picture<'_>, top: Offset, axis: &Axis) -> Option<Offset> {
    let bottom = picture.bottom.last_sounding()?.surface.mean.value;
    let depth = picture.plan.as_ref()?.ground.unwrap_or(picture.plan.as_ref()?.top).above(bottom);
    let leaning = Axis { depth: Depth(Length::ZERO), offset: top, ..*axis };
    Some(leaning.offset_at(Depth(depth)))
}

/// Cover of the cage as it hangs, in the hole as it leans.
///
/// The cage is taken to hang plumb from its offset at the top. Depths are below the planned top.
fn cover(
    log: &Log<'_>,
    picture: &Picture<'_>,
    axis: Option<&(FittedAxis, EntryId)>,
) -> Option<(LeastCover, Vec<EntryId>)> {
    let plan = picture.plan.as_ref()?;
    let (planned, cage) = plan.cage?;
    let (fitted, plumb) = axis?;
    let (line, set) = log.last::<CageSet>()?;
    let moved = log.last::<CageElevation>().map(|(line, read)| (line.entry.id, read));
    let size = |a: &Option<record::choices::Small>| a.as_ref().map(|size| size.value());
    let east = moved.and_then(|(_, read)| size(&read.east)).or(size(&set.east))?;
    let north = moved.and_then(|(_, read)| size(&read.north)).or(size(&set.north))?;
    let pieces = plan.bore.as_ref().ok()?.pieces();
    let depth = |level: Elevation| Depth::of_elevation(plan.top, level);
    let stretches: Vec<HoleStretch> = pieces
        .iter()
        .map(|piece| HoleStretch {
            top: depth(piece.top),
            bottom: depth(piece.bottom),
            diameter: piece.upper_diameter.min(piece.lower_diameter),
        })
        .collect();
    let top =
        cage.top.as_ref().map_or(Depth(Length::ZERO), |level| depth(level.value()).max(Depth(Length::ZERO)));
    let stand_off = size(&cage.stand_off).unwrap_or(Length::ZERO);
    let hung = Axis {
        depth: top,
        offset: Offset { east, north },
        lean_east: Slope::part(0.0),
        lean_north: Slope::part(0.0),
    };
    let placed = PlacedCage {
        axis: hung,
        top,
        bottom: depth(Elevation(plan.tip.0 + stand_off)),
        outside: cage.diameter.value(),
    };
    let least = least_cover(fitted.axis, &stretches, placed).ok()?;
    let entries = [Some(line.entry.id), moved.map(|(id, _)| id), Some(*plumb), Some(planned)];
    Some((least, entries.into_iter().flatten().collect()))
}
