//! How a job prints.

use super::*;
use expect_test::{Expect, expect};
use quantity::Span;

fn job(units: JobUnits, lengths: record::choices::LengthStyle, comma: bool) -> Show {
    Show::of(Some(&JobOpened {
        name: "Mill Creek".to_owned(),
        number: None,
        owner: None,
        contractor: None,
        engineer: None,
        location: None,
        datum: None,
        grid: None,
        coordinate_foot: None,
        time_zone: "America/Denver".to_owned(),
        units,
        lengths,
        decimal_comma: Some(comma),
        rehearsal: None,
    }))
}

#[track_caller]
fn check(show: &Show, expected: Expect) {
    let length = Length::feet(11.44);
    let lines = [
        show.length(length),
        show.small(Length::inches(1.5)),
        show.elevation(Elevation(Length::feet(55.0))),
        show.elevation(Elevation(Length::feet(-20.25))),
        show.volume(Volume::cubic_yards(9.5)),
        show.density(Density::pounds_per_cubic_foot(64.3)),
        show.pressure(Pressure::psi(2510.0)),
        show.temperature(Temperature::fahrenheit(72.0)),
        show.percent(Fraction::percent(3.5)),
        show.ratio(1.114),
        show.length_estimate(Estimate::new(length, Length::feet(0.1))),
        show.volume_estimate(Estimate::new(Volume::cubic_yards(9.5), Volume::cubic_yards(0.13))),
        show.ratio_estimate(Estimate::new(1.114, 0.031)),
        show.coordinate(Length::feet(1_234_567.891)),
    ];
    expected.assert_eq(&lines.join("\n"));
}

#[test]
fn a_job_in_feet_and_tenths() {
    check(
        &job(JobUnits::Us, record::choices::LengthStyle::FeetTenths, false),
        expect![[r#"
        11.4 ft
        1 1/2 in
        +55.0 ft
        -20.3 ft
        9.50 yd³
        64.3 pcf
        2510 psi
        72 °F
        3.5 %
        1.11
        11.4 ft ± 0.1
        9.50 yd³ ± 0.13
        1.11 ± 0.03
        1234567.89 ft"#]],
    );
}

#[test]
fn a_job_in_feet_and_inches() {
    check(
        &job(JobUnits::Us, record::choices::LengthStyle::FeetInches, false),
        expect![[r#"
        11'-5 1/2"
        1 1/2 in
        +55'-0"
        -20'-3"
        9.50 yd³
        64.3 pcf
        2510 psi
        72 °F
        3.5 %
        1.11
        11'-5 1/2" ± 0'-1"
        9.50 yd³ ± 0.13
        1.11 ± 0.03
        1234567.89 ft"#]],
    );
}

#[test]
fn a_job_in_metres_with_a_decimal_comma() {
    check(
        &job(JobUnits::Metric, record::choices::LengthStyle::Meters, true),
        expect![[r#"
        3,49 m
        38 mm
        +16,76 m
        -6,17 m
        7,26 m³
        1,03 g/cm³
        17,3 MPa
        22 °C
        3,5 %
        1,11
        3,49 m ± 0,03
        7,26 m³ ± 0,10
        1,11 ± 0,03
        376296,29 m"#]],
    );
}

#[test]
fn spans_are_told_as_people_tell_them() {
    let show = Show::of(None);
    let told = |minutes: f64| show.span(Span::minutes(minutes));
    assert_eq!(told(85.0), "1 h 25 min");
    assert_eq!(told(60.0), "1 h");
    assert_eq!(told(0.0), "0 min");
    assert_eq!(told(0.25), "15 s");
    assert_eq!(told(-12.0), "-12 min");
    assert_eq!(told(51.0 * 60.0), "2 d 3 h");
}

#[test]
fn a_time_of_another_day_carries_its_date() {
    let at = |text: &str| Moment::parse(text).unwrap();
    let show = Show::of(None).on_day_of(at("2026-05-14T07:00:00-06:00"));
    assert_eq!(show.moment(at("2026-05-14T10:41:00-06:00")), "10:41");
    assert_eq!(show.moment(at("2026-05-15T00:05:00-06:00")), "15 May 2026 00:05");
}
