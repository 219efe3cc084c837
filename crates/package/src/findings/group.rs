//! Several findings of one criterion that nobody has to act on, in one row.
//!
//! A reader who turns four pages of checked tickets misses the one that fails; so what fails, is in doubt
//! or was decided about always stands alone, and what meets is counted and shown by its closest value.
//!
//! Never: put a finding that fails, or cannot be said, into a group.

use super::subject::{subject, title, together};
use super::{single, standing};
use crate::Source;
use assess::Finding;
use criteria::Verdict;
use report::Standing;

/// A row of the table of findings.
pub(super) enum Shown<'a> {
    Single(&'a Finding),
    /// Two or more.
    Group(Vec<&'a Finding>),
}

/// The findings as rows, each group where its first finding stands.
pub(super) fn grouped<'a>(findings: impl Iterator<Item = &'a Finding>) -> Vec<Shown<'a>> {
    let shown =
        |row: Vec<&'a Finding>| if row.len() == 1 { Shown::Single(row[0]) } else { Shown::Group(row) };
    rows(findings).into_iter().map(shown).collect()
}

/// Findings that go together, each in exactly one row.
pub(crate) fn rows<'a>(findings: impl Iterator<Item = &'a Finding>) -> Vec<Vec<&'a Finding>> {
    let mut rows: Vec<Vec<&Finding>> = Vec::new();
    for finding in findings {
        match rows.iter_mut().find(|row| goes_with(row[0], finding)) {
            Some(row) => row.push(finding),
            None => rows.push(vec![finding]),
        }
    }
    rows
}

fn goes_with(first: &Finding, other: &Finding) -> bool {
    let id = |finding: &Finding| finding.criterion.as_ref().map(|one| one.original.id.clone());
    let kind = |finding: &Finding| std::mem::discriminant(&finding.subject);
    may_be_grouped(first)
        && may_be_grouped(other)
        && standing(first) == standing(other)
        && id(first) == id(other)
        && kind(first) == kind(other)
        && first.judgement.limits == other.judgement.limits
        && (first.value.is_some() == other.value.is_some())
        && (first.value == other.value || (margin(first).is_some() && margin(other).is_some()))
}

/// Nobody has to look at it on its own.
fn may_be_grouped(finding: &Finding) -> bool {
    let quiet = matches!(standing(finding), Standing::Meets | Standing::NotMeasured | Standing::NoLimit);
    quiet && !finding.disputed && finding.dispositions.is_empty()
}

/// The row of a group: its closest value, and how many there are.
pub(super) fn row(group: &[&Finding], source: &Source<'_, '_>) -> report::Finding {
    let all = together(group);
    let closest = closest(group);
    let shown = single(closest, source);
    let about = subject(closest, source);
    let (value, which) = match (is_plain(closest), closest.value.is_some()) {
        (_, false) => (format!("{}: {}", shown.value, subjects(group, source)), String::new()),
        (true, _) => (format!("{}, all {}", shown.value, group.len()), String::new()),
        (false, _) => (shown.value.clone(), format!("; shown is the closest to the limit: {about}")),
    };
    let entries: std::collections::BTreeSet<_> = group.iter().flat_map(|one| &one.evidence).collect();
    report::Finding {
        criterion: format!("{}, {all}{which}", title(closest)),
        value,
        evidence: if entries.is_empty() { String::new() } else { format!("{} in all", entries.len()) },
        ..shown
    }
}

/// Yes or no, or a value that is the same for all.
fn is_plain(finding: &Finding) -> bool {
    margin(finding).is_none()
}

/// The one with the least to spare.
fn closest<'a>(group: &[&'a Finding]) -> &'a Finding {
    let by_margin = |a: &&&Finding, b: &&&Finding| {
        let of = |finding: &Finding| margin(finding).unwrap_or(f64::INFINITY);
        of(a).total_cmp(&of(b))
    };
    group.iter().min_by(by_margin).expect("a group has findings")
}

fn margin(finding: &Finding) -> Option<f64> {
    match &finding.judgement.verdict {
        Verdict::Meets { margin } => margin.map(|margin| margin.number.to_f64()),
        _ => None,
    }
}

fn subjects(group: &[&Finding], source: &Source<'_, '_>) -> String {
    group.iter().map(|finding| subject(finding, source)).collect::<Vec<_>>().join(", ")
}
