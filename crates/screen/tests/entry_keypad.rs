//! A gloved thumb on the keypad: every press leaves a text, and the echo says what it means.

use quantity::{Kind, units};
use record::field::{Defaults, Scale, UnitSystem};
use record::kinds::{EntryKind, JobOpened, KINDS};
use record::{FieldSpec, Shape};
use screen::entry::keypad::{Key, Keypad, press};
use screen::entry::{Echo, echo};
use wording::Show;

fn job(units: &str, lengths: &str, comma: &str) -> Show {
    let fields = [
        ("name", "Test job"),
        ("time_zone", "America/Denver"),
        ("units", units),
        ("lengths", lengths),
        ("decimal_comma", comma),
    ];
    let body = testkit::body("job_opened", &fields);
    Show::of(JobOpened::of(&body))
}

fn tenths() -> Show {
    job("us", "feet_tenths", "no")
}

fn inches() -> Show {
    job("us", "feet_inches", "no")
}

fn metric() -> Show {
    job("metric", "meters", "no")
}

/// One line a press: `1 2 ' 6 1/2`; a unit stands as its symbol, `<` takes back.
fn key(word: &str) -> Key {
    let fraction = ["1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"].into_iter().find(|one| *one == word);
    let mut signs = word.chars();
    match (word, signs.next(), signs.next()) {
        ("'", ..) => Key::Feet,
        ("\"", ..) => Key::Inches,
        ("±", ..) => Key::Minus,
        (":", ..) => Key::Colon,
        ("<", ..) => Key::Erase,
        ("next", ..) => Key::Next,
        (_, Some(sign @ ('.' | ',')), None) => Key::Decimal(sign),
        (_, Some(digit), None) if digit.is_ascii_digit() => Key::Digit(digit),
        _ => fraction.map_or_else(|| Key::Unit(unit(word)), Key::Fraction),
    }
}

fn unit(symbol: &str) -> &'static str {
    let found = units::ALL.iter().find(|unit| unit.symbol == symbol);
    found.unwrap_or_else(|| panic!("`{symbol}` is no key of these tests")).symbol
}

fn pressed(keys: &str) -> String {
    keys.split(' ').fold(String::new(), |text, word| press(&text, key(word)))
}

#[track_caller]
fn check(keys: &str, expected: &str) {
    assert_eq!(pressed(keys), expected, "{keys}");
}

#[test]
fn feet_and_inches_stand_as_on_a_drawing() {
    check("2 3", "23");
    check("2 3 '", "23'");
    check("2 3 ' 6", "23'-6\"");
    check("2 3 ' 6 1/2", "23'-6 1/2\"");
    check("2 3 ' 1/2", "23'-1/2\"");
    check("2 3 ' 1 1 3/4", "23'-11 3/4\"");
    check("6 1/2", "6 1/2\"");
    check("6 1/2 3/4", "6 3/4\"");
    check("1/2", "1/2\"");
    check("6 \"", "6\"");
    check("' \"", "");
}

#[test]
fn erasing_goes_back_the_way_it_came() {
    check("2 3 ' 6 1/2 <", "23'-6\"");
    check("2 3 ' 6 1/2 < <", "23'");
    check("2 3 ' 6 1/2 < < <", "23");
    check("2 3 ' 6 1/2 < < < < <", "");
    check("6 1/2 <", "6");
    check("1/2 <", "");
    check("1 2 . 5 m <", "12.5");
    check("1 h 3 0 min <", "1 h 30");
    check("1 h 3 0 < <", "1 h");
    check("± 5 < <", "");
    check("<", "");
}

#[test]
fn tenths_metres_and_other_units() {
    check("1 2 . 5 4", "12.54");
    check(". 5", "0.5");
    check("1 . 2 . 5", "1.25");
    check("3 , 8 2 m", "3,82 m");
    check("1 2 m 5", "125 m");
    check("1 2 . 5 m ft", "12.5 ft");
    check("1 2 . 5 m m", "12.5");
    check("9 . 5 yd³", "9.5 yd³");
    check("3 8 s/qt", "38 s/qt");
    check("1 : 7 5", "1:75");
    check("1 h 3 0 min", "1 h 30 min");
    check("1 0 : 4 1", "10:41");
    check("± 2 0 . 5", "-20.5");
    check("2 0 ± ±", "20");
    check("4 2 . 6 next", "42.6");
    check("yd³", "");
}

#[track_caller]
fn echoes(show: &Show, kind: Kind, rows: &[(&str, Scale, &str)]) {
    for (typed, scale, expected) in rows {
        assert_eq!(told(&echo::quantity(typed, kind, *scale, show)), *expected, "{typed}");
    }
}

fn told(echo: &Echo) -> String {
    match echo {
        Echo::Empty => "(empty)".to_owned(),
        Echo::Understood { text, also: None } => text.clone(),
        Echo::Understood { text, also: Some(also) } => format!("{text} = {also}"),
        Echo::Incomplete { hint } => format!("… {hint}"),
        Echo::Faulty { sentence, perhaps } => format!("! {sentence} {perhaps:?}"),
    }
}

#[test]
fn a_job_in_tenths_hears_feet_and_inches_beside() {
    // 23'-6 1/2" is 23 ft + 6.5/12 ft = 23.5417 ft; 7.2 m is 23.6220 ft = 23 ft 7.46 in; by hand.
    echoes(
        &tenths(),
        Kind::Length,
        &[
            ("", Scale::Usual, "(empty)"),
            ("23'-6 1/2\"", Scale::Usual, "23.54 ft = 23'-6 1/2\""),
            ("23.5", Scale::Usual, "23.5 ft = 23'-6\""),
            ("23.54", Scale::Usual, "23.54 ft = about 23'-6 1/2\""),
            ("7.2 m", Scale::Usual, "23.62 ft = about 23'-7 1/2\""),
            ("-20", Scale::Usual, "-20 ft = -20'-0\""),
            ("1 1/2", Scale::Small, "1 1/2 in = 1.5 in"),
            ("1.3", Scale::Small, "1.3 in"),
            ("18", Scale::Small, "18 in"),
            ("1204567.89", Scale::Coordinate, "1204567.89 ft"),
        ],
    );
}

#[test]
fn a_job_in_feet_and_inches_hears_tenths_beside() {
    echoes(
        &inches(),
        Kind::Length,
        &[
            ("23'-6 1/2\"", Scale::Usual, "23'-6 1/2\" = 23.54 ft"),
            ("23.5", Scale::Usual, "23'-6\" = 23.5 ft"),
            ("23.54", Scale::Usual, "about 23'-6 1/2\" = 23.54 ft"),
        ],
    );
}

#[test]
fn a_job_in_metres_hears_what_was_typed_where_it_was_something_else() {
    // 23'-6 1/2" is 23 × 0.3048 + 6.5 × 0.0254 = 7.1755 m; 1 1/2 in is 38.1 mm; by hand.
    echoes(
        &metric(),
        Kind::Length,
        &[
            ("3.82", Scale::Usual, "3.82 m"),
            ("3.82 m", Scale::Usual, "3.82 m"),
            ("23'-6 1/2\"", Scale::Usual, "7.176 m = 23'-6 1/2\""),
            ("1 1/2 in", Scale::Small, "38.1 mm = 1 1/2 in"),
            ("38", Scale::Small, "38 mm"),
        ],
    );
    echoes(&job("metric", "meters", "yes"), Kind::Length, &[("3,82", Scale::Usual, "3,82 m")]);
}

#[test]
fn other_quantities_are_told_in_the_unit_of_the_field() {
    echoes(
        &tenths(),
        Kind::Volume,
        &[
            ("9.5", Scale::Usual, "9.5 yd³"),
            // 7 m³ / 0.764554857984 = 9.1557 yd³, by hand.
            ("7 m³", Scale::Usual, "9.156 yd³ = 7 m³"),
            ("25", Scale::Liquid, "25 gal"),
        ],
    );
    echoes(
        &tenths(),
        Kind::FunnelTime,
        &[("38", Scale::Usual, "38 s/qt"), ("38 s/L", Scale::Usual, "38 s/L")],
    );
    echoes(
        &tenths(),
        Kind::Span,
        &[("90", Scale::Usual, "90 min"), ("1 h 30 min", Scale::Usual, "90 min = 1 h 30 min")],
    );
    echoes(&tenths(), Kind::Slope, &[("1:75", Scale::Usual, "1:75"), ("1.5 %", Scale::Usual, "1.5 %")]);
    echoes(
        &tenths(),
        Kind::Temperature,
        &[("72", Scale::Usual, "72 °F"), ("22 °C", Scale::Usual, "71.6 °F = 22 °C")],
    );
    echoes(&tenths(), Kind::Fraction, &[("3.5", Scale::Usual, "3.5 %")]);
    echoes(&tenths(), Kind::Ph, &[("8.5", Scale::Usual, "8.5")]);
}

#[test]
fn half_a_text_is_not_called_wrong_and_a_slip_is_told_with_what_was_meant() {
    echoes(
        &tenths(),
        Kind::Length,
        &[
            ("-", Scale::Usual, "… Goes on: a length such as 12.54 ft."),
            (
                "23-6 1/2",
                Scale::Usual,
                "! `23-6 1/2` can be read in more than one way; expected a length such as 12.54 ft. \
             [\"23'-6 1/2\\\"\"]",
            ),
            (
                "12 kg",
                Scale::Usual,
                "! `12 kg` is a mass, because of `kg`; expected a length such as 12.54 ft. []",
            ),
        ],
    );
    echoes(&metric(), Kind::FunnelTime, &[("38", Scale::Usual, "… Needs its unit: 38 s/qt or 38 s/L.")]);
    echoes(&tenths(), Kind::Slope, &[("1:", Scale::Usual, "… Goes on: a slope such as 1.5 %.")]);
}

fn scales() -> Vec<(Kind, Scale)> {
    let mut found = Vec::new();
    let mut add = |kind, scale| {
        if !found.contains(&(kind, scale)) {
            found.push((kind, scale));
        }
    };
    KINDS.iter().for_each(|kind| quantities(kind.fields, &mut add));
    found
}

fn quantities(fields: &[FieldSpec], add: &mut dyn FnMut(Kind, Scale)) {
    for field in fields {
        let mut shape = (field.shape)();
        if let Shape::List(item) = shape {
            shape = item();
        }
        match shape {
            Shape::Quantity(kind, scale) => add(kind, scale),
            Shape::Group(inner) => quantities(inner, add),
            _ => {}
        }
    }
}

/// On every job, a bare number with every unit key of its field reads as a quantity of that field.
#[test]
fn every_unit_key_of_every_field_gives_a_text_that_reads() {
    for show in [tenths(), inches(), metric(), job("metric", "meters", "yes")] {
        for (kind, scale) in scales() {
            let keypad = Keypad::of(kind, scale, show.defaults());
            for cap in &keypad.units {
                let text = press("1", cap.key);
                let echo = echo::quantity(&text, kind, scale, &show);
                assert!(matches!(echo, Echo::Understood { .. }), "{text} in {kind:?} {scale:?}: {echo:?}");
            }
            let bare = echo::quantity("1", kind, scale, &show);
            let has_unit = show.defaults().unit(kind, scale).is_some();
            assert_eq!(matches!(bare, Echo::Understood { .. }), has_unit, "{kind:?} {scale:?}");
        }
    }
}

#[test]
fn the_keys_follow_the_job() {
    let faces = |kind, scale, defaults| -> Vec<String> {
        let pad = Keypad::of(kind, scale, defaults);
        let middle = pad.marks.iter().chain(&pad.fractions).chain(&pad.units);
        middle.map(|cap| cap.face.clone()).collect()
    };
    let us = Defaults { system: UnitSystem::Us, comma: false, survey_foot: false };
    let metric = Defaults { system: UnitSystem::Metric, comma: true, survey_foot: false };
    expect_test::expect![[r#"
        . − ft in ⅛ ¼ ⅜ ½ ⅝ ¾ ⅞ m
        . − in ⅛ ¼ ⅜ ½ ⅝ ¾ ⅞ ft mm cm
        , − m ft in mm
        . yd³ ft³ m³
        . s/qt s/L
        . − : % in/ft mm/m
        . − °F °C
        .
    "#]]
    .assert_eq(&format!(
        "{}\n{}\n{}\n{}\n{}\n{}\n{}\n{}\n",
        faces(Kind::Length, Scale::Usual, us).join(" "),
        faces(Kind::Length, Scale::Small, us).join(" "),
        faces(Kind::Length, Scale::Usual, metric).join(" "),
        faces(Kind::Volume, Scale::Usual, us).join(" "),
        faces(Kind::FunnelTime, Scale::Usual, us).join(" "),
        faces(Kind::Slope, Scale::Usual, us).join(" "),
        faces(Kind::Temperature, Scale::Usual, us).join(" "),
        faces(Kind::Ph, Scale::Usual, us).join(" "),
    ));
}

#[test]
fn every_cap_says_what_it_is() {
    for (kind, scale) in scales() {
        for cap in Keypad::of(kind, scale, Defaults::default()).caps() {
            assert!(!cap.face.is_empty() && !cap.spoken.is_empty(), "{:?}", cap.key);
        }
    }
}

mod laws {
    use super::*;
    use proptest::prelude::*;

    const KEYS: &[&str] =
        &["0", "1", "2", "5", "9", ".", "'", "\"", "1/2", "3/8", "ft", "in", "m", "h", "min", "±", ":", "<"];

    proptest! {
        /// However a thumb slips, erasing in the end leaves nothing, and nothing ever panics.
        #[test]
        fn enough_erasing_leaves_nothing(words in prop::collection::vec(prop::sample::select(KEYS), 0..20)) {
            let mut text = words.iter().fold(String::new(), |text, word| press(&text, key(word)));
            for _ in 0..60 {
                text = press(&text, Key::Erase);
            }
            prop_assert_eq!(text, "");
        }

        /// Feet, inches and a fraction typed in order read as what they say.
        #[test]
        fn typed_feet_and_inches_read_as_such(feet in 0_u32..200, inches in 0_u32..12, half in any::<bool>()) {
            let digits = |number: u32| number.to_string().chars().map(Key::Digit).collect::<Vec<_>>();
            let mut keys = digits(feet);
            keys.push(Key::Feet);
            keys.extend(digits(inches));
            keys.extend(half.then_some(Key::Fraction("1/2")));
            let text = keys.into_iter().fold(String::new(), |text, key| press(&text, key));
            let reading = quantity::Reading::unit(&units::FOOT);
            let read = quantity::Entered::<quantity::Length>::parse(&text, reading).expect("it reads");
            let halves = i64::from(feet * 24 + inches * 2 + u32::from(half));
            prop_assert_eq!(read.value(), quantity::Length::nanometers(halves * 12_700_000));
        }
    }
}
