//! Will the pour end in time? The rest of the day, played some thousand times from what was written of it so far.
//!
//! The plan of the pour, the trucks that came and the tests they had become a day that `calc` plays. The draws come from
//! what the shaft should be, so the same record gives the same probabilities on every machine, and two looks
//! at one pour differ by what happened and not by chance. It is played when somebody asks, not with each assessment.
//!
//! Words: *in time* = casing out and inserts in before the concrete that stiffens first has fallen to its least slump.
//! Never: read a clock; tell a probability where neither a slump life nor a limit of gaps is known; format text.

mod plan;
mod seen;

use crate::assumed;
use crate::facts::{Sources, casing_stands, finished};
use crate::forecasts::View;
use crate::order::{NoOrder, ToOrder};
use crate::run::Assessment;
use calc::pour_day::{DayError, DayOutlook, PourDay, Safe, Sample};
use criteria::SetInForce;
use plan::planned;
use quantity::{Moment, Span};
use record::kinds::PourPlanned;
use record::{EntryId, Log};
use seen::Seen;

/// So many days are played for a report or at a desk.
pub const DAYS_AT_DESK: u32 = 4_000;
/// So many for each look of a screen: one error of a probability is 2.5 points or less. It is played at every entry, and a
/// slow tablet has a tenth of a second for all of that.
pub const DAYS_LIVE: u32 = 400;

/// How the rest of the pour may go.
#[derive(Debug, Clone, PartialEq)]
pub struct RestOfPour {
    /// When it was asked; before the first load, when the first truck would be batched.
    pub now: Moment,
    /// Concrete has come; before that, times are told from the first batch.
    pub begun: bool,
    /// How many days were played for each number of trucks.
    pub days: u32,
    /// Loads that are not batched yet.
    pub loads_left: u32,
    /// Loads batched that are not in the hole.
    pub under_way: u32,
    /// Trucks in the round now, where that is known, and how the day goes with them.
    pub running: Option<(u32, TrucksFrom, DayOutlook)>,
    /// The outlook for each number of trucks from one up, to the first that is enough.
    pub tried: Vec<(u32, DayOutlook)>,
    /// The least number of trucks that is enough with [`assumed::safe_from`].
    pub enough: Option<u32>,
    /// When the concrete that stiffens first has fallen to its least slump.
    pub life: Option<LifeTold>,
    /// How long placing may stop, where a limit is set.
    pub gap_limit: Option<Span>,
    /// Parts of the round that nobody planned.
    pub assumed_round: bool,
    /// The entries it comes from.
    pub evidence: Vec<EntryId>,
}

/// Slump life from the first batch on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LifeTold {
    /// How long.
    pub life: Span,
    /// Its standard error.
    pub error: Span,
    /// The trial ends above the least slump: it is at least so long.
    pub at_least: bool,
}

/// How the number of trucks is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TrucksFrom {
    /// So many different trucks were written down today, and one of them came back.
    Named,
    /// So many keep the time between loads that was planned, or seen.
    Headway,
}

/// Why the rest of the day is not played.
#[derive(Debug, Clone, PartialEq)]
pub enum NoDay {
    /// The pour is over.
    Over,
    /// Nobody planned the pour, and no load came yet.
    NotPlanned,
    /// Nothing says how much concrete is to come.
    NoOrder(NoOrder),
    /// Neither a slump life nor a limit of gaps is known: there is nothing to be in time for.
    NoLimit,
    /// The times do not make a day.
    Unplayable(DayError),
}

impl RestOfPour {
    /// Plays the rest of the pour of an assessed shaft, for which this is to be ordered.
    ///
    /// # Errors
    /// When it is over, nothing is known of what is to come, or the times do not make a day.
    pub fn of(
        log: &Log<'_>,
        assessment: &Assessment<'_>,
        set: &SetInForce,
        (order, days): (&Result<ToOrder, NoOrder>, u32),
    ) -> Result<Self, NoDay> {
        let (picture, reckoning) = (&assessment.picture, &assessment.reckoning);
        let sources = Sources { log, picture, reckoning };
        if finished(&sources).is_some() && !casing_stands(&sources) {
            return Err(NoDay::Over);
        }
        let view = View { sources, set, situation: &assessment.situation };
        let seen = Seen::of(&view);
        if !seen.begun() && log.last::<PourPlanned>().is_none() {
            return Err(NoDay::NotPlanned);
        }
        let order = match order {
            Ok(order) => Some(order),
            Err(NoOrder::Full) => None,
            Err(why) => return Err(NoDay::NoOrder(*why)),
        };
        played(&view, &seen, order, days)
    }
}

fn played(view: &View<'_, '_>, seen: &Seen, order: Option<&ToOrder>, days: u32) -> Result<RestOfPour, NoDay> {
    let (life, gap_limit) = (plan::life(view), plan::gap_limit(view));
    if life.is_none() && gap_limit.is_none() {
        return Err(NoDay::NoLimit);
    }
    let day = planned(view, seen, order, (life, gap_limit));
    let sample = Sample { days, seed: seed(view) };
    let running = seen.trucks(&day).map(|(trucks, from)| {
        let outlook = day.play(&seen.so_far(), trucks, sample)?;
        Ok((trucks, from, outlook))
    });
    let tried = tried(&day, seen, sample).map_err(NoDay::Unplayable)?;
    let safe = |(_, outlook): &&(u32, DayOutlook)| outlook.safe.value >= assumed::safe_from();
    Ok(RestOfPour {
        now: view.sources.picture.now,
        begun: seen.begun(),
        days,
        loads_left: day.loads_left,
        under_way: seen.under_way(),
        running: running.transpose().map_err(NoDay::Unplayable)?,
        enough: tried.iter().find(safe).map(|(trucks, _)| *trucks),
        tried,
        life,
        gap_limit,
        assumed_round: plan::is_assumed(view),
        evidence: evidence(view, order),
    })
}

/// With one truck more each time; nothing where no load is left that a truck would bring.
fn tried(day: &PourDay, seen: &Seen, sample: Sample) -> Result<Vec<(u32, DayOutlook)>, DayError> {
    if day.loads_left == 0 {
        let outlook = day.play(&seen.so_far(), seen.under_way(), sample)?;
        return Ok(vec![(seen.under_way(), outlook)]);
    }
    // A truck that no load is left for brings nothing.
    let most_trucks = assumed::most_trucks().min(day.loads_left + seen.under_way());
    let safe = Safe { probability: assumed::safe_from(), most_trucks };
    day.trucks_until_safe(&seen.so_far(), safe, sample)
}

/// From what the shaft should be: the same wherever the day is lived again, though its entries have other ids.
fn seed(view: &View<'_, '_>) -> u64 {
    let Some(plan) = &view.sources.picture.plan else { return 0 };
    let lengths = [plan.top.0, plan.tip.0, plan.cut_off.0, plan.diameter.unwrap_or_default()];
    lengths.iter().fold(0, |seed: u64, length| seed.rotate_left(17) ^ length.to_nanometers().unsigned_abs())
}

fn evidence(view: &View<'_, '_>, order: Option<&ToOrder>) -> Vec<EntryId> {
    let plan = view.sources.log.last::<PourPlanned>().map(|(line, _)| line.entry.id);
    let loads = view.sources.picture.loads.iter().filter(|load| load.refused.is_none());
    let loads = loads.filter_map(|load| load.entries.first().copied());
    order.iter().flat_map(|order| order.evidence.clone()).chain(plan).chain(loads).collect()
}
