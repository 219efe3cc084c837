//! The limit in force beside the field of a form which it judges, so that it is known before the reading is.
//!
//! Words: *itself* = the field holds what the criterion measures; *about* = what is measured is worked out from
//! the field, so the title of the criterion is told with the limit.
//! Never: show a limit without where it comes from and how sure that is; say whether a reading meets it.

use crate::label;
use crate::limit::limit_text;
use crate::show::Show;
use criteria::{InForce, Limits, Rule, Sure, Topic};

/// A limit as it stands beside a field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LimitBeside {
    /// `limit 7 to 9 in`.
    pub limit: String,
    /// Its source in short, and how sure the limit is; empty where no limit can be told.
    pub source: String,
    /// Nobody had the document before their eyes, or there is none.
    pub unsure: bool,
}

/// A criterion as it stands beside a field; `None` where the job turned it off.
///
/// `itself`: the field holds what is measured. `limits`: what the limits come to, where they were worked out.
pub fn limit_beside(
    criterion: &InForce,
    limits: Option<Limits>,
    itself: bool,
    show: &Show,
) -> Option<LimitBeside> {
    let asked = asked(criterion.rule()?, limits, show);
    let limit = match (itself, criterion.rule()?.has_limit()) {
        (true, true) => format!("limit {asked}"),
        (true, false) => asked,
        (false, _) => format!("{}: {asked}", criterion.original.title),
    };
    let sure = criterion.sure();
    let unsure = matches!(sure, Sure::FromMemory | Sure::CommonPractice);
    Some(LimitBeside { limit, source: source(criterion, sure), unsure })
}

/// What stands there while the record does not say whether a criterion applies.
pub fn limit_hangs_on(topics: &[Topic]) -> LimitBeside {
    let topics: Vec<String> = topics.iter().map(|topic| label::topic(*topic).to_owned()).collect();
    let limit = format!("the limit hangs on {}, which the record does not say", crate::phrase::and(&topics));
    LimitBeside { limit, source: String::new(), unsure: false }
}

fn asked(rule: &Rule, limits: Option<Limits>, show: &Show) -> String {
    match rule {
        Rule::Yes => "has to be so".to_owned(),
        Rule::No => "must not be so".to_owned(),
        Rule::Report => "to be written down, no number is given".to_owned(),
        rule => limit_text(rule, limits, show),
    }
}

/// `EN-1536, tremie concreting, from memory`.
fn source(criterion: &InForce, sure: Sure) -> String {
    let original = &criterion.original;
    let parts = [original.source.as_deref(), original.clause.as_deref()];
    let document = parts.into_iter().flatten().collect::<Vec<_>>().join(", ");
    match (sure, &criterion.changed) {
        (_, Some(changed)) => format!("changed for this job by {}", changed.who),
        (Sure::CommonPractice, _) => "common practice, no source".to_owned(),
        (Sure::FromMemory, _) => format!("{document}, from memory"),
        (Sure::Job, _) if document.is_empty() => "set by the job".to_owned(),
        (Sure::Job | Sure::Read, _) => document,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use criteria::{Change, Override, Set};

    #[track_caller]
    fn check(set: &str, id: &str, itself: bool, expected: &str) {
        let (set, _) = Set::shipped(set).expect("a shipped set").in_force(&[]);
        let told = limit_beside(set.get(id).expect("a criterion"), None, itself, &Show::of(None));
        let told = told.expect("nothing is turned off");
        let unsure = if told.unsure { "unsure" } else { "read" };
        assert_eq!(format!("{} · {} · {unsure}", told.limit, told.source), expected);
    }

    #[test]
    fn a_limit_is_told_with_its_source_and_how_sure_it_is() {
        check(
            "roadside-common-practice-1",
            "roadside/utilities-hand-dug",
            true,
            "limit 4 ft at least · common practice, no source · unsure",
        );
        check(
            "roadside-common-practice-1",
            "roadside/utilities-hand-dug",
            false,
            "First feet dug by hand: 4 ft at least · common practice, no source · unsure",
        );
        check(
            "roadside-common-practice-1",
            "roadside/reference-known",
            true,
            "has to be so · common practice, no source · unsure",
        );
    }

    #[test]
    fn a_changed_limit_names_who_changed_it_and_a_turned_off_one_is_not_told() {
        let set = Set::shipped("roadside-common-practice-1").expect("a shipped set");
        let changed = |change| Override {
            criterion: "roadside/utilities-hand-dug".to_owned(),
            change,
            reason: "Special provision".to_owned(),
            who: "A. Sorel".to_owned(),
        };
        let told = |change| {
            let (set, _) = set.in_force(&[changed(change)]);
            limit_beside(set.get("roadside/utilities-hand-dug").unwrap(), None, true, &Show::of(None))
        };
        let five =
            told(Change::Limit { value: "5".to_owned(), unit: "ft".to_owned() }).expect("it is in force");
        assert_eq!(
            (five.limit.as_str(), five.source.as_str(), five.unsure),
            ("limit 5 ft at least", "changed for this job by A. Sorel", false)
        );
        assert_eq!(told(Change::TurnedOff), None);
    }

    #[test]
    fn what_a_limit_hangs_on_is_named() {
        assert_eq!(
            limit_hangs_on(&[Topic::Fluid, Topic::Water]).limit,
            "the limit hangs on what the drilling fluid is made of and whether the water is fresh or salt, \
             which the record does not say"
        );
    }
}
