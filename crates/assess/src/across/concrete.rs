//! Concrete of each shaft: ordered, delivered, placed, wasted, beside what the drawing asks for.
//!
//! Never: count an order nobody wrote as none.

use super::{One, Place};
use calc::payment::ConcreteTotals;
use quantity::Volume;
use record::EntryId;

/// Concrete of one shaft.
#[derive(Debug, Clone, PartialEq)]
pub struct ConcreteOfShaft {
    /// The shaft.
    pub place: Place,
    /// What was ordered, came and went.
    pub totals: ConcreteTotals,
    /// From the drawing, up to the last sounding; `None` before it.
    pub theoretical: Option<Volume>,
    /// The entries of its loads.
    pub evidence: Vec<EntryId>,
}

pub(super) fn of_shaft(one: &One<'_, '_>) -> Option<ConcreteOfShaft> {
    let payment = &one.assessment.reckoning.payment;
    let loads = one.assessment.picture.loads.iter();
    Some(ConcreteOfShaft {
        place: one.place.clone(),
        totals: payment.concrete?,
        theoretical: payment.theoretical,
        evidence: loads.flat_map(|load| load.entries.iter().copied()).collect(),
    })
}
