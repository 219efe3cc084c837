//! Reads the text of a criteria file into a set.
//!
//! Words: as in the documentation of the file, `criteria/README.md`.
//! Never: stop at the first mistake; accept a key nobody reads.

mod criterion;
mod rule;
mod when;

use crate::criterion::Criterion;
use crate::facts::Measure;
use crate::fields::{Fields, Lines};
use crate::limit::LimitUnit;
use crate::problem::Problem;
use crate::set::About;
use quantity::{InOrder, Kind, units};
use std::collections::BTreeMap;
use toml::de::DeTable;

/// The set in a text.
///
/// # Errors
/// Every mistake, in the order of the lines.
pub(crate) fn set(text: &str) -> Result<(About, Vec<Criterion>), Vec<Problem>> {
    let lines = Lines::of_text(text);
    let (table, errors) = DeTable::parse_recoverable(text);
    let mut problems: Vec<Problem> = errors.iter().map(|error| not_toml(error, &lines)).collect();
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut file = Fields::new(table.get_ref(), 1, String::new(), &lines);
    let about = about(&mut file);
    let criteria = criteria(&mut file);
    problems.extend(file.finish());
    problems.extend(twice(&criteria));
    problems.put_in_order();
    match about {
        Some(about) if problems.is_empty() => Ok((about, criteria)),
        _ => Err(problems),
    }
}

fn not_toml(error: &toml::de::Error, lines: &Lines) -> Problem {
    let line = lines.of(error.span().map_or(0, |span| span.start));
    let found = format!("text that is not TOML ({})", error.message());
    Problem { line, at: "the file".to_owned(), found, expected: "TOML 1.0".to_owned() }
}

fn about(file: &mut Fields<'_, '_>) -> Option<About> {
    if !file.has("set") {
        file.excuse(["set"]);
        file.wrong(1, "set", "nothing".to_owned(), "a table [set] with id, title, edition and about");
        return None;
    }
    let mut fields = file.table("set")?;
    let mut text = |key, expected| fields.required(key, expected).unwrap_or_default().to_owned();
    let about = About {
        id: text("id", "the name a job chooses this set by"),
        title: text("title", "the title of this set"),
        edition: text("edition", "the edition of this set"),
        about: text("about", "what this set was made from and for"),
        caution: fields.text("caution").map(str::to_owned),
    };
    file.problems.extend(fields.finish());
    Some(about)
}

fn criteria(file: &mut Fields<'_, '_>) -> Vec<Criterion> {
    if !file.has("criterion") {
        file.wrong(1, "criterion", "nothing".to_owned(), "at least one [[criterion]]");
    }
    let mut criteria = Vec::new();
    for (index, (value, line)) in file.list("criterion").unwrap_or_default().into_iter().enumerate() {
        let Some(table) = value.as_table() else {
            file.wrong(line, "criterion", "a value".to_owned(), "[[criterion]] before each criterion");
            continue;
        };
        let id = table.get("id").and_then(|id| id.get_ref().as_str());
        let what = id.map_or_else(|| format!("criterion {}", index + 1), str::to_owned);
        let mut fields = Fields::new(table, line, what, file.lines());
        criteria.extend(criterion::read(&mut fields));
        file.problems.extend(fields.finish());
    }
    criteria
}

fn twice(criteria: &[Criterion]) -> Vec<Problem> {
    let mut first: BTreeMap<&str, usize> = BTreeMap::new();
    let mut problems = Vec::new();
    for criterion in criteria {
        let Some(line) = first.insert(&criterion.id, criterion.line) else { continue };
        problems.push(Problem {
            line: criterion.line,
            at: format!("{}, `id`", criterion.id),
            found: format!("an id already used on line {line}"),
            expected: "an id of its own for each criterion".to_owned(),
        });
    }
    problems
}

/// The unit of a measure with that spelling; empty where the measure is a plain number.
pub(crate) fn unit_named(measure: Measure, text: &str) -> Option<LimitUnit> {
    let text = text.trim();
    let spelled = text.to_lowercase();
    let of_kind = |kind: Kind| {
        let fits = |unit: &&&quantity::Unit| {
            unit.kind == kind && (unit.symbol == text || unit.spellings.contains(&spelled.as_str()))
        };
        units::ALL.iter().find(fits).copied()
    };
    match measure {
        Measure::Amount(Kind::Fraction) if text.is_empty() => None,
        Measure::Amount(kind) => of_kind(kind).map(LimitUnit::Unit),
        Measure::TemperatureStep => of_kind(Kind::Temperature).map(LimitUnit::Step),
        Measure::Plain(counted) => (counted == text).then_some(LimitUnit::Plain(counted)),
        Measure::YesNo => None,
    }
}

/// The spellings that would have been understood, for a message.
pub(crate) fn units_of(measure: Measure) -> String {
    let symbols = |kind: Kind| {
        let of_kind = units::ALL.iter().filter(|unit| unit.kind == kind);
        let symbols: Vec<_> = of_kind.map(|unit| unit.symbol).filter(|symbol| !symbol.is_empty()).collect();
        if symbols.is_empty() { "no unit".to_owned() } else { symbols.join(", ") }
    };
    match measure {
        Measure::Amount(kind) => symbols(kind),
        Measure::TemperatureStep => symbols(Kind::Temperature),
        Measure::Plain("") | Measure::YesNo => "no unit".to_owned(),
        Measure::Plain(counted) => format!("\"{counted}\""),
    }
}
