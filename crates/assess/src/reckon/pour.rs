//! The pour: placed volume against level, interval by interval.

use super::hole::Hole;
use crate::assumed;
use crate::picture::{ConcreteLevel, LineHistory, Load, Picture};
use calc::curve::{Issue, Pour, Station, VolumeCurve, volume_curve};
use calc::estimate::Level;
use calc::geometry::Bore;
use calc::placed::{balance_column, standing_in_pipe};
use calc::sounding::{Purpose, USUAL_CHOICES, level_for};
use quantity::{Density, Length, Moment, Volume};
use record::choices::{LineType, Waste};
use record::kinds::FluidTest;
use record::{EntryId, Log};

/// Volumes against depth.
#[derive(Debug, Clone, PartialEq)]
pub struct PourReckoning {
    /// The curve, an interval for each sounding.
    pub curve: VolumeCurve,
    /// What is odd about it.
    pub issues: Vec<Issue>,
    /// The soundings behind the intervals.
    pub soundings: Vec<PourSounding>,
    /// Discharged so far, waste included.
    pub discharged: Volume,
    /// Wasted so far.
    pub wasted: Volume,
    /// Soundings taken while a load was going in, without the part of it that was in: the curve cannot use
    /// them.
    pub left_out: Vec<EntryId>,
    /// What the curve was made from, for whoever asks more of it.
    pub readings: Readings,
}

/// What a pour was read to be: levels, loads, and the hole at each sounding.
#[derive(Debug, Clone, PartialEq)]
pub struct Readings {
    base: Level,
    start: Bore,
    stations: Vec<Reading>,
}

/// One sounding with what went in before it.
#[derive(Debug, Clone, PartialEq)]
struct Reading {
    level: Level,
    loads: Vec<Volume>,
    wasted: Volume,
    held: Volume,
    bore: Bore,
    /// The share of a load that was in was estimated beside the truck.
    part_load: bool,
    /// How many volumes were judged by eye since the sounding before: sent back in a truck, or wasted.
    judged: usize,
}

impl Readings {
    /// The pour as the formulas want it.
    pub fn pour(&self) -> Pour<'_> {
        let stations = self.stations.iter().map(|one| Station {
            level: one.level,
            loads: one.loads.clone(),
            wasted: one.wasted,
            held: one.held,
            bore: &one.bore,
        });
        Pour {
            base: self.base,
            bore: &self.start,
            stations: stations.collect(),
            load_error: assumed::load_error(),
            least_rise: assumed::least_rise(),
        }
    }

    /// Soundings, counted from zero, for which the share of a part-emptied truck was estimated.
    pub fn part_loads(&self) -> Vec<usize> {
        (0..self.stations.len()).filter(|at| self.stations[*at].part_load).collect()
    }

    /// Soundings, counted from zero, once for each volume that was judged by eye before them.
    pub fn judged(&self) -> Vec<usize> {
        let stations = self.stations.iter().enumerate();
        stations.flat_map(|(at, station)| std::iter::repeat_n(at, station.judged)).collect()
    }
}

/// A sounding with what had gone in by then.
#[derive(Debug, Clone, PartialEq)]
pub struct PourSounding {
    /// When.
    pub at: Moment,
    /// The entry.
    pub entry: EntryId,
    /// Tickets that went in since the sounding before.
    pub tickets: Vec<String>,
    /// Standing in lines and hopper.
    pub held: Volume,
}

impl PourReckoning {
    pub(super) fn of(log: &Log<'_>, picture: &Picture<'_>, hole: &Hole) -> Option<Self> {
        let (left_out, levels): (Vec<&ConcreteLevel>, Vec<&ConcreteLevel>) =
            picture.concrete.iter().partition(|level| during_discharge(picture, level));
        // A tape in a hole into which no load went by the record says nothing of how much it took.
        if levels.is_empty() || !picture.loads.iter().any(Load::used) {
            return None;
        }
        let start = hole.at(picture.concrete_started().unwrap_or(levels[0].at));
        let mut stations = Vec::new();
        let mut soundings = Vec::new();
        let mut before = Discharge::default();
        for level in levels {
            let now = Discharge::by(picture, level);
            let (volume_level, _) = level_for(Purpose::Volume, &level.surface, USUAL_CHOICES)?;
            let held = held(log, picture, level);
            stations.push(Reading {
                level: volume_level,
                loads: now.since(&before),
                wasted: Volume::cubic_meters(now.wasted - before.wasted),
                held,
                bore: hole.at(level.at),
                part_load: level.share.is_some(),
                judged: now.judged_since(&before, picture, level),
            });
            let tickets = now.tickets_since(&before);
            soundings.push(PourSounding { at: level.at, entry: level.entry, tickets, held });
            before = now;
        }
        let readings = Readings { base: hole.base, start, stations };
        let (curve, issues) = volume_curve(&readings.pour());
        Some(PourReckoning {
            curve,
            issues,
            soundings,
            discharged: discharged(picture),
            wasted: wasted(picture),
            left_out: left_out.iter().map(|level| level.entry).collect(),
            readings,
        })
    }
}

/// A load that the sounding does not name was going in.
fn during_discharge(picture: &Picture<'_>, level: &ConcreteLevel) -> bool {
    let going_in = |load: &Load<'_>| {
        let begun = load.started.is_some_and(|started| started < level.at);
        begun && load.ended.is_none_or(|ended| level.at < ended)
    };
    let named = |load: &Load<'_>| level.after.as_deref().map(str::trim) == Some(load.ticket);
    picture.loads.iter().any(|load| load.used() && going_in(load) && !named(load))
}

/// What had gone out of each truck by a moment, in m³.
#[derive(Debug, Clone, Default)]
struct Discharge {
    loads: Vec<(String, f64)>,
    wasted: f64,
}

impl Discharge {
    fn by(picture: &Picture<'_>, level: &ConcreteLevel) -> Self {
        let used = picture.loads.iter().filter(|load| load.refused.is_none());
        let loads = used.map(|load| (load.ticket.to_owned(), volume_in(load, level)));
        // What ran over is often written a minute after the last sounding; no later one will count it.
        let last = picture.concrete.last().is_some_and(|last| last.entry == level.entry);
        let by_then = |waste: &&crate::picture::Waste| waste.at <= level.at || last;
        let wasted = picture.wasted.iter().filter(by_then).filter(|waste| waste.place != Waste::Truck);
        Discharge { loads: loads.collect(), wasted: wasted.map(|waste| waste.volume.to_cubic_meters()).sum() }
    }

    fn increments<'d>(&'d self, before: &'d Discharge) -> impl Iterator<Item = (&'d str, f64)> {
        self.loads.iter().enumerate().map(|(index, (ticket, volume))| {
            (ticket.as_str(), volume - before.loads.get(index).map_or(0.0, |(_, volume)| *volume))
        })
    }

    fn since(&self, before: &Discharge) -> Vec<Volume> {
        let more = self.increments(before).filter(|(_, volume)| *volume != 0.0);
        more.map(|(_, volume)| Volume::cubic_meters(volume)).collect()
    }

    /// How many volumes somebody judged since: what a truck took back, and what was wasted.
    fn judged_since(&self, before: &Discharge, picture: &Picture<'_>, level: &ConcreteLevel) -> usize {
        let took_back = |ticket: &str| {
            let mut loads = picture.loads.iter();
            loads.any(|load| load.ticket == ticket && load.returned.to_cubic_meters() > 0.0)
        };
        let ended = self.increments(before).filter(|(_, volume)| *volume != 0.0 && level.share.is_none());
        ended.filter(|(ticket, _)| took_back(ticket)).count() + usize::from(before.wasted < self.wasted)
    }

    fn tickets_since(&self, before: &Discharge) -> Vec<String> {
        self.increments(before)
            .filter(|(_, volume)| *volume != 0.0)
            .map(|(ticket, _)| ticket.to_owned())
            .collect()
    }
}

/// Which part of a load was in when the surface was sounded, in m³.
///
/// A share that was written is a share of the ticket, whatever was sent back later; else all that was
/// discharged of a load that had ended, and of the one the surface was read after.
pub(crate) fn volume_in(load: &Load<'_>, level: &ConcreteLevel) -> f64 {
    let after = level.after.as_deref().map(str::trim) == Some(load.ticket);
    let done = load.done.is_some_and(|(done, _)| done <= level.at);
    match level.share {
        Some(share) if after => share.to_part() * load.volume.to_cubic_meters(),
        _ if after || done => load.discharged().to_cubic_meters(),
        _ => 0.0,
    }
}

/// Concrete standing in lines and hopper when the surface was sounded.
fn held(log: &Log<'_>, picture: &Picture<'_>, level: &ConcreteLevel) -> Volume {
    let inside = picture.lines.iter().filter(|line| line.step(level.at).is_some());
    Volume::cubic_meters(inside.map(|line| held_in(log, picture, line, level)).sum())
}

fn held_in(log: &Log<'_>, picture: &Picture<'_>, line: &LineHistory, level: &ConcreteLevel) -> f64 {
    match line.line {
        LineType::FreeFall => 0.0,
        LineType::Pump => line.line_volume.map_or(0.0, Volume::to_cubic_meters),
        LineType::Tremie => balanced(log, picture, line, level).unwrap_or(0.0),
    }
}

/// Concrete in a tremie above the level outside: the column that balances the fluid.
fn balanced(log: &Log<'_>, picture: &Picture<'_>, line: &LineHistory, level: &ConcreteLevel) -> Option<f64> {
    let fluid = picture.fluid.iter().rfind(|step| step.at <= level.at)?;
    let over = fluid.surface.above(level.surface.mean.value);
    let fluid = fluid_density(log, level.at);
    let column = balance_column(fluid, concrete_density(picture), over.max(Length::ZERO)).ok()?;
    Some(standing_in_pipe(line.inside?, column).ok()?.to_cubic_meters())
}

/// Unit weight of the day's concrete: the mean of its tests, or the assumed one.
pub fn concrete_density(picture: &Picture<'_>) -> Density {
    let tests = picture.loads.iter().flat_map(|load| &load.tests).filter_map(|test| test.unit_weight);
    let weights: Vec<f64> = tests.map(Density::to_kilograms_per_cubic_meter).collect();
    if weights.is_empty() {
        return assumed::concrete_density();
    }
    Density::kilograms_per_cubic_meter(weights.iter().sum::<f64>() / weights.len() as f64)
}

/// Density of the fluid in the hole: the last test before a moment, or water.
pub fn fluid_density(log: &Log<'_>, at: Moment) -> Density {
    let tests = log.each::<FluidTest>().filter(|(line, _)| line.at <= at);
    let last = tests.filter_map(|(_, test)| test.density.as_ref()).next_back();
    last.map_or_else(assumed::fluid_density, |density| density.value())
}

fn discharged(picture: &Picture<'_>) -> Volume {
    let ended = picture.loads.iter().filter(|load| load.used() && load.done.is_some());
    Volume::cubic_meters(ended.map(|load| load.discharged().to_cubic_meters()).sum())
}

fn wasted(picture: &Picture<'_>) -> Volume {
    let wasted = picture.wasted.iter().filter(|waste| waste.place != Waste::Truck);
    Volume::cubic_meters(wasted.map(|waste| waste.volume.to_cubic_meters()).sum())
}
