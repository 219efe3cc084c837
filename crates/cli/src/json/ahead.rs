//! What to order and how the rest of the pour may go, as JSON; `null` while there is nothing to tell.

use super::{cubic, ids, moment};
use crate::view::View;
use assess::day::{DAYS_AT_DESK, RestOfPour, TrucksFrom};
use assess::order::{LevelOrder, RestsOn, TruckSize};
use calc::estimate::Estimate;
use calc::pour_day::{DayOutlook, Spread};
use serde_json::{Value, json};

/// What to order for each service level.
pub(super) fn order(view: &View<'_>) -> Value {
    let Ok(order) = view.order() else { return Value::Null };
    json!({
        "from": rests_on(order.from),
        "needed_m3": cubic(order.needed),
        "needed_90_m3": order.ends.map(cubic),
        "casing_room_m3": cubic(order.casing),
        "on_site_m3": cubic(order.on_site),
        "ordered_m3": cubic(order.ordered),
        "truck_m3": cubic(order.trucks.full),
        "step_m3": cubic(order.trucks.step),
        "truck": match order.truck {
            TruckSize::Planned => "planned",
            TruckSize::Came => "came",
            TruckSize::Assumed => "assumed",
        },
        "levels": order.orders.iter().map(level).collect::<Vec<_>>(),
        "evidence": ids(&order.evidence),
    })
}

fn rests_on(from: RestsOn) -> Value {
    match from {
        RestsOn::ThisShaft { soundings, earlier } => {
            json!({ "from": "this_shaft", "soundings": soundings, "earlier_shafts": earlier })
        }
        RestsOn::Earlier { shafts, known, layers } => {
            json!({ "from": "earlier_shafts", "earlier_shafts": shafts, "layers_known": known, "layers": layers })
        }
        RestsOn::Usual => json!({ "from": "usual" }),
    }
}

fn level(one: &LevelOrder) -> Value {
    let order = &one.order;
    json!({
        "enough": one.level, "order_m3": cubic(order.volume), "full_loads": order.full_loads,
        "part_load_m3": cubic(order.part_load), "short": order.outcome.short,
        "missing_m3": cubic(order.outcome.missing), "left_over_m3": cubic(order.outcome.left_over),
    })
}

/// How the rest of the pour may go.
pub(super) fn rest_of_pour(view: &View<'_>) -> Value {
    let told = RestOfPour::of(&view.log, &view.assessment, &view.set, (view.order(), DAYS_AT_DESK));
    let Ok(rest) = told else { return Value::Null };
    json!({
        "now": moment(rest.now),
        "begun": rest.begun,
        "days_played": rest.days,
        "loads_left": rest.loads_left,
        "loads_under_way": rest.under_way,
        "running": rest.running.as_ref().map(|(trucks, from, day)| {
            let from = match from {
                TrucksFrom::Named => "named",
                TrucksFrom::Headway => "headway",
            };
            json!({ "trucks": trucks, "from": from, "outlook": outlook(day) })
        }),
        "tried": rest.tried.iter().map(|(trucks, day)| json!({ "trucks": trucks, "outlook": outlook(day) }))
            .collect::<Vec<_>>(),
        "enough_trucks": rest.enough,
        "slump_life": rest.life.map(|life| json!({ "from_first_batch_min": life.life.to_minutes(),
            "error_min": life.error.to_minutes(), "at_least": life.at_least })),
        "gap_limit_min": rest.gap_limit.map(|gap| gap.to_minutes()),
        "round_assumed": rest.assumed_round,
        "evidence": ids(&rest.evidence),
    })
}

fn outlook(day: &DayOutlook) -> Value {
    let share = |one: Estimate<f64>| json!([one.value, one.standard_error]);
    json!({
        "safe": share(day.safe), "in_time": share(day.in_time), "gap_over": share(day.gap_over),
        "finish_min": spread(&day.finish), "oldest_min": spread(&day.oldest), "longest_gap_min": spread(&day.longest_gap),
    })
}

/// What one day in ten, half of them and nine in ten stay below.
fn spread(spread: &Spread) -> [f64; 3] {
    [spread.early, spread.half, spread.late].map(|one| one.value.to_minutes())
}
