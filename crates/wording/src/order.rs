//! What to order, in words: how much is still needed, and what becomes of an order.
//!
//! Every sentence carries the band of the estimate and the service level; an order is never called safe.
//!
//! Never: round an order; leave out what it was reckoned from.

use crate::phrase::count;
use crate::show::Show;
use assess::order::{LevelOrder, NoOrder, RestsOn, ToOrder, TruckSize};
use calc::order::Order;
use quantity::Volume;

/// What to order, worded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OrderText {
    /// What it is about.
    pub heading: &'static str,
    /// What the figure is: `Order for 95 %`.
    pub label: String,
    /// The order that is told first: `9.5 cy`.
    pub value: String,
    /// What becomes of it, in a few words.
    pub note: String,
    /// The whole, with the other levels.
    pub sentence: String,
    /// What to do now.
    pub do_now: String,
}

/// What stands for an order while it is being reckoned from the newest readings.
pub fn order_waits() -> OrderText {
    OrderText {
        heading: "Concrete still to order",
        label: "Order".to_owned(),
        value: "being reckoned".to_owned(),
        note: String::new(),
        sentence: "The order is being reckoned from the newest readings.".to_owned(),
        do_now: "Wait a moment for the order.".to_owned(),
    }
}

/// What to order as text.
pub fn order(order: &ToOrder, show: &Show) -> OrderText {
    let told = order.told();
    let over = show.bare(show.volume(told.order.outcome.left_over));
    let loads = loads(&told.order, order, show);
    let (label, value) = (format!("Order for {}", level(told, show)), show.volume(told.order.volume));
    let note = match is_nothing(&told.order) {
        true => format!("enough comes, {over} left over"),
        false => format!("{}, {over} left over", loads_briefly(&told.order)),
    };
    OrderText {
        heading: heading(order),
        label,
        value,
        note,
        sentence: sentence(order, &loads, show),
        do_now: do_now(order, &loads, show),
    }
}

fn heading(order: &ToOrder) -> &'static str {
    match order.from {
        RestsOn::ThisShaft { .. } => "Concrete still to order",
        RestsOn::Earlier { .. } | RestsOn::Usual => "Concrete to order for the whole shaft",
    }
}

/// `Estimate from 5 soundings: still needed 11.2 cy (9.9–12.8), over-pour and lines included; …`
fn sentence(order: &ToOrder, loads: &str, show: &Show) -> String {
    let needed = needed(order, show);
    let told = order.told();
    let enough = match is_nothing(&told.order) {
        true => format!("For {} nothing more is needed", level(told, show)),
        false => format!("For {} order {}: {loads}", level(told, show), show.volume(told.order.volume)),
    };
    let over = show.volume(told.order.outcome.left_over);
    let others = order.orders.iter().filter(|one| one.level != told.level);
    // What comes to the same order is said once.
    let (same, others): (Vec<_>, Vec<_>) = others.partition(|one| one.order.volume == told.order.volume);
    let same: Vec<String> = same.into_iter().map(|one| level(one, show)).collect();
    let same = if same.is_empty() { String::new() } else { format!("; the same for {}", same.join(" and ")) };
    let others: Vec<String> = others
        .into_iter()
        .map(|other| format!("{} for {}", show.volume(other.order.volume), level(other, show)))
        .collect();
    let others =
        if others.is_empty() { String::new() } else { format!(" Instead {}.", others.join(", or ")) };
    format!(
        "{} {needed}, over-pour and lines included{}{}. {enough}{same}; left over about {over}.{others}",
        rests_on(order, show),
        casing(order, show),
        coming(order, show),
    )
}

/// `11.2 cy (9.9–12.8)`.
fn needed(order: &ToOrder, show: &Show) -> String {
    let [low, high] = order.ends.map(|end| show.bare(show.volume(end)));
    format!("{} ({low}–{high})", show.volume(order.needed))
}

fn rests_on(order: &ToOrder, show: &Show) -> String {
    match order.from {
        RestsOn::ThisShaft { soundings, earlier } => {
            let taught = match earlier {
                0 => String::new(),
                earlier => format!(" and {}", count(earlier, "earlier shaft", "earlier shafts")),
            };
            format!("Estimate from {}{taught}: still needed", count(soundings, "sounding", "soundings"))
        }
        RestsOn::Earlier { shafts, known, layers } => format!(
            "Estimate from {}, which met {known} of {}: it will probably take",
            count(shafts, "earlier shaft", "earlier shafts"),
            count(layers, "layer", "layers")
        ),
        RestsOn::Usual => {
            let usual = calc::order::USUAL_BELIEFS.ratio;
            format!(
                "Estimate from the drawing and a usual ratio of {} ± {}, as no earlier shaft of the job tells more: it \
                 will probably take",
                show.ratio(usual.value),
                show.ratio(usual.standard_error)
            )
        }
    }
}

/// `; 1.2 cy of it for the room the casing leaves`.
fn casing(order: &ToOrder, show: &Show) -> String {
    match order.casing.to_cubic_meters() > 0.0 {
        true => format!(", {} of it for the room that casing leaves", show.volume(order.casing)),
        false => String::new(),
    }
}

fn coming(order: &ToOrder, show: &Show) -> String {
    let there = |volume: Volume, what: &str| {
        (volume.to_cubic_meters() > 0.0).then(|| format!("{} {what}", show.volume(volume)))
    };
    let parts = [there(order.on_site, "is on site and not in"), there(order.ordered, "is ordered")];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    if parts.is_empty() { String::new() } else { format!("; {}", parts.join(", ")) }
}

fn do_now(order: &ToOrder, loads: &str, show: &Show) -> String {
    let told = order.told();
    let begun = matches!(order.from, RestsOn::ThisShaft { .. });
    let look = match begun {
        true => "Sound after the next load and look again.",
        false => "Look again after the first soundings of this shaft.",
    };
    match (is_nothing(&told.order), begun) {
        (true, _) => format!(
            "Order nothing more now: what comes is enough with a probability of {}. {look}",
            show.ratio(1.0 - told.order.outcome.short)
        ),
        (false, true) => {
            format!(
                "Order {} more, {loads}, and ask the plant how soon. {look}",
                show.volume(told.order.volume)
            )
        }
        (false, false) => {
            format!(
                "Ask the plant for {}, {loads}; order the last of it late. {look}",
                show.volume(told.order.volume)
            )
        }
    }
}

/// `2 loads of 9.0 cy and one of 3.5 cy`.
fn loads(order: &Order, to_order: &ToOrder, show: &Show) -> String {
    let full = show.volume(to_order.trucks.full);
    let part = (order.part_load.to_cubic_meters() > 0.0).then(|| show.volume(order.part_load));
    let assumed = match to_order.truck {
        TruckSize::Assumed => " (a truck is assumed to hold that)",
        TruckSize::Planned | TruckSize::Came => "",
    };
    match (order.full_loads, part) {
        (0, Some(part)) => format!("1 load of {part}"),
        (0, None) => "no load".to_owned(),
        (1, None) => format!("1 load of {full}{assumed}"),
        (more, None) => format!("{more} loads of {full}{assumed}"),
        (1, Some(part)) => format!("1 load of {full}{assumed} and one of {part}"),
        (more, Some(part)) => format!("{more} loads of {full}{assumed} and one of {part}"),
    }
}

/// `3 loads`, the part load counted.
fn loads_briefly(order: &Order) -> String {
    let part = u32::from(order.part_load.to_cubic_meters() > 0.0);
    count((order.full_loads + part) as usize, "load", "loads")
}

fn is_nothing(order: &Order) -> bool {
    order.volume.to_cubic_meters() <= 0.0
}

/// `95 %`.
fn level(of: &LevelOrder, show: &Show) -> String {
    format!("{} %", show.plain(of.level * 100.0, 0))
}

/// Why there is no order; `None` where nothing has to be said: the shaft is full, or nobody planned it yet.
pub fn no_order(why: NoOrder) -> Option<String> {
    let what = match why {
        NoOrder::NoPlan | NoOrder::Full => return None,
        NoOrder::Unreckonable(error) => error.to_string(),
        NoOrder::NoOrder(error) => error.to_string(),
    };
    Some(format!(
        "What to order cannot be told: {what}. The readings are kept; look at the bottom, the soundings and the plan of \
         the shaft."
    ))
}
