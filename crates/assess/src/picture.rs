//! The picture: the shaft as the log tells it at a time.
//!
//! It puts every reading into one space (elevations), keeps the history of what moves (casings, line,
//! concrete, fluid), and remembers for each thing the entry it came from. It judges nothing and fills
//! nothing in: what was not written is `None`.
//!
//! Words: *step* = one moment in the history of something that moves.
//! Units: elevations above the datum of the job.
//! Never: compute a volume, compare with a limit.

mod casing;
mod concrete;
mod fluid;
mod hole;
mod line;
mod load;
mod plan;
mod reference;

pub use casing::{CasingHistory, ShoeStep};
pub use concrete::{ConcreteLevel, Waste};
pub use fluid::{FluidStep, WaterStep};
pub use hole::{Bottom, BottomSounding, DepthStep, Thicknesses};
pub use line::{LineHistory, TipStep};
pub use load::{FreshTest, Load, WaterAddition};
pub use plan::Plan;
pub use reference::References;

use quantity::{Elevation, Moment};
use record::kinds::{JobOpened, MixApproved};
use record::{EntryId, Log};

/// The shaft as the log tells it.
#[derive(Debug, Clone)]
pub struct Picture<'r> {
    /// The job, when it was opened in this record.
    pub job: Option<&'r JobOpened>,
    /// The plan of the shaft.
    pub plan: Option<Plan<'r>>,
    /// The points depths are measured from.
    pub references: References,
    /// How deep the hole was, when.
    pub hole: Vec<DepthStep>,
    /// The bottom: soundings, sediment, acceptance.
    pub bottom: Bottom,
    /// Casings, in the order they were set.
    pub casings: Vec<CasingHistory>,
    /// Fluid surface and groundwater as they were read.
    pub fluid: Vec<FluidStep>,
    /// Groundwater as it was met.
    pub water: Vec<WaterStep>,
    /// Tremies and pump lines.
    pub lines: Vec<LineHistory>,
    /// Loads, in the order they arrived.
    pub loads: Vec<Load<'r>>,
    /// Soundings of the concrete, in the order they were taken.
    pub concrete: Vec<ConcreteLevel>,
    /// Concrete that did not end up in the shaft.
    pub wasted: Vec<Waste>,
    /// Now.
    pub now: Moment,
}

impl<'r> Picture<'r> {
    /// The picture a log gives at a time.
    pub fn of(log: &Log<'r>, now: Moment) -> Self {
        let plan = Plan::of(log);
        let references = References::of(log, plan.as_ref());
        Picture {
            job: log.last::<JobOpened>().map(|(_, job)| job),
            hole: hole::steps(log, &references),
            bottom: Bottom::of(log, &references, now),
            casings: casing::histories(log, &references),
            fluid: fluid::levels(log, &references),
            water: fluid::groundwater(log, &references),
            lines: line::histories(log, &references),
            loads: load::loads(log),
            concrete: concrete::levels(log, &references),
            wasted: concrete::wasted(log),
            plan,
            references,
            now,
        }
    }

    /// The approved mix of a load, or of the plan where the load does not say.
    pub fn mix(&self, log: &Log<'r>, name: Option<&str>) -> Option<&'r MixApproved> {
        let wanted = name.or_else(|| self.plan.as_ref()?.shaft.mix.as_deref());
        let mut mixes = log.each::<MixApproved>().map(|(_, mix)| mix);
        match wanted {
            Some(wanted) => mixes.find(|mix| mix.mix == wanted),
            None => mixes.next_back(),
        }
    }

    /// The first moment concrete went in, with the entry that says so: the first discharge, else the first
    /// sounding of concrete.
    pub fn first_concrete(&self) -> Option<(Moment, EntryId)> {
        let loads = self.loads.iter().filter(|load| load.used()).filter_map(|load| load.begun);
        let sounded = self.concrete.first().map(|level| (level.at, level.entry));
        loads.chain(sounded).min_by_key(|(at, entry)| (*at, *entry))
    }

    /// The last moment concrete went in, with the entry that says so, once every load that began is in.
    pub fn last_concrete(&self) -> Option<(Moment, EntryId)> {
        if self.loads.iter().any(Load::open) {
            return None;
        }
        let loads = self.loads.iter().filter(|load| load.used()).filter_map(|load| load.done);
        let last = loads.max_by_key(|(at, entry)| (*at, *entry));
        last.or(self.concrete.last().map(|level| (level.at, level.entry)))
    }

    /// The first moment concrete went in.
    pub fn concrete_started(&self) -> Option<Moment> {
        self.first_concrete().map(|(at, _)| at)
    }

    /// The last moment concrete went in, once every load that began has ended.
    pub fn concrete_finished(&self) -> Option<Moment> {
        self.last_concrete().map(|(at, _)| at)
    }

    /// The concrete surface as last known at a moment: the lowest point of the last sounding, or what was
    /// read at a lift of a casing since.
    pub fn surface(&self, at: Moment) -> Option<Surface> {
        let sounded = self.concrete.iter().rfind(|level| level.at <= at).map(|level| Surface {
            at: level.at,
            level: level.surface.lowest.value,
            entry: level.entry,
        });
        let steps = self.casings.iter().flat_map(|casing| &casing.steps).filter(|step| step.at <= at);
        let read = steps.filter_map(|step| {
            Some(Surface { at: step.at, level: step.level_after.or(step.level_before)?, entry: step.entry })
        });
        sounded.into_iter().chain(read).max_by_key(|surface| surface.at)
    }
}

/// The concrete surface as last known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface {
    /// When it was read.
    pub at: Moment,
    /// Its lowest point.
    pub level: Elevation,
    /// The entry it was read in.
    pub entry: EntryId,
}
