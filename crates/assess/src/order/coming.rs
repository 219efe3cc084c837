//! What comes already: loads on site, what was ordered, and what stands in the lines.
//!
//! Never: count a load that was sent away, or the part of a load that was in when the surface was read.

use crate::picture::Picture;
use crate::reckon::pour::volume_in;
use crate::shape::Asked;
use quantity::{InOrder, Moment, Volume};
use record::Log;
use record::choices::LineType;
use record::kinds::ConcreteOrdered;

/// On site and not in the hole at the last sounding; ordered and not on site.
pub(crate) fn coming(log: &Log<'_>, picture: &Picture<'_>) -> (Volume, Volume) {
    (on_site(picture), ordered(log, picture))
}

/// Loads that arrived, less what of them was in when the surface was last sounded.
fn on_site(picture: &Picture<'_>) -> Volume {
    let last = picture.concrete.last();
    let loads = picture.loads.iter().filter(|load| load.refused.is_none());
    let outside = loads.map(|load| {
        let inside = last.map_or(0.0, |level| volume_in(load, level));
        (load.discharged().to_cubic_meters() - inside).max(0.0)
    });
    Volume::cubic_meters(outside.sum())
}

/// What was written as ordered, less the loads that arrived since. A load that was refused is still owed.
fn ordered(log: &Log<'_>, picture: &Picture<'_>) -> Volume {
    let orders = log.each::<ConcreteOrdered>();
    let orders = orders.map(|(line, order)| (line.at, order.volume.value().to_cubic_meters()));
    let loads = picture.loads.iter().filter(|load| load.refused.is_none());
    let loads = loads.map(|load| (load.arrived, -load.volume.to_cubic_meters()));
    // A load that came in the minute of an order was on its way before it.
    let mut all: Vec<(Moment, f64)> = loads.chain(orders).collect();
    all.put_in_order_by_key(|(at, _)| *at);
    Volume::cubic_meters(all.into_iter().fold(0.0, |owed, (_, volume)| (owed + volume).max(0.0)))
}

/// What stays in the pump lines at the end, less what stands in all lines by now and will still go in or stay there.
pub(super) fn lines(asked: Asked<'_, '_>) -> Volume {
    let in_hole = asked.picture.lines.iter().filter(|line| line.out.is_none());
    let pumped = in_hole.filter(|line| line.line == LineType::Pump);
    let stays: f64 = pumped.filter_map(|line| line.line_volume).map(Volume::to_cubic_meters).sum();
    let sounding = asked.reckoning.pour.as_ref().and_then(|pour| pour.soundings.last());
    Volume::cubic_meters(stays - sounding.map_or(0.0, |sounding| sounding.held.to_cubic_meters()))
}
