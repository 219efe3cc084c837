//! The keypad of a field: which keys lie there, and what a press makes of the text.
//!
//! A gloved thumb types 23'-6 1/2", tenths or metres with keys as big as the hand needs, and what stands
//! in the field is always a text the record can read. The unit is a key of its own, so that the number
//! can be mended without typing the unit again.
//!
//! Words: *cap* = a key with what stands on it; *suffix* = the unit at the end of the text.
//! Never: decide what was meant; `echo` says what was understood.

mod press;

pub use press::press;

use quantity::{Kind, Unit, units};
use record::field::{Defaults, Scale, UnitSystem};

/// A key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Key {
    /// `0` to `9`.
    Digit(char),
    /// The decimal sign of the job: a point or a comma.
    Decimal(char),
    /// The foot mark; digits after it are inches.
    Feet,
    /// The inch mark.
    Inches,
    /// A part of an inch: `1/2`.
    Fraction(&'static str),
    /// A unit, by its symbol. Pressed again it goes away; another one takes its place.
    Unit(&'static str),
    /// Below zero, or not.
    Minus,
    /// Of a slope `1:75` or a time `10:41`.
    Colon,
    /// Takes back the last thing.
    Erase,
    /// On to the next field; the text stays.
    Next,
}

/// A key with what stands on it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cap {
    /// The key.
    pub key: Key,
    /// What stands on it: `½`, `ft`.
    pub face: String,
    /// What a screen reader says: `one half inch`.
    pub spoken: String,
}

/// The keys of a field, in groups that a layout keeps together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Keypad {
    /// `1` to `9`, then `0`.
    pub digits: Vec<Cap>,
    /// Decimal sign, minus, colon, foot and inch mark, where the field has them.
    pub marks: Vec<Cap>,
    /// Parts of an inch; empty where inches are not usual.
    pub fractions: Vec<Cap>,
    /// Units that may be written beside the marks; the one a bare number has comes first.
    pub units: Vec<Cap>,
    /// Takes back the last thing.
    pub erase: Cap,
    /// On to the next field.
    pub next: Cap,
    /// The unit of a bare number, as text; empty where there is none.
    pub bare_unit: String,
}

/// Parts of an inch a tape or a drawing has, with their faces and how they are said.
const FRACTIONS: &[(&str, &str, &str)] = &[
    ("1/8", "⅛", "one eighth inch"),
    ("1/4", "¼", "one quarter inch"),
    ("3/8", "⅜", "three eighths inch"),
    ("1/2", "½", "one half inch"),
    ("5/8", "⅝", "five eighths inch"),
    ("3/4", "¾", "three quarters inch"),
    ("7/8", "⅞", "seven eighths inch"),
];

impl Keypad {
    /// The keys of a quantity on a job.
    pub fn of(kind: Kind, scale: Scale, defaults: Defaults) -> Keypad {
        let us = defaults.system == UnitSystem::Us;
        let inches = us && kind == Kind::Length && scale != Scale::Coordinate;
        let mut marks = Vec::new();
        let sign = if defaults.comma { ',' } else { '.' };
        marks.push(cap(
            Key::Decimal(sign),
            &sign.to_string(),
            if defaults.comma { "comma" } else { "point" },
        ));
        if kind.may_be_negative() || kind == Kind::Temperature {
            marks.push(cap(Key::Minus, "−", "minus"));
        }
        if kind == Kind::Slope {
            marks.push(cap(Key::Colon, ":", "to"));
        }
        if inches && scale == Scale::Usual {
            marks.push(cap(Key::Feet, "ft", "feet"));
        }
        if inches {
            marks.push(cap(Key::Inches, "in", "inches"));
        }
        let mut units = unit_caps(kind, scale, defaults);
        units.retain(|unit| !is_said_by(&marks, unit));
        let fraction = |row: &(&'static str, &str, &str)| cap(Key::Fraction(row.0), row.1, row.2);
        Keypad {
            marks,
            fractions: if inches { FRACTIONS.iter().map(fraction).collect() } else { Vec::new() },
            units,
            bare_unit: defaults.unit(kind, scale).map_or_else(String::new, |unit| unit.symbol.to_owned()),
            ..Keypad::plain()
        }
    }

    /// The keys of a whole number.
    pub fn count() -> Keypad {
        Keypad::plain()
    }

    /// The keys of a clock time.
    pub fn time() -> Keypad {
        Keypad { marks: vec![cap(Key::Colon, ":", "colon")], ..Keypad::plain() }
    }

    /// Every cap, in the order they are given.
    pub fn caps(&self) -> impl Iterator<Item = &Cap> {
        let groups = self.digits.iter().chain(&self.marks).chain(&self.fractions).chain(&self.units);
        groups.chain([&self.erase, &self.next])
    }

    fn plain() -> Keypad {
        let digit = |digit: char| cap(Key::Digit(digit), &digit.to_string(), &digit.to_string());
        Keypad {
            digits: "1234567890".chars().map(digit).collect(),
            marks: Vec::new(),
            fractions: Vec::new(),
            units: Vec::new(),
            erase: cap(Key::Erase, "⌫", "erase"),
            next: cap(Key::Next, "Next", "next field"),
            bare_unit: String::new(),
        }
    }
}

fn cap(key: Key, face: &str, spoken: &str) -> Cap {
    Cap { key, face: face.to_owned(), spoken: spoken.to_owned() }
}

/// The units somebody on site may read off an instrument or a ticket, the usual one first.
fn unit_caps(kind: Kind, scale: Scale, defaults: Defaults) -> Vec<Cap> {
    let bare = defaults.unit(kind, scale);
    let written = written_units(kind, scale).into_iter();
    let usual = bare.filter(|unit| !unit.symbol.is_empty());
    let mut all: Vec<&'static Unit> = usual.into_iter().collect();
    all.extend(written.filter(|unit| Some(*unit) != bare && !(foot_on_survey(unit, bare))));
    all.into_iter().map(|unit| cap(Key::Unit(unit.symbol), unit.symbol, spoken(unit))).collect()
}

/// A unit that a mark says already; and no depth is read in millimeters where it is written in feet.
fn is_said_by(marks: &[Cap], unit: &Cap) -> bool {
    let mark = |mark: &Cap| mark.face == unit.face || (mark.key == Key::Feet && unit.face == "mm");
    marks.iter().any(mark)
}

/// On a job in survey feet `ft` means the survey foot, so that a key for the other one would lie.
fn foot_on_survey(unit: &Unit, bare: Option<&'static Unit>) -> bool {
    *unit == units::FOOT && bare == Some(&units::SURVEY_FOOT)
}

fn written_units(kind: Kind, scale: Scale) -> Vec<&'static Unit> {
    match (kind, scale) {
        (Kind::Length, Scale::Small) => {
            vec![&units::INCH, &units::FOOT, &units::MILLIMETER, &units::CENTIMETER]
        }
        (Kind::Length, Scale::Coordinate) => vec![&units::FOOT, &units::METER],
        (Kind::Length, _) => vec![&units::FOOT, &units::INCH, &units::METER, &units::MILLIMETER],
        (Kind::Volume, Scale::Liquid) => vec![&units::GALLON, &units::LITER],
        (Kind::Volume, _) => vec![&units::CUBIC_YARD, &units::CUBIC_FOOT, &units::CUBIC_METER],
        (Kind::Density, Scale::Content) => {
            vec![&units::POUND_PER_CUBIC_YARD, &units::KILOGRAM_PER_CUBIC_METER]
        }
        (Kind::Density, _) => vec![
            &units::POUND_PER_CUBIC_FOOT,
            &units::POUND_PER_GALLON,
            &units::GRAM_PER_CUBIC_CENTIMETER,
            &units::KILOGRAM_PER_CUBIC_METER,
        ],
        (Kind::Pressure, Scale::Weak) => vec![&units::PSF, &units::PASCAL],
        (Kind::Pressure, _) => vec![&units::PSI, &units::MEGAPASCAL],
        (Kind::Area, _) => vec![&units::SQUARE_INCH, &units::SQUARE_MILLIMETER],
        (Kind::Mass, _) => vec![&units::POUND, &units::KILOGRAM],
        (Kind::Force, _) => vec![&units::KIP, &units::KILONEWTON],
        (Kind::Temperature, _) => vec![&units::FAHRENHEIT, &units::CELSIUS],
        (Kind::Span, _) => vec![&units::MINUTE, &units::HOUR, &units::SECOND, &units::DAY],
        (Kind::FunnelTime, _) => vec![&units::SECOND_PER_QUART, &units::SECOND_PER_LITER],
        (Kind::Fraction, _) => vec![&units::PERCENT],
        (Kind::Slope, _) => vec![&units::PERCENT_SLOPE, &units::INCH_PER_FOOT, &units::MILLIMETER_PER_METER],
        (Kind::Inflow, _) => vec![&units::INCH_PER_HOUR, &units::MILLIMETER_PER_HOUR],
        (Kind::Ph | Kind::WaterCement, _) => vec![],
    }
}

/// How a screen reader says a unit: its longest plain spelling.
fn spoken(unit: &'static Unit) -> &'static str {
    let letters = |word: &&&str| word.chars().all(|sign| sign.is_alphabetic() || sign == ' ' || sign == '/');
    unit.spellings.iter().filter(letters).max_by_key(|word| word.len()).copied().unwrap_or(unit.symbol)
}
