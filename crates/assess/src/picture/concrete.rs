//! The concrete surface as it was sounded, and concrete that went elsewhere.

use super::hole::sounding_of;
use super::reference::References;
use calc::sounding::{Surface, surface};
use quantity::{Elevation, Fraction, Length, Moment, Volume};
use record::choices::Waste as Where;
use record::kinds::{ConcreteSounded, ConcreteWasted, OverPoured};
use record::{EntryId, Log};

/// The surface was sounded.
#[derive(Debug, Clone)]
pub struct ConcreteLevel {
    /// When.
    pub at: Moment,
    /// What the points add up to.
    pub surface: Surface,
    /// Ticket of the load it was read after.
    pub after: Option<String>,
    /// Part of that load that was in, where not the whole.
    pub share: Option<Fraction>,
    /// The elevation somebody wrote beside the depth.
    pub written: Option<Elevation>,
    /// The reference the depths are measured from.
    pub reference: Elevation,
    /// The entry.
    pub entry: EntryId,
}

/// Concrete that did not end up in the shaft.
#[derive(Debug, Clone, PartialEq)]
pub struct Waste {
    /// When.
    pub at: Moment,
    /// How much.
    pub volume: Volume,
    /// Where it went.
    pub place: Where,
    /// Ticket of the load.
    pub ticket: Option<String>,
    /// The entry.
    pub entry: EntryId,
}

pub(super) fn levels(log: &Log<'_>, references: &References) -> Vec<ConcreteLevel> {
    let level = |(line, sounded): (&record::Line<'_>, &ConcreteSounded)| {
        let reference = references.in_force(sounded.reference.as_deref(), line.at)?.0;
        let correction = sounded.tape_correction.as_ref().map_or(Length::ZERO, |length| length.value());
        let sounding = sounding_of(&sounded.points, reference, correction);
        Some(ConcreteLevel {
            at: line.at,
            surface: surface(&sounding).ok()?,
            after: sounded.after.clone(),
            share: sounded.share.as_ref().map(|share| share.value()),
            written: sounded.elevation.as_ref().map(|level| level.value()),
            reference,
            entry: line.entry.id,
        })
    };
    log.each::<ConcreteSounded>().filter_map(level).collect()
}

pub(super) fn wasted(log: &Log<'_>) -> Vec<Waste> {
    let waste = |(line, wasted): (&record::Line<'_>, &ConcreteWasted)| Waste {
        at: line.at,
        volume: wasted.volume.value(),
        place: wasted.place,
        ticket: wasted.ticket.clone(),
        entry: line.entry.id,
    };
    let mut all: Vec<Waste> = log.each::<ConcreteWasted>().map(waste).collect();
    // What ran over may be written with the over-pour instead; written in both places it counts once.
    if !all.iter().any(|waste| waste.place == Where::Overflow) {
        all.extend(log.each::<OverPoured>().filter_map(ran_over));
    }
    all
}

fn ran_over((line, over): (&record::Line<'_>, &OverPoured)) -> Option<Waste> {
    let volume = over.volume.as_ref()?.value();
    Some(Waste { at: line.at, volume, place: Where::Overflow, ticket: None, entry: line.entry.id })
}
