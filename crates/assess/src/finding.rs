//! A finding: one verdict, with the value, the limit in force, and the entries it rests on.
//!
//! Order, defined and documented as such: fails, cannot say, not measured, meets, no limit set; within each
//! by stage of the work, then by the criterion's place in its file, then by time and subject.

use crate::measure::{Aside, Subject};
use criteria::{Fact, InForce, Judgement, Measured, Stage, Verdict};
use quantity::Moment;
use record::choices::Decision;
use record::kinds::FindingDisposed;
use record::{EntryId, Line};

/// The rough outcome, in the order findings are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// Outside the limit.
    Fails,
    /// A comparison would be a guess.
    CannotSay,
    /// There should be a value and there is none.
    NotMeasured,
    /// Inside the limit.
    Meets,
    /// Nothing to compare with.
    NoLimitSet,
}

impl Outcome {
    /// The outcome of a verdict.
    pub fn of(verdict: &Verdict) -> Self {
        match verdict {
            Verdict::Fails { .. } => Outcome::Fails,
            Verdict::CannotSay(_) => Outcome::CannotSay,
            Verdict::NotMeasured => Outcome::NotMeasured,
            Verdict::Meets { .. } => Outcome::Meets,
            Verdict::NoLimitSet(_) => Outcome::NoLimitSet,
        }
    }
}

/// What a person decided about a finding.
#[derive(Debug, Clone, PartialEq)]
pub struct Disposition {
    /// The entry it stands in.
    pub entry: EntryId,
    /// When.
    pub at: Moment,
    /// What was decided.
    pub decision: Decision,
    /// Why, or how.
    pub reason: String,
    /// By whom.
    pub by: String,
}

/// One verdict with what it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// What was measured.
    pub fact: &'static Fact,
    /// The criterion in force; `None` when the set has none for this fact.
    pub criterion: Option<InForce>,
    /// Where the value belongs.
    pub subject: Subject,
    /// The value.
    pub value: Option<Measured>,
    /// What the value was made of, where a person has to see it.
    pub aside: Option<Aside>,
    /// The verdict, with the limits compared with.
    pub judgement: Judgement,
    /// When the value was measured.
    pub at: Option<Moment>,
    /// The entries it rests on. Not empty when the verdict is `Meets` or `Fails`.
    pub evidence: Vec<EntryId>,
    /// Entries in dispute touch it: people have to settle those first.
    pub disputed: bool,
    /// What was decided about it.
    pub dispositions: Vec<Disposition>,
}

impl Finding {
    /// The rough outcome.
    pub fn outcome(&self) -> Outcome {
        Outcome::of(&self.judgement.verdict)
    }

    /// It fails and nobody has decided anything about it.
    pub fn is_open(&self) -> bool {
        self.outcome() == Outcome::Fails && self.dispositions.is_empty()
    }

    /// What findings are sorted by.
    pub(crate) fn order(&self) -> (Outcome, Stage, usize, Option<Moment>, &'static str) {
        let line = self.criterion.as_ref().map_or(usize::MAX, |criterion| criterion.original.line);
        (self.outcome(), self.fact.stage, line, self.at, self.fact.name)
    }
}

/// A decision with the line it stands in.
pub(crate) type Decided<'l, 'r> = (&'l Line<'r>, &'r FindingDisposed);

/// What was decided about a criterion, for a value resting on these entries.
pub(crate) fn dispositions(
    decided: &[Decided<'_, '_>],
    criterion: &str,
    evidence: &[EntryId],
) -> Vec<Disposition> {
    decided
        .iter()
        .filter(|(_, decided)| decided.criterion == criterion)
        .filter(|(_, decided)| decided.about.is_none_or(|about| evidence.contains(&about)))
        .map(|(line, decided)| Disposition {
            entry: line.entry.id,
            at: line.at,
            decision: decided.decision,
            reason: decided.reason.clone(),
            by: decided.by.clone().unwrap_or_else(|| line.entry.author.clone()),
        })
        .collect()
}
