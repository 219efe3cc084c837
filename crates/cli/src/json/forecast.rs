//! A forecast as JSON.

use super::ids;
use assess::{Forecast, Urgency};
use quantity::{Length, Moment, Volume};
use serde_json::{Map, Value, json};

pub(super) fn forecast(forecast: &Forecast) -> Value {
    let urgency = match forecast.urgency {
        Urgency::Now => "now",
        Urgency::Soon => "soon",
        Urgency::Later => "later",
    };
    let mut told = outlook(&forecast.outlook);
    told.insert("urgency".to_owned(), json!(urgency));
    told.insert("evidence".to_owned(), json!(ids(&forecast.evidence)));
    Value::Object(told)
}

fn outlook(outlook: &assess::Outlook) -> Map<String, Value> {
    use assess::Outlook;
    let meters = |length: &Length| length.to_meters();
    let cubic = |volume: &Volume| volume.to_cubic_meters();
    let at = |moment: &Moment| moment.to_string();
    let told = match outlook {
        Outlook::Embedment { line, now, error, required, limit_set, safe_lift, pieces, after_next } => {
            json!({
                "about": "embedment", "line": line, "now_m": meters(now), "error_m": meters(error),
                "required_m": meters(required), "limit_set": limit_set, "safe_lift_m": meters(safe_lift),
                "pieces_off_now": pieces, "after_next_piece_m": after_next.as_ref().map(meters),
            })
        }
        Outlook::SlumpLife { ticket, ends, error, between, left, planned_end } => json!({
            "about": "slump_life", "ticket": ticket, "ends": at(ends), "error_min": error.to_minutes(),
            "between_90": between.each_ref().map(|end| end.as_ref().map(at)),
            "left_min": left.to_minutes(), "planned_end": planned_end.as_ref().map(at),
        }),
        Outlook::FluidTestDue { at: due, left } => {
            json!({ "about": "fluid_test_due", "at": at(due), "left_min": left.to_minutes() })
        }
        Outlook::HeadAtNextLift { casing, now, required, limit_set, safe_lift, add } => json!({
            "about": "head_at_next_lift", "casing": casing, "now_m": meters(now),
            "required_m": meters(required), "limit_set": limit_set, "safe_lift_m": meters(safe_lift),
            "add_m3": add.as_ref().map(cubic),
        }),
        Outlook::Gap { since, lasted, allowed } => json!({
            "about": "gap", "since": at(since), "lasted_min": lasted.to_minutes(),
            "allowed_min": allowed.map(|allowed| allowed.to_minutes()),
        }),
        Outlook::StillToOrder { volume, error, on_the_way, ordered } => json!({
            "about": "still_to_order", "volume_m3": cubic(volume), "error_m3": cubic(error),
            "on_the_way_m3": cubic(on_the_way), "ordered_m3": cubic(ordered),
        }),
        Outlook::TimeLimit { fact, ticket, ends, left } => json!({
            "about": "time_limit", "fact": fact, "ticket": ticket, "ends": at(ends),
            "left_min": left.to_minutes(),
        }),
    };
    told.as_object().cloned().unwrap_or_default()
}
