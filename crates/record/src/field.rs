//! Fields: how one piece of an entry is asked for, taken in and given out.
//!
//! A field knows its shape (so that a form, a notes file or a table can ask for it), reads itself from
//! the neutral tree and writes itself back. Faults are collected, never stopped at: a person gets all of
//! them in one go.
//!
//! Words: *shape* = what a field holds; *fault* = why it could not be taken in; *stored* = as the record
//! keeps it; *typed* = as a person writes it on this job.
//! Never: decide whether a value is acceptable on site.

use crate::value::Value;
use quantity::{Entered, Kind, Misread, Moment, Quantity, Reading, Unit, units};
use std::collections::BTreeMap;

/// What a field holds.
#[derive(Debug, Clone, Copy)]
pub enum Shape {
    /// Free text.
    Text,
    /// Yes or no.
    Flag,
    /// A whole number from 0.
    Count,
    /// A clock time with its date and offset.
    Moment,
    /// A quantity; `Scale` says which default unit the field has.
    Quantity(Kind, Scale),
    /// One of a few words.
    Choice(&'static [ChoiceSpec]),
    /// The id of another entry.
    Entry,
    /// SHA-256 of a file, 64 hexadecimal digits.
    FileHash,
    /// Several of one shape.
    List(fn() -> Shape),
    /// Named fields.
    Group(&'static [FieldSpec]),
    /// A whole body of another entry: only in corrections.
    Body,
}

/// Which of the units of its kind a bare number in this field means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Scale {
    /// The usual one of its kind: feet or metres, cubic yards or cubic metres …
    Usual,
    /// Inches or millimetres.
    Small,
    /// Feet or metres of the job's coordinates.
    Coordinate,
    /// Pounds per cubic yard or kilograms per cubic metre.
    Content,
    /// Gallons or litres.
    Liquid,
    /// Pounds per square foot or pascals.
    Weak,
}

/// One word of a choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ChoiceSpec {
    /// As written and stored.
    pub word: &'static str,
    /// What it means.
    pub meaning: &'static str,
}

/// One field of an entry kind or a group.
#[derive(Debug, Clone, Copy)]
pub struct FieldSpec {
    /// Its name in notes, tables and the stored form.
    pub name: &'static str,
    /// What it means, in one or two sentences.
    pub meaning: &'static str,
    /// Whether it may be left blank.
    pub may_be_blank: bool,
    /// What it holds.
    pub shape: fn() -> Shape,
}

/// Something an entry can hold.
pub trait Field: Sized {
    /// Whether it may be left blank.
    const MAY_BE_BLANK: bool = false;
    /// What it holds.
    fn shape() -> Shape;
    /// Into the tree; `None` when blank.
    fn put(&self) -> Option<Value>;
    /// Out of the tree.
    ///
    /// # Errors
    /// Every fault found, each with its path.
    fn take(value: Option<&Value>, path: &str, how: &How<'_>) -> Result<Self, Vec<Fault>>;
}

/// Named fields that belong together.
pub trait Group: Sized {
    /// Its fields, in the order a person would fill them in.
    const FIELDS: &'static [FieldSpec];
    /// Into the tree.
    fn to_group(&self) -> BTreeMap<String, Value>;
    /// Out of the tree; an unknown field is a fault.
    ///
    /// # Errors
    /// Every fault found, each with its path.
    fn from_group(group: &BTreeMap<String, Value>, path: &str, how: &How<'_>) -> Result<Self, Vec<Fault>>;
}

/// How texts in the tree are to be read.
pub enum How<'a> {
    /// As the record keeps them: every text stands alone.
    Stored,
    /// As a person wrote them on this job.
    Typed(&'a Typed<'a>),
}

/// What a job supplies where a person left something out.
pub struct Typed<'a> {
    /// Units and decimal sign.
    pub defaults: Defaults,
    /// Turns `10:41` or a longer form into a moment of the right day.
    pub moment: &'a dyn Fn(&str) -> Option<Moment>,
}

/// Units and decimal sign of a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Defaults {
    /// Which units bare numbers are in.
    pub system: UnitSystem,
    /// The comma is the decimal sign.
    pub comma: bool,
    /// Coordinates are in US survey feet.
    pub survey_foot: bool,
}

/// The two systems a site measures in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum UnitSystem {
    /// Feet, inches, cubic yards, pounds.
    #[default]
    Us,
    /// Meters, millimeters, cubic meters, kilograms.
    Metric,
}

impl Defaults {
    /// The unit of a bare number; `None` where a person must always write one.
    pub fn unit(&self, kind: Kind, scale: Scale) -> Option<&'static Unit> {
        let us = self.system == UnitSystem::Us;
        let pick = |a: &'static Unit, b: &'static Unit| Some(if us { a } else { b });
        match (kind, scale) {
            (Kind::Length, Scale::Small) => pick(&units::INCH, &units::MILLIMETER),
            (Kind::Length, Scale::Coordinate) if us && self.survey_foot => Some(&units::SURVEY_FOOT),
            (Kind::Length, _) => pick(&units::FOOT, &units::METER),
            (Kind::Volume, Scale::Liquid) => pick(&units::GALLON, &units::LITER),
            (Kind::Volume, _) => pick(&units::CUBIC_YARD, &units::CUBIC_METER),
            (Kind::Density, Scale::Content) => {
                pick(&units::POUND_PER_CUBIC_YARD, &units::KILOGRAM_PER_CUBIC_METER)
            }
            (Kind::Density, _) => pick(&units::POUND_PER_CUBIC_FOOT, &units::GRAM_PER_CUBIC_CENTIMETER),
            (Kind::Pressure, Scale::Weak) => pick(&units::PSF, &units::PASCAL),
            (Kind::Pressure, _) => pick(&units::PSI, &units::MEGAPASCAL),
            (Kind::Area, _) => pick(&units::SQUARE_INCH, &units::SQUARE_MILLIMETER),
            (Kind::Mass, _) => pick(&units::POUND, &units::KILOGRAM),
            (Kind::Force, _) => pick(&units::KIP, &units::KILONEWTON),
            (Kind::Temperature, _) => pick(&units::FAHRENHEIT, &units::CELSIUS),
            (Kind::Inflow, _) => pick(&units::INCH_PER_HOUR, &units::MILLIMETER_PER_HOUR),
            (Kind::Span, _) => Some(&units::MINUTE),
            (Kind::Fraction, _) => Some(&units::PERCENT),
            (Kind::Ph, _) => Some(&units::PH),
            (Kind::WaterCement, _) => Some(&units::WATER_CEMENT),
            (Kind::FunnelTime, _) => us.then_some(&units::SECOND_PER_QUART),
            (Kind::Slope, _) => None,
        }
    }
}

/// Why a field could not be taken in.
#[derive(Debug, Clone, PartialEq)]
pub struct Fault {
    /// Where: `points[2].depth`.
    pub path: String,
    /// What.
    pub kind: FaultKind,
}

/// What is wrong with a field.
#[derive(Debug, Clone, PartialEq)]
pub enum FaultKind {
    /// It is needed and blank.
    Missing,
    /// This kind has no such field; the names it has.
    UnknownField(Vec<&'static str>),
    /// Another sort of thing was found.
    Sort {
        /// What was found.
        found: &'static str,
        /// What was expected.
        expected: &'static str,
    },
    /// Not one of the words.
    Word {
        /// What was found.
        found: String,
        /// The words there are.
        allowed: Vec<&'static str>,
    },
    /// Not a whole number from 0 to 1 000 000.
    Count(String),
    /// Not a clock time.
    Moment(String),
    /// Not 64 hexadecimal digits.
    Hash(String),
    /// No such kind of entry.
    UnknownKind(String),
    /// The quantity could not be read.
    Quantity(Box<Misread>),
}

impl Fault {
    /// One fault, as the list every reader returns.
    pub fn one(path: &str, kind: FaultKind) -> Vec<Fault> {
        vec![Fault { path: path.to_owned(), kind }]
    }
}

/// The text at a place, or the fault that there is none.
pub(crate) fn text_at<'v>(value: Option<&'v Value>, path: &str) -> Result<&'v str, Vec<Fault>> {
    match value {
        None => Err(Fault::one(path, FaultKind::Missing)),
        Some(Value::Text(text)) if text.trim().is_empty() => Err(Fault::one(path, FaultKind::Missing)),
        Some(Value::Text(text)) => Ok(text),
        Some(other) => Err(Fault::one(path, FaultKind::Sort { found: other.describe(), expected: "a text" })),
    }
}

impl Field for String {
    fn shape() -> Shape {
        Shape::Text
    }
    fn put(&self) -> Option<Value> {
        Some(Value::Text(self.clone()))
    }
    fn take(value: Option<&Value>, path: &str, _: &How<'_>) -> Result<Self, Vec<Fault>> {
        text_at(value, path).map(str::to_owned)
    }
}

impl Field for bool {
    fn shape() -> Shape {
        Shape::Flag
    }
    fn put(&self) -> Option<Value> {
        Some(Value::Flag(*self))
    }
    fn take(value: Option<&Value>, path: &str, how: &How<'_>) -> Result<Self, Vec<Fault>> {
        if let Some(Value::Flag(flag)) = value {
            return Ok(*flag);
        }
        let text = text_at(value, path)?;
        match (how, text.trim().to_ascii_lowercase().as_str()) {
            (How::Typed(_), "yes" | "y" | "true") => Ok(true),
            (How::Typed(_), "no" | "n" | "false") => Ok(false),
            _ => {
                Err(Fault::one(path, FaultKind::Word { found: text.to_owned(), allowed: vec!["yes", "no"] }))
            }
        }
    }
}

/// How many; 0 to 1 000 000.
impl Field for u32 {
    fn shape() -> Shape {
        Shape::Count
    }
    fn put(&self) -> Option<Value> {
        Some(Value::Text(self.to_string()))
    }
    fn take(value: Option<&Value>, path: &str, how: &How<'_>) -> Result<Self, Vec<Fault>> {
        let text = text_at(value, path)?;
        let fault = || Fault::one(path, FaultKind::Count(text.to_owned()));
        let count: u32 = text.trim().parse().ok().filter(|count| *count <= 1_000_000).ok_or_else(fault)?;
        let canonical = matches!(how, How::Typed(_)) || count.to_string() == text;
        canonical.then_some(count).ok_or_else(fault)
    }
}

impl Field for Moment {
    fn shape() -> Shape {
        Shape::Moment
    }
    fn put(&self) -> Option<Value> {
        Some(Value::Text(self.to_string()))
    }
    fn take(value: Option<&Value>, path: &str, how: &How<'_>) -> Result<Self, Vec<Fault>> {
        let text = text_at(value, path)?;
        let moment = match how {
            How::Stored => Moment::parse(text).ok().filter(|moment| moment.to_string() == text),
            How::Typed(typed) => (typed.moment)(text),
        };
        moment.ok_or_else(|| Fault::one(path, FaultKind::Moment(text.to_owned())))
    }
}

/// Takes a quantity of a field with the given scale.
pub(crate) fn take_entered<Q: Quantity>(
    value: Option<&Value>,
    path: &str,
    how: &How<'_>,
    scale: Scale,
) -> Result<Entered<Q>, Vec<Fault>> {
    let text = text_at(value, path)?;
    let read = match how {
        How::Stored => Entered::from_stored(text),
        How::Typed(typed) => {
            let unit = typed.defaults.unit(Q::KIND, scale);
            Entered::parse(text, Reading { unit, comma: typed.defaults.comma })
        }
    };
    let entered = read.map_err(|misread| Fault::one(path, FaultKind::Quantity(Box::new(misread))))?;
    if matches!(how, How::Stored) && entered.stored() != text {
        let (found, expected) = ("a quantity in another spelling", "the spelling the record writes");
        return Err(Fault::one(path, FaultKind::Sort { found, expected }));
    }
    Ok(entered)
}

impl<Q: Quantity> Field for Entered<Q> {
    fn shape() -> Shape {
        Shape::Quantity(Q::KIND, Scale::Usual)
    }
    fn put(&self) -> Option<Value> {
        Some(Value::Text(self.stored()))
    }
    fn take(value: Option<&Value>, path: &str, how: &How<'_>) -> Result<Self, Vec<Fault>> {
        take_entered(value, path, how, Scale::Usual)
    }
}

impl<T: Field> Field for Option<T> {
    const MAY_BE_BLANK: bool = true;
    fn shape() -> Shape {
        T::shape()
    }
    fn put(&self) -> Option<Value> {
        self.as_ref().and_then(T::put)
    }
    fn take(value: Option<&Value>, path: &str, how: &How<'_>) -> Result<Self, Vec<Fault>> {
        match (value, how) {
            (None, _) => Ok(None),
            // A person may leave a cell empty; the record leaves the field out, so that one entry has one
            // spelling.
            (Some(Value::Text(text)), How::Typed(_)) if text.trim().is_empty() => Ok(None),
            (some, _) => T::take(some, path, how).map(Some),
        }
    }
}

impl<T: Field> Field for Vec<T> {
    const MAY_BE_BLANK: bool = true;
    fn shape() -> Shape {
        Shape::List(T::shape)
    }
    fn put(&self) -> Option<Value> {
        (!self.is_empty()).then(|| Value::List(self.iter().filter_map(T::put).collect()))
    }
    fn take(value: Option<&Value>, path: &str, how: &How<'_>) -> Result<Self, Vec<Fault>> {
        let items = match value {
            None => return Ok(Vec::new()),
            Some(Value::List(items)) if items.is_empty() && matches!(how, How::Stored) => {
                let (found, expected) = ("an empty list", "no such field, as the record writes it");
                return Err(Fault::one(path, FaultKind::Sort { found, expected }));
            }
            Some(Value::List(items)) => items,
            Some(other) => {
                return Err(Fault::one(
                    path,
                    FaultKind::Sort { found: other.describe(), expected: "a list" },
                ));
            }
        };
        let mut taken = Vec::with_capacity(items.len());
        let mut faults = Vec::new();
        for (index, item) in items.iter().enumerate() {
            match T::take(Some(item), &format!("{path}[{index}]"), how) {
                Ok(item) => taken.push(item),
                Err(more) => faults.extend(more),
            }
        }
        if faults.is_empty() { Ok(taken) } else { Err(faults) }
    }
}

/// `points[2]` and `depth` make `points[2].depth`.
pub(crate) fn join(path: &str, field: &str) -> String {
    if path.is_empty() { field.to_owned() } else { format!("{path}.{field}") }
}

/// Writes a field into a group; a blank one is left out.
///
/// The fields of a hundred kinds come through here and through `Taking::take`, which are not written out at
/// each of them, so that a tablet has less to download.
#[inline(never)]
pub(crate) fn put_in<T: Field>(group: &mut BTreeMap<String, Value>, name: &str, field: &T) {
    if let Some(value) = field.put() {
        group.insert(name.to_owned(), value);
    }
}

/// The fields of a group, while they are taken out one by one; every fault found on the way is kept.
pub(crate) struct Taking<'a> {
    group: &'a BTreeMap<String, Value>,
    path: &'a str,
    how: &'a How<'a>,
    /// What was found wrong so far.
    pub(crate) faults: Vec<Fault>,
}

impl<'a> Taking<'a> {
    /// Begins with the group at a path.
    pub(crate) fn of(group: &'a BTreeMap<String, Value>, path: &'a str, how: &'a How<'a>) -> Self {
        Taking { group, path, how, faults: Vec::new() }
    }

    /// A field that none of these is called is a fault.
    pub(crate) fn refuse_unknown(&mut self, fields: &[FieldSpec]) {
        let known = |name: &str| fields.iter().any(|field| field.name == name);
        let names: Vec<&'static str> = fields.iter().map(|field| field.name).collect();
        let unknown = self.group.keys().filter(|name| !known(name));
        self.faults.extend(
            unknown.map(|name| Fault {
                path: join(self.path, name),
                kind: FaultKind::UnknownField(names.clone()),
            }),
        );
    }

    /// A field, unless it cannot be taken.
    #[inline(never)]
    pub(crate) fn take<T: Field>(&mut self, name: &str) -> Option<T> {
        match T::take(self.group.get(name), &join(self.path, name), self.how) {
            Ok(field) => Some(field),
            Err(more) => {
                self.faults.extend(more);
                None
            }
        }
    }
}

/// The group at a place, or the fault that there is none.
pub(crate) fn group_at<'v>(
    value: Option<&'v Value>,
    path: &str,
) -> Result<&'v BTreeMap<String, Value>, Vec<Fault>> {
    match value {
        None => Err(Fault::one(path, FaultKind::Missing)),
        Some(Value::Group(group)) => Ok(group),
        Some(other) => {
            Err(Fault::one(path, FaultKind::Sort { found: other.describe(), expected: "a group of fields" }))
        }
    }
}

/// A choice as people write it: case and blanks do not matter; the stored word is exact.
pub(crate) fn plain_word(found: &str, how: &How<'_>) -> String {
    match how {
        How::Stored => found.to_owned(),
        How::Typed(_) => found.trim().to_lowercase().replace([' ', '-'], "_"),
    }
}
