//! A measurement: the value of one fact, for one subject, with the entries it rests on.

use criteria::{Conditions, Dimensions, Measured};
use quantity::{Elevation, Moment, Volume};
use record::EntryId;

/// What one value belongs to.
#[derive(Debug, Clone, PartialEq)]
pub enum Subject {
    /// The shaft.
    Shaft,
    /// A test or a reading, named by its entry.
    Test(EntryId),
    /// A load, by its ticket.
    Load(String),
    /// A stretch of the shaft between two levels.
    Interval {
        /// Its lower end.
        lower: Elevation,
        /// Its upper end.
        upper: Elevation,
    },
    /// A lift of a casing, by its number from 1.
    Lift(usize),
    /// An access tube or a pair of tubes.
    Tube(String),
    /// An anchor bolt.
    Bolt(String),
}

/// What a value was made of, where a person has to see it to understand the value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Aside {
    /// A ratio, and that of the rest of its shaft.
    Ratios {
        /// Of this stretch.
        own: f64,
        /// Of all others together.
        rest: f64,
    },
    /// What ran over the top; a height alone does not tell it.
    RanOver(Volume),
}

/// The value of one fact.
#[derive(Debug, Clone, PartialEq)]
pub struct Measurement {
    /// Name in the list of facts.
    pub fact: &'static str,
    /// What it belongs to.
    pub subject: Subject,
    /// The value; `None`: it should have been measured and was not.
    pub value: Option<Measured>,
    /// When it was measured, or became known.
    pub at: Option<Moment>,
    /// The entries it rests on. Not empty when there is a value.
    pub evidence: Vec<EntryId>,
    /// What of the situation is particular to this value: a test's fluid, a load's mix.
    pub conditions: Conditions,
    /// Dimensions particular to this value.
    pub dimensions: Dimensions,
    /// What it was made of.
    pub aside: Option<Aside>,
}

impl Measurement {
    /// A value of the shaft.
    pub fn shaft(fact: &'static str, value: impl Into<Measured>, evidence: Vec<EntryId>) -> Self {
        Self::of(fact, Subject::Shaft, Some(value.into()), evidence)
    }

    /// A value of something else.
    pub fn of(fact: &'static str, subject: Subject, value: Option<Measured>, evidence: Vec<EntryId>) -> Self {
        assert!(criteria::facts::named(fact).is_some(), "`{fact}` stands in the list of facts");
        Measurement {
            fact,
            subject,
            value,
            at: None,
            evidence,
            conditions: Conditions::new(),
            dimensions: Dimensions::new(),
            aside: None,
        }
    }

    /// The shaft's value is due and nobody measured it.
    pub fn missing(fact: &'static str) -> Self {
        Self::of(fact, Subject::Shaft, None, Vec::new())
    }

    /// The same, with the moment it was measured.
    #[must_use]
    pub fn at(mut self, at: Moment) -> Self {
        self.at = Some(at);
        self
    }

    /// The same, with conditions of its own.
    #[must_use]
    pub fn when(mut self, conditions: Conditions) -> Self {
        self.conditions = conditions;
        self
    }

    /// The same, with dimensions of its own.
    #[must_use]
    pub fn with(mut self, dimensions: Dimensions) -> Self {
        self.dimensions = dimensions;
        self
    }

    /// The same, with what it was made of.
    #[must_use]
    pub fn beside(mut self, aside: Aside) -> Self {
        self.aside = Some(aside);
        self
    }
}
