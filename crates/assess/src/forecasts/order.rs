//! Concrete still to order, at this shaft's own ratio.

use super::{Forecast, Outlook, Urgency, View};
use crate::order::coming;
use calc::order::{still_to_order, theoretical_remaining};
use calc::sounding::{Purpose, USUAL_CHOICES, level_for};
use quantity::Fraction;

pub(super) fn forecast(view: &View<'_, '_>) -> Vec<Forecast> {
    one(view).into_iter().collect()
}

fn one(view: &View<'_, '_>) -> Option<Forecast> {
    let picture = view.sources.picture;
    let (plan, level) = (picture.plan.as_ref()?, picture.concrete.last()?);
    let wanted = plan.wanted();
    let (surface, _) = level_for(Purpose::Volume, &level.surface, USUAL_CHOICES)?;
    if surface.value >= wanted {
        return None;
    }
    let hole = view.sources.reckoning.hole.as_ref()?;
    let curve = &view.sources.reckoning.pour.as_ref()?.curve;
    let remaining = theoretical_remaining(&hole.at(level.at), surface, wanted).ok()?;
    let order = still_to_order(curve, remaining, Fraction::part(0.0))?;
    let (on_the_way, ordered) = coming(view.sources.log, picture);
    let coming = on_the_way.to_cubic_meters() + ordered.to_cubic_meters();
    let urgency = match order.volume.value.to_cubic_meters() > coming {
        true => Urgency::Soon,
        false => Urgency::Later,
    };
    let (volume, error) = (order.volume.value, order.volume.standard_error);
    let outlook = Outlook::StillToOrder { volume, error, on_the_way, ordered };
    Some(Forecast { urgency, outlook, evidence: vec![level.entry, plan.entry] })
}
