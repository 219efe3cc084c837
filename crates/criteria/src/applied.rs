//! A set in force on a job: the limits of the file, with the job's own changes beside them.
//!
//! The contract wins over any published style. A change never hides what it replaces: the original stays
//! in sight, with who changed it and why.
//!
//! Words: *override* = a change of one limit, or turning it off, with a reason and a name.
//! Never: drop an override silently; change what a criterion measures.

use crate::conditions::{Applies, Conditions, Topic};
use crate::criterion::{Criterion, Sure};
use crate::dimensions::Dimensions;
use crate::facts::{self, Fact, Measure};
use crate::judge::{Judgement, NoLimit, Obstacle, Verdict, judge};
use crate::limit::{Limit, LimitUnit, Printed, Recipe, Rule};
use crate::measured::Measured;
use crate::read::unit_named;
use crate::set::{About, Set};
use crate::spelling;
use std::collections::BTreeMap;
use std::sync::Arc;

/// A job's change of one criterion.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Override {
    /// The id of the criterion.
    pub criterion: String,
    /// What is changed.
    pub change: Change,
    /// Why: the place in the contract, or the engineer's words. Not empty.
    pub reason: String,
    /// Who decided. Not empty.
    pub who: String,
}

/// What an override changes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Change {
    /// Another limit for a rule with one side.
    Limit {
        /// As the person wrote it, without its unit.
        value: String,
        /// Its unit.
        unit: String,
    },
    /// Other limits for `between` (low, high) or `within` (minus, plus).
    Range {
        /// The lower limit, or how far below.
        low: String,
        /// The upper limit, or how far above.
        high: String,
        /// Their unit.
        unit: String,
    },
    /// No limit is set on this job.
    TurnedOff,
}

impl Change {
    /// The change as a record holds it: the limit with its unit, a second one where the rule has two, and
    /// nothing at all where no limit is set any more. A unit written once counts for both.
    pub fn written(limit: Option<&str>, high: Option<&str>) -> Self {
        let (Some(limit), high) = (limit, high.map(split)) else { return Change::TurnedOff };
        let (value, unit) = split(limit);
        match high {
            None => Change::Limit { value, unit },
            Some((high, high_unit)) if unit.is_empty() || high_unit.is_empty() || unit == high_unit => {
                let unit = if unit.is_empty() { high_unit } else { unit };
                Change::Range { low: value, high, unit }
            }
            Some((high, other)) => Change::Range { low: value, high: format!("{high} {other}"), unit },
        }
    }
}

/// `1 1/2 in` is `1 1/2` and `in`.
fn split(text: &str) -> (String, String) {
    let text = text.trim();
    let number = |c: char| c.is_ascii_digit() || ". /-+".contains(c);
    let end = text.find(|c: char| !number(c)).unwrap_or(text.len());
    (text[..end].trim().to_owned(), text[end..].trim().to_owned())
}

/// A change that was accepted.
#[derive(Debug, Clone, PartialEq)]
pub struct Changed {
    /// The rule in force; `None` when the criterion is turned off.
    pub rule: Option<Rule>,
    /// Why.
    pub reason: String,
    /// Who decided.
    pub who: String,
}

/// A criterion as it is in force.
#[derive(Debug, Clone, PartialEq)]
pub struct InForce {
    /// As the file has it. Shared: every finding carries its criterion.
    pub original: Arc<Criterion>,
    /// The job's change, if there is one.
    pub changed: Option<Changed>,
}

impl InForce {
    /// The rule in force; `None` when the criterion is turned off.
    pub fn rule(&self) -> Option<&Rule> {
        self.changed.as_ref().map_or(Some(&self.original.rule), |changed| changed.rule.as_ref())
    }

    /// How far the limit in force can be relied on: a changed one stands on the person who changed it.
    pub fn sure(&self) -> Sure {
        if self.changed.is_some() { Sure::Job } else { self.original.sure }
    }
}

/// Why an override was refused.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refusal {
    /// No criterion has that id; perhaps this one was meant.
    UnknownCriterion(Option<String>),
    /// The criterion was changed by an earlier override of the same list.
    ChangedTwice,
    /// The reason is empty.
    NoReason,
    /// The name is empty.
    NoName,
    /// The unit is not one of what the criterion measures.
    UnitUnknown(String),
    /// This is no number.
    NotANumber(String),
    /// One limit was given where the rule has two, two where it has one, or any where it has none.
    WrongShape,
    /// The lower limit lies above the upper one, or a tolerance is negative.
    Reversed,
}

/// An override that was refused, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RefusedOverride {
    /// The id it named.
    pub criterion: String,
    /// Why.
    pub why: Refusal,
}

/// A set with a job's overrides.
#[derive(Debug, Clone, PartialEq)]
pub struct SetInForce {
    /// What the set is.
    pub about: About,
    /// SHA-256 of the file's text, lower-case hexadecimal.
    pub sha256: String,
    /// Every criterion in the order of the file, the turned-off ones too.
    pub criteria: Vec<InForce>,
}

/// What is known of the shaft, load or test that is judged.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Situation {
    /// Decides which criteria apply.
    pub conditions: Conditions,
    /// Decides what derived limits come to.
    pub dimensions: Dimensions,
}

/// Which criteria apply to a fact.
#[derive(Debug, Clone, PartialEq)]
pub struct Lookup<'a> {
    /// These apply.
    pub apply: Vec<&'a InForce>,
    /// Nobody can say yet whether these apply: the topics are not known.
    pub unclear: Vec<(&'a InForce, Vec<Topic>)>,
}

impl SetInForce {
    /// The criterion with that id.
    pub fn get(&self, id: &str) -> Option<&InForce> {
        self.criteria.iter().find(|criterion| criterion.original.id == id)
    }

    /// Every fact the set asks for, in the order of the work.
    pub fn facts(&self) -> Vec<&'static Fact> {
        let asked = |fact: &&Fact| self.criteria.iter().any(|one| one.original.fact.name == fact.name);
        facts::all().filter(asked).collect()
    }

    /// Which criteria apply to a fact under the conditions.
    pub fn criteria_for(&self, fact: &str, conditions: &Conditions) -> Lookup<'_> {
        let mut found = Lookup { apply: Vec::new(), unclear: Vec::new() };
        for criterion in self.criteria.iter().filter(|criterion| criterion.original.fact.name == fact) {
            match criterion.original.when.applies(conditions) {
                Applies::Yes => found.apply.push(criterion),
                Applies::No => {}
                Applies::Unclear(topics) => found.unclear.push((criterion, topics)),
            }
        }
        found
    }

    /// Judges one value of a fact by every criterion that applies, in the order of the file.
    ///
    /// There is always at least one judgement: without a criterion it is `NoLimitSet`. A criterion nobody
    /// can yet say applies gives `CannotSay`, whether or not there is a value.
    pub fn judge(
        &self,
        fact: &str,
        measured: Option<Measured>,
        situation: &Situation,
    ) -> Vec<(Option<&InForce>, Judgement)> {
        let found = self.criteria_for(fact, &situation.conditions);
        let mut all: Vec<_> = found
            .apply
            .into_iter()
            .map(|criterion| (Some(criterion), judge(criterion, measured, &situation.dimensions)))
            .collect();
        for (criterion, topics) in found.unclear {
            all.push((Some(criterion), Judgement::bare(unclear(criterion, topics))));
        }
        if all.is_empty() {
            all.push((None, Judgement::bare(Verdict::NoLimitSet(NoLimit::NotInSet))));
        }
        all
    }
}

fn unclear(criterion: &InForce, topics: Vec<Topic>) -> Verdict {
    match criterion.rule() {
        None => Verdict::NoLimitSet(NoLimit::TurnedOff),
        Some(_) => Verdict::CannotSay(topics.into_iter().map(Obstacle::ConditionUnknown).collect()),
    }
}

impl Set {
    /// The set as it is in force on a job. A refused override is named; the original limit stays then.
    pub fn in_force(&self, overrides: &[Override]) -> (SetInForce, Vec<RefusedOverride>) {
        let mut accepted = BTreeMap::new();
        let mut refused = Vec::new();
        for change in overrides {
            let again = accepted.contains_key(change.criterion.as_str());
            let outcome = if again { Err(Refusal::ChangedTwice) } else { self.accept(change) };
            match outcome {
                Ok(changed) => _ = accepted.insert(change.criterion.as_str(), changed),
                Err(why) => refused.push(RefusedOverride { criterion: change.criterion.clone(), why }),
            }
        }
        let criteria = self.criteria.iter().map(|criterion| InForce {
            changed: accepted.remove(criterion.id.as_str()),
            original: Arc::new(criterion.clone()),
        });
        let criteria = criteria.collect();
        (SetInForce { about: self.about.clone(), sha256: self.sha256.clone(), criteria }, refused)
    }

    fn accept(&self, wanted: &Override) -> Result<Changed, Refusal> {
        let Some(criterion) = self.get(&wanted.criterion) else {
            let ids = self.criteria.iter().map(|criterion| criterion.id.as_str());
            let nearest = spelling::nearest(&wanted.criterion, ids);
            return Err(Refusal::UnknownCriterion(nearest.map(str::to_owned)));
        };
        if wanted.reason.trim().is_empty() {
            return Err(Refusal::NoReason);
        }
        if wanted.who.trim().is_empty() {
            return Err(Refusal::NoName);
        }
        let rule = changed_rule(criterion, &wanted.change)?;
        Ok(Changed { rule, reason: wanted.reason.clone(), who: wanted.who.clone() })
    }
}

fn changed_rule(criterion: &Criterion, change: &Change) -> Result<Option<Rule>, Refusal> {
    match change {
        Change::TurnedOff => Ok(None),
        Change::Limit { value, unit } => {
            let printed = printed(criterion.fact.measure, value, unit)?;
            let limit = Limit { unit: printed.unit, recipe: Recipe::Printed(printed) };
            one_sided(&criterion.rule, limit).map(Some)
        }
        Change::Range { low, high, unit } => {
            let measure = criterion.fact.measure;
            two_sided(&criterion.rule, printed(measure, low, unit)?, printed(measure, high, unit)?).map(Some)
        }
    }
}

fn printed(measure: Measure, value: &str, unit: &str) -> Result<Printed, Refusal> {
    let unit: LimitUnit = unit_named(measure, unit).ok_or_else(|| Refusal::UnitUnknown(unit.to_owned()))?;
    Printed::parse(value, unit).ok_or_else(|| Refusal::NotANumber(value.to_owned()))
}

/// The same rule with another limit.
fn one_sided(rule: &Rule, limit: Limit) -> Result<Rule, Refusal> {
    match rule {
        Rule::AtMost(_) => Ok(Rule::AtMost(limit)),
        Rule::AtLeast(_) => Ok(Rule::AtLeast(limit)),
        Rule::Below(_) => Ok(Rule::Below(limit)),
        Rule::Above(_) => Ok(Rule::Above(limit)),
        _ => Err(Refusal::WrongShape),
    }
}

fn two_sided(rule: &Rule, low: Printed, high: Printed) -> Result<Rule, Refusal> {
    match rule {
        Rule::Between { .. } if low.value > high.value => Err(Refusal::Reversed),
        Rule::Between { .. } => Ok(Rule::Between { low, high }),
        Rule::Within { .. } if low.size() < 0.into() || high.size() < 0.into() => Err(Refusal::Reversed),
        Rule::Within { .. } => Ok(Rule::Within { minus: low, plus: high }),
        _ => Err(Refusal::WrongShape),
    }
}
