//! What is odd about a slump-loss trial or the slump tests of the day.

use crate::notice::Notice;
use crate::show::Show;
use assess::reckon::SlumpReckoning;
use calc::slump::SlumpIssue;

/// An issue of slump life, with the load or trial point it is about.
pub fn slump_issue(issue: SlumpIssue, slump: &SlumpReckoning, show: &Show) -> Notice {
    match issue {
        SlumpIssue::TrialRises { at } => Notice::new(
            "trial_rises",
            format!("In the slump-loss trial of mix {} the slump rises at point {}.", slump.mix, at + 1),
            "The trial is used as it was entered.",
            "Compare it with the trial sheet; a slip there would change every slump life.",
        ),
        SlumpIssue::TestOutsideTrial { load, test } => Notice::new(
            "test_outside_trial",
            format!("{} is outside the ages of the trial.", test_text(load, test, slump, show)),
            "The test is kept; the slump life was reckoned without it.",
            "A trial that runs longer would let it count.",
        ),
    }
}

fn test_text(load: usize, test: usize, slump: &SlumpReckoning, show: &Show) -> String {
    let Some(life) = slump.loads.get(load) else {
        return format!("A slump test of load number {}", load + 1);
    };
    match life.tests.get(test) {
        Some(found) => format!(
            "The slump test of load {} ({} at an age of {})",
            life.ticket,
            show.small(found.slump),
            show.span(found.age)
        ),
        None => format!("A slump test of load {}", life.ticket),
    }
}
