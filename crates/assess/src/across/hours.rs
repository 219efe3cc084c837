//! Where the hours of each shaft went: drilling, cleaning, waiting for concrete, the pour.
//!
//! Each activity runs from one written moment to another. Where one of the two was not written there is no figure, and
//! a job whose inspectors write no beginnings sees that at once.
//!
//! Never: guess a moment.

use super::{One, Place};
use quantity::{Moment, Span};
use record::EntryId;
use record::kinds::{BottomAccepted, CageSet, DrillingStarted};

/// What the time went into, in the order of the day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Activity {
    /// From the first tool in to the bottom reached.
    Drilling,
    /// From the bottom reached to the bottom accepted.
    Cleaning,
    /// From bottom accepted and cage set, the later of them, to the first concrete.
    Waiting,
    /// From the first concrete to the last.
    Pour,
}

/// One activity of one shaft.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// Which.
    pub activity: Activity,
    /// How long.
    pub lasted: Span,
    /// The entries of its two ends.
    pub evidence: [EntryId; 2],
}

/// The hours of one shaft.
#[derive(Debug, Clone, PartialEq)]
pub struct HoursOfShaft {
    /// The shaft.
    pub place: Place,
    /// Those of its activities that have both ends, in the order of the day.
    pub stretches: Vec<Stretch>,
}

/// A moment with the entry that says so.
type Mark = (Moment, EntryId);

pub(super) fn of_shaft(one: &One<'_, '_>) -> Option<HoursOfShaft> {
    let picture = &one.assessment.picture;
    let reached = picture.bottom.reached.map(|(at, _, entry)| (at, entry));
    let accepted = one.log.last::<BottomAccepted>().map(|(line, _)| (line.at, line.entry.id));
    let cage = one.log.last::<CageSet>().map(|(line, _)| (line.at, line.entry.id));
    let ready = accepted.into_iter().chain(cage).max_by_key(|(at, _)| *at);
    let ends = [
        (Activity::Drilling, begun(one), reached),
        (Activity::Cleaning, reached, accepted),
        (Activity::Waiting, ready, picture.first_concrete()),
        (Activity::Pour, picture.first_concrete(), picture.last_concrete()),
    ];
    let stretches: Vec<Stretch> =
        ends.into_iter().filter_map(|(activity, from, to)| stretch(activity, from?, to?)).collect();
    (!stretches.is_empty()).then(|| HoursOfShaft { place: one.place.clone(), stretches })
}

/// The first tool in, else what was written as the start of drilling.
fn begun(one: &One<'_, '_>) -> Option<Mark> {
    let run =
        one.assessment.picture.hole.iter().map(|step| (step.from, step.entry)).min_by_key(|(at, _)| *at);
    run.or_else(|| one.log.each::<DrillingStarted>().next().map(|(line, _)| (line.at, line.entry.id)))
}

/// Nothing where the second end lies before the first: one of the moments is wrong, and is asked about elsewhere.
fn stretch(activity: Activity, from: Mark, to: Mark) -> Option<Stretch> {
    let lasted = Span::minutes(to.0.minutes_since(from.0));
    (from.0 <= to.0).then_some(Stretch { activity, lasted, evidence: [from.1, to.1] })
}
