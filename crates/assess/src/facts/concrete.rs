//! Facts of the concrete in place: cylinders, breaks, temperatures.

use super::Sources;
use crate::measure::{Measurement, Subject};
use criteria::Measured;
use quantity::{Moment, Pressure, Span, Temperature, Volume};
use record::kinds::{CylinderBroken, CylindersMade, TemperatureRead};
use record::{EntryId, Line};

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let mut all = cylinders(sources);
    all.extend(temperatures(sources));
    all
}

fn cylinders(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let mut all = Vec::new();
    let made = sources.log.each::<CylindersMade>().map(|(line, set)| (line.entry.id, set.set.as_str()));
    let made: Vec<(EntryId, &str)> = made.collect();
    if sources.pour_finished().is_some() {
        let evidence: Vec<EntryId> = made.iter().map(|(entry, _)| *entry).collect();
        let count = u32::try_from(made.len()).unwrap_or(u32::MAX);
        all.push(match made.is_empty() {
            true => Measurement::missing("cylinders.sets"),
            false => Measurement::shaft("cylinders.sets", Measured::count(count), evidence.clone()),
        });
        if let Some(pour) = sources.reckoning.pour.as_ref().filter(|_| count > 0) {
            let each = Volume::cubic_meters(pour.discharged.to_cubic_meters() / f64::from(count));
            all.push(Measurement::shaft("cylinders.volume_per_set", each, evidence));
        }
    }
    all.extend(breaks(sources, &made));
    all.extend(sources.log.each::<CylindersMade>().flat_map(|(line, set)| first_storage(line, set)));
    all
}

/// Lowest and highest temperature of the first storage, each held against the limits; and how long it lasted.
fn first_storage(line: &Line<'_>, set: &CylindersMade) -> Vec<Measurement> {
    let one = |fact, value: Measured| {
        let subject = Subject::Test(line.entry.id);
        Measurement::of(fact, subject, Some(value), vec![line.entry.id]).at(line.at)
    };
    let extremes = [&set.storage_low, &set.storage_high].into_iter().flatten();
    let mut all: Vec<Measurement> =
        extremes.map(|read| one("cylinders.initial_cure_temperature", read.value().into())).collect();
    all.extend(
        set.stored_until.map(|until| {
            one("cylinders.initial_cure_time", Span::minutes(until.minutes_since(line.at)).into())
        }),
    );
    all
}

/// The mean of the breaks of a set at its greatest age.
fn breaks(sources: &Sources<'_, '_>, made: &[(EntryId, &str)]) -> Vec<Measurement> {
    let required_age = sources.picture.mix(sources.log, None).and_then(|mix| mix.strength_age.as_ref());
    let mut all = Vec::new();
    for (entry, set) in made {
        let broken = sources.log.each::<CylinderBroken>().filter(|(_, broken)| broken.set == *set);
        let of_age = broken.filter(|(_, broken)| match (&broken.age, required_age) {
            (Some(age), Some(required)) => age.value().to_days() >= required.value().to_days(),
            _ => true,
        });
        let of_age: Vec<_> = of_age.collect();
        if of_age.is_empty() {
            continue;
        }
        let strengths: Vec<Pressure> = of_age.iter().map(|(_, broken)| broken.strength.value()).collect();
        let Ok(test) = calc::strength::strength_test(&strengths) else { continue };
        let evidence = of_age.iter().map(|(line, _)| line.entry.id).chain([*entry]).collect();
        let value = Some(Measured::from(test.mean));
        all.push(Measurement::of("cylinders.strength", Subject::Test(*entry), value, evidence));
    }
    all
}

fn temperatures(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let read: Vec<Read> = sources
        .log
        .each::<TemperatureRead>()
        .map(|(line, read)| Read {
            at: line.at,
            entry: line.entry.id,
            kelvin: read.temperature.value().to_kelvin(),
            edge: read.at_edge == Some(true),
        })
        .collect();
    let hottest = read.iter().max_by(|a, b| a.kelvin.total_cmp(&b.kelvin));
    let peak = hottest.map(|read| {
        let temperature = Temperature::kelvin(read.kelvin);
        Measurement::shaft("concrete.peak_temperature", temperature, vec![read.entry]).at(read.at)
    });
    peak.into_iter().chain(difference(&read)).collect()
}

struct Read {
    at: Moment,
    entry: EntryId,
    kelvin: f64,
    edge: bool,
}

/// Greatest difference between a sensor inside and one at the edge, read at one time.
fn difference(read: &[Read]) -> Option<Measurement> {
    let together = |a: &Read, b: &Read| {
        (a.at.seconds() - b.at.seconds()).abs() as f64 <= crate::assumed::same_time().to_seconds()
    };
    let edges: Vec<&Read> = read.iter().filter(|read| read.edge).collect();
    let inside = read.iter().filter(|read| !read.edge);
    let pairs = inside.flat_map(|inside| edges.iter().map(move |edge| (inside, *edge)));
    let pairs = pairs.filter(|(inside, edge)| together(inside, edge));
    let apart = |(inside, edge): &(&Read, &Read)| (inside.kelvin - edge.kelvin).abs();
    let (inside, edge) = pairs.max_by(|a, b| apart(a).total_cmp(&apart(b)))?;
    let step = Measured::temperature_step(apart(&(inside, edge)));
    let evidence = vec![inside.entry, edge.entry];
    Some(Measurement::shaft("concrete.temperature_difference", step, evidence).at(inside.at))
}
