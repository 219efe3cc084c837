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

/// What the subjects of several findings are called together: `7 loads`; `5 loads, 6 values` where one was tested twice.
pub(super) fn together(findings: &[&Finding]) -> String {
    counted(&findings.iter().map(|finding| &finding.subject).collect::<Vec<_>>())
}

fn counted(all: &[&Subject]) -> String {
    let word = match all.first() {
        Some(Subject::Test(_)) => "readings",
        Some(Subject::Load(_)) => "loads",
        Some(Subject::Interval { .. }) => "stretches",
        Some(Subject::Lift(_)) => "lifts",
        Some(Subject::Tube(name)) if name.contains('-') => "pairs of tubes",
        Some(Subject::Tube(_)) => "tubes",
        Some(Subject::Bolt(_)) => "bolts",
        Some(Subject::Shaft) | None => "values",
    };
    let again = |(index, subject): &(usize, &&Subject)| all[..*index].contains(subject);
    let twice = all.iter().enumerate().filter(again).count();
    match (all.len() - twice, all.len()) {
        (1, values) => format!("{values} values"),
        (few, values) if twice > 0 => format!("{few} {word}, {values} values"),
        (_, values) => format!("{values} {word}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(names: &[&str], of: fn(String) -> Subject, expected: &str) {
        let subjects: Vec<Subject> = names.iter().map(|name| of((*name).to_owned())).collect();
        assert_eq!(counted(&subjects.iter().collect::<Vec<_>>()), expected);
    }

    #[test]
    fn a_load_tested_twice_is_one_load() {
        check(&["4411", "4412"], Subject::Load, "2 loads");
        check(&["4411", "4412", "4411"], Subject::Load, "2 loads, 3 values");
        check(&["4411", "4411"], Subject::Load, "2 values");
        check(&["1", "2"], Subject::Tube, "2 tubes");
        check(&["1-2", "1-3"], Subject::Tube, "2 pairs of tubes");
    }
}
