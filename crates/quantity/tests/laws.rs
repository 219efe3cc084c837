//! Laws of reading and printing, tried with many texts.

use proptest::prelude::*;
use quantity::{
    Area, Density, Entered, Force, Fraction, FunnelTime, InchFraction, Inflow, Length, LengthStyle, Mass, Ph,
    Pressure, Quantity, Reading, Slope, Span, Style, System, Temperature, Unit, Volume, WaterCement, print,
    print_length, units,
};

/// Reads a text in a field and checks what must hold of any text: no panic, the stored form reads back,
/// every offered reading reads.
fn try_one<Q: Quantity>(text: &str, reading: Reading) {
    match Entered::<Q>::parse(text, reading) {
        Ok(entered) => {
            assert_eq!(entered.typed(), text);
            assert_eq!(Entered::<Q>::from_stored(&entered.stored()), Ok(entered));
        }
        Err(misread) => {
            assert!(misread.perhaps.len() <= 3, "{misread}");
            for offered in &misread.perhaps {
                assert!(Entered::<Q>::parse(offered, reading).is_ok(), "`{offered}` for `{text}`");
            }
            assert!(!misread.to_string().is_empty());
        }
    }
}

/// Every kind, in its own default unit and without one, with point and comma.
fn try_all(text: &str) {
    for comma in [false, true] {
        for style in [Some(Style::US), Some(Style::SI), None] {
            each_kind(text, comma, style);
        }
        try_one::<Length>(text, Reading { unit: Some(&units::SURVEY_FOOT), comma });
        try_one::<Fraction>(text, Reading { unit: Some(&units::PART), comma });
    }
    let _ = Entered::<Length>::from_stored(text);
}

fn each_kind(text: &str, comma: bool, style: Option<Style>) {
    macro_rules! kinds {
        ($($kind:ident),*) => {$(
            let unit = style.map(|style| style.unit($kind::KIND));
            try_one::<$kind>(text, Reading { unit, comma });
        )*};
    }
    kinds!(
        Length,
        Area,
        Volume,
        Density,
        Mass,
        Force,
        Pressure,
        Temperature,
        Span,
        FunnelTime,
        Fraction,
        Ph,
        Slope,
        Inflow,
        WaterCement
    );
}

/// Prints an exact number of a unit, reads the text, and prints again.
fn there_and_back<Q: Quantity>(text: &str, unit: &'static Unit, decimals: u8, style: Style) {
    let field = Reading { unit: Some(unit), comma: false };
    let value = Entered::<Q>::parse(text, field).expect("a plain number reads").value();
    let printed = print(value, unit, decimals);
    assert_eq!(
        Entered::<Q>::parse(&printed, field).expect("what is printed reads").value(),
        value,
        "{printed}"
    );
    let styled = style.quantity(value, 6);
    let again = Entered::<Q>::parse(&styled, style.reading(Q::KIND)).expect("what a style prints reads");
    assert_eq!(style.quantity(again.value(), 6), styled, "what was printed prints the same again");
}

fn styles() -> impl Strategy<Value = Style> {
    let fraction = prop::sample::select(vec![
        InchFraction::Half,
        InchFraction::Quarter,
        InchFraction::Eighth,
        InchFraction::Sixteenth,
    ]);
    let lengths = (0..5, fraction).prop_map(|(which, fraction)| match which {
        0 => LengthStyle::FeetTenths,
        1 => LengthStyle::FeetInches(fraction),
        2 => LengthStyle::Inches(fraction),
        3 => LengthStyle::Meters,
        _ => LengthStyle::Millimeters,
    });
    let system = prop::sample::select(vec![System::Us, System::Si]);
    (lengths, system, any::<bool>()).prop_map(|(lengths, system, comma)| Style { lengths, system, comma })
}

/// Texts put together from the pieces people type, in any order.
fn pieces() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(vec![
        "12",
        "6",
        "1/2",
        "12.54",
        "2,500",
        "1,20",
        "-",
        "+",
        "'",
        "\"",
        "''",
        "ft",
        "in",
        " ",
        " ",
        ".",
        ",",
        "/",
        ":",
        "½",
        "m",
        "m3",
        "yd³",
        "cy",
        "s",
        "s/qt",
        "s/L",
        "%",
        "°F",
        "pcf",
        "psi",
        "−",
        "”",
        "\u{a0}",
        "h",
        "min",
        "in/ft",
        "cu. yd.",
        "{ft}",
        " {m,}",
        "pH",
        "000",
        "0",
        "999999999999999",
        "³",
        "per",
        "\u{200b}",
    ]);
    prop::collection::vec(piece, 0..9).prop_map(|pieces| pieces.concat())
}

proptest! {
    #[test]
    fn no_text_at_all_makes_the_reader_stumble(text in "\\PC{0,30}") {
        try_all(&text);
    }

    #[test]
    fn nor_do_bytes_read_as_text(bytes in prop::collection::vec(any::<u8>(), 0..40)) {
        try_all(&String::from_utf8_lossy(&bytes));
    }

    #[test]
    fn nor_do_the_pieces_people_type(text in pieces()) {
        try_all(&text);
    }

    #[test]
    fn nor_do_digits_and_signs(text in "[-+0-9.,/' \"]{0,24}") {
        try_all(&text);
    }

    #[test]
    fn a_printed_value_reads_back(count in 0i64..100_000_000, style in styles(), which in 0..units::ALL.len()) {
        let unit = units::ALL[which];
        let text = format!("{}.{:04}", count / 10_000, count % 10_000);
        macro_rules! of_kind {
            ($($kind:ident),*) => {$(
                if unit.kind == $kind::KIND { there_and_back::<$kind>(&text, unit, 4, style); }
            )*};
        }
        of_kind!(
            Area, Volume, Density, Mass, Force, Pressure, Temperature, Span, FunnelTime, Fraction, Ph, Slope, Inflow,
            WaterCement
        );
    }

    #[test]
    fn a_printed_length_reads_back(nanometers in -1_000_000_000_000i64..1_000_000_000_000, style in styles()) {
        let length = Length::nanometers(nanometers);
        let printed = style.length(length, 6);
        let read = Entered::<Length>::parse(&printed, style.reading(Length::KIND)).expect("reads back").value();
        prop_assert_eq!(style.length(read, 6), &printed[..], "prints the same again");
        let step = match style.lengths {
            LengthStyle::FeetInches(fraction) | LengthStyle::Inches(fraction) => 25_400_000 / fraction.per_inch() as i64,
            LengthStyle::FeetTenths => 305,
            LengthStyle::Meters => 1000,
            LengthStyle::Millimeters => 1,
        };
        prop_assert!((read - length).to_nanometers().abs() <= step / 2 + 1, "{} for {}", printed, nanometers);
    }

    #[test]
    fn sixteenths_are_printed_exactly(count in -100_000i64..100_000) {
        let length = Length::nanometers(count * 1_587_500);
        for style in [LengthStyle::FeetInches(InchFraction::Sixteenth), LengthStyle::Inches(InchFraction::Sixteenth)] {
            let printed = print_length(length, style, 0);
            prop_assert_eq!(Entered::<Length>::parse(&printed, Reading::default()).unwrap().value(), length);
        }
    }

    #[test]
    fn point_and_comma_say_the_same(whole in 0u32..1_000_000, part in 0u32..1000) {
        let point = Reading { unit: Some(&units::METER), comma: false };
        let comma = Reading { unit: Some(&units::METER), comma: true };
        let a = Entered::<Length>::parse(&format!("{whole}.{part:03}"), point).unwrap();
        let b = Entered::<Length>::parse(&format!("{whole},{part:03}"), comma).unwrap();
        prop_assert_eq!(a.value(), b.value());
        prop_assert_eq!(b.stored(), format!("{whole},{part:03} {{m,}}"));
    }
}
