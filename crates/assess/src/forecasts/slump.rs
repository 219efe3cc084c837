//! Slump life of the concrete that stiffens first, against the planned end of the work.

use super::{Forecast, Outlook, Urgency, View, urgency};
use quantity::{Moment, Span};
use record::kinds::PourPlanned;

pub(super) fn forecast(view: &View<'_, '_>) -> Vec<Forecast> {
    if crate::facts::finished(&view.sources).is_some_and(|_| all_out(view)) {
        return Vec::new();
    }
    one(view).into_iter().collect()
}

/// No temporary casing stands any more.
fn all_out(view: &View<'_, '_>) -> bool {
    let temporary = view.sources.picture.casings.iter();
    temporary
        .filter(|c| c.stay == record::choices::CasingStay::Temporary)
        .all(|c| c.out.is_some() || c.left.is_some())
}

fn one(view: &View<'_, '_>) -> Option<Forecast> {
    let slump = view.sources.reckoning.slump.as_ref()?;
    let first = slump.first_to_end()?;
    let (ends, life) = (first.ends()?, first.life?);
    let left = Span::minutes(ends.minutes_since(view.now()));
    let planned_end = planned_end(view);
    let late = planned_end.is_some_and(|end| end > ends);
    let urgency = match urgency(left) {
        Urgency::Later if late => Urgency::Soon,
        urgency => urgency,
    };
    let outlook = Outlook::SlumpLife {
        ticket: first.ticket.clone(),
        ends,
        error: life.standard_error,
        left,
        planned_end,
    };
    let evidence = first.entries.iter().copied().chain([slump.mix_entry]).collect();
    Some(Forecast { urgency, outlook, evidence })
}

/// First concrete plus the planned duration of pour and what follows it.
fn planned_end(view: &View<'_, '_>) -> Option<Moment> {
    let (_, plan) = view.sources.log.last::<PourPlanned>()?;
    let started = view.sources.picture.concrete_started()?;
    let after = plan.after.as_ref().map_or(0.0, |span| span.value().to_seconds());
    let seconds = plan.duration.as_ref()?.value().to_seconds() + after;
    Some(started.plus_seconds(seconds as i64))
}
