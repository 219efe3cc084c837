//! What fails again and again: findings counted by the criterion they come from.
//!
//! Never: count what was not measured with what meets.

use super::{One, Place};
use crate::finding::{Finding, Outcome};
use ::criteria::Fact;
use quantity::InOrder;
use record::EntryId;
use std::collections::BTreeMap;

/// The findings of one criterion, over all shafts.
#[derive(Debug, Clone, PartialEq)]
pub struct OfCriterion {
    /// Its id: `roadside/slump-placed`.
    pub criterion: String,
    /// Its title.
    pub title: String,
    /// What it measures.
    pub fact: &'static Fact,
    /// Findings that fail.
    pub fails: usize,
    /// Those of them nobody decided about.
    pub open: usize,
    /// Findings that cannot be judged or were not measured.
    pub unknown: usize,
    /// Findings that meet.
    pub meets: usize,
    /// Where it fails, with the entries behind it.
    pub places: Vec<(Place, Vec<EntryId>)>,
}

pub(super) fn criteria(all: &[One<'_>]) -> Vec<OfCriterion> {
    let mut by_id: BTreeMap<&str, OfCriterion> = BTreeMap::new();
    let findings =
        all.iter().flat_map(|one| one.assessment.findings.iter().map(move |finding| (one, finding)));
    for (one, finding) in findings {
        let Some(criterion) = &finding.criterion else { continue };
        let id = criterion.original.id.as_str();
        by_id
            .entry(id)
            .or_insert_with(|| OfCriterion::new(id, &criterion.original.title, finding.fact))
            .count(&one.place, finding);
    }
    let mut told: Vec<OfCriterion> = by_id.into_values().collect();
    told.put_in_order_by_key(|one| std::cmp::Reverse((one.fails, one.unknown)));
    told
}

impl OfCriterion {
    fn new(criterion: &str, title: &str, fact: &'static Fact) -> Self {
        let (criterion, title) = (criterion.to_owned(), title.trim_end_matches('.').to_owned());
        OfCriterion { criterion, title, fact, fails: 0, open: 0, unknown: 0, meets: 0, places: Vec::new() }
    }

    fn count(&mut self, place: &Place, finding: &Finding) {
        match finding.outcome() {
            Outcome::Fails => {
                self.fails += 1;
                self.open += usize::from(finding.is_open());
                self.places.push((place.clone(), finding.evidence.clone()));
            }
            Outcome::CannotSay | Outcome::NotMeasured => self.unknown += 1,
            Outcome::Meets => self.meets += 1,
            Outcome::NoLimitSet => {}
        }
    }
}
