//! What fails again and again: findings counted by the criterion they come from.
//!
//! Never: count what was not measured with what meets.

use super::{OfShaft, One, Place};
use crate::finding::Outcome;
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

/// What a finding of one shaft says of its criterion.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Told {
    criterion: String,
    title: String,
    fact: &'static Fact,
    outcome: Outcome,
    open: bool,
    evidence: Vec<EntryId>,
}

pub(super) fn of_shaft(one: &One<'_, '_>) -> Vec<Told> {
    let told = |finding: &crate::Finding| {
        let criterion = finding.criterion.as_ref()?;
        let fails = finding.outcome() == Outcome::Fails;
        Some(Told {
            criterion: criterion.original.id.clone(),
            title: criterion.original.title.clone(),
            fact: finding.fact,
            outcome: finding.outcome(),
            open: finding.is_open(),
            evidence: if fails { finding.evidence.clone() } else { Vec::new() },
        })
    };
    one.assessment.findings.iter().filter_map(told).collect()
}

pub(super) fn criteria(all: &[OfShaft]) -> Vec<OfCriterion> {
    let mut by_id: BTreeMap<&str, OfCriterion> = BTreeMap::new();
    let findings = all.iter().flat_map(|one| one.findings.iter().map(move |finding| (one, finding)));
    for (one, finding) in findings {
        by_id
            .entry(finding.criterion.as_str())
            .or_insert_with(|| OfCriterion::new(finding))
            .count(&one.place, finding);
    }
    let mut told: Vec<OfCriterion> = by_id.into_values().collect();
    told.put_in_order_by_key(|one| std::cmp::Reverse((one.fails, one.unknown)));
    told
}

impl OfCriterion {
    fn new(told: &Told) -> Self {
        let title = told.title.trim_end_matches('.').to_owned();
        let (criterion, fact) = (told.criterion.clone(), told.fact);
        OfCriterion { criterion, title, fact, fails: 0, open: 0, unknown: 0, meets: 0, places: Vec::new() }
    }

    fn count(&mut self, place: &Place, told: &Told) {
        match told.outcome {
            Outcome::Fails => {
                self.fails += 1;
                self.open += usize::from(told.open);
                self.places.push((place.clone(), told.evidence.clone()));
            }
            Outcome::CannotSay | Outcome::NotMeasured => self.unknown += 1,
            Outcome::Meets => self.meets += 1,
            Outcome::NoLimitSet => {}
        }
    }
}
