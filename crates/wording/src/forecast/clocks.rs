//! Forecasts about time: slump life, the next fluid test, the gap since the last load, limits of waiting.

use super::Said;
use crate::phrase::no_stop;
use crate::show::Show;
use assess::Outlook;
use criteria::facts;
use quantity::{Moment, Span};

/// Slump life of the oldest concrete.
pub(super) fn slump(outlook: &Outlook, show: &Show) -> Said {
    let Outlook::SlumpLife { ticket, ends, error, between: interval, left, planned_end } = outlook else {
        unreachable!("asked for a slump life")
    };
    let error = if error.to_seconds() > 0.0 { format!(" ± {}", show.span(*error)) } else { String::new() };
    let planned = match planned_end {
        Some(end) if end > ends => format!(
            " The work is planned to end at {}, {} too late.",
            show.moment(*end),
            show.span(between(*ends, *end))
        ),
        Some(end) => format!(" The work is planned to end at {}.", show.moment(*end)),
        None => " Nobody entered when the work is to end.".to_owned(),
    };
    let told = format!(
        "Load {ticket} reaches the least slump at {}{error}{}",
        show.moment(*ends),
        range(*interval, show)
    );
    Said {
        heading: format!("Slump life of load {ticket}"),
        sentence: format!("{told}; {}.{planned}", left_text(*left, show)),
        do_now: slump_step(*left, planned_end.is_some_and(|end| end > *ends)),
    }
}

/// ` (11:40 to 12:30 nine times in ten)`; an end that the trial does not see is said to be open.
fn range(between: [Option<Moment>; 2], show: &Show) -> String {
    match between.map(|end| end.map(|end| show.moment(end))) {
        [Some(from), Some(until)] => format!(" ({from} to {until} nine times in ten)"),
        [Some(from), None] => {
            format!(" (not before {from}, nineteen times in twenty; the trial ends too soon to say more)")
        }
        [None, Some(until)] => format!(" (before {until}, nineteen times in twenty)"),
        [None, None] => String::new(),
    }
}

fn slump_step(left: Span, late: bool) -> String {
    let step = match (left.to_seconds() <= 0.0, late) {
        (true, _) => {
            "Test the slump of what is left of this concrete, and ask the engineer before the casing \
                      or an insert moves."
        }
        (false, true) => {
            "Shorten what is left of the pour or begin pulling earlier, and test the slump again."
        }
        (false, false) => "Have casing out and inserts in before then; test the slump again in good time.",
    };
    step.to_owned()
}

/// The next test of the fluid.
pub(super) fn fluid_test(at: Moment, left: Span, show: &Show) -> Said {
    Said {
        heading: "Next fluid test".to_owned(),
        sentence: format!("The next fluid test is due at {}; {}.", show.moment(at), left_text(left, show)),
        do_now: "Take the samples near the bottom and at mid-height, and enter place and depth.".to_owned(),
    }
}

/// Time since concrete last went in.
pub(super) fn gap(since: Moment, lasted: Span, allowed: Option<Span>, show: &Show) -> Said {
    let allowed_text = match allowed {
        Some(allowed) => format!("allowed: {}", show.span(allowed)),
        None => "no limit is set".to_owned(),
    };
    Said {
        heading: "Gap since the last load".to_owned(),
        sentence: format!(
            "No concrete has gone in since {}, {}; {allowed_text}.",
            show.moment(since),
            show.span(lasted)
        ),
        do_now:
            "Ask where the next truck is. If the pour stopped, enter “Interruption of the pour” with its \
                 reason."
                .to_owned(),
    }
}

/// A limit of time that runs out.
pub(super) fn limit(about: (&str, Option<&str>), ends: Moment, left: Span, show: &Show) -> Said {
    let (fact, ticket) = about;
    let name = facts::named(fact).map_or(fact, |fact| no_stop(fact.meaning));
    let of_load = ticket.map_or_else(String::new, |ticket| format!(" of load {ticket}"));
    Said {
        heading: format!("Time limit{of_load}"),
        sentence: format!(
            "{name}: the limit{of_load} is reached at {}; {}.",
            show.moment(ends),
            left_text(left, show)
        ),
        do_now: match (ticket, left.to_seconds() < 0.0) {
            (Some(ticket), false) => format!("Discharge load {ticket} before then, or send it away."),
            (Some(ticket), true) => {
                format!("Ask the engineer before load {ticket} is used; enter what was decided.")
            }
            (None, false) => "Have concrete start before then.".to_owned(),
            (None, true) => {
                "Ask the engineer what has to be done again before concrete; enter what was decided."
                    .to_owned()
            }
        },
    }
}

/// `25 min left`, or how long over.
fn left_text(left: Span, show: &Show) -> String {
    if left.to_seconds() < 0.0 {
        return format!("{} over", show.span(Span::seconds(-left.to_seconds())));
    }
    format!("{} left", show.span(left))
}

fn between(from: Moment, to: Moment) -> Span {
    Span::minutes(to.minutes_since(from))
}
