//! Stable words for machines: they stand in JSON and in scripts, and never change.
//!
//! Never: translate, rename, print to a person.

use assess::{Outcome, Outlook, Subject, Urgency};
use criteria::Verdict;

/// The word of a verdict: `meets`, `fails`, `not_measured`, `cannot_say`, `no_limit_set`.
pub fn verdict(verdict: &Verdict) -> &'static str {
    outcome(Outcome::of(verdict))
}

/// The word of an outcome.
pub fn outcome(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Fails => "fails",
        Outcome::CannotSay => "cannot_say",
        Outcome::NotMeasured => "not_measured",
        Outcome::Meets => "meets",
        Outcome::NoLimitSet => "no_limit_set",
    }
}

/// The word of the sort of subject.
pub fn subject(subject: &Subject) -> &'static str {
    match subject {
        Subject::Shaft => "shaft",
        Subject::Test(_) => "test",
        Subject::Load(_) => "load",
        Subject::Interval { .. } => "interval",
        Subject::Lift(_) => "lift",
        Subject::Tube(_) => "tube",
        Subject::Bolt(_) => "bolt",
    }
}

/// The word of an urgency.
pub fn urgency(urgency: Urgency) -> &'static str {
    match urgency {
        Urgency::Now => "now",
        Urgency::Soon => "soon",
        Urgency::Later => "later",
    }
}

/// The word of a forecast.
pub fn outlook(outlook: &Outlook) -> &'static str {
    match outlook {
        Outlook::Embedment { .. } => "embedment",
        Outlook::SlumpLife { .. } => "slump_life",
        Outlook::FluidTestDue { .. } => "fluid_test_due",
        Outlook::HeadAtNextLift { .. } => "head_at_next_lift",
        Outlook::Gap { .. } => "gap",
        Outlook::StillToOrder { .. } => "still_to_order",
        Outlook::TimeLimit { .. } => "time_limit",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_outcome_has_one_word() {
        assert_eq!(verdict(&Verdict::NotMeasured), "not_measured");
        assert_eq!(verdict(&Verdict::Meets { margin: None }), "meets");
        assert_eq!(verdict(&Verdict::CannotSay(Vec::new())), "cannot_say");
    }
}
