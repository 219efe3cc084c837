//! Loads of concrete, each with everything written under its ticket.

use quantity::{Density, Fraction, Length, Moment, Temperature, Volume};
use record::kinds::{ConcreteTest, DischargeEnded, DischargeStarted, LoadArrived, LoadRefused, WaterAdded};
use record::{EntryId, Log};

/// One load.
#[derive(Debug, Clone)]
pub struct Load<'r> {
    /// Its ticket.
    pub ticket: &'r str,
    /// As it was written on arrival.
    pub arrival: &'r LoadArrived,
    /// When it arrived.
    pub arrived: Moment,
    /// When it was batched.
    pub batched: Option<Moment>,
    /// Volume on the ticket.
    pub volume: Volume,
    /// When discharge began.
    pub started: Option<Moment>,
    /// When discharge ended.
    pub ended: Option<Moment>,
    /// Volume sent back.
    pub returned: Volume,
    /// Revolutions at the end.
    pub revolutions: Option<u32>,
    /// Sent away, and why.
    pub refused: Option<(EntryId, &'r str)>,
    /// Its fresh tests, in the order made.
    pub tests: Vec<FreshTest>,
    /// Water added on site.
    pub water: Vec<WaterAddition>,
    /// Every entry under its ticket, arrival first.
    pub entries: Vec<EntryId>,
}

/// One test of fresh concrete.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FreshTest {
    /// When.
    pub at: Moment,
    /// Slump.
    pub slump: Option<Length>,
    /// Spread.
    pub flow: Option<Length>,
    /// Air.
    pub air: Option<Fraction>,
    /// Temperature.
    pub temperature: Option<Temperature>,
    /// Unit weight.
    pub unit_weight: Option<Density>,
    /// The entry.
    pub entry: EntryId,
}

/// Water added on site.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterAddition {
    /// When.
    pub at: Moment,
    /// How much.
    pub volume: Volume,
    /// Revolutions at mixing speed afterwards.
    pub revolutions: Option<u32>,
    /// The entry.
    pub entry: EntryId,
}

impl Load<'_> {
    /// What went out of the truck, once it has discharged.
    pub fn discharged(&self) -> Volume {
        Volume::cubic_meters((self.volume.to_cubic_meters() - self.returned.to_cubic_meters()).max(0.0))
    }

    /// It went into the shaft, or is going.
    pub fn used(&self) -> bool {
        self.refused.is_none() && (self.started.is_some() || self.ended.is_some())
    }
}

pub(super) fn loads<'r>(log: &Log<'r>) -> Vec<Load<'r>> {
    let mut loads: Vec<Load<'r>> = log
        .each::<LoadArrived>()
        .map(|(line, arrival)| Load {
            ticket: &arrival.ticket,
            arrival,
            arrived: line.at,
            batched: arrival.batched,
            volume: arrival.volume.value(),
            started: None,
            ended: None,
            returned: Volume::cubic_meters(0.0),
            revolutions: None,
            refused: None,
            tests: Vec::new(),
            water: Vec::new(),
            entries: vec![line.entry.id],
        })
        .collect();
    for load in &mut loads {
        discharge(load, log);
        test(load, log);
    }
    loads
}

fn discharge<'r>(load: &mut Load<'r>, log: &Log<'r>) {
    if let Some((line, _)) = log.each::<DischargeStarted>().find(|(_, start)| start.ticket == load.ticket) {
        load.started = Some(line.at);
        load.entries.push(line.entry.id);
    }
    if let Some((line, end)) = log.each::<DischargeEnded>().rfind(|(_, end)| end.ticket == load.ticket) {
        load.ended = Some(line.at);
        load.revolutions = end.revolutions;
        load.returned = end.returned.as_ref().map_or(Volume::cubic_meters(0.0), |volume| volume.value());
        load.entries.push(line.entry.id);
    }
    if let Some((line, refused)) =
        log.each::<LoadRefused>().find(|(_, refused)| refused.ticket == load.ticket)
    {
        load.refused = Some((line.entry.id, &refused.reason));
        load.entries.push(line.entry.id);
    }
}

fn test(load: &mut Load<'_>, log: &Log<'_>) {
    for (line, test) in log.each::<ConcreteTest>().filter(|(_, test)| test.ticket == load.ticket) {
        load.tests.push(FreshTest {
            at: line.at,
            slump: test.slump.as_ref().map(|slump| slump.value()),
            flow: test.flow.as_ref().map(|flow| flow.value()),
            air: test.air.as_ref().map(|air| air.value()),
            temperature: test.temperature.as_ref().map(|temperature| temperature.value()),
            unit_weight: test.unit_weight.as_ref().map(|weight| weight.value()),
            entry: line.entry.id,
        });
        load.entries.push(line.entry.id);
    }
    for (line, water) in log.each::<WaterAdded>().filter(|(_, water)| water.ticket == load.ticket) {
        let (volume, revolutions) = (water.volume.value(), water.revolutions);
        load.water.push(WaterAddition { at: line.at, volume, revolutions, entry: line.entry.id });
        load.entries.push(line.entry.id);
    }
}
