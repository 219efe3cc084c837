//! The finding in sentences.

use super::limit::{limit, sure_note, warning};
use super::verdict::{margin, value};
use crate::entry::line_of;
use crate::label;
use crate::limit::printed_text;
use crate::phrase::{and, capital, no_stop, sentences, stop};
use crate::show::Show;
use crate::wanted::{dimension_text, topic_text, wanted_text};
use assess::{Aside, Finding};
use criteria::{InForce, NoLimit, Obstacle, Rule, Verdict};
use record::Log;
use record::kinds::CagePlanned;

/// The whole finding.
pub(super) fn sentence(finding: &Finding, heading: &str, log: &Log<'_>, show: &Show) -> String {
    sentences(&[
        said(finding, heading, show),
        made_of(finding, show),
        lacking(finding, log),
        stop(&capital(&margin(finding, show))),
        accuracy(finding),
        changed_or_warning(finding, show),
        disputed(finding),
    ])
}

/// What was found against what is asked.
fn said(finding: &Finding, heading: &str, show: &Show) -> String {
    match &finding.judgement.verdict {
        Verdict::Meets { .. } | Verdict::Fails { .. } => compared(finding, heading, show),
        Verdict::NotMeasured => not_measured(finding, heading, show),
        Verdict::NoLimitSet(why) => no_limit(finding, heading, *why, show),
        Verdict::CannotSay(obstacles) => {
            let missing: Vec<String> = obstacles.iter().map(obstacle).collect();
            let said = with_value(finding, show);
            format!("{heading}{said}; whether that meets cannot be said. {}", missing.join(" "))
        }
    }
}

fn compared(finding: &Finding, heading: &str, show: &Show) -> String {
    let meets = matches!(finding.judgement.verdict, Verdict::Meets { .. });
    let value = value(finding, show);
    match finding.criterion.as_ref().and_then(InForce::rule) {
        Some(Rule::Yes) if meets => format!("{heading}: yes, as required."),
        Some(Rule::No) if meets => format!("{heading}: no, as required."),
        Some(Rule::Yes) => format!("{heading}: no. Required: {}", quoted(finding.fact.meaning)),
        Some(Rule::No) => format!("{heading}: yes, and it must not be so: {}", quoted(finding.fact.meaning)),
        _ => format!("{heading}: {value}; {}.", asked(finding, show)),
    }
}

/// `It took 1.62 times its nominal bore, the rest of the shaft 1.08: more.`
pub(super) fn made_of(finding: &Finding, show: &Show) -> String {
    let (own, rest) = match finding.aside {
        Some(Aside::Ratios { own, rest }) => (own, rest),
        Some(Aside::RanOver(volume)) => return format!("{} ran over the top.", show.volume(volume)),
        None => return String::new(),
    };
    let side = if own < rest { "less" } else { "more" };
    let [told, others] = [own, rest].map(|ratio| show.ratio(ratio));
    format!("It took {told} times its nominal bore, the rest of the shaft {others}: {side}.")
}

/// Which acceptance was missing when concrete came; empty for every other finding.
fn lacking(finding: &Finding, log: &Log<'_>) -> String {
    let fails = matches!(finding.judgement.verdict, Verdict::Fails { .. });
    if finding.fact.name != "placing.after_acceptance" || !fails {
        return String::new();
    }
    let rests_on = |word: &str| {
        finding.evidence.iter().filter_map(|id| line_of(*id, log)).any(|line| line.body.kind().word == word)
    };
    let bottom = (!rests_on("bottom_accepted")).then_some("the bottom");
    let caged = log.last::<CagePlanned>().is_some();
    let cage = (caged && !rests_on("cage_checked")).then_some("the cage (checked and set)");
    let missing: Vec<String> = [bottom, cage].into_iter().flatten().map(str::to_owned).collect();
    stop(&format!("Not accepted before the first concrete: {}", and(&missing)))
}

/// `the limit is 1 in at most`.
fn asked(finding: &Finding, show: &Show) -> String {
    let limit = limit(finding, show);
    match finding.criterion.as_ref().and_then(InForce::rule) {
        Some(Rule::Between { .. } | Rule::Within { .. }) => format!("the limits are {limit}"),
        _ => format!("the limit is {limit}"),
    }
}

fn not_measured(finding: &Finding, heading: &str, show: &Show) -> String {
    let rule = finding.criterion.as_ref().and_then(InForce::rule);
    let asked = match rule {
        Some(rule) if rule.has_limit() => format!("; {}", asked(finding, show)),
        _ => String::new(),
    };
    if finding.disputed {
        return format!("{heading}: measured and in dispute{asked}.");
    }
    format!("{heading}: not measured{asked}. To settle it, enter {}.", wanted_text(finding.fact))
}

fn no_limit(finding: &Finding, heading: &str, why: NoLimit, show: &Show) -> String {
    let value = with_value(finding, show);
    let why = match why {
        NoLimit::NotInSet => "no limit is set in the criteria in force",
        NoLimit::ReportOnly => "the criterion asks for the value and names no limit",
        NoLimit::TurnedOff => "no limit is set, because this job turned it off",
    };
    format!("{heading}{value}; {why}.")
}

/// `: 1.5 in`, or that there is none.
fn with_value(finding: &Finding, show: &Show) -> String {
    match value(finding, show) {
        text if text.is_empty() => ": not measured".to_owned(),
        text => format!(": {text}"),
    }
}

fn obstacle(obstacle: &Obstacle) -> String {
    match obstacle {
        Obstacle::ConditionUnknown(topic) => {
            format!(
                "The record does not say {}. To settle it, enter {}.",
                label::topic(*topic),
                topic_text(*topic)
            )
        }
        Obstacle::DimensionUnknown(dimension) => format!(
            "The limit hangs on {}, which the record does not hold. To settle it, enter {}.",
            label::dimension(*dimension),
            dimension_text(*dimension)
        ),
        Obstacle::OtherVolume { measured, limit } => format!(
            "The reading is in {} and the limit in {}: a funnel time for one volume is no multiple of that \
             for another. To settle it, test again and read the time in {}.",
            measured.symbol, limit.symbol, limit.symbol
        ),
        Obstacle::OtherSort => {
            "The value is of another sort than the limit. The entries are kept; the program has to be mended."
                .to_owned()
        }
    }
}

fn accuracy(finding: &Finding) -> String {
    let accuracy = finding.criterion.as_ref().and_then(|in_force| in_force.original.accuracy.as_ref());
    match accuracy.filter(|_| finding.judgement.within_accuracy) {
        Some(accuracy) => {
            format!(
                "That is closer to the limit than the instrument can tell (± {}).",
                printed_text(accuracy)
            )
        }
        None => String::new(),
    }
}

fn changed_or_warning(finding: &Finding, show: &Show) -> String {
    match &finding.criterion {
        Some(in_force) if in_force.changed.is_some() => sure_note(in_force, show),
        Some(in_force) => warning(in_force).to_owned(),
        None => String::new(),
    }
}

fn disputed(finding: &Finding) -> String {
    let disputed = "An entry it rests on is in dispute: a person has to decide which reading stands.";
    if finding.disputed { disputed.to_owned() } else { String::new() }
}

/// The meaning of a fact between marks, with a stop.
fn quoted(meaning: &str) -> String {
    format!("“{}”.", no_stop(meaning))
}
