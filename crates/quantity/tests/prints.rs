//! What is printed: rounding, carrying, signs, and the style of a job.

use quantity::{
    CoordinateUnit, Depth, Elevation, Entered, FunnelTime, InchFraction, Kind, Length, LengthStyle, Ph,
    Pressure, Quantity, Reading, Slope, Style, Temperature, Unit, Volume, print, print_length, print_number,
    units,
};

fn typed<Q: Quantity>(text: &str) -> Q {
    Entered::parse(text, Reading::default()).unwrap_or_else(|misread| panic!("{misread}")).value()
}

#[track_caller]
fn check(text: &str, style: LengthStyle, decimals: u8, expected: &str) {
    assert_eq!(print_length(typed(text), style, decimals), expected, "for `{text}`");
}

const HALF: LengthStyle = LengthStyle::FeetInches(InchFraction::Half);
const EIGHTH: LengthStyle = LengthStyle::FeetInches(InchFraction::Eighth);
const SIXTEENTH: LengthStyle = LengthStyle::FeetInches(InchFraction::Sixteenth);

#[test]
fn decimal_styles() {
    check("12'-6 1/2\"", LengthStyle::FeetTenths, 2, "12.54 ft");
    check("12'-6 1/2\"", LengthStyle::Meters, 2, "3.82 m");
    check("38.1 mm", LengthStyle::Millimeters, 0, "38 mm");
    check("12.5 ft", LengthStyle::FeetTenths, 0, "13 ft");
    check("-12.5 ft", LengthStyle::FeetTenths, 0, "-13 ft");
}

#[test]
fn halves_go_away_from_zero_without_a_float_in_between() {
    // As floats 1.005 and 2.675 lie below the half.
    check("1.005 ft", LengthStyle::FeetTenths, 2, "1.01 ft");
    check("-1.005 ft", LengthStyle::FeetTenths, 2, "-1.01 ft");
    check("2.675 m", LengthStyle::Meters, 2, "2.68 m");
    check("0.0049 ft", LengthStyle::FeetTenths, 2, "0.00 ft");
    check("-0.0049 ft", LengthStyle::FeetTenths, 2, "0.00 ft");
    assert_eq!(print(typed::<Volume>("0.125 yd3"), &units::CUBIC_YARD, 2), "0.13 yd³");
    assert_eq!(print(Volume::cubic_meters(2.675), &units::CUBIC_METER, 2), "2.68 m³");
    assert_eq!(print(Volume::cubic_meters(-2.675), &units::CUBIC_METER, 2), "-2.68 m³");
}

#[test]
fn feet_and_inches_carry() {
    check("11 63/64 in", SIXTEENTH, 0, "1'-0\"");
    check("11 15/16 in", SIXTEENTH, 0, "0'-11 15/16\"");
    check("6'-11 63/64\"", EIGHTH, 0, "7'-0\"");
    check("12' 6.5\"", HALF, 0, "12'-6 1/2\"");
    check("12' 6.25\"", HALF, 0, "12'-6 1/2\"");
    check("12' 6.24\"", HALF, 0, "12'-6\"");
    check("12.54 ft", EIGHTH, 0, "12'-6 1/2\"");
    check("-12.54 ft", EIGHTH, 0, "-12'-6 1/2\"");
    check("1/2 in", SIXTEENTH, 0, "0'-1/2\"");
    check("-1/2 in", SIXTEENTH, 0, "-0'-1/2\"");
    check("-1/64 in", EIGHTH, 0, "0'-0\"");
    check("2/16 in", SIXTEENTH, 0, "0'-1/8\"");
    check("18.5 in", LengthStyle::Inches(InchFraction::Quarter), 0, "18 1/2 in");
    check("3/4 in", LengthStyle::Inches(InchFraction::Quarter), 0, "3/4 in");
    check("-3/4 in", LengthStyle::Inches(InchFraction::Quarter), 0, "-3/4 in");
}

#[test]
fn a_job_prints_in_its_own_units() {
    let metric = Style { comma: true, ..Style::SI };
    assert_eq!(Style::US.quantity(typed::<Volume>("7.3 m3"), 1), "9.5 yd³");
    assert_eq!(metric.quantity(typed::<Volume>("9.5 yd3"), 2), "7,26 m³");
    assert_eq!(Style::US.quantity(typed::<Pressure>("17.2 MPa"), 0), "2495 psi");
    assert_eq!(metric.quantity(typed::<Pressure>("2500 psi"), 1), "17,2 MPa");
    assert_eq!(Style::US.quantity(typed::<Temperature>("22 C"), 1), "71.6 °F");
    assert_eq!(Style::US.quantity(typed::<Slope>("1/4 in/ft"), 2), "2.08 %");
    assert_eq!(Style::US.quantity(typed::<Ph>("8.5 pH"), 1), "8.5");
    assert_eq!(Style::US.quantity(Depth(typed("3.82 m")), 2), "12.53 ft");
    assert_eq!(metric.quantity(Elevation(typed("-20.00 ft")), 3), "-6,096 m");
    assert_eq!(Style::US.small_length(typed("38.1 mm")), "1 1/2 in");
    assert_eq!(metric.small_length(typed("1 1/2 in")), "38 mm");
    let drawing = Style { lengths: EIGHTH, ..Style::US };
    assert_eq!(drawing.quantity(typed::<Length>("12.54 ft"), 2), "12'-6 1/2\"");
}

#[test]
fn a_funnel_time_is_printed_for_the_volume_it_was_measured_for() {
    let liter = typed::<FunnelTime>("40 s/L");
    assert_eq!(print(liter, &units::SECOND_PER_QUART, 0), "40 s/L");
    assert_eq!(Style::US.quantity(liter, 0), "40 s/L");
    assert_eq!(Style::SI.quantity(typed::<FunnelTime>("38 s/qt"), 0), "38 s/qt");
}

#[test]
#[should_panic(expected = "a unit of its own kind")]
fn a_unit_of_another_kind_is_a_programming_error() {
    print(typed::<Volume>("9.5 cy"), &units::FOOT, 1);
}

#[test]
#[should_panic(expected = "a funnel time in its own volume")]
fn a_quart_time_is_never_told_in_litres() {
    typed::<FunnelTime>("38 s/qt").to_unit(&units::SECOND_PER_LITER);
}

#[test]
fn very_large_and_very_small_computed_values_still_print() {
    assert_eq!(print_number(Volume::cubic_meters(1e30), &units::CUBIC_METER, 1).len(), 33);
    assert_eq!(print(Volume::cubic_meters(1e-300), &units::CUBIC_METER, 3), "0.000 m³");
}

#[test]
fn survey_feet_part_from_international_feet_by_four_feet_in_two_million() {
    // 2 000 000 × (1200/3937 − 0.3048) m = 2 000 000 × 6.096 012 192 E-07 m = 1.219 202 438 m, which is
    // 4.000 008 international feet. Source: [NIST-SP-811] App. B.6, 1 U.S. survey foot = 1200/3937 m.
    let survey = CoordinateUnit::SurveyFoot.parse("2,000,000.00", false).unwrap().value();
    let international = CoordinateUnit::InternationalFoot.parse("2,000,000.00", false).unwrap().value();
    assert_eq!((survey - international).to_nanometers(), 1_219_202_438);
    assert_eq!(CoordinateUnit::SurveyFoot.print(survey, 2), "2000000.00");
    assert_eq!(CoordinateUnit::InternationalFoot.print(survey, 2), "2000004.00");
    assert_eq!(print(survey, &units::SURVEY_FOOT, 3), "2000000.000 US survey ft");
}

#[test]
fn the_word_ft_in_a_coordinate_means_the_foot_of_the_job() {
    let bare = CoordinateUnit::SurveyFoot.parse("1234567.891", false).unwrap();
    let worded = CoordinateUnit::SurveyFoot.parse("1234567.891 ft", false).unwrap();
    assert_eq!(bare.value(), worded.value());
    assert_eq!(worded.stored(), "1234567.891 ft {US survey ft}");
    assert_eq!(worded.shown(), "1234567.891 ft (US survey ft)");
    assert_eq!(Entered::from_stored(&worded.stored()), Ok(worded.clone()));
    let named = CoordinateUnit::SurveyFoot.parse("1234567.891 ift", false).unwrap();
    assert_ne!(named.value(), worded.value());
    assert_eq!(named.value(), CoordinateUnit::InternationalFoot.parse("1234567.891", false).unwrap().value());
    let metres = CoordinateUnit::SurveyFoot.parse("376297.0 m", false).unwrap();
    assert_eq!(metres.value(), CoordinateUnit::Meter.parse("376297", false).unwrap().value());
    assert!(CoordinateUnit::SurveyFoot.parse("5' 3\"", false).is_err(), "coordinates have no inches");
}

#[test]
fn a_coordinate_survives_its_way_through_nanometres() {
    for text in ["0.0001", "499999.9999", "2345678.1234", "-2345678.1234"] {
        for unit in [CoordinateUnit::SurveyFoot, CoordinateUnit::InternationalFoot, CoordinateUnit::Meter] {
            assert_eq!(unit.print(unit.parse(text, false).unwrap().value(), 4), text);
        }
    }
}

#[test]
fn every_kind_has_a_unit_of_its_kind_in_both_systems() {
    let kinds: Vec<Kind> = units::ALL.iter().map(|unit: &&Unit| unit.kind).collect();
    for kind in kinds {
        assert_eq!(Style::US.unit(kind).kind, kind);
        assert_eq!(Style::SI.unit(kind).kind, kind);
        assert_eq!(Style::SI.reading(kind).unit, Some(Style::SI.unit(kind)));
    }
}
