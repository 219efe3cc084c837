//! Clocks of made-up days.

use super::*;

fn at(clock: &str) -> Moment {
    Moment::parse(&format!("2026-05-04T{clock}:00-06:00")).expect("a moment")
}

fn minutes(wait: Result<Wait, WaitingError>) -> String {
    match wait {
        Ok(Wait::NotBegun) => "not begun".to_owned(),
        Ok(Wait::Running(span)) => format!("running {:.0}", span.to_minutes()),
        Ok(Wait::Over(span)) => format!("over {:.0}", span.to_minutes()),
        Err(error) => error.to_string(),
    }
}

#[test]
fn a_hole_waits_from_one_named_moment_to_another() {
    let hole = HoleMoments {
        fluid_introduced: Some(at("07:20")),
        bottom_reached: Some(at("10:05")),
        cleaned: Some(at("11:30")),
        concrete_started: Some(at("12:10")),
        ..HoleMoments::default()
    };
    let waits = hole.waits(at("13:00"));
    assert_eq!(minutes(waits.excavating), "not begun");
    assert_eq!(minutes(waits.open), "over 125");
    assert_eq!(minutes(waits.wall_exposed), "over 290");
    assert_eq!(minutes(waits.cleaned), "over 40");
    assert_eq!(minutes(waits.pouring), "running 50");
    assert_eq!(minutes(waits.casing), "not begun");
}

#[test]
fn time_that_runs_backwards_has_no_answer() {
    let load = LoadMoments {
        batched: Some(at("09:00")),
        discharge_started: Some(at("08:50")),
        ..LoadMoments::default()
    };
    let waits = load.waits(at("10:00"));
    assert_eq!(
        minutes(waits.batch_to_discharge),
        "the end 2026-05-04T08:50:00-06:00 lies before the beginning 2026-05-04T09:00:00-06:00"
    );
    assert_eq!(minutes(waits.batch_to_discharged), "running 60");
}

fn work(from: &str, until: &str) -> Work {
    Work { from: at(from), until: at(until) }
}

#[test]
fn overlapping_trucks_leave_no_gap() {
    let trucks = [work("10:00", "10:15"), work("10:40", "10:55"), work("10:10", "10:30")];
    let gaps = gaps(&trucks, at("11:25")).unwrap();
    let told: Vec<_> = gaps.iter().map(|gap| (gap.span().to_minutes(), gap.open)).collect();
    assert_eq!(told, [(10.0, false), (30.0, true)]);
    assert_eq!(longest(&gaps).unwrap().from, at("10:55"));
    assert!(super::gaps(&[], at("11:25")).unwrap().is_empty());
}

#[test]
fn a_test_every_two_hours() {
    let due = |now| next_due(at("08:30"), Span::hours(2.0), at(now)).unwrap();
    assert_eq!((due("10:00").at, due("10:00").remaining.to_minutes()), (at("10:30"), 30.0));
    assert_eq!(due("11:00").remaining.to_minutes(), -30.0);
    assert_eq!(next_due(at("08:30"), Span::hours(0.0), at("09:00")), Err(WaitingError::Interval));
}

#[test]
fn a_counter_only_counts_up() {
    assert_eq!(revolutions(DrumCounter { earlier: 110, later: 142 }), Ok(32));
    let reset = revolutions(DrumCounter { earlier: 142, later: 30 });
    assert_eq!(reset.unwrap_err().to_string(), "the drum counter went back from 142 to 30");
}
