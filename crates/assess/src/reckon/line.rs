//! The line: how deep its tip was buried, through the pour and now.

use crate::picture::{LineHistory, Picture};
use calc::estimate::Level;
use calc::sounding::{Purpose, USUAL_CHOICES, level_for};
use calc::tremie::{Buried, Happened, PipeString, Step, embedment_history};
use quantity::{Elevation, Moment};
use record::EntryId;

/// A line through the pour.
#[derive(Debug, Clone, PartialEq)]
pub struct LineReckoning {
    /// What it is called.
    pub name: String,
    /// Embedment after every move and every sounding, with the entry of the step.
    pub history: Vec<(Buried, EntryId)>,
    /// The string as it hangs now; `None` when it is out or its tally is not known.
    pub string: Option<PipeString>,
    /// The surface it is buried in now.
    pub surface: Option<Level>,
    /// The tip at the start of the pour, above the bottom.
    pub start: Option<(Elevation, EntryId)>,
}

pub(super) fn reckon(picture: &Picture<'_>) -> Vec<LineReckoning> {
    picture.lines.iter().map(|line| reckon_one(picture, line)).collect()
}

fn reckon_one(picture: &Picture<'_>, line: &LineHistory) -> LineReckoning {
    let steps = steps(picture, line);
    let plain: Vec<Step> = steps.iter().map(|(step, _)| *step).collect();
    let surface = picture.concrete.last().and_then(|level| surface_of(level).map(|(surface, _)| surface));
    LineReckoning {
        name: line.name.clone(),
        history: with_entries(&embedment_history(&plain), &steps),
        string: string(picture, line),
        surface,
        start: start(picture, line),
    }
}

fn surface_of(level: &crate::picture::ConcreteLevel) -> Option<(Level, EntryId)> {
    level_for(Purpose::Embedment, &level.surface, USUAL_CHOICES).map(|(surface, _)| (surface, level.entry))
}

/// Everything that moved the tip or told the surface, in the order it happened.
fn steps(picture: &Picture<'_>, line: &LineHistory) -> Vec<(Step, EntryId)> {
    let made = line.steps.first().map(|step| step.at);
    let tips = line
        .steps
        .iter()
        .filter_map(|step| Some((Step { at: step.at, happened: Happened::Tip(step.tip?) }, step.entry)));
    let levels = picture.concrete.iter().filter(|level| made.is_some_and(|made| made <= level.at));
    let levels = levels.filter_map(|level| {
        let (surface, entry) = surface_of(level)?;
        Some((Step { at: level.at, happened: Happened::Surface(surface) }, entry))
    });
    let out = line.out.map(|(at, entry)| (Step { at, happened: Happened::Out }, entry));
    // At the same minute a sounding comes before a lift: people sound, then pull.
    let rank = |step: &Step| match step.happened {
        Happened::Surface(_) => 0,
        Happened::Tip(_) => 1,
        Happened::Out => 2,
    };
    let mut steps: Vec<(Step, EntryId)> = tips.chain(levels).chain(out).collect();
    steps.sort_by_key(|(step, _)| (step.at, rank(step)));
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
    let step = line.step(begun)?;
    let base = picture.bottom.last_sounding().map(|sounding| sounding.surface.mean.value);
    let above_base = base.zip(line.off_bottom).map(|(base, off)| Elevation(base.0 + off));
    step.tip.or(above_base).map(|tip| (tip, step.entry))
}
