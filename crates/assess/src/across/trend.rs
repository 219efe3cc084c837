//! Fluid tests and slumps of all shafts in the order of time: a plant that gets wetter, a fluid that gets dirtier.
//!
//! Each reading carries what was found of it, and the limits it was held against are told once for all.
//!
//! Units: SI; the measure says which.
//! Never: draw a line through what is only a row of readings; put a quart time beside a litre time.

use super::{OfShaft, One, Place};
use crate::finding::{Finding, Outcome};
use crate::picture::{FreshTest, Load};
use ::criteria::Fact;
use quantity::{InOrder, Moment, units};
use record::choices::FluidPlace;
use record::kinds::FluidTest;
use record::{EntryId, Line};
use std::collections::BTreeMap;

/// What was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Measure {
    /// Density of the fluid, kg/m³.
    FluidDensity,
    /// Marsh time of a quart of the fluid, s.
    FunnelQuart,
    /// Marsh time of a litre of the fluid, s.
    FunnelLiter,
    /// Acidity of the fluid.
    Ph,
    /// Sand in the fluid, part of its volume.
    Sand,
    /// Slump of a load, m.
    Slump,
    /// Spread of a load, m.
    Spread,
}

impl Measure {
    /// Facts about this measure have names that begin so.
    fn family(self) -> &'static str {
        match self {
            Measure::FluidDensity => "fluid.density.",
            Measure::FunnelQuart | Measure::FunnelLiter => "fluid.viscosity.",
            Measure::Ph => "fluid.ph.",
            Measure::Sand => "fluid.sand.",
            Measure::Slump => "slump.placing",
            Measure::Spread => "slump.flow",
        }
    }

    /// Whether a fact is about this measure. The flow table is another instrument than the flow of a slump cone.
    fn is_of(self, fact: &Fact) -> bool {
        match self {
            Measure::Slump | Measure::Spread => fact.name == self.family(),
            _ => fact.name.starts_with(self.family()),
        }
    }
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
    /// Where the fluid was taken; `None` of concrete.
    pub from: Option<FluidPlace>,
    /// The ticket of the load; `None` of fluid.
    pub ticket: Option<String>,
    /// The worst that was found of it.
    pub outcome: Outcome,
    /// The entry.
    pub entry: EntryId,
}

/// A limit that readings were held against.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadingLimit {
    /// What it limits.
    pub measure: Measure,
    /// The fact it stands for, which says at what stage it holds.
    pub fact: &'static Fact,
    /// The least that is allowed; else the most.
    pub least: bool,
    /// In the unit of the measure.
    pub value: f64,
    /// The shafts whose readings were held against it.
    pub places: Vec<Place>,
}

/// The readings of a shaft, and their limits.
pub(super) fn of_shaft(one: &One<'_, '_>) -> (Vec<Reading>, Vec<ReadingLimit>) {
    let mut readings = [fluid(one), fresh(one)].concat();
    let mut limits = Vec::new();
    for reading in &mut readings {
        let about = |finding: &&Finding| {
            reading.measure.is_of(finding.fact) && finding.evidence.contains(&reading.entry)
        };
        let findings: Vec<&Finding> = one.assessment.findings.iter().filter(about).collect();
        let worst = findings.iter().map(|finding| finding.outcome()).min();
        reading.outcome = worst.unwrap_or(Outcome::NoLimitSet);
        limits.extend(findings.into_iter().flat_map(|finding| limits_of(reading, finding)));
    }
    (readings, limits)
}

/// The ends a finding was held against; none where nothing could be compared.
fn limits_of(reading: &Reading, finding: &Finding) -> Vec<ReadingLimit> {
    let compared = matches!(finding.outcome(), Outcome::Meets | Outcome::Fails);
    let Some(limits) = finding.judgement.limits.filter(|_| compared) else { return Vec::new() };
    let end = |least: bool, value: Option<quantity::Number>| {
        let (measure, places) = (reading.measure, vec![reading.place.clone()]);
        Some(ReadingLimit { measure, fact: finding.fact, least, value: value?.to_f64(), places })
    };
    [end(true, limits.low), end(false, limits.high)].into_iter().flatten().collect()
}

/// All readings, each measure in the order of time.
pub(super) fn readings(all: &[OfShaft]) -> Vec<Reading> {
    let mut readings: Vec<Reading> = all.iter().flat_map(|one| one.readings.iter().cloned()).collect();
    readings.put_in_order_by_key(|reading| (reading.measure, reading.at));
    readings
}

/// All limits, each once, with the shafts it was of.
pub(super) fn limits(all: &[OfShaft]) -> Vec<ReadingLimit> {
    let key = |one: &ReadingLimit| (one.measure, one.fact.name, one.least, one.value.to_bits());
    let mut once: BTreeMap<_, ReadingLimit> = BTreeMap::new();
    for limit in all.iter().flat_map(|one| &one.limits) {
        let known =
            once.entry(key(limit)).or_insert_with(|| ReadingLimit { places: Vec::new(), ..limit.clone() });
        if known.places.last() != limit.places.last() {
            known.places.extend(limit.places.iter().cloned());
        }
    }
    once.into_values().collect()
}

fn fluid(one: &One<'_, '_>) -> Vec<Reading> {
    let tests = one.log.each::<FluidTest>();
    tests.flat_map(|(line, test)| of_test(one, line, test)).collect()
}

fn of_test(one: &One<'_, '_>, line: &Line<'_>, test: &FluidTest) -> Vec<Reading> {
    let funnel = test.viscosity.as_ref().map(|time| {
        let time = time.value();
        let quart = time.basis() == &units::SECOND_PER_QUART;
        (if quart { Measure::FunnelQuart } else { Measure::FunnelLiter }, time.to_seconds())
    });
    let found = [
        test.density.as_ref().map(|one| (Measure::FluidDensity, one.value().to_kilograms_per_cubic_meter())),
        funnel,
        test.ph.as_ref().map(|one| (Measure::Ph, one.value().to_units())),
        test.sand.as_ref().map(|one| (Measure::Sand, one.value().to_part())),
    ];
    let reading = |(measure, value): (Measure, f64)| Reading {
        measure,
        place: one.place.clone(),
        at: line.at,
        value,
        from: Some(test.place),
        ticket: None,
        outcome: Outcome::NoLimitSet,
        entry: line.entry.id,
    };
    found.into_iter().flatten().map(reading).collect()
}

/// Slump and spread of each load as it was tested.
fn fresh(one: &One<'_, '_>) -> Vec<Reading> {
    let tests =
        one.assessment.picture.loads.iter().flat_map(|load| load.tests.iter().map(move |test| (load, test)));
    tests.flat_map(|(load, test)| of_load(one, load, test)).collect()
}

fn of_load(one: &One<'_, '_>, load: &Load<'_>, test: &FreshTest) -> Vec<Reading> {
    let found = [(Measure::Slump, test.slump), (Measure::Spread, test.flow)];
    let reading = |(measure, value): (Measure, Option<quantity::Length>)| {
        Some(Reading {
            measure,
            place: one.place.clone(),
            at: test.at,
            value: value?.to_meters(),
            from: None,
            ticket: Some(load.ticket.to_owned()),
            outcome: Outcome::NoLimitSet,
            entry: test.entry,
        })
    };
    found.into_iter().filter_map(reading).collect()
}
