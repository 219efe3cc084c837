//! A limit: the value as printed, or a recipe from the dimensions of the shaft.
//!
//! A recipe is one of three words over a list of terms: the smaller of them, the larger of them, or their
//! sum. A term is a printed value or a factor times a dimension. Nothing else can be said, so a reader of
//! the file can check every limit with a pencil.
//!
//! Words: *printed* = text and unit exactly as in the source.
//! Units: SI inside.
//! Never: round; invent a missing dimension.

use crate::dimensions::{Dimension, Dimensions};
use crate::exact;
use quantity::{Exact, Number, Unit};

/// The unit of a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LimitUnit {
    /// A unit of a quantity.
    Unit(&'static Unit),
    /// A unit of temperature, for a difference: the beginning of the scale does not count.
    Step(&'static Unit),
    /// What a plain number counts; often empty.
    Plain(&'static str),
}

impl LimitUnit {
    /// How it is printed.
    pub fn symbol(self) -> &'static str {
        match self {
            LimitUnit::Unit(unit) | LimitUnit::Step(unit) => unit.symbol,
            LimitUnit::Plain(symbol) => symbol,
        }
    }

    /// The SI value of a printed number.
    pub(crate) fn si_of(self, number: Exact) -> Exact {
        match self {
            LimitUnit::Unit(unit) => unit.si_of(number),
            LimitUnit::Step(unit) => number * unit.factor(),
            LimitUnit::Plain(_) => number,
        }
    }

    /// A reading in this unit, from SI.
    pub fn reading_from_si(self, number: Number) -> f64 {
        match self {
            LimitUnit::Unit(unit) => {
                let zero = Number::Exact(unit.si_of(Exact::from_integer(0)));
                self.size_from_si(exact::difference(number, zero))
            }
            LimitUnit::Step(_) | LimitUnit::Plain(_) => self.size_from_si(number),
        }
    }

    /// A difference in this unit, from SI.
    pub fn size_from_si(self, number: Number) -> f64 {
        match self {
            LimitUnit::Unit(unit) | LimitUnit::Step(unit) => {
                exact::product(number, Number::Exact(unit.factor().recip())).to_f64()
            }
            LimitUnit::Plain(_) => number.to_f64(),
        }
    }
}

/// A value as printed in the source, beside what it means.
#[derive(Debug, Clone, PartialEq)]
pub struct Printed {
    /// As printed.
    pub text: String,
    /// Its unit.
    pub unit: LimitUnit,
    /// In SI, exact.
    pub value: Exact,
}

impl Printed {
    /// Reads a printed number; `None` when it is none.
    pub fn parse(text: &str, unit: LimitUnit) -> Option<Self> {
        let value = unit.si_of(exact::number(text)?);
        Some(Printed { text: text.to_owned(), unit, value })
    }

    /// The length of the way from zero to the value: what an accuracy or a tolerance means.
    pub(crate) fn size(&self) -> Exact {
        let zero = self.unit.si_of(Exact::from_integer(0));
        self.value - zero
    }
}

/// One term of a recipe.
#[derive(Debug, Clone, PartialEq)]
pub enum Term {
    /// A value as printed.
    Printed(Printed),
    /// A factor times a dimension.
    Times {
        /// As printed, for example `1/24`.
        text: String,
        /// The same, exact.
        factor: Exact,
        /// Of what.
        of: Dimension,
        /// Counts how many of this unit the dimension is: one tube per foot.
        per: Option<&'static Unit>,
    },
}

impl Term {
    /// Its value in SI, or the dimension that is missing.
    fn value(&self, dimensions: &Dimensions) -> Result<Number, Dimension> {
        match self {
            Term::Printed(printed) => Ok(Number::Exact(printed.value)),
            Term::Times { factor, of, per, .. } => {
                let dimension = dimensions.get(*of).ok_or(*of)?;
                let factor = per.map_or(*factor, |unit| *factor / unit.factor());
                Ok(exact::product(Number::Exact(factor), dimension))
            }
        }
    }
}

/// How the value of a limit comes about.
#[derive(Debug, Clone, PartialEq)]
pub enum Recipe {
    /// The value as printed.
    Printed(Printed),
    /// The least of the terms.
    SmallerOf(Vec<Term>),
    /// The greatest of the terms.
    LargerOf(Vec<Term>),
    /// All terms together.
    SumOf(Vec<Term>),
}

/// A limit of one side.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// The unit of every printed value in it, and of the result when it is shown.
    pub unit: LimitUnit,
    /// How its value comes about. A list of terms is never empty.
    pub recipe: Recipe,
}

impl Limit {
    /// Its value in SI.
    ///
    /// # Errors
    /// Every dimension that is needed and not known.
    pub fn value(&self, dimensions: &Dimensions) -> Result<Number, Vec<Dimension>> {
        let (terms, pick): (_, fn(Number, Number) -> Number) = match &self.recipe {
            Recipe::Printed(printed) => return Ok(Number::Exact(printed.value)),
            Recipe::SmallerOf(terms) => (terms, |a, b| if exact::compare(b, a).is_lt() { b } else { a }),
            Recipe::LargerOf(terms) => (terms, |a, b| if exact::compare(b, a).is_gt() { b } else { a }),
            Recipe::SumOf(terms) => (terms, exact::sum),
        };
        let mut known = Vec::new();
        let mut missing = Vec::new();
        for term in terms {
            term.value(dimensions)
                .map_or_else(|dimension| missing.push(dimension), |value| known.push(value));
        }
        if !missing.is_empty() {
            return Err(missing);
        }
        Ok(known.into_iter().reduce(pick).expect("the reader refuses a recipe without terms"))
    }

    /// Every dimension the limit hangs on.
    pub fn dimensions(&self) -> Vec<Dimension> {
        self.value(&Dimensions::new()).err().unwrap_or_default()
    }
}

/// What a criterion asks of its fact.
#[derive(Debug, Clone, PartialEq)]
pub enum Rule {
    /// The limit itself still meets.
    AtMost(Limit),
    /// The limit itself still meets.
    AtLeast(Limit),
    /// The limit itself fails.
    Below(Limit),
    /// The limit itself fails.
    Above(Limit),
    /// From `low` to `high`, both included.
    Between {
        /// The lower limit.
        low: Printed,
        /// The upper limit.
        high: Printed,
    },
    /// A signed deviation, from `minus` below zero to `plus` above it, both included.
    Within {
        /// How far below, as printed, not negative.
        minus: Printed,
        /// How far above, as printed, not negative.
        plus: Printed,
    },
    /// It has to be so.
    Yes,
    /// It must not be so.
    No,
    /// The document asks for the value and names no limit.
    Report,
}

impl Rule {
    /// The word in a criteria file.
    pub fn word(&self) -> &'static str {
        match self {
            Rule::AtMost(_) => "at_most",
            Rule::AtLeast(_) => "at_least",
            Rule::Below(_) => "below",
            Rule::Above(_) => "above",
            Rule::Between { .. } => "between",
            Rule::Within { .. } => "within",
            Rule::Yes => "yes",
            Rule::No => "no",
            Rule::Report => "report",
        }
    }

    /// Every word.
    pub const WORDS: [&'static str; 9] =
        ["at_most", "at_least", "below", "above", "between", "within", "yes", "no", "report"];

    /// Does the rule hold a number.
    pub fn has_limit(&self) -> bool {
        !matches!(self, Rule::Yes | Rule::No | Rule::Report)
    }
}
