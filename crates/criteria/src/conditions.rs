//! When a criterion applies: a closed list of topics with their words, and a few ranges.
//!
//! A limit for bentonite says nothing about polymer. A condition that nobody has recorded is not assumed:
//! the criterion then *cannot be judged yet*, and the missing topic is named.
//!
//! Words: *topic* = what is asked (`fluid`); *word* = an answer (`polymer`); *range* = a condition on a
//! number (`diameter` above 1 m).
//! Never: guess a missing condition.

use crate::exact;
use quantity::{Exact, Kind, Length, Number, Quantity, Span, Unit};
use std::cmp::Ordering;
use std::collections::BTreeMap;

/// A question about the shaft whose answer decides which criteria apply.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Topic {
    /// What holds the hole open.
    Fluid,
    /// What the fluid is mixed with, or what the groundwater is.
    Water,
    /// Is the bottom under fluid or water when the concrete comes.
    Hole,
    /// How the concrete gets to the bottom.
    Placing,
    /// What the judged part of the shaft stands in.
    Ground,
    /// What stands on the shaft.
    Structure,
    /// What carries the load.
    Base,
    /// Casing pulled out of fresh concrete, or left in place. Temporary wins where there are both.
    Casing,
    /// Access tubes for integrity tests.
    Tubes,
    /// Anchor bolts in the top of the shaft.
    Bolts,
    /// A form around the top of the shaft.
    Form,
    /// The planned axis.
    Axis,
    /// Where the shaft stands.
    Site,
    /// Was the hole drilled deeper than the plans ask.
    Overdepth,
    /// Was water added to the load on site.
    WaterAdded,
    /// Is the fluid recirculated through tanks.
    Recirculation,
    /// The least diameter of the shaft, a range.
    Diameter,
    /// The maximum size of the aggregate, a range.
    Aggregate,
    /// Age of the concrete when the form came off, a range.
    FormAge,
    /// Age of the concrete of the nearest shaft, a range.
    NeighborAge,
}

impl Topic {
    /// Every topic with its key in a criteria file, its words (none: a range) and the unit kind of a range.
    const TABLE: [(Topic, &'static str, &'static [&'static str], Option<Kind>); 20] = [
        (Topic::Fluid, "fluid", &["mineral", "polymer", "water", "none"], None),
        (Topic::Water, "water", &["fresh", "salt"], None),
        (Topic::Hole, "hole", &["dry", "wet"], None),
        (Topic::Placing, "placing", &["tremie", "pump", "free_fall"], None),
        (Topic::Ground, "ground", &["soil", "rock"], None),
        (Topic::Structure, "structure", &["single_column", "footing", "pole", "wall", "other"], None),
        (Topic::Base, "base", &["end_bearing", "side_friction"], None),
        (Topic::Casing, "casing", &["temporary", "permanent", "none"], None),
        (Topic::Tubes, "tubes", &["planned", "none"], None),
        (Topic::Bolts, "bolts", &["planned", "none"], None),
        (Topic::Form, "form", &["used", "none"], None),
        (Topic::Axis, "axis", &["vertical", "raked"], None),
        (Topic::Site, "site", &["land", "open_water"], None),
        (Topic::Overdepth, "overdepth", &["yes", "no"], None),
        (Topic::WaterAdded, "water_added", &["yes", "no"], None),
        (Topic::Recirculation, "recirculation", &["yes", "no"], None),
        (Topic::Diameter, "diameter", &[], Some(Kind::Length)),
        (Topic::Aggregate, "aggregate", &[], Some(Kind::Length)),
        (Topic::FormAge, "form_age", &[], Some(Kind::Span)),
        (Topic::NeighborAge, "neighbor_age", &[], Some(Kind::Span)),
    ];

    /// Every topic.
    pub fn all() -> impl Iterator<Item = Topic> {
        Self::TABLE.into_iter().map(|row| row.0)
    }

    /// The key in a criteria file.
    pub fn key(self) -> &'static str {
        self.row().1
    }

    /// The topic with that key.
    pub fn named(key: &str) -> Option<Topic> {
        Self::all().find(|topic| topic.key() == key)
    }

    /// The words it can be answered with; empty for a range.
    pub fn words(self) -> &'static [&'static str] {
        self.row().2
    }

    /// The kind of the number, for a range.
    pub fn range_of(self) -> Option<Kind> {
        self.row().3
    }

    fn row(self) -> (Topic, &'static str, &'static [&'static str], Option<Kind>) {
        Self::TABLE[self as usize]
    }
}

/// What is known of one shaft (or load, or test) about the topics.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Conditions {
    words: BTreeMap<Topic, &'static str>,
    numbers: BTreeMap<Topic, Number>,
}

impl Conditions {
    /// Nothing is known.
    pub fn new() -> Self {
        Self::default()
    }

    /// The same, with one topic answered.
    ///
    /// Panics when the word is none of the topic's own: the caller's table is wrong then, not the record.
    #[must_use]
    pub fn with(mut self, topic: Topic, word: &str) -> Self {
        let known = topic.words().iter().find(|known| **known == word);
        let word = known.unwrap_or_else(|| panic!("`{word}` is no word of the topic `{}`", topic.key()));
        self.words.insert(topic, word);
        self
    }

    /// The same, with the number of a range topic.
    ///
    /// Panics when the kind of quantity is not that of the topic.
    #[must_use]
    pub fn with_number<Q: Quantity>(mut self, topic: Topic, value: Q) -> Self {
        assert_eq!(topic.range_of(), Some(Q::KIND), "the kind of the topic `{}`", topic.key());
        self.numbers.insert(topic, value.number());
        self
    }

    /// The same, with the diameter of the shaft.
    #[must_use]
    pub fn with_diameter(self, diameter: Length) -> Self {
        self.with_number(Topic::Diameter, diameter)
    }

    /// The same, with the age of the concrete when the form came off.
    #[must_use]
    pub fn with_form_age(self, age: Span) -> Self {
        self.with_number(Topic::FormAge, age)
    }

    /// Both together; where both answer a topic, the answer of `particular` counts.
    #[must_use]
    pub fn and(mut self, particular: &Conditions) -> Self {
        self.words.extend(&particular.words);
        self.numbers.extend(&particular.numbers);
        self
    }

    /// The answer to a topic, if known.
    pub fn word(&self, topic: Topic) -> Option<&'static str> {
        self.words.get(&topic).copied()
    }

    /// The number of a range topic, in SI, if known.
    pub fn number(&self, topic: Topic) -> Option<Number> {
        self.numbers.get(&topic).copied()
    }
}

/// One end of a range, as printed.
#[derive(Debug, Clone, PartialEq)]
pub struct Edge {
    /// As printed in the source.
    pub text: String,
    /// Its unit.
    pub unit: &'static Unit,
    /// In SI.
    pub value: Exact,
    /// The edge itself belongs to the range.
    pub included: bool,
}

/// A range of one topic.
#[derive(Debug, Clone, PartialEq)]
pub struct Range {
    /// `above` or `from`.
    pub low: Option<Edge>,
    /// `below` or `up_to`.
    pub high: Option<Edge>,
}

impl Range {
    /// Does the number lie in the range.
    fn holds(&self, number: Number) -> bool {
        let after = |edge: &Edge, wanted: Ordering| {
            let order = exact::compare(number, Number::Exact(edge.value));
            order == wanted || (edge.included && order == Ordering::Equal)
        };
        self.low.as_ref().is_none_or(|edge| after(edge, Ordering::Greater))
            && self.high.as_ref().is_none_or(|edge| after(edge, Ordering::Less))
    }
}

/// The conditions of one criterion. All have to hold.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct When {
    /// The topic's answer has to be one of these words.
    pub words: BTreeMap<Topic, Vec<&'static str>>,
    /// The topic's number has to lie in the range.
    pub ranges: BTreeMap<Topic, Range>,
}

/// Does a criterion apply.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Applies {
    /// Every condition holds.
    Yes,
    /// At least one condition does not hold.
    No,
    /// No condition fails, and these topics are not known.
    Unclear(Vec<Topic>),
}

impl When {
    /// Compares the conditions with what is known.
    pub fn applies(&self, known: &Conditions) -> Applies {
        let words = self
            .words
            .iter()
            .map(|(topic, words)| (*topic, known.word(*topic).map(|word| words.contains(&word))));
        let ranges = self
            .ranges
            .iter()
            .map(|(topic, range)| (*topic, known.number(*topic).map(|number| range.holds(number))));
        let mut missing = Vec::new();
        for (topic, holds) in words.chain(ranges) {
            match holds {
                Some(true) => {}
                Some(false) => return Applies::No,
                None => missing.push(topic),
            }
        }
        if missing.is_empty() { Applies::Yes } else { Applies::Unclear(missing) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::units;

    #[test]
    fn the_table_stands_in_the_order_of_the_topics() {
        for (index, topic) in Topic::all().enumerate() {
            assert_eq!(topic as usize, index, "{}", topic.key());
            assert_eq!(topic.words().is_empty(), topic.range_of().is_some(), "{}", topic.key());
        }
    }

    fn polymer_above_two_feet() -> When {
        let edge = Edge {
            text: "2".to_owned(),
            unit: &units::FOOT,
            value: Exact::new(6096, 10_000),
            included: false,
        };
        When {
            words: BTreeMap::from([(Topic::Fluid, vec!["polymer"])]),
            ranges: BTreeMap::from([(Topic::Diameter, Range { low: Some(edge), high: None })]),
        }
    }

    #[test]
    fn every_condition_has_to_hold() {
        let known = |word, feet| Conditions::new().with(Topic::Fluid, word).with_diameter(Length::feet(feet));
        let when = polymer_above_two_feet();
        assert_eq!(when.applies(&known("polymer", 2.5)), Applies::Yes);
        assert_eq!(when.applies(&known("polymer", 2.0)), Applies::No, "the edge is not included");
        assert_eq!(when.applies(&known("mineral", 2.5)), Applies::No);
    }

    #[test]
    fn what_is_not_known_is_named_unless_something_else_decides() {
        let when = polymer_above_two_feet();
        let unclear = Applies::Unclear(vec![Topic::Fluid, Topic::Diameter]);
        assert_eq!(when.applies(&Conditions::new()), unclear);
        assert_eq!(when.applies(&Conditions::new().with(Topic::Fluid, "mineral")), Applies::No);
    }
}
