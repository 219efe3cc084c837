//! The limit of a finding, where it comes from, and how far it can be relied on.

use crate::limit::limit_text;
use crate::phrase::{sentences, stop};
use crate::show::Show;
use assess::Finding;
use criteria::{Changed, InForce, Sure};

/// The limit in force; empty where none is set.
pub(super) fn limit(finding: &Finding, show: &Show) -> String {
    let rule = finding.criterion.as_ref().and_then(InForce::rule);
    rule.map_or_else(String::new, |rule| limit_text(rule, finding.judgement.limits, show))
}

/// Document and clause; for a changed limit the job.
pub(super) fn source(in_force: &InForce) -> String {
    match in_force.sure() {
        Sure::CommonPractice => "common practice, no source".to_owned(),
        Sure::Job if in_force.changed.is_some() => "set for this job".to_owned(),
        _ => document(in_force),
    }
}

/// Document and clause of the criterion as its file has it.
fn document(in_force: &InForce) -> String {
    let original = &in_force.original;
    let parts = [original.source.as_deref(), original.clause.as_deref()];
    let parts: Vec<&str> = parts.into_iter().flatten().collect();
    match (parts.is_empty(), original.sure) {
        (_, Sure::CommonPractice) => "common practice, no source".to_owned(),
        (false, _) => parts.join(", "),
        (true, _) => "the job's own criteria".to_owned(),
    }
}

/// How far the limit can be relied on, in sentences.
pub(super) fn sure_note(in_force: &InForce, show: &Show) -> String {
    if let Some(changed) = &in_force.changed {
        return changed_note(in_force, changed, show);
    }
    let original = &in_force.original;
    match original.sure {
        Sure::Read => format!("Read in the source ({}).", document(in_force)),
        Sure::FromMemory => {
            let verify = original.verify.as_deref().map_or_else(String::new, stop);
            sentences(&["From memory: verify before use.".to_owned(), verify])
        }
        Sure::CommonPractice => "Common practice, no source.".to_owned(),
        Sure::Job => "Set by the criteria of this job.".to_owned(),
    }
}

/// Original, new, reason, who.
fn changed_note(in_force: &InForce, changed: &Changed, show: &Show) -> String {
    let original = limit_text(&in_force.original.rule, None, show);
    let now = match &changed.rule {
        Some(rule) => format!("Changed for this job to {}", limit_text(rule, None, show)),
        None => "Turned off for this job".to_owned(),
    };
    let why = stop(&format!("{now} by {}: {}", changed.who, changed.reason));
    format!("{why} Before: {original} ({}).", document(in_force))
}

/// The short warning that no finding may go without; empty where the limit can be relied on.
pub(super) fn warning(in_force: &InForce) -> &'static str {
    match in_force.sure() {
        Sure::FromMemory => "From memory: verify before use.",
        Sure::CommonPractice => "Common practice, no source.",
        Sure::Read | Sure::Job => "",
    }
}
