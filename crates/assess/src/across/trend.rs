//! Fluid tests and slumps of all shafts in the order of time: a plant that gets wetter, a fluid that gets dirtier.
//!
//! Units: SI; the measure says which.
//! Never: draw a line through what is only a row of readings.

use super::{One, Place};
use quantity::{InOrder, Moment};
use record::EntryId;
use record::kinds::FluidTest;

/// What was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Measure {
    /// Density of the fluid, kg/m³.
    FluidDensity,
    /// Sand in the fluid, part of its volume.
    Sand,
    /// Acidity of the fluid.
    Ph,
    /// Slump of a load, m.
    Slump,
}

/// One reading.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// What was measured.
    pub measure: Measure,
    /// Of which shaft.
    pub place: Place,
    /// When.
    pub at: Moment,
    /// How much, in the unit of the measure.
    pub value: f64,
    /// The entry.
    pub entry: EntryId,
}

pub(super) fn readings(all: &[One<'_>]) -> Vec<Reading> {
    let mut readings: Vec<Reading> = all.iter().flat_map(|one| [fluid(one), slump(one)].concat()).collect();
    readings.put_in_order_by_key(|reading| (reading.measure, reading.at));
    readings
}

fn fluid(one: &One<'_>) -> Vec<Reading> {
    let tests = one.log.each::<FluidTest>().flat_map(|(line, test)| {
        let found = [
            (
                Measure::FluidDensity,
                test.density.as_ref().map(|one| one.value().to_kilograms_per_cubic_meter()),
            ),
            (Measure::Ph, test.ph.as_ref().map(|one| one.value().to_units())),
            (Measure::Sand, test.sand.as_ref().map(|one| one.value().to_part())),
        ];
        let reading = |(measure, value): (Measure, Option<f64>)| {
            Some(Reading {
                measure,
                place: one.place.clone(),
                at: line.at,
                value: value?,
                entry: line.entry.id,
            })
        };
        found.into_iter().filter_map(reading).collect::<Vec<_>>()
    });
    tests.collect()
}

fn slump(one: &One<'_>) -> Vec<Reading> {
    let tests = one.assessment.picture.loads.iter().flat_map(|load| &load.tests);
    let reading = |test: &crate::picture::FreshTest| {
        let place = one.place.clone();
        let value = test.slump?.to_meters();
        Some(Reading { measure: Measure::Slump, place, at: test.at, value, entry: test.entry })
    };
    tests.filter_map(reading).collect()
}
