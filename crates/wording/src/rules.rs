//! The criteria in force, in words: why there are none, what was refused, how sure a limit is.

use assess::{Finding, NoRules, Outcome};
use criteria::{InForce, Refusal, RefusedOverride, Sure};

/// Why no criteria are in force.
pub fn no_rules(why: &NoRules) -> String {
    match why {
        NoRules::NotChosen => "No criteria were chosen for this job, so nothing is judged. \
             Choose a set in the notes under [criteria]."
            .to_owned(),
        NoRules::Unknown { set } => {
            format!(
                "The job chose the criteria `{set}`, which do not come with this program, and the record holds no text of them."
            )
        }
        NoRules::OtherFile { set, chosen, found } => format!(
            "The criteria `{set}` here are not the ones the job chose: their file has the digest {}, the record says {}.",
            &found[..found.len().min(12)],
            &chosen[..chosen.len().min(12)]
        ),
        NoRules::Mistakes { set, problems } => {
            let lines: Vec<String> = problems.iter().map(ToString::to_string).collect();
            format!("The criteria `{set}` kept in the record cannot be read: {}", lines.join("; "))
        }
    }
}

/// A change of a limit that was refused.
pub fn refused(refused: &RefusedOverride) -> String {
    let why = match &refused.why {
        Refusal::UnknownCriterion(Some(near)) => {
            format!("the set has no such criterion; perhaps `{near}` was meant")
        }
        Refusal::UnknownCriterion(None) => "the set has no such criterion".to_owned(),
        Refusal::ChangedTwice => "it was changed twice".to_owned(),
        Refusal::NoReason => "no reason was written".to_owned(),
        Refusal::NoName => "no name was written".to_owned(),
        Refusal::UnitUnknown(unit) => format!("`{unit}` is no unit of what it measures"),
        Refusal::NotANumber(text) => format!("`{text}` is no number"),
        Refusal::WrongShape => "the criterion has another number of limits".to_owned(),
        Refusal::Reversed => "the lower limit lies above the upper one".to_owned(),
    };
    format!(
        "The change of `{}` was not taken over: {why}. The limit of the set stays in force.",
        refused.criterion
    )
}

/// How far the limit of a criterion can be relied on, and where it comes from.
pub fn sure_text(criterion: &InForce) -> String {
    let source = match (&criterion.original.source, &criterion.original.clause) {
        (Some(source), Some(clause)) => format!("{source}, {clause}"),
        (Some(source), None) => source.clone(),
        (None, _) => String::new(),
    };
    match criterion.sure() {
        Sure::Read => format!("read in {source}"),
        Sure::FromMemory => format!("{source}, from memory: verify before use"),
        Sure::CommonPractice => "common practice, no source".to_owned(),
        Sure::Job => criterion.changed.as_ref().map_or_else(
            || {
                format!(
                    "set by the job{}",
                    if source.is_empty() { String::new() } else { format!(", {source}") }
                )
            },
            |changed| format!("changed for this job by {}: {}", changed.who, changed.reason),
        ),
    }
}

/// How a shaft stands, in one or two sentences.
pub fn verdict_sentence(findings: &[Finding], disputes: usize) -> String {
    let count = |wanted: Outcome| findings.iter().filter(|finding| finding.outcome() == wanted).count();
    let (fails, open) = (count(Outcome::Fails), findings.iter().filter(|finding| finding.is_open()).count());
    let mut sentence = match (fails, open) {
        (0, _) => "Nothing that was measured fails.".to_owned(),
        (fails, 0) => format!("{}; each was answered.", findings_fail(fails)),
        (fails, open) if fails == open => format!("{}; nobody has answered yet.", findings_fail(fails)),
        (fails, open) => format!("{}; {open} of them not answered yet.", findings_fail(fails)),
    };
    let unmeasured = count(Outcome::NotMeasured) + count(Outcome::CannotSay);
    if unmeasured > 0 {
        sentence = format!("{sentence} {unmeasured} could not be judged.");
    }
    if disputes > 0 {
        let word = if disputes == 1 { "dispute is" } else { "disputes are" };
        sentence = format!("{sentence} {disputes} {word} open.");
    }
    sentence
}

fn findings_fail(count: usize) -> String {
    if count == 1 { "One finding fails".to_owned() } else { format!("{count} findings fail") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_findings_is_not_a_pass_in_disguise() {
        assert_eq!(verdict_sentence(&[], 0), "Nothing that was measured fails.");
        assert_eq!(verdict_sentence(&[], 2), "Nothing that was measured fails. 2 disputes are open.");
    }

    #[test]
    fn a_job_without_criteria_says_what_to_do() {
        let told = no_rules(&NoRules::NotChosen);
        assert_eq!(
            told,
            "No criteria were chosen for this job, so nothing is judged. Choose a set in the notes under [criteria]."
        );
    }

    #[test]
    fn a_refused_change_names_the_criterion_and_keeps_the_limit() {
        let change =
            RefusedOverride { criterion: "x/y".to_owned(), why: Refusal::UnitUnknown("furlong".to_owned()) };
        assert_eq!(
            refused(&change),
            "The change of `x/y` was not taken over: `furlong` is no unit of what it measures. \
             The limit of the set stays in force."
        );
    }
}
