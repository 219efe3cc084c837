//! Which reading of a sounding is used for what, and why: as data.
//!
//! A wrong choice always errs to one side. The table below errs to the safe side of each purpose; a
//! job that wants another table brings its own.
//!
//! Words: *purpose* = what the level is needed for; *rule* = which level of the surface that is.
//! Never: hold the sentence that explains the choice; `wording` has it by [`Reason`].

use super::Surface;
use crate::estimate::Level;

/// What a level is needed for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Purpose {
    /// How deep the tremie tip is buried.
    Embedment,
    /// How much concrete is in the hole.
    Volume,
    /// How much concrete stands over the casing shoe.
    CasingHead,
    /// Whether the concrete has reached its final level.
    FinalLevel,
    /// Whether the hole is deep enough.
    HoleDepth,
}

/// Which level of a surface.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rule {
    /// The lowest point.
    Lowest,
    /// The mean of all points.
    Mean,
    /// The highest point.
    Highest,
    /// The mean outside the cage; the lowest point where none was read there.
    OutsideCage,
}

/// Why that level.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reason {
    /// The tip must be buried where the concrete lies lowest.
    LeastCoverOfTip,
    /// A volume has no height of its own: the mean surface holds the same volume.
    SameVolume,
    /// Water enters under the shoe where the concrete lies lowest.
    LeastHeadOverShoe,
    /// The cover outside the cage fills last.
    CoverFillsLast,
    /// The least depth read is the depth the whole base has.
    LeastDepth,
}

/// One row: a purpose, its rule, its reason.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Choice {
    /// What the level is needed for.
    pub purpose: Purpose,
    /// Which level is used.
    pub rule: Rule,
    /// Why.
    pub reason: Reason,
}

/// The choices that err to the safe side. Common practice, no source [COMMON-PRACTICE].
pub const USUAL_CHOICES: &[Choice] = &[
    Choice { purpose: Purpose::Embedment, rule: Rule::Lowest, reason: Reason::LeastCoverOfTip },
    Choice { purpose: Purpose::Volume, rule: Rule::Mean, reason: Reason::SameVolume },
    Choice { purpose: Purpose::CasingHead, rule: Rule::Lowest, reason: Reason::LeastHeadOverShoe },
    Choice { purpose: Purpose::FinalLevel, rule: Rule::OutsideCage, reason: Reason::CoverFillsLast },
    Choice { purpose: Purpose::HoleDepth, rule: Rule::Highest, reason: Reason::LeastDepth },
];

/// The level to use for a purpose, with the choice behind it; `None` when the table has no such row.
pub fn level_for(purpose: Purpose, surface: &Surface, choices: &[Choice]) -> Option<(Level, Choice)> {
    let choice = choices.iter().find(|choice| choice.purpose == purpose)?;
    let level = match choice.rule {
        Rule::Lowest => surface.lowest,
        Rule::Mean => surface.mean,
        Rule::Highest => surface.highest,
        Rule::OutsideCage => surface.outside.unwrap_or(surface.lowest),
    };
    Some((level, *choice))
}
