//! The reckoning: what the formulas make of the picture.
//!
//! Each part is `None` or empty when what it needs was not written; the facts then say which entry is
//! missing. Nothing is judged in here.
//!
//! Never: compare with a limit, format text.

pub mod as_built;
pub mod base;
pub mod cage;
pub mod displaced;
pub mod fluid;
pub mod hole;
pub mod lifts;
pub mod line;
pub mod payment;
pub mod pour;
pub mod slump;
pub mod strength;
pub mod ticket;

pub use as_built::AsBuiltReckoning;
pub use base::BaseReckoning;
pub use cage::CageReckoning;
pub use fluid::{FluidReckoning, SandPair};
pub use hole::Hole;
pub use lifts::Lift;
pub use line::LineReckoning;
pub use payment::Payment;
pub use pour::{PourReckoning, PourSounding};
pub use slump::{Life, LoadLife, SlumpReckoning};
pub use strength::{StrengthReckoning, StrengthSet};
pub use ticket::TicketReckoning;

use crate::picture::Picture;
use record::Log;

/// What the formulas make of a picture.
#[derive(Debug, Clone)]
pub struct Reckoning {
    /// The hole, as planned and as drilled.
    pub hole: Option<Hole>,
    /// Volumes against depth.
    pub pour: Option<PourReckoning>,
    /// Each line with its embedment through the pour.
    pub lines: Vec<LineReckoning>,
    /// Lifts of temporary casings, in the order they happened.
    pub lifts: Vec<Lift>,
    /// Slump life of the loads.
    pub slump: Option<SlumpReckoning>,
    /// The cage.
    pub cage: Option<CageReckoning>,
    /// The shaft as built.
    pub as_built: AsBuiltReckoning,
    /// Density against sand, and what the sand would leave on the base.
    pub fluid: FluidReckoning,
    /// Sediment over the base, as last measured before concrete.
    pub base: Option<BaseReckoning>,
    /// Water and yield of each load, in the order they arrived.
    pub tickets: Vec<TicketReckoning>,
    /// Breaks, and estimates beside them.
    pub strength: StrengthReckoning,
    /// Quantities for payment.
    pub payment: Payment,
}

impl Reckoning {
    /// Hole and volumes alone, for a shaft that is only looked at beside another.
    pub(crate) fn pour_of(log: &Log<'_>, picture: &Picture<'_>) -> Option<(Hole, PourReckoning)> {
        let cage = CageReckoning::of(log, picture);
        let hole = Hole::of(picture, displaced::steel(picture, cage.as_ref()))?;
        let pour = PourReckoning::of(log, picture, &hole)?;
        Some((hole, pour))
    }

    /// Reckons a picture.
    pub fn of(log: &Log<'_>, picture: &Picture<'_>) -> Self {
        let cage = CageReckoning::of(log, picture);
        let hole = Hole::of(picture, displaced::steel(picture, cage.as_ref()));
        let lifts = hole.as_ref().map_or_else(Vec::new, |hole| lifts::reckon(picture, hole));
        let pour = hole.as_ref().and_then(|hole| PourReckoning::of(log, picture, hole));
        Reckoning {
            lines: line::reckon(log, picture, &lifts),
            slump: SlumpReckoning::of(log, picture),
            as_built: AsBuiltReckoning::of(log, picture),
            fluid: FluidReckoning::of(log, picture, hole.as_ref()),
            base: BaseReckoning::of(picture),
            tickets: ticket::reckon(log, picture),
            strength: StrengthReckoning::of(log, picture),
            payment: Payment::of(log, picture, pour.as_ref()),
            hole,
            pour,
            lifts,
            cage,
        }
    }
}
