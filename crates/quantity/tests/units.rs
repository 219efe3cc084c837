//! Unit factors against published values.
//!
//! Source of the table: [NIST-SP-811] (2008), App. B.8, factors as printed there, from memory: the paper
//! was not open when this was written. Tolerance: half of the last printed digit; exact where the paper
//! prints in bold. An outside library checks the same factors in tests/reference/units_check.py.

use quantity::{Entered, Quantity, Reading, Slope, Temperature, Unit, units};

/// `printed` is the factor to the SI unit, as `7.645 549 E-01`.
#[track_caller]
fn check(unit: &Unit, printed: &str) {
    let (mantissa, exponent) = printed.split_once(" E").expect("a factor as printed");
    let digits = mantissa.replace(' ', "");
    let decimals = digits.len() - digits.find('.').expect("a point") - 1;
    let scale = 10_f64.powi(exponent.parse().expect("an exponent"));
    let factor = *unit.factor().numer() as f64 / *unit.factor().denom() as f64;
    let tolerance = 0.5 * 10_f64.powi(-(decimals as i32)) * scale * 1.000_001;
    let expected = digits.parse::<f64>().expect("a number") * scale;
    assert!((factor - expected).abs() <= tolerance, "{} is {factor:e}, printed {printed}", unit.symbol);
}

#[test]
fn lengths_areas_and_volumes_agree_with_nist() {
    check(&units::FOOT, "3.048 E-01");
    check(&units::SURVEY_FOOT, "3.048 006 E-01");
    check(&units::INCH, "2.54 E-02");
    check(&units::YARD, "9.144 E-01");
    check(&units::SQUARE_FOOT, "9.290 304 E-02");
    check(&units::SQUARE_INCH, "6.4516 E-04");
    check(&units::CUBIC_FOOT, "2.831 685 E-02");
    check(&units::CUBIC_YARD, "7.645 549 E-01");
    check(&units::GALLON, "3.785 412 E-03");
    check(&units::LITER, "1.0 E-03");
}

#[test]
fn masses_forces_and_pressures_agree_with_nist() {
    check(&units::POUND, "4.535 924 E-01");
    check(&units::SHORT_TON, "9.071 847 E+02");
    check(&units::TONNE, "1.0 E+03");
    check(&units::POUND_FORCE, "4.448 222 E+00");
    check(&units::KIP, "4.448 222 E+03");
    check(&units::PSI, "6.894 757 E+03");
    check(&units::KSI, "6.894 757 E+06");
    check(&units::PSF, "4.788 026 E+01");
    check(&units::BAR, "1.0 E+05");
    check(&units::POUND_PER_CUBIC_FOOT, "1.601 846 E+01");
    check(&units::POUND_PER_CUBIC_YARD, "5.932 764 E-01");
    check(&units::POUND_PER_GALLON, "1.198 264 E+02");
}

/// Source: [NIST-SP-811] App. B.8: T/K = (t/°F + 459.67)/1.8, exact.
#[test]
fn fahrenheit_agrees_with_nist() {
    let kelvin =
        |text: &str| Entered::<Temperature>::parse(text, Reading::default()).unwrap().value().number();
    for (fahrenheit, other) in
        [("32 °F", "0 °C"), ("212 °F", "100 °C"), ("-40 °F", "-40 °C"), ("-459.67 °F", "0 K")]
    {
        assert_eq!(kelvin(fahrenheit), kelvin(other), "{fahrenheit}");
    }
}

/// Hand calculation by the definitions, as the trade uses the figures: 62.4 pcf = 62.4 × 0.45359237 /
/// 0.3048³ kg/m³ = 999.552 kg/m³; and so on. Tolerance: half of the last digit.
#[test]
fn the_figures_of_the_trade() {
    let close =
        |number: f64, expected: f64, half: f64| assert!((number - expected).abs() <= half, "{number}");
    let density = |pcf: f64| quantity::Density::pounds_per_cubic_foot(pcf);
    close(density(62.4).to_grams_per_cubic_centimeter(), 0.9996, 0.5e-4);
    close(density(64.3).to_grams_per_cubic_centimeter(), 1.0300, 0.5e-4);
    close(density(69.1).to_grams_per_cubic_centimeter(), 1.1069, 0.5e-4);
    close(density(72.0).to_grams_per_cubic_centimeter(), 1.1533, 0.5e-4);
    close(density(75.0).to_grams_per_cubic_centimeter(), 1.2014, 0.5e-4);
    close(density(62.4).to_unit(&units::POUND_PER_GALLON), 8.342, 0.5e-3);
    close(density(64.3).to_unit(&units::POUND_PER_GALLON), 8.596, 0.5e-3);
    // Weight of 1 m³ of 1000 kg at 9.80665 m/s².
    close(
        quantity::Density::kilograms_per_cubic_meter(1000.0).to_kilonewtons_per_cubic_meter(),
        9.80665,
        1e-12,
    );
    // A quarter inch in a foot is 1/48.
    close(Slope::inches_per_foot(0.25).to_percent(), 2.083, 0.5e-3);
}
