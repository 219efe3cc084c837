//! Head over the shoe at the next lift of a temporary casing.

use super::{Forecast, Outlook, Urgency, View};
use crate::assumed::{self, watched_lift};
use crate::picture::CasingHistory;
use calc::casing::{HeadRule, Withdrawal, concrete_to_keep_head, highest_lift};
use calc::estimate::Estimate;
use calc::geometry::Casing;
use criteria::Situation;
use quantity::{Elevation, Length};
use record::EntryId;
use record::choices::CasingStay;

pub(super) fn forecast(view: &View<'_, '_>) -> Vec<Forecast> {
    let standing = |casing: &&CasingHistory| {
        casing.stay == CasingStay::Temporary && casing.out.is_none() && casing.left.is_none()
    };
    view.sources.picture.casings.iter().filter(standing).filter_map(|casing| one(view, casing)).collect()
}

fn one(view: &View<'_, '_>, casing: &CasingHistory) -> Option<Forecast> {
    let now = view.now();
    let (shoe, top) = (casing.shoe(now)?, casing.top_at(now)?);
    let (level, read_in) = surface(view)?;
    let head = Some(level.above(shoe)).filter(|head| *head > Length::ZERO)?;
    let limit = required(view, shoe);
    let required = limit.unwrap_or_else(assumed::watched_embedment);
    let hole = view.sources.reckoning.hole.as_ref()?;
    let (bore, others) = hole.around(&casing.name, now);
    let steel = Casing { inside_diameter: casing.inside?, outside_diameter: casing.outside?, top, shoe };
    let concrete = Estimate::new(level, assumed::tape_error());
    let withdrawal = Withdrawal { hole: &bore, others: &others, casing: steel, concrete };
    let safe_lift = highest_lift(&withdrawal, HeadRule { required }).unwrap_or(head - required);
    let add =
        concrete_to_keep_head(&withdrawal, watched_lift(), HeadRule { required }).ok().map(|add| add.value);
    let urgency = match safe_lift {
        lift if lift <= Length::ZERO => Urgency::Now,
        lift if lift < watched_lift() => Urgency::Soon,
        _ => Urgency::Later,
    };
    let outlook = Outlook::HeadAtNextLift {
        casing: casing.name.clone(),
        now: head,
        required,
        limit_set: limit.is_some(),
        safe_lift,
        add,
    };
    Some(Forecast { urgency, outlook, evidence: vec![casing.steps.last()?.entry, read_in] })
}

/// The concrete surface now: as last read, or as the last lift left it.
fn surface(view: &View<'_, '_>) -> Option<(Elevation, EntryId)> {
    let read = view.sources.picture.surface(view.now())?;
    let lifts = view.sources.reckoning.lifts.iter().filter(|lift| lift.at >= read.at);
    let left = lifts.filter_map(|lift| Some((lift.left_at?, lift.entries[0]))).next_back();
    Some(left.unwrap_or((read.level, read.entry)))
}

/// The head the set asks for with the shoe where it is; `None` where it sets no limit.
fn required(view: &View<'_, '_>, shoe: Elevation) -> Option<Length> {
    let now = view.now();
    let balancing = crate::facts::balancing_head(&view.sources, shoe, now);
    let dimensions = view.situation.dimensions.clone().and(&balancing);
    let situation = Situation { conditions: view.situation.conditions.clone(), dimensions };
    let view = View { sources: view.sources, set: view.set, situation: &situation };
    view.least("casing.head_over_shoe").map(Length::meters)
}
