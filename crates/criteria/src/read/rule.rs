//! Reads the rule of a criterion and its limit.
//!
//! Never: accept a limit in the wrong kind of unit; accept two limits where one is meant.

use super::{unit_named, units_of};
use crate::dimensions::Dimension;
use crate::exact;
use crate::facts::Measure;
use crate::fields::Fields;
use crate::limit::{Limit, LimitUnit, Printed, Recipe, Rule, Term};
use quantity::{Kind, Unit, units};

const RECIPES: [&str; 3] = ["smaller_of", "larger_of", "sum_of"];

/// Every key that belongs to some rule.
const KEYS: [&str; 9] =
    ["limit", "low", "high", "minus", "plus", "unit", "smaller_of", "larger_of", "sum_of"];

/// The rule in a criterion's table; mistakes stay in the fields.
pub(super) fn read(fields: &mut Fields<'_, '_>, measure: Option<Measure>) -> Option<Rule> {
    let rule = rule(fields, measure);
    if rule.is_none() {
        fields.excuse(KEYS);
    }
    rule
}

fn rule(fields: &mut Fields<'_, '_>, measure: Option<Measure>) -> Option<Rule> {
    let expected = Rule::WORDS.join(", ");
    let word = fields.required("rule", &expected)?;
    let measure = measure?;
    if matches!(word, "yes" | "no") != (measure == Measure::YesNo) && word != "report" {
        let fitting = if measure == Measure::YesNo { "yes, no or report" } else { "a rule for numbers" };
        fields.wrong(fields.line_of("rule"), "rule", format!("\"{word}\""), fitting);
        return None;
    }
    match word {
        "at_most" => limit(fields, measure).map(Rule::AtMost),
        "at_least" => limit(fields, measure).map(Rule::AtLeast),
        "below" => limit(fields, measure).map(Rule::Below),
        "above" => limit(fields, measure).map(Rule::Above),
        "between" => between(fields, measure),
        "within" => within(fields, measure),
        "yes" => Some(Rule::Yes),
        "no" => Some(Rule::No),
        "report" => Some(Rule::Report),
        _ => {
            fields.wrong(fields.line_of("rule"), "rule", format!("\"{word}\""), &expected);
            None
        }
    }
}

/// The unit of the limits of this criterion.
pub(super) fn unit(fields: &mut Fields<'_, '_>, measure: Measure) -> Option<LimitUnit> {
    let text = fields.text("unit");
    if text.is_none() && fields.has("unit") {
        return None;
    }
    let unit = unit_named(measure, text.unwrap_or_default());
    if unit.is_none() {
        let found = text.map_or_else(|| "no unit".to_owned(), |text| format!("\"{text}\""));
        fields.wrong(fields.line_of("unit"), "unit", found, &units_of(measure));
    }
    unit
}

fn limit(fields: &mut Fields<'_, '_>, measure: Measure) -> Option<Limit> {
    let unit = unit(fields, measure)?;
    let given: Vec<_> = RECIPES.into_iter().filter(|key| fields.has(key)).collect();
    let recipe = match (fields.has("limit"), given.as_slice()) {
        (true, []) => Recipe::Printed(printed(fields, "limit", unit)?),
        (false, ["smaller_of"]) => Recipe::SmallerOf(terms(fields, "smaller_of", (unit, measure))?),
        (false, ["larger_of"]) => Recipe::LargerOf(terms(fields, "larger_of", (unit, measure))?),
        (false, ["sum_of"]) => Recipe::SumOf(terms(fields, "sum_of", (unit, measure))?),
        _ => {
            let several = fields.has("limit") || !given.is_empty();
            let found = if several { "more than one" } else { "nothing" }.to_owned();
            fields.wrong(fields.line, "limit", found, "one of limit, smaller_of, larger_of, sum_of");
            return None;
        }
    };
    Some(Limit { unit, recipe })
}

fn between(fields: &mut Fields<'_, '_>, measure: Measure) -> Option<Rule> {
    let unit = unit(fields, measure)?;
    let (low, high) = (printed(fields, "low", unit), printed(fields, "high", unit));
    let (low, high) = (low?, high?);
    if low.value > high.value {
        fields.wrong(fields.line_of("low"), "low", format!("\"{}\"", low.text), "a value not above `high`");
        return None;
    }
    Some(Rule::Between { low, high })
}

fn within(fields: &mut Fields<'_, '_>, measure: Measure) -> Option<Rule> {
    let unit = unit(fields, measure)?;
    let (minus, plus) = (printed(fields, "minus", unit), printed(fields, "plus", unit));
    let (minus, plus) = (minus?, plus?);
    for (key, side) in [("minus", &minus), ("plus", &plus)] {
        if side.size() < 0.into() {
            let found = format!("\"{}\"", side.text);
            fields.wrong(fields.line_of(key), key, found, "how far, without a sign");
        }
    }
    Some(Rule::Within { minus, plus })
}

fn printed(fields: &mut Fields<'_, '_>, key: &'static str, unit: LimitUnit) -> Option<Printed> {
    let expected = "the number as printed, in quotes: \"1.5\", \"1/24\" or \"1 1/2\"";
    let text = fields.required(key, expected)?;
    let printed = Printed::parse(text, unit);
    if printed.is_none() {
        fields.wrong(fields.line_of(key), key, format!("\"{text}\""), expected);
    }
    printed
}

fn terms(fields: &mut Fields<'_, '_>, key: &'static str, sort: (LimitUnit, Measure)) -> Option<Vec<Term>> {
    let list = fields.list(key)?;
    if list.is_empty() {
        fields.wrong(fields.line_of(key), key, "an empty list".to_owned(), "at least one term");
        return None;
    }
    let mut terms = Vec::new();
    for (value, line) in &list {
        let Some(table) = value.as_table() else {
            let expected = "{ value = \"3\" } or { times = \"1/24\", of = \"diameter\" }";
            fields.wrong(*line, key, "a bare value".to_owned(), expected);
            continue;
        };
        let what = format!("{}, `{key}`", fields.what);
        let mut inner = Fields::new(table, *line, what, fields.lines());
        terms.extend(term(&mut inner, sort));
        fields.problems.extend(inner.finish());
    }
    (terms.len() == list.len()).then_some(terms)
}

fn term(fields: &mut Fields<'_, '_>, (unit, measure): (LimitUnit, Measure)) -> Option<Term> {
    if fields.has("value") {
        return printed(fields, "value", unit).map(Term::Printed);
    }
    let text = fields.required("times", "a factor, or `value` instead")?;
    let Some(factor) = exact::number(text) else {
        fields.wrong(fields.line_of("times"), "times", format!("\"{text}\""), "a number in quotes");
        return None;
    };
    let of = dimension(fields)?;
    let per = per(fields, of)?;
    let fits = match (measure, per) {
        (Measure::Plain(_), Some(_)) => true,
        (Measure::Amount(kind), None) => kind == of.kind() && kind != Kind::Temperature,
        _ => false,
    };
    if !fits {
        let expected = "a dimension of the kind that is measured (a number of things needs `per`)";
        fields.wrong(fields.line_of("of"), "of", format!("\"{}\"", of.word()), expected);
        return None;
    }
    Some(Term::Times { text: text.to_owned(), factor, of, per })
}

fn dimension(fields: &mut Fields<'_, '_>) -> Option<Dimension> {
    let words: Vec<_> = Dimension::all().map(Dimension::word).collect();
    let word = fields.required("of", &words.join(", "))?;
    let dimension = Dimension::named(word);
    if dimension.is_none() {
        fields.wrong(fields.line_of("of"), "of", format!("\"{word}\""), &words.join(", "));
    }
    dimension
}

/// The unit a dimension is counted in; the outer `None` is a mistake.
fn per(fields: &mut Fields<'_, '_>, of: Dimension) -> Option<Option<&'static Unit>> {
    let Some(text) = fields.text("per") else { return (!fields.has("per")).then_some(None) };
    let fits = |unit: &&&'static Unit| unit.kind == of.kind() && unit.symbol == text;
    let unit = units::ALL.iter().find(fits).copied();
    if unit.is_none() {
        let expected = units_of(Measure::Amount(of.kind()));
        fields.wrong(fields.line_of("per"), "per", format!("\"{text}\""), &expected);
    }
    unit.map(Some)
}
