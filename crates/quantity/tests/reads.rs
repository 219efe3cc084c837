//! Every way of writing a quantity that the field uses, and what it means.
//!
//! Expected values are exact: the text's own decimals times the exact definition of the unit
//! (foot 0.3048 m, inch 0.0254 m, yard 0.9144 m, pound 0.453 592 37 kg), multiplied out by hand.

use quantity::{
    Density, Elevation, Entered, Exact, Fraction, FunnelTime, Inflow, Kind, Length, Mass, Ph, Pressure,
    Quantity, Reading, Slope, Span, Temperature, Volume, WaterCement, units,
};

/// `7.25` or `1/48`.
fn fraction(text: &str) -> Exact {
    let (top, bottom) = text.split_once('/').unwrap_or((text, "1"));
    let (whole, part) = top.split_once('.').unwrap_or((top, ""));
    let scale = 10_i128.pow(part.len() as u32);
    Exact::new(format!("{whole}{part}").parse().unwrap(), scale * bottom.parse::<i128>().unwrap())
}

/// The exact SI value, as a decimal or a fraction.
#[track_caller]
fn check<Q: Quantity>(typed: &str, reading: Reading, expected: &str) {
    let entered = Entered::<Q>::parse(typed, reading).unwrap_or_else(|misread| panic!("{misread}"));
    let exact = entered.value().number().exact().expect("a text is exact");
    assert_eq!(exact, fraction(expected), "for `{typed}`");
    let again = Entered::<Q>::from_stored(&entered.stored()).expect("the stored form reads");
    assert_eq!(again, entered, "stored as `{}`", entered.stored());
}

/// A length in nanometres, read in a field of feet.
#[track_caller]
fn length(typed: &str, nanometers: i64) {
    let entered = Entered::<Length>::parse(typed, Reading::unit(&units::FOOT));
    let entered = entered.unwrap_or_else(|misread| panic!("{misread}"));
    assert_eq!(entered.value().to_nanometers(), nanometers, "for `{typed}`");
    assert_eq!(Entered::<Length>::from_stored(&entered.stored()).expect("stored reads"), entered);
}

const NONE: Reading = Reading { unit: None, comma: false };
const COMMA: Reading = Reading { unit: None, comma: true };

#[test]
fn feet_and_inches() {
    // 150.5 in × 25.4 mm = 3822.7 mm
    for typed in [
        "12'-6 1/2\"",
        "12' 6.5\"",
        "12' 6 1/2\"",
        "12'6½\"",
        "12’–6½”",
        "12′ 6 1/2″",
        "12'-6-1/2\"",
        "12'-6½''",
        "12 ft 6.5 in",
        "12 ft, 6 1/2 in.",
        "12ft 6.5in",
        "12ft6.5in",
        "150.5 in",
        "12' 6.5",
        "12\u{a0}ft\u{a0}6½\u{a0}in",
        "12 feet 6.5 inches",
        "12' - 6 1/2\"",
    ] {
        length(typed, 3_822_700_000);
    }
    // 63 in × 25.4 mm = 1600.2 mm
    for typed in
        ["5 ft 3 in", "5'3", "5'3\"", "5' 3", "5.25 ft", "5.25", "5 1/4'", "1 yd 2 ft 3 in", "5ft3in"]
    {
        length(typed, 1_600_200_000);
    }
    length("0'-6\"", 152_400_000);
    length("-0'-6\"", -152_400_000);
    length("-5' 3\"", -1_600_200_000);
    length("6'-11 63/64\"", 2_133_203_125);
}

/// A sixty-fourth of an inch is 0.396 875 mm.
#[test]
fn every_fraction_of_an_inch_is_a_whole_number_of_nanometres() {
    for count in 1..64 {
        length(&format!("{count}/64 in"), count * 396_875);
        length(&format!("2'-3 {count}/64\""), 27 * 25_400_000 + count * 396_875);
    }
}

#[test]
fn decimal_feet_and_metres() {
    length("12.54 ft", 3_822_192_000);
    length("12.54", 3_822_192_000);
    length("3.82 m", 3_820_000_000);
    length("382 cm", 3_820_000_000);
    length("3 m 82 cm", 3_820_000_000);
    length("38 mm", 38_000_000);
    length("1 1/2 in", 38_100_000);
    length("½ in", 12_700_000);
    length("¾\"", 19_050_000);
    length("⅛\"", 3_175_000);
    length("12.5' ", 3_810_000_000);
    length("2,500 ft", 762_000_000_000);
    length("2 500 ft", 762_000_000_000);
    length("3 in", 76_200_000);
    length("76.2 mm", 76_200_000);
    length(".5", 152_400_000);
    length("5.", 1_524_000_000);
}

#[test]
fn elevations() {
    check::<Elevation>("-20.00 ft", NONE, "-6.096");
    check::<Elevation>("−20.00 ft", NONE, "-6.096");
    check::<Elevation>("–20.00\u{a0}ft", NONE, "-6.096");
    check::<Elevation>("+55.0", Reading::unit(&units::METER), "55");
    check::<Elevation>("- 20.00 ft", NONE, "-6.096");
}

#[test]
fn volumes() {
    // 9.5 × 0.764 554 857 984 m³
    for typed in [
        "9.5 yd3",
        "9.5 yd³",
        "9.5 cy",
        "9.5 cu yd",
        "9.5 cu. yd.",
        "9.5 CY",
        "9½ cy",
        "9.5yd^3",
        "9.5 yd",
        "9.5 yards",
        "9.5 cubic yards",
    ] {
        check::<Volume>(typed, NONE, "7.263271150848");
    }
    check::<Volume>("7.3 m3", NONE, "7.3");
    check::<Volume>("7.3 m³", NONE, "7.3");
    check::<Volume>("7,3 m³", COMMA, "7.3");
    check::<Volume>("27 ft³", NONE, "0.764554857984");
    check::<Volume>("1 yd³", NONE, "0.764554857984");
    // 25 × 231 × 0.0254³ m³
    check::<Volume>("25 gal", NONE, "0.0946352946");
    check::<Volume>("25 L", NONE, "0.025");
}

#[test]
fn densities() {
    check::<Density>("1.03 g/cc", NONE, "1030");
    check::<Density>("1.03 g/cm³", NONE, "1030");
    check::<Density>("1030 kg/m3", NONE, "1030");
    check::<Density>("1.03", Reading::unit(&units::GRAM_PER_CUBIC_CENTIMETER), "1030");
    let pcf = Entered::<Density>::parse("64.3 pcf", NONE).unwrap().value();
    let spelled = Entered::<Density>::parse("64.3 lb / ft³", NONE).unwrap().value();
    assert_eq!(pcf, spelled);
}

#[test]
fn funnel_times_keep_their_volume() {
    let quart = Entered::<FunnelTime>::parse("38 s/qt", NONE).unwrap().value();
    let liter = Entered::<FunnelTime>::parse("38 s/L", NONE).unwrap().value();
    assert_eq!(quart.basis(), &units::SECOND_PER_QUART);
    assert_eq!(liter.basis(), &units::SECOND_PER_LITER);
    assert_ne!(quart, liter);
    check::<FunnelTime>("40 s/L", NONE, "40");
    check::<FunnelTime>("40 sec/l", NONE, "40");
    check::<FunnelTime>("40 s per L", NONE, "40");
    check::<FunnelTime>("40 s / 1 L", NONE, "40");
    check::<FunnelTime>("38 s/946 mL", NONE, "38");
    check::<FunnelTime>("38", Reading::unit(&units::SECOND_PER_QUART), "38");
}

#[test]
fn the_other_kinds() {
    check::<Ph>("8.5", Reading::unit(&units::PH), "8.5");
    check::<Ph>("8.5 pH", NONE, "8.5");
    check::<Fraction>("3.5 %", NONE, "0.035");
    check::<Fraction>("3,5 %", COMMA, "0.035");
    check::<Fraction>("3.5", Reading::unit(&units::PERCENT), "0.035");
    check::<Fraction>("0,035", Reading { unit: Some(&units::PART), comma: true }, "0.035");
    check::<Pressure>("17.2 MPa", NONE, "17200000");
    check::<Pressure>("17.2 N/mm²", NONE, "17200000");
    check::<Mass>("675 kg", NONE, "675");
    check::<Span>("90 min", NONE, "5400");
    check::<Span>("1 h 30 min", NONE, "5400");
    check::<Span>("1.5 hours", NONE, "5400");
    check::<Inflow>("6 in/hr", NONE, "0.1524/3600");
    check::<WaterCement>("0.42", Reading::unit(&units::WATER_CEMENT), "0.42");
}

#[test]
fn strengths_with_thousands() {
    // 2500 × 0.45359237 × 9.80665 / 0.0254² Pa, the same for every spelling.
    let plain = Entered::<Pressure>::parse("2500 psi", NONE).unwrap().value();
    for (typed, reading) in [
        ("2,500 psi", NONE),
        ("2 500 psi", NONE),
        ("2\u{202f}500 psi", NONE),
        ("2500 PSI", NONE),
        ("2500,0 psi", COMMA),
        ("2.500,0 psi", COMMA),
        ("2.5 ksi", NONE),
        ("2,5 ksi", COMMA),
    ] {
        assert_eq!(Entered::<Pressure>::parse(typed, reading).unwrap().value(), plain, "for `{typed}`");
    }
}

#[test]
fn temperatures() {
    // (72 + 459.67) / 1.8 K = 531.67 / 1.8 K
    for typed in ["72 °F", "72°F", "72 F", "72 ºF", "72 ℉", "72 deg F", "72 fahrenheit"] {
        check::<Temperature>(typed, NONE, "5316.7/18");
    }
    // 22 °C = 295.15 K
    for typed in ["22 C", "22 °C", "22°c", "22 celsius", "295.15 K"] {
        check::<Temperature>(typed, NONE, "295.15");
    }
    check::<Temperature>("-40 °F", NONE, "233.15");
    check::<Temperature>("-40 °C", NONE, "233.15");
}

#[test]
fn slopes() {
    check::<Slope>("1/4 in/ft", NONE, "1/48");
    check::<Slope>("¼ in. / ft", NONE, "1/48");
    check::<Slope>("1/4\" per ft", NONE, "1/48");
    check::<Slope>("1/4 in per ft", NONE, "1/48");
    check::<Slope>("1.5 %", NONE, "0.015");
    check::<Slope>("1:75", NONE, "1/75");
    check::<Slope>("1 : 75", NONE, "1/75");
    check::<Slope>("1 in 75", NONE, "1/75");
    check::<Slope>("15 mm/m", NONE, "0.015");
    check::<Slope>("1,5 %", COMMA, "0.015");
}

#[test]
fn a_decimal_comma_is_stored_with_the_text() {
    let metres = Reading { unit: Some(&units::METER), comma: true };
    let entered = Entered::<Length>::parse("3,82", metres).unwrap();
    assert_eq!(entered.stored(), "3,82 {m,}");
    assert_eq!(entered.shown(), "3,82 m");
    assert_eq!(Entered::<Length>::parse("3,82 m", metres).unwrap().stored(), "3,82 m {,}");
    assert_eq!(Entered::<Length>::parse("382 cm", metres).unwrap().stored(), "382 cm");
    assert_eq!(
        Entered::<Length>::parse("12.54", Reading::unit(&units::FOOT)).unwrap().stored(),
        "12.54 {ft}"
    );
}

#[test]
fn a_stored_text_with_a_strange_mark_is_refused() {
    for stored in ["12.54 {yd³}", "12.54 {foo}", "12.54 {}", "12.54 {ft,,}", "12.54 ft {ft} {m}", "12.54{ft}"]
    {
        assert!(Entered::<Length>::from_stored(stored).is_err(), "`{stored}` must not read");
    }
}

#[test]
fn every_kind_names_itself() {
    assert_eq!(<Elevation as Quantity>::KIND, Kind::Length);
    for unit in units::ALL {
        assert!(unit.kind.noun().starts_with('a'), "{:?}", unit.kind);
        assert!(!unit.kind.example().is_empty());
    }
}
