//! How much concrete to order so that it is enough as often as was asked for.
//!
//! What the hole still takes is known as a distribution: from the estimate of this shaft as far as it was sounded, or,
//! before its first sounding, from what the earlier shafts of the job took in the same layers. Lines, loads on site and
//! what was ordered already are put beside it. It costs as much as the estimate of the shape, so it is made when somebody
//! looks at it, not with each assessment.
//!
//! Words: *service level* = the probability that an order is enough.
//! Never: call an order safe without its probability; format text.

mod coming;
mod hole;

pub(crate) use coming::coming;
pub use hole::RestsOn;

use crate::assumed;
use crate::shape::{Asked, NoShape};
use calc::estimate::Estimate;
use calc::mixture::Mixture;
use calc::order::{Need, Order, OrderError, Trucks};
use calc::profile::ProfileError;
use quantity::{Fraction, Volume};
use record::EntryId;
use record::choices::JobUnits;
use record::kinds::PourPlanned;

/// The levels an order is told for.
pub const LEVELS: [f64; 3] = [0.90, 0.95, 0.99];
/// The one that is told first. Judgement: the last truck of one pour in twenty.
pub const TOLD: f64 = 0.95;

/// What is still needed, and what to order for it.
#[derive(Debug, Clone, PartialEq)]
pub struct ToOrder {
    /// What is needed from now on, in concrete as the tickets tell it: mean, and the ends of its 90 % band.
    pub needed: Volume,
    /// The ends of that band.
    pub ends: [Volume; 2],
    /// What it was reckoned from.
    pub from: RestsOn,
    /// Of it, the room that temporary casing leaves when it comes out; zero where none stands.
    pub casing: Volume,
    /// On site, and not in the hole at the last sounding.
    pub on_site: Volume,
    /// Ordered, and not on site yet.
    pub ordered: Volume,
    /// Trucks and steps it can be ordered in.
    pub trucks: Trucks,
    /// Where the size of a truck is from.
    pub truck: TruckSize,
    /// What to order beside all that for each of [`LEVELS`].
    pub orders: [LevelOrder; 3],
    /// The entries it comes from.
    pub evidence: Vec<EntryId>,
}

/// An order for one service level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LevelOrder {
    /// How often it is to be enough.
    pub level: f64,
    /// The order.
    pub order: Order,
}

/// Where the size of a truck is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TruckSize {
    /// The plan of the pour.
    Planned,
    /// The largest load that came today.
    Came,
    /// Assumed.
    Assumed,
}

/// Why there is no order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NoOrder {
    /// Nobody entered what the shaft should be, or its plan makes no hole.
    NoPlan,
    /// Nothing more is needed: the concrete stands where the plan wants it.
    Full,
    /// The readings give no estimate.
    Unreckonable(ProfileError),
    /// No order is enough.
    NoOrder(OrderError),
}

impl ToOrder {
    /// What is still to be ordered for a shaft.
    ///
    /// # Errors
    /// Without a plan, when the shaft is full, and when what was read gives no estimate.
    pub fn of(asked: Asked<'_, '_>) -> Result<Self, NoOrder> {
        let plan = asked.picture.plan.as_ref().ok_or(NoOrder::NoPlan)?;
        let taken = hole::takes(asked, plan.wanted())?;
        let (on_site, ordered) = coming(asked.log, asked.picture);
        let on_the_way = Volume::cubic_meters(on_site.to_cubic_meters() + ordered.to_cubic_meters());
        let (trucks, truck) = trucks(asked);
        let lines = Estimate::new(coming::lines(asked), assumed::lines_error());
        let zero = Volume::cubic_meters(0.0);
        let over_pour = Estimate::new(zero, zero);
        // Over-pour is part of the hole up to the level wanted; the errors of tickets are part of the estimate.
        let need =
            Need { hole: &taken.volume, over_pour, lines, on_the_way, yield_error: Fraction::part(0.0) };
        let order = |level: f64| Ok(LevelOrder { level, order: need.order(&trucks, level)? });
        let [low, told, high] = LEVELS.map(order);
        let orders =
            [low, told, high].map(|one: Result<LevelOrder, OrderError>| one.map_err(NoOrder::NoOrder));
        let [low, told, high] = orders;
        let (needed, ends) = needed(&taken.volume, lines).map_err(NoOrder::NoOrder)?;
        let sounded = asked.picture.concrete.last().map(|level| level.entry);
        Ok(ToOrder {
            needed,
            ends,
            from: taken.from,
            casing: taken.casing,
            on_site,
            ordered,
            trucks,
            truck,
            orders: [low?, told?, high?],
            evidence: [plan.entry].into_iter().chain(sounded).collect(),
        })
    }

    /// The order that is told first.
    pub fn told(&self) -> &LevelOrder {
        &self.orders[1]
    }
}

/// What the hole takes, with the lines: mean and 90 % band.
fn needed(hole: &Mixture, lines: Estimate<Volume>) -> Result<(Volume, [Volume; 2]), OrderError> {
    let with = |hole: &Mixture| {
        let shifted = hole.shifted(lines.value.to_cubic_meters())?;
        let all = shifted.widened(lines.standard_error.to_cubic_meters())?;
        Ok((all.mean(), all.band(0.90)?))
    };
    let (mean, ends) = with(hole).map_err(OrderError::Mixture)?;
    Ok((Volume::cubic_meters(mean), ends.map(Volume::cubic_meters)))
}

/// The size of a truck and the step of a part load.
pub(crate) fn trucks(asked: Asked<'_, '_>) -> (Trucks, TruckSize) {
    let in_yards = asked.picture.job.is_none_or(|job| job.units == JobUnits::Us);
    let planned = asked.log.last::<PourPlanned>().and_then(|(_, plan)| plan.truck.as_ref());
    let came = asked.picture.loads.iter().filter(|load| load.refused.is_none()).map(|load| load.volume);
    let came = came.max_by(|one, other| one.to_cubic_meters().total_cmp(&other.to_cubic_meters()));
    let (full, size) = match (planned, came) {
        (Some(planned), _) => (planned.value(), TruckSize::Planned),
        (None, Some(came)) => (came, TruckSize::Came),
        (None, None) => (assumed::truck(in_yards), TruckSize::Assumed),
    };
    (Trucks { full, step: assumed::truck_step(in_yards) }, size)
}

impl From<NoShape> for NoOrder {
    fn from(why: NoShape) -> Self {
        match why {
            NoShape::NothingSounded => NoOrder::NoPlan,
            NoShape::Unreckonable(error) => NoOrder::Unreckonable(error),
        }
    }
}
