//! Findings and forecasts, worded, with how each stands.

use crate::Source;
use crate::sources::certainty;
use assess::{Finding, Outcome, Urgency};
use criteria::Sure;
use report::{Counts, Standing, Verdict};

/// How a finding is shown: what meets its limit still needs attention where the reading or the limit is in
/// doubt.
pub(crate) fn standing(finding: &Finding) -> Standing {
    match finding.outcome() {
        Outcome::Fails => Standing::Fails,
        Outcome::CannotSay => Standing::NeedsAttention,
        Outcome::NotMeasured => Standing::NotMeasured,
        Outcome::Meets if finding.disputed || finding.judgement.within_accuracy => Standing::NeedsAttention,
        Outcome::Meets => Standing::Meets,
        Outcome::NoLimitSet => Standing::NoLimit,
    }
}

pub(crate) fn counts(findings: &[Finding]) -> Counts {
    let count = |wanted: Standing| {
        u32::try_from(findings.iter().filter(|finding| standing(finding) == wanted).count()).unwrap_or(u32::MAX)
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
    Verdict { standing: worst(counts), sentence, counts }
}

/// What fails, open ones first, then what cannot be said.
pub(crate) fn leading(source: &Source<'_, '_>) -> Vec<String> {
    let show = source.show();
    let mut leading: Vec<&Finding> = source
        .assessment
        .findings
        .iter()
        .filter(|finding| matches!(finding.outcome(), Outcome::Fails | Outcome::CannotSay))
        .collect();
    leading.sort_by_key(|finding| (finding.outcome(), !finding.is_open()));
    leading.into_iter().map(|finding| wording::finding(finding, source.log, &show).sentence).collect()
}

/// Every judged finding. Where no limit is set, only what was measured.
pub(crate) fn findings(source: &Source<'_, '_>) -> Vec<report::Finding> {
    let show = source.show();
    let shown = source.assessment.findings.iter().filter(|finding| finding.criterion.is_some());
    shown.map(|finding| row(finding, &wording::finding(finding, source.log, &show))).collect()
}

fn row(finding: &Finding, text: &wording::FindingText) -> report::Finding {
    let sure = finding.criterion.as_ref().map_or(Sure::CommonPractice, criteria::InForce::sure);
    let done: Vec<&str> = text.dispositions.iter().map(|done| done.sentence.as_str()).collect();
    report::Finding {
        standing: standing(finding),
        criterion: text.heading.clone(),
        id: text.criterion.clone(),
        limit: text.limit.clone(),
        source: text.source.clone(),
        certainty: certainty(sure),
        value: if text.value.is_empty() { text.verdict.to_owned() } else { text.value.clone() },
        margin: text.margin.clone(),
        done: done.join(" "),
        evidence: text.evidence.join("; "),
    }
}

pub(crate) fn forecasts(source: &Source<'_, '_>) -> Vec<report::Forecast> {
    let show = source.show();
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
    source.assessment.forecasts.iter().map(forecast).collect()
}
