//! Head over the shoe at the next lift of a temporary casing.

use super::{Forecast, Outlook, Urgency, View};
use crate::assumed::{self, watched_lift};
use crate::picture::CasingHistory;
use calc::casing::{HeadRule, Withdrawal, concrete_to_keep_head, highest_lift};
use calc::estimate::Estimate;
use calc::geometry::Casing;
use quantity::Length;
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
    let level = view.sources.picture.concrete.last()?;
    let head = Some(level.surface.lowest.value.above(shoe)).filter(|head| *head > Length::ZERO)?;
    let limit = view.least("casing.head_over_shoe").map(Length::meters);
    let required = limit.unwrap_or_else(assumed::watched_embedment);
    let hole = view.sources.reckoning.hole.as_ref()?;
    let (bore, others) = hole.around(&casing.name, now);
    let steel = Casing { inside_diameter: casing.inside?, outside_diameter: casing.outside?, top, shoe };
    let concrete = Estimate::new(level.surface.lowest.value, assumed::tape_error());
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
    Some(Forecast { urgency, outlook, evidence: vec![casing.steps.last()?.entry, level.entry] })
}
