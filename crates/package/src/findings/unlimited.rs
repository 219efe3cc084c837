//! What was measured where no limit is set: values to know, neither passed nor failed.

use super::subject::{subject, title, together};
use crate::Source;
use assess::Finding;
use report::Fact;

/// A line for each fact; of several subjects the least and the largest value.
pub(crate) fn unlimited(source: &Source<'_, '_>) -> Vec<Fact> {
    let mut facts: Vec<Vec<&Finding>> = Vec::new();
    let there = |finding: &&Finding| finding.criterion.is_none() && finding.value.is_some();
    for finding in source.assessment.findings.iter().filter(there) {
        match facts.iter_mut().find(|of| of[0].fact.name == finding.fact.name) {
            Some(of) => of.push(finding),
            None => facts.push(vec![finding]),
        }
    }
    facts.into_iter().map(|of| Fact::new(title(of[0]), value(&of, source))).collect()
}

fn value(of: &[&Finding], source: &Source<'_, '_>) -> String {
    let text = |finding: &Finding| wording::finding(finding, source.log, &source.show()).value;
    let all = together(of);
    let number = |finding: &&&Finding| finding.value.and_then(|value| value.number()).map(|one| one.to_f64());
    let least = of.iter().min_by(|a, b| number(a).unwrap_or(0.0).total_cmp(&number(b).unwrap_or(0.0)));
    let most = of.iter().max_by(|a, b| number(a).unwrap_or(0.0).total_cmp(&number(b).unwrap_or(0.0)));
    let texts: std::collections::BTreeSet<String> = of.iter().map(|finding| text(finding)).collect();
    match (of, texts.len(), least, most) {
        ([one], ..) => text(one),
        (_, 1, ..) => format!("{}, {all}", text(of[0])),
        (_, _, Some(least), Some(most)) if number(&least).is_some() => {
            format!("{} to {}, {all}", text(least), text(most))
        }
        _ => of
            .iter()
            .map(|one| format!("{} {}", subject(one, source), text(one)))
            .collect::<Vec<_>>()
            .join(", "),
    }
}
