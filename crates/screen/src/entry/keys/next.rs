//! The single most likely next entry.
//!
//! Told by what is half done: a truck that discharges is empty next, a truck that is empty is followed by
//! the tape. Where nothing is half done, by the order of the work.
//!
//! Never: name a kind the stage cannot write.

use crate::entry::stage::Stage;
use assess::Picture;
use record::Log;
use record::kinds::*;

/// The word of the kind that most likely comes next.
pub(super) fn likely(stage: Stage, log: &Log<'_>, picture: &Picture<'_>) -> &'static str {
    if stopped(log) {
        return WorkResumed::WORD;
    }
    match stage {
        Stage::Planned => {
            if has::<StakeOut>(log) {
                UtilitiesCleared::WORD
            } else {
                StakeOut::WORD
            }
        }
        Stage::BeforeDrilling => before(log),
        Stage::Drilling => drilling(log, picture),
        Stage::Bottom => bottom(log),
        Stage::Cage => cage(log),
        Stage::Pour => pour(log, picture),
        Stage::After => after(log),
        Stage::Done => {
            if has::<CylindersMade>(log) {
                CylinderBroken::WORD
            } else {
                Signed::WORD
            }
        }
    }
}

fn has<'r, K: EntryKind + 'r>(log: &Log<'r>) -> bool {
    log.last::<K>().is_some()
}

/// The last of one kind came after the last of another, or the other never came.
fn after_last<'r, K: EntryKind + 'r, L: EntryKind + 'r>(log: &Log<'r>) -> bool {
    let place =
        |at: Option<record::EntryId>| at.and_then(|id| log.lines.iter().position(|line| line.entry.id == id));
    let one = place(log.last::<K>().map(|(line, _)| line.entry.id));
    let other = place(log.last::<L>().map(|(line, _)| line.entry.id));
    one.is_some() && one > other
}

fn stopped(log: &Log<'_>) -> bool {
    after_last::<WorkStopped, WorkResumed>(log)
        && after_last::<WorkStopped, ToolRun>(log)
        && after_last::<WorkStopped, DischargeStarted>(log)
}

fn before(log: &Log<'_>) -> &'static str {
    if !has::<UtilitiesCleared>(log) {
        UtilitiesCleared::WORD
    } else if !has::<ReferenceSet>(log) {
        ReferenceSet::WORD
    } else {
        DrillingStarted::WORD
    }
}

/// At the planned tip the bottom is reached; until then one run follows the other.
fn drilling(log: &Log<'_>, picture: &Picture<'_>) -> &'static str {
    let tip = picture.plan.as_ref().map(|plan| plan.tip);
    let deepest = picture.hole.iter().map(|step| step.reached).min();
    match (tip, deepest) {
        (Some(tip), Some(deepest)) if deepest <= tip && !has::<BottomReached>(log) => BottomReached::WORD,
        _ => ToolRun::WORD,
    }
}

fn bottom(log: &Log<'_>) -> &'static str {
    if !has::<Cleaning>(log) {
        Cleaning::WORD
    } else if !after_last::<BottomSounded, Cleaning>(log) {
        BottomSounded::WORD
    } else {
        BottomAccepted::WORD
    }
}

fn cage(log: &Log<'_>) -> &'static str {
    if !has::<CageSet>(log) {
        CageSet::WORD
    } else if !after_last::<BottomSounded, CageSet>(log) {
        BottomSounded::WORD
    } else {
        LineMadeUp::WORD
    }
}

fn pour(log: &Log<'_>, picture: &Picture<'_>) -> &'static str {
    if picture.loads.iter().any(assess::picture::Load::open) {
        return DischargeEnded::WORD;
    }
    if after_last::<DischargeEnded, ConcreteSounded>(log) {
        return ConcreteSounded::WORD;
    }
    if has::<OverPoured>(log) && !after_last::<LineOut, LineMadeUp>(log) {
        return LineOut::WORD;
    }
    if after_last::<LineOut, LineMadeUp>(log) {
        return CasingOut::WORD;
    }
    if let Some(load) = picture.loads.iter().find(|load| load.waiting()) {
        return if load.tests.is_empty() { ConcreteTest::WORD } else { DischargeStarted::WORD };
    }
    LoadArrived::WORD
}

fn after(log: &Log<'_>) -> &'static str {
    if !after_last::<CageElevation, LineOut>(log) && has::<CageSet>(log) {
        CageElevation::WORD
    } else if has::<AnchorsPlanned>(log) && !has::<AnchorsSet>(log) {
        AnchorsSet::WORD
    } else if !has::<Curing>(log) {
        Curing::WORD
    } else {
        AsBuilt::WORD
    }
}
