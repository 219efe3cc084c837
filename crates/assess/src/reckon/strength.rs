//! Strength: breaks of each set, and beside them what curves and temperatures let expect.
//!
//! An estimate never stands for a break: it helps to plan when to break the next cylinder.

use crate::assumed;
use crate::picture::Picture;
use calc::gain::{CementClass, TYPE_I_MOIST, american_gain, european_gain};
use calc::maturity::{DegreeHours, WarmStretch, equivalent_age, nurse_saul};
use calc::strength::{StrengthTest, strength_test};
use quantity::{Fraction, Moment, Pressure, Span, Temperature};
use record::kinds::{CylinderBroken, CylindersMade, TemperatureRead};
use record::{EntryId, Log};
use std::collections::BTreeMap;

/// Breaks, and estimates beside them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StrengthReckoning {
    /// Strength the mix has to reach.
    pub specified: Option<Pressure>,
    /// Sets, in the order they were made.
    pub sets: Vec<StrengthSet>,
    /// Age of the concrete now, from the last load.
    pub age: Option<Span>,
    /// Part of the 28-day strength expected at that age by EN 1992; `None` without a cement class.
    pub european: Option<Fraction>,
    /// The same by ACI 209, for Type I cement kept moist.
    pub american: Option<Fraction>,
    /// What each sensor says.
    pub maturity: Vec<SensorMaturity>,
}

/// One set of cylinders or cubes.
#[derive(Debug, Clone, PartialEq)]
pub struct StrengthSet {
    /// Its mark.
    pub set: String,
    /// The entry that says it was made.
    pub made: EntryId,
    /// Its breaks in the order they were made: age, strength, entry.
    pub breaks: Vec<(Option<Span>, Pressure, EntryId)>,
    /// Mean and spread of the breaks at the greatest age; `None` before any break.
    pub last: Option<StrengthTest>,
}

/// Temperature and time at one sensor.
#[derive(Debug, Clone, PartialEq)]
pub struct SensorMaturity {
    /// The sensor.
    pub sensor: String,
    /// From its first to its last reading.
    pub until: Moment,
    /// Temperature-time factor above the assumed datum.
    pub degree_hours: DegreeHours,
    /// Age at 20 °C that comes to the same; by assumed constants, not those of the mix.
    pub equivalent_age: Span,
    /// The readings.
    pub entries: Vec<EntryId>,
}

impl StrengthReckoning {
    pub(super) fn of(log: &Log<'_>, picture: &Picture<'_>) -> Self {
        let mix = picture.mix(log, None);
        let finished = picture.concrete_finished();
        let age = finished.map(|at| Span::minutes(picture.now.minutes_since(at)));
        let age = age.filter(|age| age.to_seconds() > 0.0);
        let class = mix.and_then(|mix| mix.cement_class.as_deref()).and_then(class);
        StrengthReckoning {
            specified: mix.and_then(|mix| mix.strength.as_ref()).map(|strength| strength.value()),
            sets: sets(log),
            age,
            european: age.zip(class).and_then(|(age, class)| european_gain(class, age).ok()),
            american: age.and_then(|age| american_gain(TYPE_I_MOIST, age).ok()),
            maturity: maturity(log),
        }
    }
}

fn class(text: &str) -> Option<CementClass> {
    match text.trim() {
        "R" | "r" => Some(CementClass::Rapid),
        "N" | "n" => Some(CementClass::Normal),
        "S" | "s" => Some(CementClass::Slow),
        _ => None,
    }
}

fn sets(log: &Log<'_>) -> Vec<StrengthSet> {
    let made = log.each::<CylindersMade>().map(|(line, made)| {
        let of_set = log.each::<CylinderBroken>().filter(|(_, broken)| broken.set == made.set);
        let breaks: Vec<(Option<Span>, Pressure, EntryId)> = of_set
            .map(|(line, b)| (b.age.as_ref().map(|age| age.value()), b.strength.value(), line.entry.id))
            .collect();
        let last = at_greatest_age(&breaks);
        StrengthSet { set: made.set.clone(), made: line.entry.id, breaks, last }
    });
    made.collect()
}

/// The breaks of the greatest age that was written; all of them where no age was.
fn at_greatest_age(breaks: &[(Option<Span>, Pressure, EntryId)]) -> Option<StrengthTest> {
    let days = |age: &Option<Span>| age.map_or(0.0, |age| age.to_days());
    let greatest = breaks.iter().map(|(age, ..)| days(age)).fold(0.0, f64::max);
    let of_age = breaks.iter().filter(|(age, ..)| days(age) >= greatest);
    let strengths: Vec<Pressure> = of_age.map(|(_, strength, _)| *strength).collect();
    strength_test(&strengths).ok()
}

fn maturity(log: &Log<'_>) -> Vec<SensorMaturity> {
    let mut sensors: BTreeMap<&str, Vec<(Moment, Temperature, EntryId)>> = BTreeMap::new();
    for (line, read) in log.each::<TemperatureRead>() {
        let row = (line.at, read.temperature.value(), line.entry.id);
        sensors.entry(read.sensor.as_str()).or_default().push(row);
    }
    sensors.into_iter().filter_map(|(sensor, read)| of_sensor(sensor, &read)).collect()
}

fn of_sensor(sensor: &str, read: &[(Moment, Temperature, EntryId)]) -> Option<SensorMaturity> {
    let stretch = |pair: &[(Moment, Temperature, EntryId)]| WarmStretch {
        duration: Span::minutes(pair[1].0.minutes_since(pair[0].0)),
        mean: Temperature::kelvin((pair[0].1.to_kelvin() + pair[1].1.to_kelvin()) / 2.0),
    };
    let stretches: Vec<WarmStretch> = read.windows(2).map(stretch).collect();
    if stretches.is_empty() {
        return None;
    }
    let (degree_hours, _) = nurse_saul(&stretches, assumed::maturity_datum()).ok()?;
    Some(SensorMaturity {
        sensor: sensor.to_owned(),
        until: read.last()?.0,
        degree_hours,
        equivalent_age: equivalent_age(&stretches, assumed::activation()).ok()?,
        entries: read.iter().map(|(.., entry)| *entry).collect(),
    })
}
