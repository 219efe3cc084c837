//! How many findings stand how.
//!
//! Never: add what was not measured to what meets.

use super::looked::Looked;
use super::sign::Sign;

/// How many findings stand how.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct FindingCounts {
    /// They fail.
    pub fails: usize,
    /// They fail and nobody decided about them.
    pub open: usize,
    /// They cannot be judged, or a dispute touches them.
    pub cannot_say: usize,
    /// They should have been measured and were not.
    pub not_measured: usize,
    /// They meet.
    pub meets: usize,
    /// No limit is set.
    pub no_limit_set: usize,
}

impl FindingCounts {
    pub(crate) fn of(looked: &Looked<'_>) -> Self {
        let mut counts = FindingCounts::default();
        for finding in &looked.assessment.findings {
            counts.open += usize::from(finding.is_open());
            match Sign::of_finding(finding) {
                Sign::Fails => counts.fails += 1,
                Sign::CannotSay => counts.cannot_say += 1,
                Sign::NotMeasured => counts.not_measured += 1,
                Sign::Meets => counts.meets += 1,
                Sign::NoLimitSet => counts.no_limit_set += 1,
            }
        }
        counts
    }
}
