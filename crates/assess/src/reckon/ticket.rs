//! Tickets: water-cementitious ratio, water that may still be added, yield.

use crate::picture::{Load, Picture};
use calc::ticket::{Batch, Yield, batch_yield, mass_of_water, relative_yield, volume_of_water};
use quantity::{Density, Entered, Fraction, Mass, Volume, WaterCement};
use record::kinds::MixApproved;
use record::{EntryId, Log};

/// What a ticket comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct TicketReckoning {
    /// Its number.
    pub ticket: String,
    /// Batch water, free moisture, water on the way and on site, and the cementitious material; `None` when
    /// water or cementitious material was not written.
    pub batch: Option<Batch>,
    /// Water over cementitious material, by mass.
    pub water_cement: Option<WaterCement>,
    /// Water that may still be added up to the ratio of the mix; negative when too much is in already.
    pub room_to_ratio: Option<Volume>,
    /// Water held back at the plant against the design of the mix; negative when more went in.
    pub held_back: Option<Volume>,
    /// What the ticket still allows after what was added on site; negative when that was more.
    pub allowed_left: Option<Volume>,
    /// Real volume, from the mass of the batch and the unit weights tested.
    pub real: Option<Yield>,
    /// The real volume over that of the ticket.
    pub relative_yield: Option<Fraction>,
    /// Its entries.
    pub entries: Vec<EntryId>,
}

impl TicketReckoning {
    /// The least of what ratio, design and ticket leave; `None` when none of them is known.
    pub fn may_be_added(&self) -> Option<Volume> {
        let known = [self.room_to_ratio, self.held_back, self.allowed_left].into_iter().flatten();
        known.min_by(|a, b| a.to_cubic_meters().total_cmp(&b.to_cubic_meters()))
    }
}

pub(super) fn reckon(log: &Log<'_>, picture: &Picture<'_>) -> Vec<TicketReckoning> {
    let one = |load: &Load<'_>| one(load, picture.mix(log, load.arrival.mix.as_deref()));
    picture.loads.iter().map(one).collect()
}

fn one(load: &Load<'_>, mix: Option<&MixApproved>) -> TicketReckoning {
    let batch = batch(load);
    let limit = mix.and_then(|mix| mix.w_cm.as_ref()).map(|ratio| ratio.value());
    let design = mix.and_then(|mix| mix.water.as_ref()).map(|water| water.value());
    let room = batch.as_ref().zip(limit).and_then(|(batch, limit)| batch.water_to_ratio(limit).ok());
    let held = batch
        .as_ref()
        .zip(design)
        .and_then(|(batch, design)| batch.water_to_design(design, load.volume).ok());
    let allowed = load.arrival.water_allowed.as_ref().map(|water| water.value().to_cubic_meters());
    let added: f64 = load.water.iter().map(|water| water.volume.to_cubic_meters()).sum();
    let weights: Vec<Density> = load.tests.iter().filter_map(|test| test.unit_weight).collect();
    let mass = load.arrival.batch_mass.as_ref().map(|mass| mass.value());
    let real = mass.and_then(|mass| batch_yield(mass, &weights).ok());
    TicketReckoning {
        ticket: load.ticket.to_owned(),
        water_cement: batch.as_ref().and_then(|batch| batch.water_cement().ok()),
        room_to_ratio: room.map(volume_of_water),
        held_back: held.map(volume_of_water),
        allowed_left: allowed.map(|allowed| Volume::cubic_meters(allowed - added)),
        relative_yield: real.and_then(|real| relative_yield(real, load.volume).ok()),
        real,
        batch,
        entries: load.entries.clone(),
    }
}

/// Batch water, free moisture, water on the way, water on site.
fn batch(load: &Load<'_>) -> Option<Batch> {
    let arrival = load.arrival;
    let kilograms = |mass: &Option<Entered<Mass>>| mass.as_ref().map(|mass| mass.value().to_kilograms());
    let transit =
        arrival.transit_water.as_ref().map_or(0.0, |water| mass_of_water(water.value()).to_kilograms());
    let site: f64 = load.water.iter().map(|water| mass_of_water(water.volume).to_kilograms()).sum();
    Some(Batch {
        cementitious: arrival.cementitious.as_ref()?.value(),
        plant_water: Mass::kilograms(
            kilograms(&arrival.water)? + kilograms(&arrival.moisture).unwrap_or(0.0),
        ),
        aggregates: Vec::new(),
        added_water: Mass::kilograms(transit + site),
    })
}
