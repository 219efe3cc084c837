//! The views never compute.
//!
//! An assessment is made of the results `calc` gives, so what shows it has to name their types. Calling a
//! formula from there would make a second reckoning beside the one that was judged.

use super::tree::{Finding, Tree};

/// The crates that only show.
const VIEWS: &[&str] = &["figure", "drawing", "wording", "report", "package", "formats", "cli"];
const FORMULAS: &str = "calc::";

/// Paths into `calc` that lead to a function or a module and not to a type.
pub(crate) fn find(tree: &Tree) -> Vec<Finding> {
    let mut found = Vec::new();
    for file in tree.files.iter().filter(|file| file.is_source()) {
        if !VIEWS.iter().any(|name| file.path.starts_with(&format!("crates/{name}/src/"))) {
            continue;
        }
        for (line, text) in
            file.text.lines().enumerate().filter(|(_, text)| !text.trim_start().starts_with("//"))
        {
            let paths = paths(text).into_iter().filter(|path| !leads_to_types(path));
            found.extend(paths.map(|path| {
                let what =
                    format!("`calc::{path}` is no type of a result: let `assess` reckon it and hand it over");
                Finding::in_line(&file.path, line, what)
            }));
        }
    }
    found
}

/// What follows `calc::` in a line, as far as it is a path or a list of names.
fn paths(line: &str) -> Vec<&str> {
    let part_of_word = |before: &str| before.ends_with(|c: char| c.is_alphanumeric() || c == '_');
    let starts = line.match_indices(FORMULAS).filter(|(at, _)| !part_of_word(&line[..*at]));
    let rests = starts.map(|(at, _)| &line[at + FORMULAS.len()..]);
    rests.map(|rest| &rest[..end_of_path(rest)]).collect()
}

fn end_of_path(rest: &str) -> usize {
    if let Some(list) = rest.find('{').filter(|open| rest[..*open].ends_with("::") || *open == 0) {
        return rest[list..].find('}').map_or(rest.len(), |close| list + close + 1);
    }
    rest.find(|c: char| !(c.is_alphanumeric() || c == '_' || c == ':')).unwrap_or(rest.len())
}

/// Every name a path ends in is a type, or comes after one.
fn leads_to_types(path: &str) -> bool {
    let named =
        |name: &str| name.split("::").any(|part| part.trim().starts_with(|c: char| c.is_ascii_uppercase()));
    match path.split_once('{') {
        None => named(path),
        Some((_, list)) => {
            list.trim_end_matches('}').split(',').filter(|name| !name.trim().is_empty()).all(named)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(path: &str, line: &str, found: usize) {
        assert_eq!(find(&Tree::of(&[(path, line)])).len(), found, "{line}");
    }

    #[test]
    fn a_view_names_types_and_calls_no_formula() {
        let view = "crates/drawing/src/curve.rs";
        check(view, "use calc::curve::Interval;", 0);
        check(view, "use calc::estimate::{Estimate, Level};", 0);
        check(view, "let one = |interval: &calc::curve::Interval| 1;", 0);
        check(view, "let bar = calc::bars::find(&size);", 1);
        check(view, "use calc::bars;", 1);
        check(view, "use calc::bars::{Bar, find};", 1);
        check(view, "// see calc::bars::find", 0);
        check(view, "let a = recalc::bars::find();", 0);
    }

    #[test]
    fn the_assessment_may_call_formulas() {
        check("crates/assess/src/pour.rs", "let volume = calc::volume::theoretical(&bore);", 0);
    }
}
