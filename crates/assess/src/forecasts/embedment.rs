//! Embedment after the next piece, while the line is in the concrete.

use super::{Forecast, Outlook, Urgency, View};
use crate::assumed;
use crate::reckon::LineReckoning;
use calc::tremie::{embedment, embedment_without, highest_safe_lift, removable};
use quantity::Length;

pub(super) fn forecast(view: &View<'_, '_>) -> Vec<Forecast> {
    if view.sources.picture.concrete.is_empty() {
        return Vec::new();
    }
    view.sources.reckoning.lines.iter().filter_map(|line| one(view, line)).collect()
}

fn one(view: &View<'_, '_>, line: &LineReckoning) -> Option<Forecast> {
    let (string, surface) = (line.string.as_ref()?, line.surface?);
    let limit = view.least("line.embedment.least").map(Length::meters);
    let required = limit.unwrap_or_else(assumed::watched_embedment);
    let now = embedment(string.tip(), surface);
    let after_next = embedment_without(string, 1, surface).map(|after| after.value);
    let safe_lift = highest_safe_lift(now, required).value;
    let urgency = match after_next {
        _ if now.value < required => Urgency::Now,
        Some(after) if after < required => Urgency::Soon,
        _ => Urgency::Later,
    };
    let outlook = Outlook::Embedment {
        line: line.name.clone(),
        now: now.value,
        error: now.standard_error,
        required,
        limit_set: limit.is_some(),
        safe_lift,
        pieces: removable(string, surface, required).pipes,
        after_next,
    };
    let evidence = line.history.last().map(|(_, entry)| *entry);
    let level = view.sources.picture.concrete.last().map(|level| level.entry);
    let mut evidence: Vec<_> = evidence.into_iter().chain(level).collect();
    evidence.dedup();
    Some(Forecast { urgency, outlook, evidence })
}
