//! What a finding that fails still asks for: the advice of its criterion, as long as somebody can follow it.
//!
//! A criterion says what is usually done where it fails. Once the same thing was measured again and meets, or the
//! work it speaks of is over, nobody can do that any more; an order that comes too late is worse than none. What is
//! left then is to have the finding decided.
//!
//! Words: *advice* = what is usually done; *again* = a later measurement of the same thing.
//! Never: take a finding away or call it settled; only the entry of a person does that.

use super::looked::Looked;
use super::sign::Sign;
use crate::entry::stage::Stage;
use assess::{Finding, Subject};
use criteria::Stage as Work;
use quantity::Length;
use record::EntryId;
use record::kinds::FluidTest;

/// Samples whose depths lie closer than this are of the same place. Our own choice: a sampler is lowered by hand.
const SAME_PLACE_METERS: f64 = 1.5;

/// Whether the advice of a finding still holds.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Advice<'l> {
    /// It does.
    Holds,
    /// The same thing was measured again and meets: by this finding.
    MeasuredAgain(&'l Finding),
    /// The work it speaks of is over.
    TooLate,
}

impl Advice<'_> {
    /// The advice in words, of a finding that fails; `usual` is what its criterion says.
    pub(crate) fn told(&self, usual: &str, looked: &Looked<'_>) -> String {
        match self {
            Advice::Holds => usual.to_owned(),
            Advice::MeasuredAgain(later) => wording::advice::measured_again(later, &looked.log, &looked.show),
            Advice::TooLate => wording::advice::too_late().to_owned(),
        }
    }
}

/// Whether the advice of a finding that fails still holds.
pub(crate) fn advice<'l>(finding: &Finding, looked: &'l Looked<'_>) -> Advice<'l> {
    match again(finding, looked) {
        Some(later) => Advice::MeasuredAgain(later),
        None if is_over(finding, looked) => Advice::TooLate,
        None => Advice::Holds,
    }
}

/// The last measurement of the same thing, where it came later and meets.
fn again<'l>(finding: &Finding, looked: &'l Looked<'_>) -> Option<&'l Finding> {
    let at = finding.at?;
    let same = looked.findings(finding.fact.name).filter(|other| {
        other.at.is_some_and(|later| at < later)
            && criterion(other) == criterion(finding)
            && is_same(&finding.subject, &other.subject, looked)
    });
    same.max_by_key(|other| other.at).filter(|last| Sign::of_finding(last) == Sign::Meets)
}

fn criterion(finding: &Finding) -> Option<&str> {
    finding.criterion.as_ref().map(|one| one.original.id.as_str())
}

/// Whether two values are of the same load, or of samples from the same place.
fn is_same(one: &Subject, other: &Subject, looked: &Looked<'_>) -> bool {
    match (one, other) {
        (Subject::Load(one), Subject::Load(other)) => one == other,
        (Subject::Test(one), Subject::Test(other)) => is_same_place(*one, *other, looked),
        _ => false,
    }
}

fn is_same_place(one: EntryId, other: EntryId, looked: &Looked<'_>) -> bool {
    let Some((one, other)) = sample(one, looked).zip(sample(other, looked)) else { return false };
    let near = match (&one.depth, &other.depth) {
        (Some(one), Some(other)) => {
            one.value().below(other.value()).abs() < Length::meters(SAME_PLACE_METERS)
        }
        (None, None) => true,
        _ => false,
    };
    one.place == other.place && near
}

fn sample<'r>(entry: EntryId, looked: &Looked<'r>) -> Option<&'r FluidTest> {
    looked.log.each::<FluidTest>().find(|(line, _)| line.entry.id == entry).map(|(_, test)| test)
}

/// Whether the work a finding is about is over, so that nothing can be done about it in time.
fn is_over(finding: &Finding, looked: &Looked<'_>) -> bool {
    let picture = &looked.assessment.picture;
    let poured = Stage::Pour < looked.stage();
    let filled = super::figures::full(looked) && picture.lines.iter().all(|line| line.out.is_some());
    match finding.fact.stage {
        Work::Before | Work::Excavation | Work::BeforeConcrete => picture.concrete_started().is_some(),
        Work::Placing => poured || filled || is_placed(&finding.subject, looked),
        Work::CasingWithdrawal => poured || !picture.casings.iter().any(|casing| casing.is_to_come_out()),
        Work::After | Work::Testing => false,
    }
}

/// A load that went in waits for nobody; an interval is over when the next one was sounded.
fn is_placed(subject: &Subject, looked: &Looked<'_>) -> bool {
    match subject {
        Subject::Load(ticket) => {
            let mut loads = looked.assessment.picture.loads.iter();
            loads.any(|load| load.ticket == ticket && !load.waiting() && !load.open())
        }
        Subject::Interval { upper, .. } => {
            let curve = looked.assessment.reckoning.pour.as_ref().map(|pour| &pour.curve);
            curve.and_then(|curve| curve.intervals.last()).is_some_and(|last| *upper < last.upper)
        }
        _ => false,
    }
}
