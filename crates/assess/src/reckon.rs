//! The reckoning: what the formulas make of the picture.
//!
//! Each part is `None` or empty when what it needs was not written; the facts then say which entry is
//! missing. Nothing is judged in here.
//!
//! Never: compare with a limit, format text.

pub mod as_built;
pub mod cage;
pub mod hole;
pub mod lifts;
pub mod line;
pub mod pour;
pub mod slump;

pub use as_built::AsBuiltReckoning;
pub use cage::CageReckoning;
pub use hole::Hole;
pub use lifts::Lift;
pub use line::LineReckoning;
pub use pour::{PourReckoning, PourSounding};
pub use slump::{LoadLife, SlumpReckoning};

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
}

impl Reckoning {
    /// Reckons a picture.
    pub fn of(log: &Log<'_>, picture: &Picture<'_>) -> Self {
        let hole = Hole::of(picture);
        Reckoning {
            pour: hole.as_ref().and_then(|hole| PourReckoning::of(picture, hole)),
            lines: line::reckon(picture),
            lifts: hole.as_ref().map_or_else(Vec::new, |hole| lifts::reckon(picture, hole)),
            slump: SlumpReckoning::of(log, picture),
            cage: CageReckoning::of(log, picture),
            as_built: AsBuiltReckoning::of(log, picture),
            hole,
        }
    }
}
