//! Verdict, value and margin in words.

use crate::show::Show;
use crate::value::{difference_text, measured_text};
use assess::Finding;
use criteria::{Difference, Side, Verdict};

/// The verdict as people read it.
pub(super) fn word(verdict: &Verdict) -> &'static str {
    match verdict {
        Verdict::Meets { .. } => "meets",
        Verdict::Fails { .. } => "fails",
        Verdict::NotMeasured => "not measured",
        Verdict::CannotSay(_) => "cannot say",
        Verdict::NoLimitSet(_) => "no limit set",
    }
}

/// The value; empty when there is none.
pub(super) fn value(finding: &Finding, show: &Show) -> String {
    let limits = finding.judgement.limits;
    finding.value.map_or_else(String::new, |value| measured_text(value, finding.fact, limits, show))
}

/// How far inside or outside; empty where there is no number.
pub(super) fn margin(verdict: &Verdict, show: &Show) -> String {
    match verdict {
        Verdict::Meets { margin: Some(margin) } if is_nothing(*margin) => "on the limit".to_owned(),
        Verdict::Meets { margin: Some(margin) } => format!("{} to spare", difference_text(*margin, show)),
        Verdict::Fails { excess: Some(excess), .. } if is_nothing(*excess) => {
            "on the limit, which does not meet".to_owned()
        }
        Verdict::Fails { excess: Some(excess), side } => {
            format!("{} {}", difference_text(*excess, show), side_word(*side))
        }
        _ => String::new(),
    }
}

fn is_nothing(difference: Difference) -> bool {
    difference.number.to_f64() == 0.0
}

fn side_word(side: Side) -> &'static str {
    match side {
        Side::Above => "over",
        Side::Below => "under",
        Side::Otherwise => "off",
    }
}
