//! Slump life of the concrete that stiffens first, against the planned end of the work.

use super::{Forecast, Outlook, Urgency, View, urgency};
use crate::reckon::{Life, LoadLife};
use quantity::{Length, Moment, Span};
use record::kinds::PourPlanned;

pub(super) fn forecast(view: &View<'_, '_>) -> Vec<Forecast> {
    let over = crate::facts::finished(&view.sources).is_some();
    if over && !crate::facts::casing_stands(&view.sources) {
        return Vec::new();
    }
    one(view).into_iter().collect()
}

/// The probability of the interval a slump life is told with.
const BETWEEN: f64 = 0.90;

/// The least slump until everything is done: that of the mix or of the set in force, whichever is more.
pub(crate) fn least(view: &View<'_, '_>) -> Option<Length> {
    let of_mix = view.sources.reckoning.slump.as_ref()?.limit;
    let of_set = view.least("slump.until_finished").map(Length::meters);
    of_mix.into_iter().chain(of_set).max()
}

/// The load that first falls to the least slump: that of the mix or of the set in force, whichever is more.
fn one(view: &View<'_, '_>) -> Option<Forecast> {
    let slump = view.sources.reckoning.slump.as_ref()?;
    let least = least(view)?;
    let ends = |life: Option<Life>, load: &LoadLife| {
        let (life, error) = match life? {
            Life::Until(life) => (life.value, life.standard_error),
            Life::Never => (Span::seconds(0.0), Span::seconds(0.0)),
            Life::AtLeast(_) => return None,
        };
        Some((load.batched?.plus_seconds(life.to_seconds() as i64), error))
    };
    let lives = slump.lives_above(least).into_iter().zip(&slump.loads);
    let lives = lives.filter_map(|(life, load)| Some((ends(life, load)?, load)));
    let ((ends, error), first) = lives.min_by_key(|((ends, _), _)| *ends)?;
    let left = Span::minutes(ends.minutes_since(view.now()));
    let planned_end = planned_end(view);
    let late = planned_end.is_some_and(|end| end > ends);
    let urgency = match urgency(left) {
        Urgency::Later if late => Urgency::Soon,
        urgency => urgency,
    };
    let ticket = first.ticket.clone();
    let between = slump.ends_between(&ticket, least, BETWEEN);
    let outlook = Outlook::SlumpLife { ticket, ends, error, between, left, planned_end };
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
