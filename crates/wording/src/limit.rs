//! A limit as text: as printed in its source, and how it came about where it is a recipe.
//!
//! `1 in at most`; `1.5 in at most (the smaller of 1/24 of the planned diameter and 3 in)`.
//!
//! Never: convert a printed limit.

use crate::label;
use crate::number::{reading, trimmed, usual_decimals};
use crate::phrase::and;
use crate::show::Show;
use criteria::{Limit, LimitUnit, Limits, Printed, Recipe, Rule, Term};
use quantity::Number;

/// What a rule asks, with what a recipe comes to where the limits were worked out.
pub fn limit_text(rule: &Rule, limits: Option<Limits>, show: &Show) -> String {
    let high = limits.and_then(|limits| limits.high);
    let low = limits.and_then(|limits| limits.low);
    match rule {
        Rule::AtMost(limit) => side(limit, high, "at most", show),
        Rule::AtLeast(limit) => side(limit, low, "at least", show),
        Rule::Below(limit) => side(limit, high, "less than", show),
        Rule::Above(limit) => side(limit, low, "more than", show),
        Rule::Between { low, high } => with_unit(&format!("{} to {}", low.text, high.text), high.unit),
        Rule::Within { minus, plus } => within(minus, plus),
        Rule::Yes => "it has to be so".to_owned(),
        Rule::No => "it must not be so".to_owned(),
        Rule::Report => "the value has to be reported; no number is given".to_owned(),
    }
}

/// One limit with its word, and its recipe in brackets behind what it comes to.
fn side(limit: &Limit, value: Option<Number>, word: &str, show: &Show) -> String {
    match (&limit.recipe, value) {
        (Recipe::Printed(printed), _) => worded(&printed_text(printed), word),
        (recipe, None) => format!("{word} {}", recipe_text(recipe)),
        (recipe, Some(value)) => {
            format!("{} ({})", worded(&come_to(value, limit.unit, show), word), recipe_text(recipe))
        }
    }
}

/// `1 in at most`, `less than 4 %`.
fn worded(value: &str, word: &str) -> String {
    if word.starts_with("at") { format!("{value} {word}") } else { format!("{word} {value}") }
}

/// How a limit comes about.
fn recipe_text(recipe: &Recipe) -> String {
    match recipe {
        Recipe::Printed(printed) => printed_text(printed),
        Recipe::SmallerOf(list) if list.len() > 1 => format!("the smaller of {}", and(&terms(list))),
        Recipe::LargerOf(list) if list.len() > 1 => format!("the larger of {}", and(&terms(list))),
        Recipe::SmallerOf(list) | Recipe::LargerOf(list) | Recipe::SumOf(list) => terms(list).join(" plus "),
    }
}

fn terms(list: &[Term]) -> Vec<String> {
    list.iter().map(term).collect()
}

fn term(term: &Term) -> String {
    match term {
        Term::Printed(printed) => printed_text(printed),
        Term::Times { text, of, per: Some(unit), .. } => {
            format!("{text} for each {} of {}", unit.symbol, label::dimension(*of))
        }
        Term::Times { text, of, per: None, .. } => times(text, label::dimension(*of)),
    }
}

/// `the diameter`, `1/24 of the diameter`, `5 times the aggregate size`.
fn times(factor: &str, dimension: &str) -> String {
    match factor {
        "1" => dimension.to_owned(),
        part if part.contains('/') || part.starts_with("0.") => format!("{part} of {dimension}"),
        times => format!("{times} times {dimension}"),
    }
}

/// A printed value with its unit, as in the source.
pub(crate) fn printed_text(printed: &Printed) -> String {
    with_unit(&printed.text, printed.unit)
}

fn with_unit(text: &str, unit: LimitUnit) -> String {
    format!("{text} {}", unit.symbol()).trim_end().to_owned()
}

fn within(minus: &Printed, plus: &Printed) -> String {
    if minus.text == plus.text {
        return format!("{} either way", printed_text(plus));
    }
    let below =
        if minus.text == "0" { "not below".to_owned() } else { format!("{} below", printed_text(minus)) };
    let above =
        if plus.text == "0" { "not above".to_owned() } else { format!("{} above", printed_text(plus)) };
    format!("{below} to {above}")
}

/// What a recipe comes to, in its unit.
fn come_to(value: Number, unit: LimitUnit, show: &Show) -> String {
    let decimals = match unit {
        LimitUnit::Unit(unit) | LimitUnit::Step(unit) => usual_decimals(unit).max(2),
        LimitUnit::Plain(_) => 2,
    };
    show.sign(with_unit(&trimmed(reading(value, unit), decimals), unit))
}
