//! How deep the hole was, and what its bottom was found to be.

use super::reference::References;
use calc::sounding::{Place, Point, Sounding, Surface, Tape, surface};
use quantity::{Depth, Elevation, InOrder, Length, Moment};
use record::choices::{Place as Spot, SoundingPurpose};
use record::kinds::bottom::DepthPoint;
use record::kinds::{
    BottomAccepted, BottomReached, BottomSounded, Cleaning, OverExcavated, SedimentMeasured, ToolRun,
};
use record::{EntryId, Log};

/// The hole reached a depth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DepthStep {
    /// When the run began.
    pub from: Moment,
    /// When the depth was reached.
    pub at: Moment,
    /// Elevation before.
    pub upper: Option<Elevation>,
    /// Elevation reached.
    pub reached: Elevation,
    /// Dug by hand.
    pub by_hand: bool,
    /// The entry.
    pub entry: EntryId,
}

/// Where in the section, and how thick.
pub type Thicknesses = Vec<(Option<Spot>, Length)>;

/// What was found at the bottom.
#[derive(Debug, Clone, Default)]
pub struct Bottom {
    /// Soundings in the order they were taken.
    pub soundings: Vec<BottomSounding>,
    /// Thickness of sediment at points, in the order taken.
    pub sediment: Vec<(Moment, EntryId, Thicknesses)>,
    /// Cleaning: end of each pass that has ended.
    pub cleaned: Vec<(Moment, EntryId)>,
    /// Acceptance: when and by whom.
    pub accepted: Vec<(Moment, EntryId, String)>,
    /// Drilling reached the bottom.
    pub reached: Option<(Moment, Elevation, EntryId)>,
}

/// One sounding of the bottom.
#[derive(Debug, Clone)]
pub struct BottomSounding {
    /// When.
    pub at: Moment,
    /// Why.
    pub purpose: SoundingPurpose,
    /// Where in the section and how deep, corrected, as elevations.
    pub points: Vec<(Option<Spot>, Elevation)>,
    /// What the points add up to.
    pub surface: Surface,
    /// The entry.
    pub entry: EntryId,
}

pub(super) fn steps(log: &Log<'_>, references: &References) -> Vec<DepthStep> {
    let runs = log.each::<ToolRun>().filter_map(|(line, run)| {
        let at = run.out.unwrap_or(line.at);
        Some(DepthStep {
            from: line.at,
            at,
            upper: run.from.as_ref().and_then(|depth| references.elevation(depth.value(), at)),
            reached: references.elevation(run.to.value(), at)?,
            by_hand: run.by_hand == Some(true),
            entry: line.entry.id,
        })
    });
    let deeper = log.each::<OverExcavated>().filter_map(|(line, more)| {
        let reached = references.elevation(more.to.value(), line.at)?;
        let step = DepthStep {
            from: line.at,
            at: line.at,
            upper: None,
            reached,
            by_hand: false,
            entry: line.entry.id,
        };
        Some(step)
    });
    let mut steps: Vec<DepthStep> = runs.chain(deeper).collect();
    steps.put_in_order_by_key(|step| (step.at, step.entry));
    steps
}

impl Bottom {
    pub(super) fn of(log: &Log<'_>, references: &References, now: Moment) -> Self {
        let sediment = log.each::<SedimentMeasured>().map(|(line, measured)| {
            let points = measured.points.iter().map(|point| (point.place, point.thickness.value())).collect();
            (line.at, line.entry.id, points)
        });
        Bottom {
            soundings: log
                .each::<BottomSounded>()
                .filter_map(|(line, sounded)| BottomSounding::of(line.at, line.entry.id, sounded, references))
                .collect(),
            sediment: sediment.collect(),
            cleaned: log
                .each::<Cleaning>()
                .map(|(line, pass)| (pass.until.unwrap_or(line.at), line.entry.id))
                .filter(|(until, _)| *until <= now)
                .collect(),
            accepted: log
                .each::<BottomAccepted>()
                .map(|(line, accepted)| (line.at, line.entry.id, accepted.by.clone()))
                .collect(),
            reached: log.last::<BottomReached>().and_then(|(line, reached)| {
                Some((line.at, references.elevation(reached.depth.value(), line.at)?, line.entry.id))
            }),
        }
    }

    /// The sounding that holds when concrete starts: the last one.
    pub fn last_sounding(&self) -> Option<&BottomSounding> {
        self.soundings.last()
    }
}

impl BottomSounding {
    fn of(at: Moment, entry: EntryId, sounded: &BottomSounded, references: &References) -> Option<Self> {
        let reference = references.in_force(sounded.reference.as_deref(), at)?.0;
        let correction = sounded.tape_correction.as_ref().map_or(Length::ZERO, |length| length.value());
        let sounding = sounding_of(&sounded.points, reference, correction);
        let level = |depth: Depth| Elevation::of_depth(reference, Depth(depth.0 + correction));
        Some(BottomSounding {
            at,
            purpose: sounded.purpose,
            points: sounded.points.iter().map(|point| (point.place, level(point.depth.value()))).collect(),
            surface: surface(&sounding).ok()?,
            entry,
        })
    }
}

/// Written points as the formulas want them.
pub(super) fn sounding_of(points: &[DepthPoint], reference: Elevation, correction: Length) -> Sounding {
    let tape =
        Tape { zero_correction: correction, stretch: 0.0, standard_error: crate::assumed::tape_error() };
    let point = |point: &DepthPoint| Point {
        place: place_of(point.place),
        bearing_degrees: None,
        reading: point.depth.value(),
    };
    Sounding { reference, tape, points: points.iter().map(point).collect() }
}

fn place_of(place: Option<Spot>) -> Place {
    match place {
        Some(Spot::Center) => Place::Center,
        Some(Spot::Inside) => Place::InsideCage,
        Some(Spot::Outside) => Place::OutsideCage,
        _ => Place::Unstated,
    }
}
