//! The line: how deep its tip was buried, through the pour and now.

use super::Lift;
use super::pour::{concrete_density, fluid_density};
use crate::facts::Sources;
use crate::picture::{LineHistory, Picture};
use calc::estimate::{Estimate, Level};
use calc::sounding::{Purpose, USUAL_CHOICES, level_for};
use calc::tremie::{
    Buried, FirstCharge, Happened, PipeString, Start, Step, balance_level, embedment_history, first_charge,
};
use quantity::{Elevation, InOrder, Length, Moment};
use record::{EntryId, Log};

/// A line through the pour.
#[derive(Debug, Clone, PartialEq)]
pub struct LineReckoning {
    /// What it is called.
    pub name: String,
    /// Embedment after every move, every sounding and every lift of a casing, with the entry of the step.
    pub history: Vec<(Buried, EntryId)>,
    /// The string as it hangs now; `None` when it is out or its tally is not known.
    pub string: Option<PipeString>,
    /// The surface it is buried in now.
    pub surface: Option<Level>,
    /// The tip at the start of the pour, above the bottom.
    pub start: Option<(Elevation, EntryId)>,
    /// Elevation at which the concrete in the pipe stands when nothing flows; `None` without a fluid level.
    pub balance: Option<Elevation>,
}

pub(super) fn reckon(log: &Log<'_>, picture: &Picture<'_>, lifts: &[Lift]) -> Vec<LineReckoning> {
    picture.lines.iter().map(|line| reckon_one(log, picture, line, lifts)).collect()
}

fn reckon_one(log: &Log<'_>, picture: &Picture<'_>, line: &LineHistory, lifts: &[Lift]) -> LineReckoning {
    let steps = steps(picture, line, lifts);
    let plain: Vec<Step> = steps.iter().map(|(step, _)| *step).collect();
    let surface = steps.iter().rev().find_map(|(step, _)| match step.happened {
        Happened::Surface(surface) => Some(surface),
        _ => None,
    });
    LineReckoning {
        name: line.name.clone(),
        history: with_entries(&embedment_history(&plain), &steps),
        string: string(picture, line),
        surface,
        start: start(picture, line),
        balance: surface.and_then(|surface| balance(log, picture, surface)),
    }
}

/// Everything that moved the tip or told the surface, in the order it happened.
fn steps(picture: &Picture<'_>, line: &LineHistory, lifts: &[Lift]) -> Vec<(Step, EntryId)> {
    let made = line.steps[0].at;
    let tips = line
        .steps
        .iter()
        .filter_map(|step| Some((Step { at: step.at, happened: Happened::Tip(step.tip?) }, step.entry)));
    let sounded = picture.concrete.iter().filter_map(|level| {
        let (surface, _) = level_for(Purpose::Embedment, &level.surface, USUAL_CHOICES)?;
        Some((Step { at: level.at, happened: Happened::Surface(surface) }, level.entry))
    });
    // A casing that was pulled before any concrete told nothing of its surface.
    let fell = lifts.iter().filter_map(|lift| {
        let surface = Estimate::new(lift.left_at?, crate::assumed::tape_error());
        Some((Step { at: lift.at, happened: Happened::Surface(surface) }, lift.entries[0]))
    });
    let out = line.out.map(|(at, entry)| (Step { at, happened: Happened::Out }, entry));
    // At the same minute a sounding comes before a lift: people sound, then pull.
    let rank = |step: &Step| match step.happened {
        Happened::Surface(_) => 0,
        Happened::Tip(_) => 1,
        Happened::Out => 2,
    };
    let mut steps: Vec<(Step, EntryId)> = tips.chain(sounded).chain(fell).chain(out).collect();
    steps.retain(|(step, _)| made <= step.at);
    steps.put_in_order_by_key(|(step, _)| (step.at, rank(step)));
    steps
}

/// The history with the entry of each of its steps: both stand in the order of the steps.
fn with_entries(history: &[Buried], steps: &[(Step, EntryId)]) -> Vec<(Buried, EntryId)> {
    let (mut tip, mut surface) = (false, false);
    let buried = steps.iter().filter(|(step, _)| {
        match step.happened {
            Happened::Tip(_) => tip = true,
            Happened::Surface(_) => surface = true,
            Happened::Out => tip = false,
        }
        tip && surface
    });
    history.iter().copied().zip(buried.map(|(_, entry)| *entry)).collect()
}

fn string(picture: &Picture<'_>, line: &LineHistory) -> Option<PipeString> {
    let step = line.step(picture.now)?;
    let pipes = line.pieces.get(..step.pieces)?.to_vec();
    let length = pipes.iter().copied().sum();
    Some(PipeString { top: Elevation(step.tip?.0 + length), pipes })
}

/// The tip when the first concrete came, from a depth or from a height above the bottom.
fn start(picture: &Picture<'_>, line: &LineHistory) -> Option<(Elevation, EntryId)> {
    let begun: Moment = picture.concrete_started().unwrap_or(picture.now);
    // A line made up during the pour starts when it was made up.
    let step = line.step(begun.max(line.steps[0].at))?;
    let base = picture.bottom.last_sounding().map(|sounding| sounding.surface.mean.value);
    let above_base = base.zip(line.off_bottom).map(|(base, off)| Elevation(base.0 + off));
    step.tip.or(above_base).map(|tip| (tip, step.entry))
}

fn balance(log: &Log<'_>, picture: &Picture<'_>, surface: Level) -> Option<Elevation> {
    let fluid = picture.fluid.last()?.surface;
    let density = fluid_density(log, picture.now);
    balance_level(density, concrete_density(picture), fluid, surface.value).ok()
}

/// What has to be on site before the plug of a line is cut, for an embedment to be reached.
///
/// `None` where the tip, its inside diameter or the hole is not known, or the tip hangs below the bottom.
pub fn charge_needed(
    sources: &Sources<'_, '_>,
    line: &LineHistory,
    embedment: Length,
) -> Option<FirstCharge> {
    let Sources { log, picture, reckoning } = *sources;
    let begun = picture.concrete_started().unwrap_or(picture.now);
    let (tip, _) = start(picture, line)?;
    let fluid_level = picture.fluid.iter().rfind(|step| step.at <= begun).map_or(tip, |step| step.surface);
    let start = Start {
        tip,
        embedment,
        pipe_inside: line.inside?,
        fluid_level,
        fluid: fluid_density(log, begun),
        concrete: concrete_density(picture),
        overbreak: 1.0,
    };
    first_charge(&reckoning.hole.as_ref()?.at(begun), &start).ok()
}
