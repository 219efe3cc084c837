//! Verdict, value and margin in words.

use crate::show::Show;
use crate::value::{difference_text, measured_text};
use assess::Finding;
use criteria::{Difference, Side, Verdict};

/// The verdict as people read it.
pub(super) fn word(finding: &Finding) -> &'static str {
    match &finding.judgement.verdict {
        Verdict::NotMeasured if finding.disputed => "in dispute",
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
pub(super) fn margin(finding: &Finding, show: &Show) -> String {
    match &finding.judgement.verdict {
        Verdict::Meets { margin: Some(margin) } if is_nothing(*margin) => "on the limit".to_owned(),
        Verdict::Meets { margin: Some(margin) } => format!("{} to spare", difference_text(*margin, show)),
        Verdict::Fails { excess: Some(excess), .. } if is_nothing(*excess) => {
            "on the limit, which does not meet".to_owned()
        }
        Verdict::Fails { excess: Some(excess), side } => {
            format!("{} {}", difference_text(*excess, show), side_word(finding.fact.name, *side))
        }
        _ => String::new(),
    }
}

fn is_nothing(difference: Difference) -> bool {
    difference.number.to_f64() == 0.0
}

/// Facts whose excess has a word of its own, above and below the limit: a bottom that lies above its plan is not
/// `over` but too shallow.
const SIDES: &[(&str, &str, &str)] = &[
    ("bottom.tip_above_plan", "too shallow", "too deep"),
    ("bottom.change_since_accepted", "too much", "too little"),
    ("socket.length_short", "too short", "too long"),
    ("cage.length_short", "too short", "too long"),
    ("cage.lap_short", "too short", "too long"),
    ("cage.top_deviation.set", "too high", "too low"),
    ("cage.top_deviation.after_pour", "too high", "too low"),
    ("cage.top_deviation.after_casing", "too high", "too low"),
    ("equipment.tool_diameter_short", "too small", "too large"),
    ("asbuilt.diameter_short", "too small", "too large"),
    ("asbuilt.diameter_over", "too large", "too small"),
    ("asbuilt.top_deviation", "too high", "too low"),
];

fn side_word(fact: &str, side: Side) -> &'static str {
    let own = SIDES.iter().find(|row| row.0 == fact);
    match (side, own) {
        (Side::Above, Some(own)) => own.1,
        (Side::Below, Some(own)) => own.2,
        (Side::Above, None) => "over",
        (Side::Below, None) => "under",
        (Side::Otherwise, _) => "off",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_of_a_side_belongs_to_a_fact() {
        for (fact, ..) in SIDES {
            assert!(criteria::facts::named(fact).is_some(), "{fact}");
        }
    }

    #[test]
    fn a_bottom_above_its_plan_is_too_shallow_and_a_slump_is_over() {
        assert_eq!(side_word("bottom.tip_above_plan", Side::Above), "too shallow");
        assert_eq!(side_word("cage.length_short", Side::Above), "too short");
        assert_eq!(side_word("asbuilt.top_deviation", Side::Below), "too low");
        assert_eq!(side_word("slump.placing", Side::Above), "over");
        assert_eq!(side_word("slump.placing", Side::Below), "under");
    }
}
