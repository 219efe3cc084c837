//! What a finding is about, for a reader of pages: depths first, elevations second.

use crate::Source;
use assess::{Finding, Subject};
use quantity::{Depth, Elevation};

/// Title and subject: `Ticket checked: mix, load 4411`.
pub(super) fn heading(finding: &Finding, source: &Source<'_, '_>) -> String {
    match &finding.subject {
        Subject::Shaft => title(finding).to_owned(),
        _ => format!("{}, {}", title(finding), subject(finding, source)),
    }
}

/// The title of the criterion, else what the fact means.
pub(super) fn title(finding: &Finding) -> &str {
    let title = finding.criterion.as_ref().map(|in_force| in_force.original.title.as_str());
    title.unwrap_or(finding.fact.meaning).trim_end_matches('.')
}

/// `load 4411`, `between depths 36.4 ft and 26.4 ft (elevations +5172.8 ft and +5182.8 ft)`.
pub(super) fn subject(finding: &Finding, source: &Source<'_, '_>) -> String {
    let show = source.show();
    match &finding.subject {
        Subject::Interval { lower, upper } => stretch(*lower, *upper, source),
        _ => wording::finding(finding, source.log, &show).subject,
    }
}

fn stretch(lower: Elevation, upper: Elevation, source: &Source<'_, '_>) -> String {
    let show = source.show();
    let levels = format!("{} to {}", show.bare(show.elevation(lower)), show.elevation(upper));
    let zero = source.assessment.picture.references.in_force(None, source.assessment.at);
    zero.map_or_else(
        || format!("between elevations {levels}"),
        |(zero, _)| {
            let depth = |level: Elevation| show.depth(Depth(zero.above(level)));
            let from = show.bare(depth(lower));
            format!("between depths {from} and {} (elevations {levels})", depth(upper))
        },
    )
}

/// What several subjects are called together: `7 loads`; `5 loads, 6 values` where one was tested twice.
pub(super) fn together(findings: &[&Finding]) -> String {
    let word = match findings.first().map(|finding| &finding.subject) {
        Some(Subject::Test(_)) => "readings",
        Some(Subject::Load(_)) => "loads",
        Some(Subject::Interval { .. }) => "stretches",
        Some(Subject::Lift(_)) => "lifts",
        Some(Subject::Tube(name)) if name.contains('-') => "pairs of tubes",
        Some(Subject::Tube(_)) => "tubes",
        Some(Subject::Bolt(_)) => "bolts",
        Some(Subject::Shaft) | None => "values",
    };
    let mut subjects: Vec<&Subject> = Vec::new();
    for finding in findings {
        if !subjects.contains(&&finding.subject) {
            subjects.push(&finding.subject);
        }
    }
    match (subjects.len(), findings.len()) {
        (1, all) => format!("{all} values"),
        (few, all) if few < all => format!("{few} {word}, {all} values"),
        (_, all) => format!("{all} {word}"),
    }
}
