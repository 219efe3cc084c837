//! Embedment through the pour: what it was at each moment that changed it.
//!
//! The least embedment does not stand at a sounding but just after a lift, with the surface that was
//! sounded before it. A record that is read only at soundings misses it.
//!
//! Words: *step* = something that moved the tip or told the surface; *buried* = embedment after a step.
//! Units: elevations above the datum, moments with their offset.
//! Never: sort the steps; the caller gives them in the order they happened.

use quantity::{Elevation, Length, Moment};

use super::embedment;
use crate::estimate::{Estimate, Level};

/// What happened to the tip or the surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Happened {
    /// The tip was moved to this elevation.
    Tip(Elevation),
    /// The surface was sounded, or a lift of casing is reckoned to have left it here.
    Surface(Level),
    /// The tip left the hole.
    Out,
}

/// One step of the pour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// When.
    pub at: Moment,
    /// What.
    pub happened: Happened,
}

/// Embedment after a step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Buried {
    /// When.
    pub at: Moment,
    /// Where the tip is.
    pub tip: Elevation,
    /// The surface as last sounded.
    pub surface: Level,
    /// How deep the tip is buried; zero or less is a breach.
    pub embedment: Estimate<Length>,
}

/// Embedment after each step at which both tip and surface are known.
///
/// Between soundings the surface is taken where it was last sounded. Concrete only adds to that, so the
/// embedment is never less than said, unless the surface fell unseen (casing pulled, cavity).
///
/// **Errors** none; before the first sounding there is no embedment.
pub fn embedment_history(steps: &[Step]) -> Vec<Buried> {
    let (mut tip, mut surface) = (None, None);
    let mut history = Vec::new();
    for step in steps {
        match step.happened {
            Happened::Tip(level) => tip = Some(level),
            Happened::Surface(level) => surface = Some(level),
            Happened::Out => tip = None,
        }
        if let Some((tip, surface)) = tip.zip(surface) {
            history.push(Buried { at: step.at, tip, surface, embedment: embedment(tip, surface) });
        }
    }
    history
}

/// The first moment at which the tip hung free, with where it was.
pub fn first_breach(history: &[Buried]) -> Option<&Buried> {
    history.iter().find(|buried| buried.embedment.value <= Length::ZERO)
}
