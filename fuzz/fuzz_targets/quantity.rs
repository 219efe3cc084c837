//! Any text, typed into a field of any kind.
//!
//! Must hold: no panic; what reads is stored so that it reads back to the same; every reading offered
//! after a question reads; what a style prints reads.

#![no_main]

use libfuzzer_sys::fuzz_target;
use quantity::{
    Area, CoordinateUnit, Density, Entered, Force, Fraction, FunnelTime, Inflow, Length, Mass, Moment, Ph,
    Pressure, Quantity, Reading, Slope, Span, Style, Temperature, Volume, WaterCement,
};

fuzz_target!(|bytes: &[u8]| {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    for comma in [false, true] {
        for unit_style in [Some(Style::US), Some(Style::SI), None] {
            every_kind(text, comma, unit_style);
        }
        if let Ok(entered) = CoordinateUnit::SurveyFoot.parse(text, comma) {
            assert_eq!(Entered::from_stored(&entered.stored()), Ok(entered));
        }
    }
    if let Ok(moment) = Moment::parse(text) {
        assert_eq!(Moment::parse(&moment.to_string()), Ok(moment));
    }
});

fn every_kind(text: &str, comma: bool, style: Option<Style>) {
    macro_rules! kinds {
        ($($kind:ident),*) => {$(
            let unit = style.map(|style| style.unit($kind::KIND));
            one::<$kind>(text, Reading { unit, comma });
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

fn one<Q: Quantity>(text: &str, reading: Reading) {
    if let Ok(entered) = Entered::<Q>::from_stored(text) {
        assert_eq!(Entered::from_stored(&entered.stored()).map(|again| again.value()), Ok(entered.value()));
    }
    match Entered::<Q>::parse(text, reading) {
        Ok(entered) => understood(&entered),
        Err(misread) => {
            assert!(!misread.to_string().is_empty());
            for offered in &misread.perhaps {
                assert!(Entered::<Q>::parse(offered, reading).is_ok(), "`{offered}` raises a question again");
            }
        }
    }
}

fn understood<Q: Quantity>(entered: &Entered<Q>) {
    let again = Entered::<Q>::from_stored(&entered.stored()).expect("the stored form reads");
    assert_eq!(again.value(), entered.value());
    assert!(entered.value().number().to_f64().is_finite());
    for style in [Style::US, Style::SI, Style { comma: true, ..Style::SI }] {
        assert!(!style.quantity(entered.value(), 2).is_empty());
    }
}
