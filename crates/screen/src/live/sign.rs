//! The sign beside a value: what was found about it, as a word and never as a colour alone.
//!
//! Words: *sign* = what the assessment said, as a screen shows it.
//! Never: judge; make a blank look like a pass.

use assess::{Finding, Outcome, Urgency};

/// What was found about a value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Sign {
    /// Outside its limit.
    Fails,
    /// Entries in dispute touch it, or a comparison would be a guess.
    CannotSay,
    /// There should be a value and there is none.
    NotMeasured,
    /// Inside its limit.
    Meets,
    /// Nothing to compare with.
    #[default]
    NoLimitSet,
}

impl Sign {
    /// The sign of an outcome.
    pub fn of(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Fails => Sign::Fails,
            Outcome::CannotSay => Sign::CannotSay,
            Outcome::NotMeasured => Sign::NotMeasured,
            Outcome::Meets => Sign::Meets,
            Outcome::NoLimitSet => Sign::NoLimitSet,
        }
    }

    /// The sign of a finding; one that a dispute touches cannot be relied on.
    pub fn of_finding(finding: &Finding) -> Self {
        if finding.disputed { Sign::CannotSay } else { Self::of(finding.outcome()) }
    }

    /// The sign that matters most; nothing to compare with where there is none.
    pub fn worst(signs: impl IntoIterator<Item = Sign>) -> Self {
        signs.into_iter().min().unwrap_or_default()
    }

    /// A stable word, for classes and tests.
    pub fn word(self) -> &'static str {
        match self {
            Sign::Fails => "fails",
            Sign::CannotSay => "cannot_say",
            Sign::NotMeasured => "not_measured",
            Sign::Meets => "meets",
            Sign::NoLimitSet => "no_limit_set",
        }
    }

    /// The sign as people read it.
    pub fn text(self) -> &'static str {
        match self {
            Sign::Fails => "fails",
            Sign::CannotSay => "cannot say",
            Sign::NotMeasured => "not measured",
            Sign::Meets => "meets",
            Sign::NoLimitSet => "no limit set",
        }
    }
}

/// How soon somebody has to act.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Haste {
    /// It has happened, or happens with the next move.
    Now,
    /// Within the half hour, or with the move after the next.
    Soon,
    /// Later.
    Later,
}

impl Haste {
    /// The haste of a forecast.
    pub fn of(urgency: Urgency) -> Self {
        match urgency {
            Urgency::Now => Haste::Now,
            Urgency::Soon => Haste::Soon,
            Urgency::Later => Haste::Later,
        }
    }

    /// A stable word, for classes and tests.
    pub fn word(self) -> &'static str {
        match self {
            Haste::Now => "now",
            Haste::Soon => "soon",
            Haste::Later => "later",
        }
    }
}
