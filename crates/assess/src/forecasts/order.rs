//! Concrete still to order, at this shaft's own ratio.

use super::{Forecast, Outlook, Urgency, View};
use calc::order::{still_to_order, theoretical_remaining};
use calc::sounding::{Purpose, USUAL_CHOICES, level_for};
use quantity::{Elevation, Fraction, InOrder, Length, Moment, Volume};
use record::kinds::ConcreteOrdered;

pub(super) fn forecast(view: &View<'_, '_>) -> Vec<Forecast> {
    one(view).into_iter().collect()
}

fn one(view: &View<'_, '_>) -> Option<Forecast> {
    let picture = view.sources.picture;
    let (plan, level) = (picture.plan.as_ref()?, picture.concrete.last()?);
    let over_pour = plan.shaft.over_pour.as_ref().map_or(Length::ZERO, |height| height.value());
    let wanted = Elevation(plan.cut_off.0 + over_pour);
    let (surface, _) = level_for(Purpose::Volume, &level.surface, USUAL_CHOICES)?;
    if surface.value >= wanted {
        return None;
    }
    let hole = view.sources.reckoning.hole.as_ref()?;
    let curve = &view.sources.reckoning.pour.as_ref()?.curve;
    let remaining = theoretical_remaining(&hole.at(level.at), surface, wanted).ok()?;
    let order = still_to_order(curve, remaining, Fraction::part(0.0))?;
    let (on_the_way, ordered) = (on_the_way(view, level.at), ordered(view));
    let coming = on_the_way.to_cubic_meters() + ordered.to_cubic_meters();
    let urgency = match order.volume.value.to_cubic_meters() > coming {
        true => Urgency::Soon,
        false => Urgency::Later,
    };
    let (volume, error) = (order.volume.value, order.volume.standard_error);
    let outlook = Outlook::StillToOrder { volume, error, on_the_way, ordered };
    Some(Forecast { urgency, outlook, evidence: vec![level.entry, plan.entry] })
}

/// Loads that arrived and had not ended when the surface was last sounded.
fn on_the_way(view: &View<'_, '_>, sounded: Moment) -> Volume {
    let loads = view.sources.picture.loads.iter().filter(|load| load.refused.is_none());
    let left = loads.filter(|load| load.done.is_none_or(|(done, _)| done > sounded));
    Volume::cubic_meters(left.map(|load| load.discharged().to_cubic_meters()).sum())
}

/// Ordered, and not here yet: what was written as ordered, less the loads that arrived since. A load that was
/// refused is still owed.
fn ordered(view: &View<'_, '_>) -> Volume {
    let orders = view.sources.log.each::<ConcreteOrdered>();
    let orders = orders.map(|(line, order)| (line.at, order.volume.value().to_cubic_meters()));
    let loads = view.sources.picture.loads.iter().filter(|load| load.refused.is_none());
    let loads = loads.map(|load| (load.arrived, -load.volume.to_cubic_meters()));
    // A load that came in the minute of an order was on its way before it.
    let mut all: Vec<(Moment, f64)> = loads.chain(orders).collect();
    all.put_in_order_by_key(|(at, _)| *at);
    Volume::cubic_meters(all.into_iter().fold(0.0, |owed, (_, volume)| (owed + volume).max(0.0)))
}
