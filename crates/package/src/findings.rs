//! Findings and forecasts, worded, with how each stands.

mod group;
mod subject;
mod unlimited;

use crate::Source;
use crate::sources::certainty;
use assess::{Finding, Outcome, Outlook, Urgency};
use criteria::Sure;
use group::{Shown, grouped};
use report::{Counts, Standing, Verdict};

#[cfg(test)]
pub(crate) use group::rows;
pub(crate) use unlimited::unlimited;

/// So many entries are named as evidence; the rest is counted.
const NAMED: usize = 3;

/// How a finding is shown: what meets its limit still needs attention where the reading or the limit is in
/// doubt.
pub(crate) fn standing(finding: &Finding) -> Standing {
    match finding.outcome() {
        Outcome::Fails => Standing::Fails,
        Outcome::CannotSay => Standing::NeedsAttention,
        Outcome::NotMeasured if finding.disputed => Standing::NeedsAttention,
        Outcome::NotMeasured => Standing::NotMeasured,
        Outcome::Meets if finding.disputed || finding.judgement.within_accuracy => Standing::NeedsAttention,
        Outcome::Meets => Standing::Meets,
        Outcome::NoLimitSet => Standing::NoLimit,
    }
}

/// Every finding counts, a grouped one too; what has neither limit nor value is no finding.
pub(crate) fn counts(findings: &[Finding]) -> Counts {
    let there = |finding: &&Finding| finding.criterion.is_some() || finding.value.is_some();
    let count = |wanted: Standing| {
        let like = findings.iter().filter(there).filter(|finding| standing(finding) == wanted);
        u32::try_from(like.count()).unwrap_or(u32::MAX)
    };
    Counts {
        fails: count(Standing::Fails),
        needs_attention: count(Standing::NeedsAttention),
        not_measured: count(Standing::NotMeasured),
        meets: count(Standing::Meets),
        no_limit: count(Standing::NoLimit),
    }
}

/// The standing that matters most.
pub(crate) fn worst(counts: Counts) -> Standing {
    match counts {
        Counts { fails: 1.., .. } => Standing::Fails,
        Counts { needs_attention: 1.., .. } => Standing::NeedsAttention,
        Counts { not_measured: 1.., .. } => Standing::NotMeasured,
        Counts { meets: 1.., .. } => Standing::Meets,
        _ => Standing::NoLimit,
    }
}

pub(crate) fn verdict(source: &Source<'_, '_>) -> Verdict {
    let counts = counts(&source.assessment.findings);
    let sentence = wording::verdict_sentence(&source.assessment.findings, source.log.disputes.len());
    let sealed = crate::seals::in_one_sentence(source);
    let sentence = if sealed.is_empty() { sentence } else { format!("{sentence} {sealed}") };
    Verdict { standing: worst(counts), sentence, counts }
}

/// What fails, open ones first, then what cannot be said, then concrete that went where no drawing knows of:
/// short, as page one has little room.
pub(crate) fn leading(source: &Source<'_, '_>) -> Vec<String> {
    let wanted = |finding: &&Finding| matches!(finding.outcome(), Outcome::Fails | Outcome::CannotSay);
    let mut leading: Vec<&Finding> = source.assessment.findings.iter().filter(wanted).collect();
    leading.sort_by_key(|finding| (finding.outcome(), !finding.is_open()));
    leading.into_iter().map(|finding| short(finding, source)).chain(lifts(source)).collect()
}

/// Lifts of a casing whose volumes do not add up. No criterion stands behind them, so they are no findings.
fn lifts(source: &Source<'_, '_>) -> Vec<String> {
    let show = source.show();
    let lifts = source.assessment.reckoning.lifts.iter().zip(1..);
    let worded = lifts.map(|(lift, number)| wording::lift(number, lift, source.log, &show));
    let odd = worded.filter(|lift| !lift.unexplained.is_empty());
    odd.map(|lift| format!("{}: {} {}", lift.heading, lift.unexplained, lift.do_now)).collect()
}

/// What was found, by how much, and the last decision about it.
fn short(finding: &Finding, source: &Source<'_, '_>) -> String {
    let text = wording::finding(finding, source.log, &source.show());
    let found = if text.value.is_empty() { text.verdict } else { &text.value };
    let mut sentence = format!("{}: {found}", subject::heading(finding, source));
    if !text.margin.is_empty() {
        sentence = format!("{sentence}, {} (limit: {})", text.margin, text.limit);
    }
    let decided = finding.dispositions.last().map_or_else(
        || "Nobody has decided.".to_owned(),
        |last| format!("{} by {}.", capital(&wording::label::choice(last.decision.word())), last.by),
    );
    let told = [format!("{sentence}."), text.made_of, decided];
    told.into_iter().filter(|one| !one.is_empty()).collect::<Vec<_>>().join(" ")
}

pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Every judged finding, those that meet together by criterion.
pub(crate) fn findings(source: &Source<'_, '_>) -> Vec<report::Finding> {
    let judged = source.assessment.findings.iter().filter(|finding| finding.criterion.is_some());
    let row = |shown: Shown<'_>| match shown {
        Shown::Single(finding) => single(finding, source),
        Shown::Group(group) => group::row(&group, source),
    };
    grouped(judged).into_iter().map(row).collect()
}

fn single(finding: &Finding, source: &Source<'_, '_>) -> report::Finding {
    let text = wording::finding(finding, source.log, &source.show());
    let sure = finding.criterion.as_ref().map_or(Sure::CommonPractice, criteria::InForce::sure);
    let done: Vec<&str> = text.dispositions.iter().map(|done| done.sentence.as_str()).collect();
    report::Finding {
        standing: standing(finding),
        criterion: with(subject::heading(finding, source), &text.made_of),
        id: text.criterion,
        limit: text.limit,
        source: text.source,
        certainty: certainty(sure),
        value: if text.value.is_empty() { text.verdict.to_owned() } else { text.value },
        margin: text.margin,
        done: done.join(" "),
        evidence: evidence(&text.evidence),
    }
}

/// What was checked, and what the value was made of where it needs telling.
fn with(heading: String, made_of: &str) -> String {
    if made_of.is_empty() { heading } else { format!("{heading}. {made_of}") }
}

/// The first entries by name, the others by their number.
fn evidence(entries: &[String]) -> String {
    let named = entries[..entries.len().min(NAMED)].join("; ");
    match entries.len().saturating_sub(NAMED) {
        0 => named,
        more => format!("{named}; and {more} more"),
    }
}

pub(crate) fn forecasts(source: &Source<'_, '_>) -> Vec<report::Forecast> {
    let show = source.show();
    let ahead = crate::ahead::rows(source, &show);
    let other = |forecast: &&assess::Forecast| !matches!(forecast.outlook, Outlook::StillToOrder { .. });
    let forecast = |forecast: &assess::Forecast| {
        let text = wording::forecast(forecast, source.log, &show);
        report::Forecast {
            standing: match forecast.urgency {
                Urgency::Now => Standing::Fails,
                Urgency::Soon => Standing::NeedsAttention,
                Urgency::Later => Standing::Meets,
            },
            what: text.heading,
            when: text.sentence,
            because: text.do_now,
        }
    };
    // What is still needed is told with the order for it.
    source.assessment.forecasts.iter().filter(other).map(forecast).chain(ahead).collect()
}
