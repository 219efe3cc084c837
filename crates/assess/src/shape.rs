//! The estimated shape of a shaft: what it probably is, what could hide in it, and where to sound next.
//!
//! An estimate is no finding and is never judged: the readings stay what was read, and the engineer decides. It costs
//! more than all other reckoning together, so it is made when somebody looks at it, not with each assessment.
//!
//! Words: *blind spots* = the smallest loss of area that these readings would have revealed; *told* = a stretch worth
//! telling a person about.
//! Never: judge; hide a band; format text.

mod ground;
mod tell;
mod width;

pub use tell::{Told, told};
pub use width::Width;

use crate::earlier::Earlier;
use crate::picture::Picture;
use crate::reckon::Reckoning;
use crate::run::Assessment;
use calc::profile::{BlindSpot, CellBand, Ground, Issue, NextSounding, Profile, ProfileError};
pub(crate) use ground::{Fitted, fitted};
use quantity::{Elevation, Length, Volume};
use record::Log;

/// The estimated shape of a shaft.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// The estimate itself, for whoever asks more of it.
    pub profile: Profile,
    /// What is doubtful about the readings.
    pub issues: Vec<Issue>,
    /// Each cell with its bands, from the bottom up, as far as the concrete was sounded.
    pub bands: Vec<CellBand>,
    /// What could hide, for each of the heights asked for, as far as the concrete was sounded.
    pub blind_spots: Vec<BlindSpots>,
    /// Stretches worth telling a person about, from the bottom up.
    pub told: Vec<Told>,
    /// Ratio of the whole shaft as far as it was sounded: mean, and the ends of its 90 % band.
    pub whole: Band,
    /// Where one more sounding within the next load would help most; `None` when the pour is over or nothing says
    /// how large the next load is.
    pub next: Option<Next>,
}

/// A ratio of areas with the band that holds it with a probability of 90 %.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Its mean.
    pub mean: f64,
    /// The ends of the band.
    pub ends: [f64; 2],
}

/// What could hide in a loss of one height.
#[derive(Debug, Clone, PartialEq)]
pub struct BlindSpots {
    /// The height of the loss.
    pub height: Length,
    /// From the bottom up.
    pub spots: Vec<BlindSpot>,
}

impl BlindSpots {
    /// The place where most could hide.
    pub fn worst(&self) -> Option<&BlindSpot> {
        self.spots.iter().max_by(|one, other| one.loss.total_cmp(&other.loss))
    }
}

/// Where one more sounding would help.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Next {
    /// The load it was reckoned for.
    pub load: Volume,
    /// The height of the loss that would show.
    pub height: Length,
    /// Which part of the load, and what it brings.
    pub sounding: NextSounding,
}

/// Why a shaft has no estimated shape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NoShape {
    /// The hole or the concrete in it was not sounded yet.
    NothingSounded,
    /// The readings give no estimate.
    Unreckonable(ProfileError),
}

/// The heights of a loss that people think in: 1, 2, 3 ft, or 0.3, 0.6, 1 m.
pub fn heights(in_feet: bool) -> [Length; 3] {
    match in_feet {
        true => [1.0, 2.0, 3.0].map(Length::feet),
        false => [0.3, 0.6, 1.0].map(Length::meters),
    }
}

/// What the shape is estimated from.
#[derive(Clone, Copy)]
pub struct Asked<'a, 'r> {
    /// The log.
    pub log: &'a Log<'r>,
    /// The shaft as the log tells it.
    pub picture: &'a Picture<'r>,
    /// What the formulas make of it.
    pub reckoning: &'a Reckoning,
    /// The other shafts of the job: what such shafts are like.
    pub earlier: &'a Earlier,
}

impl<'a, 'r> Asked<'a, 'r> {
    /// Of an assessed shaft, beside the earlier ones of its job.
    pub fn of(log: &'a Log<'r>, assessment: &'a Assessment<'r>, earlier: &'a Earlier) -> Self {
        Asked { log, picture: &assessment.picture, reckoning: &assessment.reckoning, earlier }
    }
}

impl Shape {
    /// Estimates the shape from what was read, for losses of these heights, ordered from the least.
    ///
    /// # Errors
    /// When nothing was sounded, or the readings give no estimate.
    pub fn of(asked: Asked<'_, '_>, heights: [Length; 3]) -> Result<Self, NoShape> {
        let Fitted { profile, ground, issues } = fitted(asked)?;
        let pour = asked.reckoning.pour.as_ref().ok_or(NoShape::NothingSounded)?;
        let highest = pour.curve.intervals.iter().map(|interval| interval.upper).max();
        let highest = highest.ok_or(NoShape::NothingSounded)?;
        let base = profile.cells()[0].bottom;
        let bands = bands(&profile, &ground, highest).map_err(NoShape::Unreckonable)?;
        let blind_spots = heights.iter().map(|height| {
            let spots = profile.blind_spots(*height).map_err(NoShape::Unreckonable)?;
            Ok(BlindSpots { height: *height, spots })
        });
        let blind_spots = blind_spots.collect::<Result<Vec<BlindSpots>, NoShape>>()?;
        Ok(Shape {
            whole: tell::band(&profile, [base, highest]).map_err(NoShape::Unreckonable)?,
            told: told(&profile, &pour.curve, heights[2]).map_err(NoShape::Unreckonable)?,
            next: next(asked, &profile, heights[2]),
            blind_spots,
            profile,
            issues,
            bands,
        })
    }
}

/// So many cells are told by the band of the middle one: their bands differ by less than a line is wide, and each
/// costs as much as the whole estimate of a small shaft.
const CELLS_TOGETHER: usize = 4;

/// The bands of the cells that were sounded, a few cells told together; never across a level where the ratio may
/// jump.
fn bands(profile: &Profile, ground: &Ground, highest: Elevation) -> Result<Vec<CellBand>, ProfileError> {
    let jumps = |level: Elevation| {
        ground.jumps.contains(&level) || ground.strata.iter().any(|stratum| stratum.top == level)
    };
    let sounded = profile.cells().iter().take_while(|cell| cell.bottom < highest).count();
    let cells = &profile.cells()[..sounded];
    let mut bands = Vec::new();
    let mut from = 0;
    while from < cells.len() {
        let mut to = from + 1;
        let alike = |next: usize| cells[next].cased == cells[from].cased && !jumps(cells[next].bottom);
        while to < cells.len() && to - from < CELLS_TOGETHER && alike(to) {
            to += 1;
        }
        let mut band = profile.band(from + (to - from) / 2)?;
        (band.cell.bottom, band.cell.top) = (cells[from].bottom, cells[to - 1].top);
        bands.push(band);
        from = to;
    }
    Ok(bands)
}

/// One more sounding within a load like the last one, while the pour goes on.
fn next(asked: Asked<'_, '_>, profile: &Profile, height: Length) -> Option<Next> {
    let (picture, plan) = (asked.picture, asked.picture.plan.as_ref()?);
    let surface = picture.concrete.last()?.surface.mean.value;
    if surface >= plan.cut_off {
        return None;
    }
    let load = picture.loads.iter().rev().find(|load| load.refused.is_none())?.volume;
    let sounding = profile.best_next_sounding(load, height).ok()?;
    Some(Next { load, height, sounding })
}
