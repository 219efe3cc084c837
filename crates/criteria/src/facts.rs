//! The closed list of everything a criterion may measure.
//!
//! A criteria file names a fact, the assessment produces it: the name is the whole contract between the
//! two. A misspelt name is refused when the file is read, so a limit can never silently hang in the air.
//!
//! Words: *fact* = one measurable thing with a name; *per* = what one value belongs to.
//! Never: hold a limit; compute a value.

mod before;
mod bottom;
mod cage;
mod concrete;
mod excavation;
mod finish;
mod fluid;
mod placing;

use quantity::Kind;

/// What sort of value a fact has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// A quantity; limits carry one of its units.
    Amount(Kind),
    /// A difference of two temperatures: 35 °F of difference is not 35 °F on the thermometer.
    TemperatureStep,
    /// A plain number; the text is the only unit a limit may carry, often empty.
    Plain(&'static str),
    /// It is so, or it is not.
    YesNo,
}

/// The part of the work a fact belongs to, in the order of the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stage {
    /// Papers, equipment, stake-out, utilities, surface casing.
    Before,
    /// From the first tool run to the bottom.
    Excavation,
    /// Cleaning, bottom, cage, tubes, last fluid test.
    BeforeConcrete,
    /// From the first load to the end of the pour.
    Placing,
    /// While temporary casing is pulled out of the fresh concrete.
    CasingWithdrawal,
    /// Top form, bolts, curing, cylinders, as-built survey.
    After,
    /// Integrity tests.
    Testing,
}

impl Stage {
    /// Every stage, in order.
    pub const ALL: [Stage; 7] = [
        Stage::Before,
        Stage::Excavation,
        Stage::BeforeConcrete,
        Stage::Placing,
        Stage::CasingWithdrawal,
        Stage::After,
        Stage::Testing,
    ];

    /// The word in a criteria file.
    pub fn word(self) -> &'static str {
        match self {
            Stage::Before => "before",
            Stage::Excavation => "excavation",
            Stage::BeforeConcrete => "before_concrete",
            Stage::Placing => "placing",
            Stage::CasingWithdrawal => "casing_withdrawal",
            Stage::After => "after",
            Stage::Testing => "testing",
        }
    }

    /// The stage with that word.
    pub fn named(word: &str) -> Option<Stage> {
        Self::ALL.into_iter().find(|stage| stage.word() == word)
    }
}

/// What one value of a fact belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Per {
    /// One value for the shaft; where it changes with time, the least favourable one so far.
    Shaft,
    /// One value for each test or sample.
    Test,
    /// One value for each load of concrete.
    Load,
    /// One value for each interval between two soundings of the concrete.
    Interval,
    /// One value for each lift of the casing.
    Lift,
    /// One value for each access tube or pair of tubes.
    Tube,
    /// One value for each anchor bolt.
    Bolt,
}

/// One measurable thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fact {
    /// Stable for ever; printed in criteria files.
    pub name: &'static str,
    /// What sort of value it has.
    pub measure: Measure,
    /// The part of the work it belongs to.
    pub stage: Stage,
    /// What one value belongs to.
    pub per: Per,
    /// What is measured, in one line.
    pub meaning: &'static str,
}

/// Every family of the list, in the order of the work.
const FAMILIES: [&[Fact]; 8] = [
    before::FACTS,
    excavation::FACTS,
    fluid::FACTS,
    bottom::FACTS,
    cage::FACTS,
    concrete::FACTS,
    placing::FACTS,
    finish::FACTS,
];

/// Every fact, in the order of the work.
pub fn all() -> impl Iterator<Item = &'static Fact> {
    FAMILIES.into_iter().flatten()
}

/// The fact with that name.
pub fn named(name: &str) -> Option<&'static Fact> {
    all().find(|fact| fact.name == name)
}

/// The name most like `name`, for a person who misspelt it; `None` when nothing comes close.
pub fn nearest(name: &str) -> Option<&'static str> {
    crate::spelling::nearest(name, all().map(|fact| fact.name))
}

/// One row of the tables in this folder.
const fn fact(name: &'static str, kind: (Measure, Stage, Per), meaning: &'static str) -> Fact {
    Fact { name, measure: kind.0, stage: kind.1, per: kind.2, meaning }
}

/// Short names for the tables in this folder.
mod short {
    pub(super) use super::Measure::{self, Plain, TemperatureStep, YesNo};
    pub(super) use super::Per::{Bolt, Interval, Lift, Load, Shaft, Test, Tube};
    pub(super) use super::Stage::{
        After, Before, BeforeConcrete, CasingWithdrawal, Excavation, Placing, Testing,
    };
    pub(super) use super::{Fact, fact};
    use quantity::Kind;

    pub(super) const LENGTH: Measure = Measure::Amount(Kind::Length);
    pub(super) const SPAN: Measure = Measure::Amount(Kind::Span);
    pub(super) const SLOPE: Measure = Measure::Amount(Kind::Slope);
    pub(super) const SHARE: Measure = Measure::Amount(Kind::Fraction);
    pub(super) const DENSITY: Measure = Measure::Amount(Kind::Density);
    pub(super) const VISCOSITY: Measure = Measure::Amount(Kind::FunnelTime);
    pub(super) const ACIDITY: Measure = Measure::Amount(Kind::Ph);
    pub(super) const TEMPERATURE: Measure = Measure::Amount(Kind::Temperature);
    pub(super) const PRESSURE: Measure = Measure::Amount(Kind::Pressure);
    pub(super) const VOLUME: Measure = Measure::Amount(Kind::Volume);
    /// A speed: rise of water, rise of concrete, lift of a pipe.
    pub(super) const SPEED: Measure = Measure::Amount(Kind::Inflow);
    pub(super) const WATER_CEMENT: Measure = Measure::Amount(Kind::WaterCement);
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn no_name_is_used_twice() {
        let names: BTreeSet<_> = all().map(|fact| fact.name).collect();
        assert_eq!(names.len(), all().count());
    }

    #[test]
    fn a_name_is_family_dot_thing_in_lower_case() {
        for fact in all() {
            let fits = fact.name.chars().all(|c| c.is_ascii_lowercase() || c == '.' || c == '_');
            assert!(fits && fact.name.contains('.'), "{}", fact.name);
        }
    }

    #[test]
    fn a_meaning_is_one_sentence_without_a_limit() {
        for fact in all() {
            let one_line = fact.meaning.ends_with('.') && !fact.meaning.contains('\n');
            let has_number = fact.meaning.chars().any(|c| c.is_ascii_digit());
            assert!(one_line && !has_number, "{}: {}", fact.name, fact.meaning);
        }
    }
}
