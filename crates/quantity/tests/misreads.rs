//! Texts that nobody may guess at, and the readings that are offered instead.

use expect_test::{Expect, expect};
use quantity::{
    Density, Entered, Fraction, FunnelTime, Length, Ph, Pressure, Problem, Quantity, Reading, Slope, Span,
    Temperature, Unit, Volume, units,
};

/// Every sentence of a table of texts; each offered reading has to read in the same field.
#[track_caller]
fn check<Q: Quantity>(reading: Reading, typed: &[&str], expected: &Expect) {
    let mut sentences = String::new();
    for text in typed {
        let misread = match Entered::<Q>::parse(text, reading) {
            Err(misread) => misread,
            Ok(entered) => panic!("`{text}` must raise a question, but reads {entered:?}"),
        };
        for offered in &misread.perhaps {
            Entered::<Q>::parse(offered, reading).expect("an offered reading reads without a question");
        }
        sentences.push_str(&format!("{misread}\n"));
    }
    expected.assert_eq(&sentences);
}

fn field(unit: &'static Unit) -> Reading {
    Reading::unit(unit)
}

#[test]
fn lengths_in_a_field_of_feet() {
    let texts = [
        "",
        "   ",
        "abc",
        "12,5 ft",
        "12,5",
        "1,20",
        "1,20 ft",
        "12.6.5",
        "6'14\"",
        "6' 14",
        "6'-14 1/2\"",
        "5'-6",
        "5'-6 1/2",
        "5 ft 3",
        "5-6 ft",
        "12 6",
        "12/6",
        "5ft3",
        "12.5' 3\"",
        "12.5 fete",
        "12.5 f",
        "12 s",
        "12 yd3",
        "5 in 3 ft",
        "1 5/4 in",
        "1/0 in",
        "about 12 ft",
        "12 ft?",
        "12 ft x",
        "1234567890123456 ft",
        "999999999999999 ft",
        "syd³999999999999999",
        "--5",
        "1e5 ft",
        "5'3'",
        "12 {ft}",
        "12'.5",
        "12ft.6in",
        "12 6\"",
        "12-6\"",
        "5 ft 3 cm",
        "3 m 20",
        "8.5.",
        "12\"6'",
        "20001 m 5 cm 3 km",
        "20000000.1 m",
        "5 1/2 6",
    ];
    check::<Length>(
        field(&units::FOOT),
        &texts,
        &expect![[r#"
            nothing is written; expected a length such as 12.54 ft
            nothing is written; expected a length such as 12.54 ft
            `abc` does not begin with a number; expected a length such as 12.54 ft
            `12,5 ft` can be read in more than one way; expected a length such as 12.54 ft; perhaps 12.5 ft or 12'-5"
            `12,5` can be read in more than one way; expected a length such as 12.54 ft; perhaps 12.5 or 12'-5"
            `1,20` can be read in more than one way; expected a length such as 12.54 ft; perhaps 1.20
            `1,20 ft` can be read in more than one way; expected a length such as 12.54 ft; perhaps 1.20 ft
            `12.6.5` can be read in more than one way; expected a length such as 12.54 ft; perhaps 12'-6.5" or 12.65
            `6'14"` cannot be right as it is written; expected a length such as 12.54 ft; perhaps 7'-2" or 6.14 ft
            `6' 14` cannot be right as it is written; expected a length such as 12.54 ft; perhaps 7'-2" or 6.14 ft
            `6'-14 1/2"` cannot be right as it is written; expected a length such as 12.54 ft; perhaps 7'-2 1/2"
            `5'-6` can be read in more than one way; expected a length such as 12.54 ft; perhaps 5'-6", 5 ft or 6 ft
            `5'-6 1/2` can be read in more than one way; expected a length such as 12.54 ft; perhaps 5'-6 1/2"
            `5 ft 3` can be read in more than one way; expected a length such as 12.54 ft; perhaps 5'-3" or 5.3 ft
            `5-6 ft` can be read in more than one way; expected a length such as 12.54 ft; perhaps 5'-6", 5 ft or 6 ft
            `12 6` can be read in more than one way; expected a length such as 12.54 ft; perhaps 12'-6" or 12.6
            `12/6` can be read in more than one way; expected a length such as 12.54 ft; perhaps 12'-6", 12/6 ft or 12/6"
            `5ft3` is a volume, because of `ft³`; expected a length such as 12.54 ft; perhaps 5'-3" or 5 ft
            `12.5' 3"` cannot be right as it is written; expected a length such as 12.54 ft; perhaps 12.5 ft
            `12.5 fete`: `fete` is no unit known here; expected a length such as 12.54 ft; perhaps 12.5 ft
            `12.5 f` is a temperature, because of `°F`; expected a length such as 12.54 ft; perhaps 12.5 ft
            `12 s` is a span of time, because of `s`; expected a length such as 12.54 ft
            `12 yd3` is a volume, because of `yd³`; expected a length such as 12.54 ft; perhaps 12 yd
            `5 in 3 ft` cannot be right as it is written; expected a length such as 12.54 ft; perhaps 3'-5" or 5'-3"
            `1 5/4 in` cannot be right as it is written; expected a length such as 12.54 ft
            `1/0 in` cannot be right as it is written; expected a length such as 12.54 ft
            `about 12 ft` does not begin with a number; expected a length such as 12.54 ft; perhaps 12 ft
            `12 ft?`: `ft?` is no unit known here; expected a length such as 12.54 ft; perhaps 12 ft
            `12 ft x`: `ft x` is no unit known here; expected a length such as 12.54 ft
            `1234567890123456 ft` has too many digits or lies beyond every site; expected a length such as 12.54 ft
            `999999999999999 ft` has too many digits or lies beyond every site; expected a length such as 12.54 ft
            `syd³999999999999999` does not begin with a number; expected a length such as 12.54 ft
            `--5` does not begin with a number; expected a length such as 12.54 ft; perhaps -5
            `1e5 ft`: `e` is no unit known here; expected a length such as 12.54 ft
            `5'3'` cannot be right as it is written; expected a length such as 12.54 ft; perhaps 5'-3" or 5.3 ft
            `12 {ft}`: `{ft}` is no unit known here; expected a length such as 12.54 ft
            `12'.5` can be read in more than one way; expected a length such as 12.54 ft; perhaps 12'-5" or 12.5 ft
            `12ft.6in` can be read in more than one way; expected a length such as 12.54 ft; perhaps 12'-6" or 12.6 ft
            `12 6"` can be read in more than one way; expected a length such as 12.54 ft; perhaps 12'-6" or 12.6 in
            `12-6"` can be read in more than one way; expected a length such as 12.54 ft; perhaps 12'-6", 12 in or 6 in
            `5 ft 3 cm` cannot be right as it is written; expected a length such as 12.54 ft; perhaps 5'-3" or 5.3 ft
            `3 m 20` can be read in more than one way; expected a length such as 12.54 ft; perhaps 3 m 20 cm or 3.20 m
            `8.5.` can be read in more than one way; expected a length such as 12.54 ft; perhaps 8.5 or 8'-5"
            `12"6'` cannot be right as it is written; expected a length such as 12.54 ft; perhaps 7'-0" or 12'-6"
            `20001 m 5 cm 3 km`: `km` is no unit known here; expected a length such as 12.54 ft; perhaps 20001 cm or 20001 mm
            `20000000.1 m` has too many digits or lies beyond every site; expected a length such as 12.54 ft
            `5 1/2 6` can be read in more than one way; expected a length such as 12.54 ft
        "#]],
    );
}

/// A page pasted into a field must not hold up the tablet; a quadratic reader would take minutes for this.
#[test]
fn a_pasted_page_is_refused_at_once() {
    let page = format!("38 s/{}", "9".repeat(2_000_000));
    let misread = Entered::<FunnelTime>::parse(&page, Reading::default()).expect_err("no quantity");
    assert_eq!((misread.problem, misread.perhaps.len()), (Problem::OutOfRange, 0));
}

#[test]
fn an_improper_fraction_of_an_inch_is_no_pair() {
    let entered = Entered::<Length>::parse("5/4", field(&units::INCH)).expect("one inch and a quarter");
    assert_eq!(entered.value().to_nanometers(), 31_750_000);
}

#[test]
fn lengths_without_a_field_unit() {
    check::<Length>(
        Reading::default(),
        &["12.54", "12,5", "1 1/2"],
        &expect![[r#"
            `12.54` has no unit; expected a length such as 12.54 ft; perhaps 12.54 ft, 12.54 in or 12.54 m
            `12,5` can be read in more than one way; expected a length such as 12.54 ft; perhaps 12.5 ft, 12.5 in or 12.5 m
            `1 1/2` has no unit; expected a length such as 12.54 ft; perhaps 1 1/2 ft, 1 1/2 in or 1 1/2 m
        "#]],
    );
}

#[test]
fn decimal_commas() {
    let metres = Reading { unit: Some(&units::METER), comma: true };
    check::<Length>(
        metres,
        &["2.500", "3,8,2", "3,82,5 m", "1.234,567.8"],
        &expect![[r#"
        `2.500` can be read in more than one way; expected a length such as 12.54 ft; perhaps 2,500 or 2500
        `3,8,2` can be read in more than one way; expected a length such as 12.54 ft; perhaps 3,82
        `3,82,5 m` can be read in more than one way; expected a length such as 12.54 ft; perhaps 3,825 m
        `1.234,567.8` can be read in more than one way; expected a length such as 12.54 ft; perhaps 1,2345678
    "#]],
    );
    let strength = Reading { unit: Some(&units::PSI), comma: true };
    check::<Pressure>(
        strength,
        &["2.500", "2.500 psi"],
        &expect![[r#"
        `2.500` can be read in more than one way; expected a pressure or strength such as 2500 psi; perhaps 2,500 or 2500
        `2.500 psi` can be read in more than one way; expected a pressure or strength such as 2500 psi; perhaps 2,500 psi or 2500 psi
    "#]],
    );
    check::<Pressure>(
        field(&units::PSI),
        &["2,50 psi", "25,00"],
        &expect![[r#"
        `2,50 psi` can be read in more than one way; expected a pressure or strength such as 2500 psi; perhaps 2.50 psi
        `25,00` can be read in more than one way; expected a pressure or strength such as 2500 psi; perhaps 25.00
    "#]],
    );
}

#[test]
fn units_of_another_kind() {
    check::<Temperature>(
        field(&units::FAHRENHEIT),
        &["22 m"],
        &expect![[r#"
        `22 m` is a length, because of `m`; expected a temperature such as 72 °F
    "#]],
    );
    check::<Temperature>(
        Reading::default(),
        &["72", "72°", "-500 °F"],
        &expect![[r#"
        `72` has no unit; expected a temperature such as 72 °F; perhaps 72 °F or 72 °C
        `72°` has no unit; expected a temperature such as 72 °F; perhaps 72 °F or 72 °C
        `-500 °F` cannot be right as it is written; expected a temperature such as 72 °F; perhaps 500 °F
    "#]],
    );
    check::<Volume>(
        field(&units::CUBIC_YARD),
        &["7.3 m", "9 ft", "-3 cy", "9.5 cuyds", "9,5 cy", "9 tons"],
        &expect![[r#"
            `7.3 m` is a length, because of `m`; expected a volume such as 9.5 yd³; perhaps 7.3 m³ or 7.3 mL
            `9 ft` is a length, because of `ft`; expected a volume such as 9.5 yd³; perhaps 9 ft³
            `-3 cy` cannot be right as it is written; expected a volume such as 9.5 yd³; perhaps 3 cy
            `9.5 cuyds`: `cuyds` is no unit known here; expected a volume such as 9.5 yd³; perhaps 9.5 yd³
            `9,5 cy` can be read in more than one way; expected a volume such as 9.5 yd³; perhaps 9.5 cy
            `9 tons` is a mass, because of `ton`; expected a volume such as 9.5 yd³
        "#]],
    );
    check::<Density>(
        field(&units::POUND_PER_CUBIC_FOOT),
        &["64.3 lb", "1030 kg", "64,3"],
        &expect![[r#"
            `64.3 lb` is a mass, because of `lb`; expected a density such as 64.3 pcf; perhaps 64.3 pcf, 64.3 lb/yd³ or 64.3 lb/gal
            `1030 kg` is a mass, because of `kg`; expected a density such as 64.3 pcf; perhaps 1030 g/cm³ or 1030 kg/m³
            `64,3` can be read in more than one way; expected a density such as 64.3 pcf; perhaps 64.3
        "#]],
    );
    check::<Fraction>(
        field(&units::PERCENT),
        &["3.5 psi", "-3 %", "3.5 percnt"],
        &expect![[r#"
        `3.5 psi` is a pressure or strength, because of `psi`; expected a percentage such as 3.5 %
        `-3 %` cannot be right as it is written; expected a percentage such as 3.5 %; perhaps 3 %
        `3.5 percnt`: `percnt` is no unit known here; expected a percentage such as 3.5 %; perhaps 3.5 %
    "#]],
    );
    check::<Ph>(
        field(&units::PH),
        &["pH 8.5", "8,5", "8.5 %"],
        &expect![[r#"
        `pH 8.5` does not begin with a number; expected a pH value such as 8.5; perhaps 8.5 pH or 8.5
        `8,5` can be read in more than one way; expected a pH value such as 8.5; perhaps 8.5
        `8.5 %` is a percentage, because of `%`; expected a pH value such as 8.5
    "#]],
    );
}

#[test]
fn a_funnel_time_names_its_volume() {
    check::<FunnelTime>(
        Reading::default(),
        &["38", "38 s", "38 sec", "38 min"],
        &expect![[r#"
        `38` does not say for which volume; expected a Marsh funnel time with its volume such as 38 s/qt; perhaps 38 s/qt or 38 s/L
        `38 s` does not say for which volume; expected a Marsh funnel time with its volume such as 38 s/qt; perhaps 38 s/qt or 38 s/L
        `38 sec` does not say for which volume; expected a Marsh funnel time with its volume such as 38 s/qt; perhaps 38 s/qt or 38 s/L
        `38 min` is a span of time, because of `min`; expected a Marsh funnel time with its volume such as 38 s/qt
    "#]],
    );
    check::<FunnelTime>(
        field(&units::SECOND_PER_QUART),
        &["38 s", "38 qt"],
        &expect![[r#"
        `38 s` does not say for which volume; expected a Marsh funnel time with its volume such as 38 s/qt; perhaps 38 s/qt or 38 s/L
        `38 qt`: `qt` is no unit known here; expected a Marsh funnel time with its volume such as 38 s/qt
    "#]],
    );
}

#[test]
fn slopes_and_spans() {
    check::<Slope>(
        field(&units::PERCENT_SLOPE),
        &["75:1", "1/75", "1:0", "1/4 in", "1 ft 75"],
        &expect![[r#"
            `75:1` cannot be right as it is written; expected a slope such as 1.5 %; perhaps 1:75
            `1/75` can be read in more than one way; expected a slope such as 1.5 %; perhaps 1:75
            `1:0` cannot be right as it is written; expected a slope such as 1.5 %
            `1/4 in` is a length, because of `in`; expected a slope such as 1.5 %; perhaps 1/4 in/ft
            `1 ft 75`: `ft` is no unit known here; expected a slope such as 1.5 %
        "#]],
    );
    check::<Span>(
        field(&units::MINUTE),
        &["1:30", "1 h 30", "12.5.3 h", "1 h 90 min", "30 min 1 h"],
        &expect![[r#"
            `1:30` can be read in more than one way; expected a span of time such as 90 min; perhaps 1 h 30 min or 1 min 30 s
            `1 h 30` can be read in more than one way; expected a span of time such as 90 min; perhaps 1 h 30 min or 1 h 30 s
            `12.5.3 h` can be read in more than one way; expected a span of time such as 90 min; perhaps 12.53 h
            `1 h 90 min` cannot be right as it is written; expected a span of time such as 90 min
            `30 min 1 h` cannot be right as it is written; expected a span of time such as 90 min
        "#]],
    );
}
