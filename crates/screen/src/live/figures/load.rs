//! The concrete that stiffens first: its age, its slump by now, how long it lasts.

use super::{Big, Looked, notes, sign};
use assess::Outlook;
use assess::picture::Load;
use assess::reckon::SlumpReckoning;
use quantity::{Moment, Span};

/// The load that reaches the least slump first; the oldest one where no trial tells.
pub(super) fn oldest(looked: &Looked<'_>) -> Option<Big> {
    let ends = looked.assessment.forecasts.iter().find_map(|forecast| match &forecast.outlook {
        Outlook::SlumpLife { ticket, ends, .. } => Some((ticket.as_str(), *ends)),
        _ => None,
    });
    let loads = looked.assessment.picture.loads.iter().filter(|load| load.used());
    let load = match ends {
        Some((ticket, _)) => loads.clone().find(|load| load.ticket == ticket),
        None => loads.clone().filter(|load| load.batched.is_some()).min_by_key(|load| load.batched),
    };
    let load = load.or_else(|| loads.min_by_key(|load| load.begun))?;
    Some(of_load(load, ends.map(|(_, ends)| ends), looked))
}

fn of_load(load: &Load<'_>, ends: Option<Moment>, looked: &Looked<'_>) -> Big {
    let show = &looked.show;
    let label = format!("Oldest concrete, load {}", load.ticket);
    let life = match ends {
        Some(ends) => format!("stays workable until {}", show.moment(ends)),
        None => "no slump life is known".to_owned(),
    };
    let slump = slump_now(load, looked).unwrap_or_default();
    let big = match load.batched {
        Some(batched) => {
            let age = Span::minutes(looked.at.minutes_since(batched).max(0.0));
            Big::said("oldest_concrete", &label, show.span(age))
        }
        None => Big::said("oldest_concrete", &label, "batch time not entered"),
    };
    big.note(notes(&[slump, life])).sign(sign(looked, "slump.life_left"))
}

/// `slump 6.2 in ± 0.4 by now`.
fn slump_now(load: &Load<'_>, looked: &Looked<'_>) -> Option<String> {
    let slump: &SlumpReckoning = looked.assessment.reckoning.slump.as_ref()?;
    let place = slump.loads.iter().position(|life| life.ticket == load.ticket)?;
    let now = slump.slumps_on(looked.at).into_iter().nth(place)??;
    let show = &looked.show;
    Some(format!("slump {} ± {} by now", show.small(now.value), show.small(now.standard_error)))
}
