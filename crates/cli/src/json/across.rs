//! What many shafts show, as JSON: values in SI, the places and the entries behind each.

use assess::Outcome;
use assess::across::{
    Across, Activity, By, HoursOfShaft, Measure, Place, Reading, ReadingLimit, Taken, TakenPart,
};
use serde_json::{Value, json};

/// All of it.
pub(crate) fn across(across: &Across) -> Value {
    json!({
        "at": across.at.to_string(),
        "shafts": across.shafts.iter().map(place).collect::<Vec<_>>(),
        "taken": across.taken.iter().map(taken).collect::<Vec<_>>(),
        "concrete": across.concrete.iter().map(concrete).collect::<Vec<_>>(),
        "hours": across.hours.iter().map(hours).collect::<Vec<_>>(),
        "readings": across.readings.iter().map(reading).collect::<Vec<_>>(),
        "limits": across.limits.iter().map(limit).collect::<Vec<_>>(),
        "criteria": across.criteria.iter().map(criterion).collect::<Vec<_>>(),
        "people": across.people.iter().map(person).collect::<Vec<_>>(),
    })
}

fn place(place: &Place) -> Value {
    json!({ "job": place.job, "shaft": place.shaft })
}

fn ids(entries: &[record::EntryId]) -> Vec<String> {
    entries.iter().map(ToString::to_string).collect()
}

fn taken(one: &Taken) -> Value {
    let (by, what, ground) = match &one.by {
        By::All => ("all", "all", None),
        By::Ground(ground) => ("ground", ground.word(), Some(ground.word())),
        By::Stratum(ground, words) => ("stratum", words.as_str(), Some(ground.word())),
        By::Method(method) => ("method", method.word(), None),
        By::Crew(name) => ("crew", name.as_str(), None),
    };
    json!({
        "by": by,
        "what": what,
        "ground": ground,
        "together": one.together.map(|together| json!({
            "ratio": together.mean.value,
            "standard_error": together.mean.standard_error,
            "from_shaft_to_shaft": together.between,
            "level": assess::across::LEVEL,
            "ends": together.ends,
        })),
        "parts": one.parts.iter().map(part).collect::<Vec<_>>(),
    })
}

fn part(part: &TakenPart) -> Value {
    json!({
        "place": place(&part.place),
        "ratio": part.ratio.value,
        "standard_error": part.ratio.standard_error,
        "entries": ids(&part.evidence),
    })
}

fn concrete(one: &assess::across::ConcreteOfShaft) -> Value {
    let totals = &one.totals;
    json!({
        "place": place(&one.place),
        "ordered_m3": totals.ordered.map(quantity::Volume::to_cubic_meters),
        "delivered_m3": totals.delivered.to_cubic_meters(),
        "placed_m3": totals.placed.to_cubic_meters(),
        "sent_back_m3": totals.rejected.to_cubic_meters(),
        "wasted_m3": totals.wasted.to_cubic_meters(),
        "left_in_lines_m3": totals.left_in_lines.to_cubic_meters(),
        "theoretical_m3": one.theoretical.map(quantity::Volume::to_cubic_meters),
        "entries": ids(&one.evidence),
    })
}

fn hours(one: &HoursOfShaft) -> Value {
    let stretch = |stretch: &assess::across::Stretch| {
        let activity = match stretch.activity {
            Activity::Drilling => "drilling",
            Activity::Cleaning => "cleaning",
            Activity::Waiting => "waiting",
            Activity::Pour => "pour",
        };
        json!({ "activity": activity, "minutes": stretch.lasted.to_minutes(), "entries": ids(&stretch.evidence) })
    };
    json!({ "place": place(&one.place), "stretches": one.stretches.iter().map(stretch).collect::<Vec<_>>() })
}

fn measure(measure: Measure) -> &'static str {
    match measure {
        Measure::FluidDensity => "fluid_density_kg_m3",
        Measure::FunnelQuart => "marsh_s_per_quart",
        Measure::FunnelLiter => "marsh_s_per_liter",
        Measure::Ph => "ph",
        Measure::Sand => "sand",
        Measure::Slump => "slump_m",
        Measure::Spread => "spread_m",
    }
}

fn outcome(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Fails => "fails",
        Outcome::CannotSay => "cannot_say",
        Outcome::NotMeasured => "not_measured",
        Outcome::Meets => "meets",
        Outcome::NoLimitSet => "no_limit_set",
    }
}

fn limit(one: &ReadingLimit) -> Value {
    json!({
        "measure": measure(one.measure),
        "fact": one.fact.name,
        "is": if one.least { "least" } else { "most" },
        "value": one.value,
        "places": one.places.iter().map(place).collect::<Vec<_>>(),
    })
}

fn reading(one: &Reading) -> Value {
    json!({
        "measure": measure(one.measure),
        "place": place(&one.place),
        "at": one.at.to_string(),
        "value": one.value,
        "from": one.from.map(|place| place.word()),
        "ticket": one.ticket,
        "outcome": outcome(one.outcome),
        "entry": one.entry.to_string(),
    })
}

fn criterion(one: &assess::across::OfCriterion) -> Value {
    let at = |(at, evidence): &(Place, Vec<record::EntryId>)| json!({ "place": place(at), "entries": ids(evidence) });
    json!({
        "criterion": one.criterion,
        "fact": one.fact.name,
        "fails": one.fails,
        "open": one.open,
        "unknown": one.unknown,
        "meets": one.meets,
        "places": one.places.iter().map(at).collect::<Vec<_>>(),
    })
}

fn person(one: &assess::across::HandedIn) -> Value {
    json!({
        "author": one.author,
        "entries": one.entries,
        "median_minutes": one.median.to_minutes(),
        "longest_minutes": one.longest.to_minutes(),
        "late": ids(&one.late),
        "last": one.last.to_string(),
    })
}
