//! Labels: how kinds, fields, choices, families and stages are called on paper.
//!
//! The word in the record is the label with blanks for underscores; only where that would read badly is
//! there another one here.
//!
//! Never: give two things of one kind the same label.

use criteria::{Dimension, Stage, Topic};
use record::{Family, FieldSpec, KindSpec, Shape};

use crate::phrase::capital;

/// Kinds whose word alone would read badly.
const KINDS: &[(&str, &str)] = &[
    ("as_built", "As-built survey"),
    ("interruption", "Interruption of the pour"),
    ("limit_changed", "Limit changed for this job"),
    ("notes_read", "Field notes read in"),
    ("over_poured", "Over-poured"),
    ("stake_out", "Stake-out"),
    ("hold_placed", "Hold placed"),
    ("seal_needs", "Who signs before a seal"),
    ("shaft_sealed", "Shaft sealed"),
    ("signed", "Signature"),
    ("line_out", "Line out of the concrete"),
    ("casing_left", "Casing left in the ground"),
    ("casing_out", "Casing out of the ground"),
];

/// Fields whose name alone would read badly.
const FIELDS: &[(&str, &str)] = &[
    ("cut_off", "Cut-off"),
    ("feel", "Feel of the bottom"),
    ("ph", "pH"),
    ("ph_high", "pH at most"),
    ("ph_known", "pH of the buffer"),
    ("ph_low", "pH at least"),
    ("stand_off", "Stand-off"),
    ("over_pour", "Over-pour"),
    ("w_cm", "w/cm at most"),
    ("lost", "Time lost"),
    ("water_time", "Funnel time of water"),
    ("water_density", "Balance in water"),
    ("off_bottom", "Tip off bottom"),
    ("density_low", "Density at least"),
    ("density_high", "Density at most"),
    ("viscosity", "Funnel time"),
    ("viscosity_low", "Funnel time at least"),
    ("viscosity_high", "Funnel time at most"),
    ("sand_high", "Sand at most"),
    ("slump_low", "Slump at least"),
    ("slump_high", "Slump at most"),
    ("slump_end", "Slump at least until all is in"),
    ("air_low", "Air at least"),
    ("air_high", "Air at most"),
    ("temperature_low", "Temperature at least"),
    ("temperature_high", "Temperature at most"),
    ("storage_low", "Lowest storage temperature"),
    ("storage_high", "Highest storage temperature"),
    ("flow_low", "Flow at least"),
    ("flow_high", "Flow at most"),
    ("fluid_loss_high", "Fluid loss at most"),
    ("cake_high", "Filter cake at most"),
    ("gel_low", "Gel strength at least"),
    ("gel_high", "Gel strength at most"),
    ("limit_high", "Upper limit"),
    ("file", "File (SHA-256)"),
    ("cake", "Filter cake"),
    ("gel", "Gel strength"),
];

/// Choices whose word alone would read badly.
const CHOICES: &[(&str, &str)] = &[
    ("us", "US units"),
    ("metric", "metric units"),
    ("feet_tenths", "feet and tenths"),
    ("feet_inches", "feet and inches"),
    ("survey", "US survey foot"),
    ("international", "international foot"),
    ("ph_meter", "pH meter"),
    ("gamma", "gamma-gamma"),
    ("single_hole", "single hole sonic"),
    ("crosshole", "crosshole sonic"),
];

/// A kind of entry: `Tool run`.
pub fn kind(kind: &KindSpec) -> String {
    called(KINDS, kind.word).unwrap_or_else(|| plain(kind.word))
}

/// A field: `Cut-off`.
pub fn field(field: &FieldSpec) -> String {
    match (field.name, (field.shape)()) {
        ("after", Shape::Text) => "After load".to_owned(),
        (name, _) => field_named(name),
    }
}

/// A field by its name.
pub fn field_named(name: &str) -> String {
    called(FIELDS, name).unwrap_or_else(|| plain(name))
}

/// One word of a choice, in small letters: `temporary casing`.
pub fn choice(word: &str) -> String {
    called(CHOICES, word).unwrap_or_else(|| word.replace('_', " "))
}

/// A family of entries, as the head of a group: `Making the hole`.
pub fn family(family: Family) -> &'static str {
    match family {
        Family::Job => "Job",
        Family::Plan => "Plan",
        Family::Before => "Before drilling",
        Family::Casing => "Casing",
        Family::Excavation => "Excavation",
        Family::Bottom => "Bottom",
        Family::Cage => "Cage and tubes",
        Family::Pour => "Pour",
        Family::After => "After the pour",
        Family::Always => "At any time",
    }
}

/// A stage of the work.
pub fn stage(stage: Stage) -> &'static str {
    match stage {
        Stage::Before => "Before drilling",
        Stage::Excavation => "Excavation",
        Stage::BeforeConcrete => "Before concrete",
        Stage::Placing => "Placing",
        Stage::CasingWithdrawal => "Casing withdrawal",
        Stage::After => "After the pour",
        Stage::Testing => "Integrity tests",
    }
}

/// A dimension a limit hangs on, as a sentence needs it: `the diameter`.
pub fn dimension(dimension: Dimension) -> &'static str {
    match dimension {
        Dimension::Diameter => "the planned diameter",
        Dimension::Depth => "the planned depth",
        Dimension::CutoffDepth => "the depth of the cut-off",
        Dimension::CasingLength => "the length of the temporary casing",
        Dimension::CageInnerWidth => "the inner width of the cage",
        Dimension::TremieInnerDiameter => "the inner diameter of the tremie",
        Dimension::AggregateSize => "the aggregate size",
        Dimension::BarDiameter => "the diameter of the largest longitudinal bar",
        Dimension::BalancingHead => "the head that balances water and fluid outside",
        Dimension::FirstChargeNeeded => "the concrete needed for the first charge",
        Dimension::SpecifiedStrength => "the specified strength",
        Dimension::RatioError => "the standard error of the ratio",
        Dimension::SlumpLife => "the slump life of the mix",
        Dimension::TicketTimeLimit => "the time limit on the ticket",
        Dimension::MixWaterCement => "the water-cement ratio of the mix",
    }
}

/// A condition, as the question the record has not answered: `what the drilling fluid is made of`.
pub fn topic(topic: Topic) -> &'static str {
    match topic {
        Topic::Fluid => "what the drilling fluid is made of",
        Topic::Water => "whether the water is fresh or salt",
        Topic::Hole => "whether the hole is dry or wet when concrete comes",
        Topic::Placing => "how the concrete gets to the bottom",
        Topic::Ground => "whether this part of the shaft stands in soil or rock",
        Topic::Structure => "what the shaft carries",
        Topic::Base => "whether the base carries load",
        Topic::Casing => "whether a casing is pulled or stays",
        Topic::Tubes => "whether access tubes are planned",
        Topic::Bolts => "whether anchor bolts are planned",
        Topic::Form => "whether the top is formed",
        Topic::Axis => "whether the axis is vertical or raked",
        Topic::Site => "whether the shaft stands on land or in open water",
        Topic::Overdepth => "whether the hole was drilled deeper than planned",
        Topic::WaterAdded => "whether water was added on site",
        Topic::Recirculation => "whether the fluid is recirculated",
        Topic::Diameter => "the planned diameter",
        Topic::Aggregate => "the aggregate size",
        Topic::FormAge => "how old the concrete was when the form came off",
        Topic::NeighborAge => "how old the concrete of the nearest shaft is",
    }
}

fn called(table: &[(&str, &str)], word: &str) -> Option<String> {
    table.iter().find(|row| row.0 == word).map(|row| row.1.to_owned())
}

fn plain(word: &str) -> String {
    capital(&word.replace('_', " "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use record::kinds::KINDS as EVERY_KIND;
    use std::collections::BTreeSet;

    #[test]
    fn no_two_kinds_share_a_label() {
        let labels: BTreeSet<String> = EVERY_KIND.iter().map(kind).collect();
        assert_eq!(labels.len(), EVERY_KIND.len());
    }

    #[test]
    fn no_two_fields_of_a_kind_share_a_label() {
        for one in EVERY_KIND {
            let labels: BTreeSet<String> = one.fields.iter().map(field).collect();
            assert_eq!(labels.len(), one.fields.len(), "{}", one.word);
        }
    }

    #[test]
    fn every_label_of_its_own_names_something_that_exists() {
        let fields: BTreeSet<&str> = every_field();
        for (word, _) in KINDS {
            assert!(record::kinds::kind_of(word).is_some(), "{word}");
        }
        for (name, _) in FIELDS {
            assert!(fields.contains(name), "{name}");
        }
    }

    fn every_field() -> BTreeSet<&'static str> {
        let mut names = BTreeSet::new();
        for kind in EVERY_KIND {
            collect(kind.fields, &mut names);
        }
        names
    }

    fn collect(fields: &'static [FieldSpec], names: &mut BTreeSet<&'static str>) {
        for field in fields {
            names.insert(field.name);
            match (field.shape)() {
                record::Shape::Group(inner) => collect(inner, names),
                record::Shape::List(of) => {
                    if let record::Shape::Group(inner) = of() {
                        collect(inner, names);
                    }
                }
                _ => {}
            }
        }
    }

    #[test]
    fn a_word_becomes_a_label() {
        assert_eq!(kind(record::kinds::kind_of("tool_run").unwrap()), "Tool run");
        assert_eq!(field_named("ph"), "pH");
        assert_eq!(choice("temporary_casing"), "temporary casing");
    }
}
