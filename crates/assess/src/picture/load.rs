//! Loads of concrete, each with everything written under its ticket.
//!
//! Two people may write down the arrival of one truck: it is one load all the same, and counts once. Where
//! nobody wrote when a load discharged, the sounding taken after it says that it is in.
//!
//! Never: count a ticket twice.

use quantity::{Density, Fraction, Length, Moment, Temperature, Volume};
use record::kinds::{
    ConcreteSounded, ConcreteTest, DischargeEnded, DischargeStarted, LoadArrived, LoadRefused, WaterAdded,
};
use record::{EntryId, Log};
use std::collections::BTreeMap;

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
    /// The first sounding said to be taken after it.
    pub sounded: Option<(Moment, EntryId)>,
    /// The entry that first says it went in, and when it says so.
    pub begun: Option<(Moment, EntryId)>,
    /// The entry that says it was in, and when it says so.
    pub done: Option<(Moment, EntryId)>,
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
    /// Other entries that say the same ticket arrived.
    pub again: Vec<EntryId>,
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
    /// Diameter on the flow table.
    pub flow_table: Option<Length>,
    /// Visual stability index.
    pub stability: Option<u32>,
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
        self.refused.is_none() && self.begun.is_some()
    }

    /// It is going in now.
    pub fn open(&self) -> bool {
        self.used() && self.done.is_none()
    }

    /// It stands on site, or is expected to go in.
    pub fn waiting(&self) -> bool {
        self.refused.is_none() && self.begun.is_none()
    }
}

pub(super) fn loads<'r>(log: &Log<'r>) -> Vec<Load<'r>> {
    let mut loads: Vec<Load<'r>> = Vec::new();
    let mut by_ticket: BTreeMap<&'r str, usize> = BTreeMap::new();
    for (line, arrival) in log.each::<LoadArrived>() {
        let ticket = arrival.ticket.trim();
        match by_ticket.get(ticket) {
            Some(index) => {
                loads[*index].again.push(line.entry.id);
                loads[*index].entries.push(line.entry.id);
            }
            None => {
                by_ticket.insert(ticket, loads.len());
                loads.push(arrived(line.at, line.entry.id, arrival));
            }
        }
    }
    let find = |ticket: &str| by_ticket.get(ticket.trim()).copied();
    discharge(&mut loads, log, &find);
    tests(&mut loads, log, &find);
    loads.iter_mut().for_each(conclude);
    loads
}

fn arrived(at: Moment, entry: EntryId, arrival: &LoadArrived) -> Load<'_> {
    Load {
        ticket: arrival.ticket.trim(),
        arrival,
        arrived: at,
        batched: arrival.batched,
        volume: arrival.volume.value(),
        started: None,
        ended: None,
        sounded: None,
        begun: None,
        done: None,
        returned: Volume::cubic_meters(0.0),
        revolutions: None,
        refused: None,
        tests: Vec::new(),
        water: Vec::new(),
        again: Vec::new(),
        entries: vec![entry],
    }
}

/// The load a ticket names.
type Find<'f> = &'f dyn Fn(&str) -> Option<usize>;

fn discharge<'r>(loads: &mut [Load<'r>], log: &Log<'r>, find: Find<'_>) {
    for (line, start) in log.each::<DischargeStarted>() {
        let Some(load) = find(&start.ticket).map(|index| &mut loads[index]) else { continue };
        load.entries.push(line.entry.id);
        if load.started.is_none() {
            load.started = Some(line.at);
            load.begun = Some((line.at, line.entry.id));
        }
    }
    for (line, end) in log.each::<DischargeEnded>() {
        let Some(load) = find(&end.ticket).map(|index| &mut loads[index]) else { continue };
        load.ended = Some(line.at);
        load.done = Some((line.at, line.entry.id));
        load.revolutions = end.revolutions;
        load.returned = end.returned.as_ref().map_or(Volume::cubic_meters(0.0), |volume| volume.value());
        load.entries.push(line.entry.id);
    }
    for (line, refused) in log.each::<LoadRefused>() {
        let Some(load) = find(&refused.ticket).map(|index| &mut loads[index]) else { continue };
        load.refused = Some((line.entry.id, &refused.reason));
        load.entries.push(line.entry.id);
    }
    for (line, sounded) in log.each::<ConcreteSounded>() {
        let Some(index) = sounded.after.as_deref().and_then(find) else { continue };
        loads[index].sounded.get_or_insert((line.at, line.entry.id));
    }
}

/// Where no discharge was written, the sounding after a load is the first and the last that is known of it.
fn conclude(load: &mut Load<'_>) {
    load.begun = load.begun.or(load.done).or(load.sounded);
    if load.started.is_none() {
        load.done = load.done.or(load.sounded);
    }
}

fn tests<'r>(loads: &mut [Load<'r>], log: &Log<'r>, find: Find<'_>) {
    for (line, test) in log.each::<ConcreteTest>() {
        let Some(load) = find(&test.ticket).map(|index| &mut loads[index]) else { continue };
        load.tests.push(FreshTest {
            at: test.sampled.unwrap_or(line.at),
            slump: test.slump.as_ref().map(|slump| slump.value()),
            flow: test.flow.as_ref().map(|flow| flow.value()),
            flow_table: test.flow_table.as_ref().map(|flow| flow.value()),
            stability: test.stability,
            air: test.air.as_ref().map(|air| air.value()),
            temperature: test.temperature.as_ref().map(|temperature| temperature.value()),
            unit_weight: test.unit_weight.as_ref().map(|weight| weight.value()),
            entry: line.entry.id,
        });
        load.entries.push(line.entry.id);
    }
    for (line, water) in log.each::<WaterAdded>() {
        let Some(load) = find(&water.ticket).map(|index| &mut loads[index]) else { continue };
        let (volume, revolutions) = (water.volume.value(), water.revolutions);
        load.water.push(WaterAddition { at: line.at, volume, revolutions, entry: line.entry.id });
        load.entries.push(line.entry.id);
    }
}
