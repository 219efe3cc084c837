//! What is coming: clocks before and during the pour, with the urgency each has at a given minute.

mod story;

use assess::{Assessment, Forecast, Outlook, Urgency};
use story::{Story, forecasts, near, roadside};

/// The day by the criteria of another style, so that more clocks have a limit.
fn styled() -> Story {
    roadside::story().with("roadside-common-practice-1", "fhwa-aashto-style-1")
}

#[track_caller]
fn only<T>(found: Vec<(&Forecast, T)>) -> (&Forecast, T) {
    let count = found.len();
    found.into_iter().next().filter(|_| count == 1).unwrap_or_else(|| panic!("{count} forecasts"))
}

fn test_due(assessment: &Assessment<'_>) -> Vec<(Urgency, f64)> {
    let due = forecasts(assessment, |outlook| match outlook {
        Outlook::FluidTestDue { left, .. } => Some(left.to_minutes()),
        _ => None,
    });
    due.into_iter().map(|(forecast, left)| (forecast.urgency, left)).collect()
}

#[test]
fn the_next_fluid_test_is_due_two_hours_after_the_last() {
    let told = styled().told();
    // Introduced at 07:30, no test of the hole since: due at 09:30.
    assert_eq!(test_due(&told.at("08:30")), [(Urgency::Later, 60.0)]);
    assert_eq!(test_due(&told.at("09:00")), [(Urgency::Soon, 30.0)]);
    assert_eq!(test_due(&told.at("09:30")), [(Urgency::Now, 0.0)]);
    assert_eq!(test_due(&told.at("09:40")), [(Urgency::Now, -10.0)]);
    // Tested at 09:56; from the first concrete on nothing is due.
    assert_eq!(test_due(&told.at("10:06")), [(Urgency::Later, 110.0)]);
    assert_eq!(test_due(&told.at("10:15")), []);
    // A product may ask for tests more often than the set.
    let often = styled().with("water = \"fresh\"", "water = \"fresh\"\ntest_every = \"1 h\"").told();
    assert_eq!(test_due(&often.at("08:30")), [(Urgency::Now, 0.0)]);
    assert_eq!(test_due(&roadside::story().told().at("08:30")), [], "no limit, no clock");
}

#[test]
fn a_gap_is_counted_from_the_last_discharge_while_no_load_goes_in() {
    let told = roadside::story().told();
    let gap = |time: &str| {
        let at = told.at(time);
        let found = forecasts(&at, |outlook| match outlook {
            Outlook::Gap { lasted, allowed, .. } => Some((lasted.to_minutes(), allowed.is_none())),
            _ => None,
        });
        found.into_iter().map(|(_, gap)| gap).collect::<Vec<_>>()
    };
    assert_eq!(gap("10:20"), [], "load 1 is going in");
    assert_eq!(gap("10:38"), [(8.0, true)]);
    assert_eq!(gap("10:45"), [], "load 2 is going in");
    assert_eq!(gap("11:30"), [], "the pour is over");
}

#[test]
fn a_load_on_site_has_until_ninety_minutes_after_batching() {
    let told = roadside::story().told();
    let at = told.at("10:11");
    let (forecast, (ticket, left)) = only(forecasts(&at, |outlook| match outlook {
        Outlook::TimeLimit { fact: "concrete.batch_to_discharge", ticket, left, .. } => {
            Some((ticket.clone(), left.to_minutes()))
        }
        _ => None,
    }));
    // Batched at 09:40: until 11:10.
    assert_eq!((ticket.as_deref(), forecast.urgency), (Some("1"), Urgency::Later));
    near(left, 59.0, 1e-9);
    assert!(!forecast.evidence.is_empty());
}

#[test]
fn the_wall_stands_against_mineral_fluid_for_thirty_six_hours() {
    let told = styled()
        .with("fluid = \"polymer\" }", "fluid = \"mineral\" }")
        .with("at = \"07:30\", entry = \"fluid_introduced", "at = \"-1 07:30\", entry = \"fluid_introduced")
        .told();
    let at = told.at("10:00");
    let (forecast, left) = only(forecasts(&at, |outlook| match outlook {
        Outlook::TimeLimit { fact: "time.wall_exposure", left, .. } => Some(left.to_minutes()),
        _ => None,
    }));
    // 26 h 30 min of 36 h.
    near(left, 570.0, 1e-9);
    assert_eq!(forecast.urgency, Urgency::Later);
}

#[test]
fn a_lift_beyond_the_embedment_asked_for_is_seen_before_it_is_made() {
    // 10 ft are asked. After load 1 the tip at 24.75 ft is 12.75 ft deep: one piece of 5 ft would leave 7.75 ft.
    let told = styled().told();
    let at = told.at("10:33");
    let (forecast, (pieces, limit_set)) = only(forecasts(&at, |outlook| match outlook {
        Outlook::Embedment { pieces, limit_set, .. } => Some((*pieces, *limit_set)),
        _ => None,
    }));
    assert_eq!((forecast.urgency, pieces, limit_set), (Urgency::Soon, 0, true));
    // At 10:34 it was raised to 20 ft: 8 ft, less than is asked.
    let at = told.at("10:35");
    let (forecast, lift) = only(forecasts(&at, |outlook| match outlook {
        Outlook::Embedment { safe_lift, .. } => Some(safe_lift.to_feet()),
        _ => None,
    }));
    assert_eq!(forecast.urgency, Urgency::Now);
    near(lift, -2.0, 1e-9);
}

#[test]
fn forecasts_stand_with_the_most_urgent_first() {
    let told = styled().told();
    for time in ["09:40", "10:11", "10:35", "10:58"] {
        let at = told.at(time);
        assert!(at.forecasts.is_sorted_by_key(|forecast| forecast.urgency), "{time}");
        assert!(at.forecasts.iter().all(|forecast| !forecast.evidence.is_empty()), "{time}");
    }
}
