//! What is read of a made-up pour: levels, tickets and lines with their errors, the truth beside them.
//!
//! Words: *part* = the part of a load between two soundings; *yield* = true volume over the volume on the
//! ticket, less one.
//! Units: metres and cubic metres; depths below the top of the hole, which stands at elevation 0.
//! Never: let the readings know what they missed; the truth stands in fields of its own.

mod crew;
mod run;

pub use crew::{Column, Crew, Marks, Plant, Tape};

use calc::curve::{LoadError, Pour, Station};
use calc::estimate::{Estimate, Level};
use calc::geometry::{Bore, GeometryError};
use quantity::{Elevation, Length, Volume};

use crate::hole::Hole;

/// One sounding of the concrete, and what happened since the one before.
#[derive(Debug, Clone, PartialEq)]
pub struct Sounding {
    /// What the tape showed at each point, rounded to its marks.
    pub points_m: Vec<f64>,
    /// The mean of the points.
    pub read_m: f64,
    /// True depth of the surface.
    pub true_m: f64,
    /// By the tickets: what left trucks since the sounding before; empty where only casing was pulled.
    pub tickets_m3: Vec<f64>,
    /// Number of the truck each of them came from, from 0.
    pub trucks: Vec<usize>,
    /// What truly left trucks.
    pub true_m3: f64,
    /// As recorded: what ran over the top since the sounding before.
    pub wasted_m3: f64,
    /// What truly ran over.
    pub spilled_m3: f64,
    /// As recorded: what stands in the line at this moment.
    pub held_m3: f64,
    /// What truly stands in the line.
    pub true_held_m3: f64,
    /// Depth of the shoe of the casing; 0 when it is out or there is none.
    pub shoe_m: f64,
}

/// All readings of a pour, with the hole they were taken in.
#[derive(Debug, Clone, PartialEq)]
pub struct Readings {
    /// The hole in truth.
    pub hole: Hole,
    /// Who read, with which instruments.
    pub crew: Crew,
    /// Depth of the bottom as read.
    pub base_m: f64,
    /// Error that all readings of the tape share: the reference is that much off. Truth.
    pub shared_m: f64,
    /// Yield that all loads share. Truth.
    pub shared_yield: f64,
    /// True over ticket volume of every truck, one after the other. Truth.
    pub yields: Vec<f64>,
    /// The soundings in order of time.
    pub soundings: Vec<Sounding>,
    /// One drawing of the hole a sounding, then that before the first load.
    bores: Vec<Bore>,
}

/// A shorter rise than this is named in the issues of the curve.
const LEAST_RISE_M: f64 = 0.9;

impl Readings {
    /// The pour of a seed in a hole.
    ///
    /// # Errors
    /// When the drawing of the hole makes no bore.
    pub fn of_seed(seed: u64, hole: Hole, crew: Crew) -> Result<Self, GeometryError> {
        let mut readings = run::read(seed, hole, crew);
        let shoe_m = readings.hole.sleeve.map_or(0.0, |sleeve| sleeve.shoe_m);
        let shoes = readings.soundings.iter().map(|sounding| sounding.shoe_m).chain([shoe_m]);
        readings.bores = shoes.map(|shoe_m| readings.hole.bore(shoe_m)).collect::<Result<_, _>>()?;
        Ok(readings)
    }

    /// The readings as the curve and the profile take them. The standard error of a level is that of the
    /// reading alone; what all readings share is [`Tape::shared_m`].
    pub fn pour(&self) -> Pour<'_> {
        let volume = Volume::cubic_meters;
        let station = |(sounding, bore): (&Sounding, _)| Station {
            level: self.level(sounding.read_m),
            loads: sounding.tickets_m3.iter().copied().map(volume).collect(),
            wasted: volume(sounding.wasted_m3),
            held: volume(sounding.held_m3),
            bore,
        };
        Pour {
            base: self.level(self.base_m),
            bore: &self.bores[self.soundings.len()],
            stations: self.soundings.iter().zip(&self.bores).map(station).collect(),
            load_error: LoadError { each: self.crew.plant.each, shared: self.crew.plant.shared },
            least_rise: Length::meters(LEAST_RISE_M),
        }
    }

    /// True depth of the surface when of the load before a sounding only so much, by its ticket, is in.
    pub fn depth_when_in(&self, index: usize, ticket_m3: f64) -> Option<f64> {
        let sounding = self.soundings.get(index)?;
        let true_yield = self.yields.get(*sounding.trucks.first()?)?;
        let before = self.soundings.iter().take(index).map(|before| before.true_m3 - before.spilled_m3);
        let out_m3 = before.sum::<f64>() + ticket_m3 * true_yield;
        let shoe_m = self.hole.sleeve.map_or(0.0, |sleeve| sleeve.shoe_m);
        let stands = |held_m3: f64| self.hole.depth_holding(out_m3 - held_m3, shoe_m);
        Some(stands(run::balanced_m3(self.crew.column, 0.0, stands)))
    }

    /// The hole as drawn, casing out.
    pub fn drawn(&self) -> &Bore {
        &self.bores[self.soundings.len().saturating_sub(1)]
    }

    /// The level of a reading with its standard error. The top of the hole bounds the last one.
    fn level(&self, read_m: f64) -> Level {
        let depth_m = read_m.clamp(0.0, self.hole.length_m());
        Estimate::new(Elevation(Length::meters(-depth_m)), Length::meters(self.crew.tape.standard_error_m()))
    }
}
