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
    let oldest = loads_by_age(looked).is_none_or(|oldest| oldest == load.ticket);
    let label = if oldest { "Age of the oldest concrete" } else { "Age of what stiffens first" };
    Some(of_load(load, (label, ends.map(|(_, ends)| ends)), looked))
}

/// The load that waits longest on site, with its age.
pub(super) fn waiting(looked: &Looked<'_>) -> Option<Big> {
    let loads = looked.assessment.picture.loads.iter().filter(|load| load.waiting());
    let load = loads.min_by_key(|load| load.batched.unwrap_or(load.arrived))?;
    let label = format!("On site, load {}", load.ticket);
    let show = &looked.show;
    let volume = load.arrival.volume.shown();
    let big = match load.batched {
        Some(batched) => {
            let age = Span::minutes(looked.at.minutes_since(batched).max(0.0));
            Big::said("load_waiting", &label, show.span(age)).note(format!("since batched; {volume}"))
        }
        None => Big::said("load_waiting", &label, "batch time not entered").note(volume),
    };
    Some(big.main())
}

/// The ticket of the load that was batched first of those that went in.
fn loads_by_age<'l>(looked: &'l Looked<'_>) -> Option<&'l str> {
    let loads = looked.assessment.picture.loads.iter().filter(|load| load.used() && load.batched.is_some());
    loads.min_by_key(|load| load.batched).map(|load| load.ticket)
}

fn of_load(load: &Load<'_>, (label, ends): (&str, Option<Moment>), looked: &Looked<'_>) -> Big {
    let show = &looked.show;
    let label = format!("{label}, load {}", load.ticket);
    let life = match ends {
        Some(ends) => format!("workable until {}", show.moment(ends)),
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
    big.note(notes(&[life, slump])).sign(sign(looked, "slump.life_left"))
}

/// `slump 6.2 in ± 0.4 by now`.
fn slump_now(load: &Load<'_>, looked: &Looked<'_>) -> Option<String> {
    let slump: &SlumpReckoning = looked.assessment.reckoning.slump.as_ref()?;
    let place = slump.loads.iter().position(|life| life.ticket == load.ticket)?;
    let now = slump.slumps_on(looked.at).into_iter().nth(place)??;
    let show = &looked.show;
    Some(format!("slump {} ± {} by now", show.small(now.value), show.small(now.standard_error)))
}
