//! The rest of the pour as it is planned.
//!
//! Never: hold a time that is neither planned, seen nor told as assumed.

use super::LifeTold;
use super::seen::Seen;
use crate::assumed;
use crate::forecasts::{View, slump};
use crate::order::ToOrder;
use crate::reckon::Life;
use calc::estimate::Estimate;
use calc::pour_day::{Durations, HowLong, PourDay, WorkAfter};
use quantity::Span;
use record::kinds::PourPlanned;

/// Longer than any pour: what is not known sets no limit.
fn never() -> Span {
    Span::hours(10_000.0)
}

/// The day as the plan, the loads so far and the order make it.
pub(super) fn planned(
    view: &View<'_, '_>,
    seen: &Seen,
    order: Option<&ToOrder>,
    (life, gap_limit): (Option<LifeTold>, Option<Span>),
) -> PourDay {
    let loads_left = order.map_or(0, loads_left);
    let life =
        life.map_or(Estimate::new(never(), Span::seconds(0.0)), |told| Estimate::new(told.life, told.error));
    PourDay {
        durations: durations(view),
        plan_worth: assumed::plan_worth(),
        loads_left,
        headway: headway(view, seen),
        test_every: seen.test_every(),
        work: sections(view, seen, loads_left),
        life,
        gap_limit: gap_limit.unwrap_or_else(never),
    }
}

/// Trucks for what was ordered and did not come, and for what is still to be ordered at the level that is told.
fn loads_left(order: &ToOrder) -> u32 {
    let more = order.ordered.to_cubic_meters() + order.told().order.volume.to_cubic_meters();
    libm::ceil(more / order.trucks.full.to_cubic_meters() - 1e-9).max(0.0) as u32
}

/// Slump life of the concrete that stiffens first, counted from the first batch of the pour.
pub(super) fn life(view: &View<'_, '_>) -> Option<LifeTold> {
    let (reckoning, least) = (view.sources.reckoning.slump.as_ref()?, slump::least(view)?);
    let first = reckoning.loads.iter().filter_map(|load| load.batched).min();
    let lives = reckoning.lives_above(least).into_iter().zip(&reckoning.loads);
    let ends = lives.filter_map(|(life, load)| {
        let later = load.batched?.minutes_since(first?);
        Some(told(life?, later))
    });
    let of_loads = ends.min_by(|one, other| one.life.to_seconds().total_cmp(&other.life.to_seconds()));
    of_loads.or_else(|| Some(told(reckoning.life_of_another(least)?, 0.0)))
}

fn told(life: Life, later_minutes: f64) -> LifeTold {
    let none = Span::seconds(0.0);
    let (life, error, at_least) = match life {
        Life::Until(life) => (life.value, life.standard_error, false),
        Life::AtLeast(sure) => (sure, none, true),
        Life::Never => (none, none, false),
    };
    LifeTold { life: Span::minutes(life.to_minutes() + later_minutes), error, at_least }
}

/// How long placing may stop by the criteria in force.
pub(super) fn gap_limit(view: &View<'_, '_>) -> Option<Span> {
    view.most("placing.interruption").map(Span::seconds)
}

/// Road and end of the work as planned, everything else as is usual.
fn durations(view: &View<'_, '_>) -> Durations {
    let usual = assumed::round();
    let Some((_, plan)) = view.sources.log.last::<PourPlanned>() else { return usual };
    let haul = plan.haul.as_ref().map_or(usual.haul, |span| as_planned(span.value()));
    let finish = plan.after.as_ref().map_or(usual.finish, |span| as_planned(span.value()));
    let back = match plan.haul.is_some() {
        // The way back, and washing down.
        true => as_planned(Span::minutes(haul.usual.to_minutes() + WASHING_MINUTES)),
        false => usual.back,
    };
    Durations { haul, back, finish, ..usual }
}

/// How long washing down takes before a truck goes back. Common practice, no source.
const WASHING_MINUTES: f64 = 10.0;

fn as_planned(span: Span) -> HowLong {
    HowLong { usual: span, slow: Span::minutes(span.to_minutes() * assumed::slower()) }
}

/// Whether the road or the end of the work was not planned.
pub(super) fn is_assumed(view: &View<'_, '_>) -> bool {
    let plan = view.sources.log.last::<PourPlanned>();
    plan.is_none_or(|(_, plan)| plan.haul.is_none() || plan.after.is_none())
}

/// The plant keeps the planned time between loads, unless two came closer today.
fn headway(view: &View<'_, '_>, seen: &Seen) -> Option<Span> {
    let planned = view.sources.log.last::<PourPlanned>()?.1.headway.as_ref()?.value().to_minutes();
    let closest = seen.closest_batches().unwrap_or(planned);
    Some(Span::minutes(planned.min(closest)))
}

/// The pieces of the tremie that can still come off, spread evenly over the loads to come.
fn sections(view: &View<'_, '_>, seen: &Seen, loads_left: u32) -> Vec<WorkAfter> {
    let picture = view.sources.picture;
    let pieces = picture.lines.iter().filter_map(|line| line.step(picture.now)).map(|step| step.pieces);
    // The lowest piece stays in the concrete to the end.
    let pieces = pieces.max().unwrap_or(0).saturating_sub(1) as u32;
    let loads = seen.under_way() + loads_left;
    let spread = |load: u32| (pieces * load).checked_div(loads).unwrap_or(0);
    let off = (1..loads).map(|load| WorkAfter {
        load: seen.ended() + load,
        sections: spread(load) - spread(load - 1),
        lifts: 0,
    });
    off.filter(|work| work.sections > 0).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_planned_time_is_three_tenths_longer_one_time_in_ten() {
        let long = as_planned(Span::minutes(40.0));
        assert_eq!((long.usual.to_minutes(), long.slow.to_minutes()), (40.0, 52.0));
    }

    #[test]
    fn a_life_the_trial_does_not_see_the_end_of_is_a_bound() {
        let life = told(Life::AtLeast(Span::minutes(240.0)), 10.0);
        assert_eq!((life.life.to_minutes(), life.error.to_minutes(), life.at_least), (250.0, 0.0, true));
        assert_eq!(told(Life::Never, 30.0).life.to_minutes(), 30.0);
    }
}
