//! Which entry would settle a fact that was not measured.
//!
//! "Not measured" helps nobody at the hole; "sound the bottom and enter the readings" does. A fact nobody
//! can enter yet is settled by a remark that the engineer reads.
//!
//! Never: let a fact go without a row; a test counts them.

mod before;
mod bottom;
mod cage;
mod concrete;
mod finish;
mod fluid;
mod placing;

use crate::label;
use crate::phrase::{and, or, small};
use criteria::{Dimension, Fact, Topic};
use record::kinds::kind_of;

/// An entry that settles something: the word of its kind and the names of its fields.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Wanted {
    /// Word of the kind.
    pub kind: &'static str,
    /// Names of the fields that have to be filled in; empty where the entry alone is enough.
    pub fields: &'static [&'static str],
}

/// One row: a fact and the entries that settle it, all of them.
type Row = (&'static str, &'static [Wanted]);

const FAMILIES: [&[Row]; 7] =
    [before::ROWS, fluid::ROWS, bottom::ROWS, cage::ROWS, concrete::ROWS, placing::ROWS, finish::ROWS];

/// Where no kind of entry has a field for it.
const REMARK: Wanted = want("remark", &["text"]);

/// Short form for the tables.
const fn want(kind: &'static str, fields: &'static [&'static str]) -> Wanted {
    Wanted { kind, fields }
}

/// The entries that settle a fact.
pub fn wanted(fact: &Fact) -> &'static [Wanted] {
    let row = FAMILIES.into_iter().flatten().find(|row| row.0 == fact.name);
    row.expect("every fact has a row; a test counts them").1
}

/// The same as part of a sentence: `“Sediment measured” (points)`.
pub fn wanted_text(fact: &Fact) -> String {
    entries_text(wanted(fact))
}

/// The entries, each with its fields.
pub(crate) fn entries_text(entries: &[Wanted]) -> String {
    and(&entries.iter().map(entry_text).collect::<Vec<_>>())
}

fn entry_text(wanted: &Wanted) -> String {
    let kind = kind_of(wanted.kind).map_or_else(|| wanted.kind.to_owned(), label::kind);
    let fields: Vec<String> = wanted.fields.iter().map(|name| small(&label::field_named(name))).collect();
    if fields.is_empty() { format!("“{kind}”") } else { format!("“{kind}” ({})", and(&fields)) }
}

/// The entries of which any one answers a condition.
pub(crate) fn topic_text(topic: Topic) -> String {
    let entries: Vec<String> = of_topic(topic).iter().map(entry_text).collect();
    or(&entries)
}

/// The entry that tells a dimension.
pub(crate) fn dimension_text(dimension: Dimension) -> String {
    entries_text(of_dimension(dimension))
}

/// Entries of which any one answers a condition.
const TOPICS: &[(Topic, &[Wanted])] = &[
    (Topic::Fluid, &[want("fluid_introduced", &["fluid"]), want("fluid_approved", &["fluid"])]),
    (Topic::Water, &[want("fluid_approved", &["water"])]),
    (Topic::Hole, &[want("shaft_planned", &["method"]), want("fluid_level", &["depth"])]),
    (Topic::Placing, &[want("line_made_up", &["line"])]),
    (Topic::Ground, &[want("shaft_planned", &["bore"]), want("stratum_met", &["ground"])]),
    (Topic::Structure, &[want("shaft_planned", &["structure"])]),
    (Topic::Base, &[want("shaft_planned", &["end_bearing"])]),
    (Topic::Casing, &[want("casing_set", &["stay"]), want("casing_planned", &["casings"])]),
    (Topic::Tubes, &[want("cage_planned", &["tubes"])]),
    (Topic::Bolts, &[want("anchors_planned", &["count"])]),
    (Topic::Form, &[want("top_formed", &[])]),
    (Topic::Axis, &[want("shaft_planned", &["rake"])]),
    (Topic::Site, &[want("shaft_planned", &["open_water"])]),
    (Topic::Diameter, &[want("shaft_planned", &["bore"])]),
    (Topic::Overdepth, &[want("over_excavated", &["to"])]),
    (Topic::WaterAdded, &[want("water_added", &["volume"])]),
    (Topic::Recirculation, &[want("fluid_introduced", &["recirculated"])]),
    (Topic::Aggregate, &[want("mix_approved", &["aggregate"])]),
    (Topic::FormAge, &[want("form_removed", &[])]),
    (Topic::NeighborAge, &[REMARK]),
];

fn of_topic(topic: Topic) -> &'static [Wanted] {
    let row = TOPICS.iter().find(|row| row.0 == topic);
    row.expect("every topic has a row; a test asks for each").1
}

/// Entries that tell a dimension.
const DIMENSIONS: &[(Dimension, &[Wanted])] = &[
    (Dimension::Diameter, &[want("shaft_planned", &["bore"])]),
    (Dimension::Depth, &[want("shaft_planned", &["ground", "tip"])]),
    (Dimension::CutoffDepth, &[want("shaft_planned", &["ground", "cut_off"])]),
    (Dimension::CasingLength, &[want("casing_set", &["length"])]),
    (Dimension::CageInnerWidth, &[want("cage_planned", &["diameter", "bars", "hoops"])]),
    (Dimension::TremieInnerDiameter, &[want("line_made_up", &["inside"])]),
    (Dimension::AggregateSize, &[want("mix_approved", &["aggregate"])]),
    (Dimension::BarDiameter, &[want("cage_planned", &["bars"])]),
    (Dimension::BalancingHead, &[want("fluid_level", &["depth", "groundwater"])]),
    (Dimension::FirstChargeNeeded, &[want("line_made_up", &["inside", "off_bottom", "hopper"])]),
    (Dimension::SpecifiedStrength, &[want("mix_approved", &["strength"])]),
    (Dimension::RatioError, &[want("concrete_sounded", &["points"])]),
    (Dimension::SlumpLife, &[want("mix_approved", &["trial", "slump_end"])]),
    (Dimension::TicketTimeLimit, &[want("load_arrived", &["discharge_within"])]),
    (Dimension::MixWaterCement, &[want("mix_approved", &["w_cm"])]),
];

fn of_dimension(dimension: Dimension) -> &'static [Wanted] {
    let row = DIMENSIONS.iter().find(|row| row.0 == dimension);
    row.expect("every dimension has a row; a test asks for each").1
}

#[cfg(test)]
mod tests {
    use super::*;
    use criteria::facts;
    use expect_test::expect;
    use std::collections::BTreeSet;

    #[test]
    fn every_fact_has_exactly_one_row() {
        let rows: Vec<&str> = FAMILIES.into_iter().flatten().map(|row| row.0).collect();
        let unique: BTreeSet<&str> = rows.iter().copied().collect();
        let facts: BTreeSet<&str> = facts::all().map(|fact| fact.name).collect();
        assert_eq!(unique, facts);
        assert_eq!(rows.len(), unique.len());
    }

    #[test]
    fn every_row_names_kinds_and_fields_that_exist() {
        let rows = FAMILIES.into_iter().flatten().flat_map(|row| row.1);
        let topics = Topic::all().flat_map(of_topic);
        for wanted in rows.chain(topics).chain(Dimension::all().flat_map(of_dimension)) {
            let kind = kind_of(wanted.kind).unwrap_or_else(|| panic!("{}", wanted.kind));
            for name in wanted.fields {
                assert!(kind.fields.iter().any(|field| field.name == *name), "{} {name}", wanted.kind);
            }
        }
    }

    #[test]
    fn what_is_wanted_reads_as_part_of_a_sentence() {
        let told = |fact: &str| wanted_text(facts::named(fact).unwrap());
        expect![[r#"
            “Sediment measured” (points)
            “Cage checked” (diameter)
            “Fluid introduced” (fluid) or “Fluid approved” (fluid)"#]]
        .assert_eq(&[told("bottom.sediment.max"), told("cage.cover"), topic_text(Topic::Fluid)].join("\n"));
    }
}
