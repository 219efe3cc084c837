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
    /// Slope between the axis of the hole and the planned one; `None` where a planned lean has no direction
    /// that can be read.
    pub off_plan: Option<Slope>,
    /// Offset at the toe, position and lean together.
    pub toe: Option<Offset>,
    /// Least cover along the cage.
    pub cover: Option<LeastCover>,
    /// The entries behind the cover.
    pub cover_entries: Vec<EntryId>,
}

impl AsBuiltReckoning {
    pub(super) fn of(log: &Log<'_>, picture: &Picture<'_>) -> Self {
        let axis = axis(log);
        let offset = offset(log, picture).map(|offset| at_cut_off(log, picture, offset, axis.as_ref()));
        let toe = offset
            .zip(axis.as_ref())
            .and_then(|((offset, _), (fitted, _))| toe(picture, offset, &fitted.axis));
        let (cover, cover_entries) =
            cover(log, picture, axis.as_ref()).map_or((None, Vec::new()), |(c, e)| (Some(c), e));
        let off_plan = axis.as_ref().and_then(|(fitted, _)| off_plan(picture, &fitted.axis));
        AsBuiltReckoning { offset, off_plan, axis, toe, cover, cover_entries }
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

/// The offset carried along the axis from the level it was surveyed at to the cut-off, where the tolerance is
/// defined; as surveyed where the lean is not known.
fn at_cut_off(
    log: &Log<'_>,
    picture: &Picture<'_>,
    (offset, entry): (Offset, EntryId),
    axis: Option<&(FittedAxis, EntryId)>,
) -> (Offset, EntryId) {
    let level = log.last::<AsBuilt>().and_then(|(_, built)| built.level.as_ref()).map(|level| level.value());
    let carried = level.zip(picture.plan.as_ref()).zip(axis).map(|((level, plan), (fitted, _))| {
        let surveyed = Axis { depth: Depth(Length::ZERO), offset, ..fitted.axis };
        surveyed.offset_at(Depth(level.above(plan.cut_off)))
    });
    (carried.unwrap_or(offset), entry)
}

/// The lean of the hole less the planned one.
fn off_plan(picture: &Picture<'_>, axis: &Axis) -> Option<Slope> {
    let plan = picture.plan.as_ref()?.shaft;
    let planned = plan.rake.as_ref().map_or(0.0, |rake| rake.value().to_part());
    if planned == 0.0 {
        return Some(axis.lean());
    }
    let [east, north] = direction(plan.rake_toward.as_deref()?)?;
    let lean = Axis {
        lean_east: Slope::part(axis.lean_east.to_part() - planned * east),
        lean_north: Slope::part(axis.lean_north.to_part() - planned * north),
        ..*axis
    };
    Some(lean.lean())
}

/// A direction as people write it, a word, or degrees clockwise from north, as its parts toward east and north;
/// `None` where it cannot be read.
pub fn direction(text: &str) -> Option<[f64; 2]> {
    const WORDS: [(&str, f64); 8] = [
        ("north", 0.0),
        ("northeast", 45.0),
        ("east", 90.0),
        ("southeast", 135.0),
        ("south", 180.0),
        ("southwest", 225.0),
        ("west", 270.0),
        ("northwest", 315.0),
    ];
    let text = text.trim().to_lowercase();
    let word = WORDS.iter().find(|(word, _)| *word == text).map(|(_, degrees)| *degrees);
    let written = text.trim_end_matches(['°', ' ']).trim_end_matches("deg").trim();
    let degrees = word.or(written.parse().ok()).filter(|degrees: &f64| degrees.is_finite())?;
    let radians = degrees.to_radians();
    Some([libm::sin(radians), libm::cos(radians)])
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
