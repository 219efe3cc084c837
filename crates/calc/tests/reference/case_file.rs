//! Reads a file of cases and runs it.

use std::collections::BTreeMap;

use serde::Deserialize;
use toml::Value;

use super::{Given, Output, check_named};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CaseFile {
    about: About,
    #[serde(default, rename = "case")]
    cases: Vec<Case>,
}

/// What holds for each case of the file that does not say otherwise.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct About {
    checks: String,
    source: Option<String>,
    how: Option<String>,
    worked_by: Option<String>,
    tolerance: Option<Value>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    checks: Option<String>,
    source: Option<String>,
    how: Option<String>,
    worked_by: Option<String>,
    given: BTreeMap<String, String>,
    expected: Value,
    tolerance: Option<Value>,
}

/// Runs every case: how many agreed, or everything that is wrong.
pub(crate) fn run(text: &str) -> Result<usize, Vec<String>> {
    let file: CaseFile = toml::from_str(text).map_err(|error| vec![error.to_string()])?;
    if file.cases.is_empty() {
        return Err(vec!["there is no case in it".to_owned()]);
    }
    let mut problems = Vec::new();
    for (index, case) in file.cases.iter().enumerate() {
        if let Err(problem) = run_case(&file.about, case) {
            problems.push(format!("case {}: {problem}", index + 1));
        }
    }
    if problems.is_empty() { Ok(file.cases.len()) } else { Err(problems) }
}

fn run_case(about: &About, case: &Case) -> Result<(), String> {
    said("source", &case.source, &about.source)?;
    said("how", &case.how, &about.how)?;
    said("worked_by", &case.worked_by, &about.worked_by)?;
    let name = case.checks.as_ref().unwrap_or(&about.checks);
    let check = check_named(name).ok_or_else(|| format!("no check `{name}`"))?;
    let given = Given::new(case.given.clone());
    let outputs = check(&given)?;
    if let Some(unused) = given.unused().first() {
        return Err(format!("`{unused}` is not used by `{name}`"));
    }
    let expected = case.expected.as_table().ok_or("`expected` is not a table of names and values")?;
    if expected.is_empty() {
        return Err("nothing is expected".to_owned());
    }
    for (output, value) in expected {
        let got =
            outputs.get(output.as_str()).ok_or_else(|| format!("the check does not give `{output}`"))?;
        let tolerance = case.tolerance.as_ref().or(about.tolerance.as_ref());
        compare(output, got, value, tolerance)?;
    }
    Ok(())
}

/// A case without its origin is worth nothing.
fn said(what: &str, own: &Option<String>, shared: &Option<String>) -> Result<(), String> {
    match own.as_ref().or(shared.as_ref()).is_some_and(|text| !text.trim().is_empty()) {
        true => Ok(()),
        false => Err(format!("no {what}")),
    }
}

fn compare(name: &str, got: &Output, expected: &Value, tolerance: Option<&Value>) -> Result<(), String> {
    match (got, expected) {
        (Output::Text(got), Value::String(expected)) if got == expected => Ok(()),
        (Output::Text(got), expected) => Err(format!("{name}: expected {expected}, got {got:?}")),
        (Output::Number(got), expected) => {
            let expected = number(expected).ok_or_else(|| format!("{name}: {expected} is not a number"))?;
            let allowed = tolerance
                .and_then(|tolerance| {
                    tolerance.as_table().map_or(number(tolerance), |table| number(table.get(name)?))
                })
                .ok_or_else(|| format!("{name}: no tolerance"))?;
            // Written so that NaN does not pass.
            match (got - expected).abs() <= allowed {
                true => Ok(()),
                false => Err(format!("{name}: expected {expected} ± {allowed}, got {got}")),
            }
        }
    }
}

fn number(value: &Value) -> Option<f64> {
    value.as_float().or_else(|| value.as_integer().map(|whole| whole as f64))
}
