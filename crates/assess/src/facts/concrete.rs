//! Facts of the loads: tickets, water, age, fresh tests, cylinders, slump life.

use super::Sources;
use crate::measure::{Measurement, Subject};
use crate::picture::Load;
use calc::ticket::{Batch, batch_yield, mass_of_water, relative_yield};
use criteria::{Conditions, Dimension, Dimensions, Measured, Topic};
use quantity::{Density, Length, Mass, Moment, Pressure, Span, Volume, WaterCement};
use record::EntryId;
use record::kinds::{AnchorsSet, CylinderBroken, CylindersMade, MixApproved, TemperatureRead};

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let loads = &sources.picture.loads;
    let mut all: Vec<Measurement> = loads.iter().flat_map(|load| one_load(sources, load)).collect();
    all.extend(slump_at_end(sources));
    all.extend(cylinders(sources));
    all.extend(temperatures(sources));
    all
}

fn one_load(sources: &Sources<'_, '_>, load: &Load<'_>) -> Vec<Measurement> {
    if load.refused.is_some() && load.started.is_none() {
        return Vec::new();
    }
    let mix = sources.picture.mix(sources.log, load.arrival.mix.as_deref());
    let about = About { load, mix, now: sources.picture.now };
    let mut all = about.ticket(sources);
    all.extend(about.age());
    all.extend(about.revolutions());
    all.extend(about.water());
    all.extend(about.content());
    all.extend(about.tests());
    all
}

/// One load, with its mix.
struct About<'a, 'r> {
    load: &'a Load<'r>,
    mix: Option<&'r MixApproved>,
    now: Moment,
}

impl About<'_, '_> {
    fn of(&self, fact: &'static str, value: Option<Measured>) -> Measurement {
        let at = self.load.ended.unwrap_or(self.load.arrived);
        let subject = Subject::Load(self.load.ticket.to_owned());
        let added = if self.load.water.is_empty() { "no" } else { "yes" };
        Measurement::of(fact, subject, value, self.load.entries.clone())
            .at(at)
            .when(Conditions::new().with(Topic::WaterAdded, added))
            .with(self.dimensions())
    }

    fn dimensions(&self) -> Dimensions {
        let mut known = Dimensions::new();
        if let Some(limit) = self.mix.and_then(|mix| mix.discharge_within.as_ref()) {
            known = known.with(Dimension::TicketTimeLimit, limit.value());
        }
        if let Some(ratio) = self.mix.and_then(|mix| mix.w_cm.as_ref()) {
            known = known.with(Dimension::MixWaterCement, ratio.value());
        }
        known
    }

    /// What the inspector read on the ticket. The mix itself is compared with the approved one.
    fn ticket(&self, sources: &Sources<'_, '_>) -> Vec<Measurement> {
        let arrival = self.load.arrival;
        let planned = sources.picture.plan.as_ref().and_then(|plan| plan.shaft.mix.as_deref());
        let mix =
            arrival.mix.as_deref().map(|mix| planned.map_or(self.mix.is_some(), |planned| planned == mix));
        let read = arrival.ticket_checked == Some(true);
        let seen = |written: bool| (written || read).then_some(Measured::from(true));
        vec![
            self.of("ticket.mix_checked", mix.map(Measured::from).or(seen(false))),
            self.of(
                "ticket.water_cement_checked",
                seen(arrival.water.is_some() && arrival.cementitious.is_some()),
            ),
            self.of("ticket.revolutions_checked", seen(arrival.revolutions.is_some())),
            self.of("ticket.batch_time_checked", seen(self.load.batched.is_some())),
        ]
    }

    fn age(&self) -> Option<Measurement> {
        if self.load.started.is_none() && self.load.ended.is_none() {
            return None;
        }
        let until = self.load.ended.unwrap_or(self.now);
        let age = self.load.batched.map(|batched| Span::minutes(until.minutes_since(batched)));
        Some(self.of("concrete.batch_to_discharge", age.map(Measured::from)))
    }

    fn revolutions(&self) -> Vec<Measurement> {
        let counted = self.load.revolutions.or(self.load.arrival.revolutions);
        let mut all: Vec<Measurement> = counted
            .map(|count| self.of("concrete.revolutions", Some(Measured::count(count))))
            .into_iter()
            .collect();
        let after = self.load.water.iter().map(|water| water.revolutions);
        all.extend(
            after.map(|count| self.of("concrete.revolutions_after_water", count.map(Measured::count))),
        );
        all
    }

    /// Batch water, free moisture, water on the way, water on site.
    fn batch(&self) -> Option<Batch> {
        let arrival = self.load.arrival;
        let mass = |entered: &Option<quantity::Entered<Mass>>| {
            entered.as_ref().map(|mass| mass.value().to_kilograms())
        };
        let moisture = mass(&arrival.moisture).unwrap_or(0.0);
        let transit =
            arrival.transit_water.as_ref().map_or(0.0, |water| mass_of_water(water.value()).to_kilograms());
        let site: f64 = self.load.water.iter().map(|water| mass_of_water(water.volume).to_kilograms()).sum();
        Some(Batch {
            cementitious: arrival.cementitious.as_ref()?.value(),
            plant_water: Mass::kilograms(mass(&arrival.water)? + moisture),
            aggregates: Vec::new(),
            added_water: Mass::kilograms(transit + site),
        })
    }

    fn water(&self) -> Vec<Measurement> {
        let ratio: Option<WaterCement> = self.batch().and_then(|batch| batch.water_cement().ok());
        let times = u32::try_from(self.load.water.len()).unwrap_or(u32::MAX);
        let mut all = vec![self.of("concrete.water_cement", ratio.map(Measured::from))];
        if times > 0 {
            all.push(self.of("concrete.water_additions", Some(Measured::count(times))));
        }
        all
    }

    fn content(&self) -> Vec<Measurement> {
        let volume = self.load.volume.to_cubic_meters();
        let cement = self.load.arrival.cementitious.as_ref().map(|mass| mass.value().to_kilograms());
        let content =
            cement.filter(|_| volume > 0.0).map(|mass| Density::kilograms_per_cubic_meter(mass / volume));
        let mut all: Vec<Measurement> = content
            .map(|content| self.of("concrete.cement_content", Some(content.into())))
            .into_iter()
            .collect();
        if let Some(size) = self.mix.and_then(|mix| mix.aggregate.as_ref()) {
            all.push(self.of("concrete.aggregate_size", Some(size.value().into())));
        }
        all.extend(self.yield_error());
        all
    }

    fn yield_error(&self) -> Option<Measurement> {
        let weights: Vec<Density> = self.load.tests.iter().filter_map(|test| test.unit_weight).collect();
        let real = batch_yield(self.load.arrival.batch_mass.as_ref()?.value(), &weights).ok()?;
        let error = relative_yield(real, self.load.volume).ok()?;
        let over = quantity::Fraction::part(error.to_part() - 1.0);
        Some(self.of("concrete.yield_error", Some(over.into())))
    }

    /// Fresh tests; the first of each sort is that of placing, later ones follow its water.
    fn tests(&self) -> Vec<Measurement> {
        let mut all = Vec::new();
        for test in &self.load.tests {
            let values: [(&'static str, Option<Measured>); 4] = [
                ("slump.placing", test.slump.map(Measured::from)),
                ("slump.flow", test.flow.map(Measured::from)),
                ("concrete.air", test.air.map(Measured::from)),
                ("concrete.temperature", test.temperature.map(Measured::from)),
            ];
            let made = values.into_iter().filter(|(_, value)| value.is_some());
            all.extend(made.map(|(fact, value)| {
                Measurement { evidence: vec![test.entry], ..self.of(fact, value) }.at(test.at)
            }));
        }
        if self.load.used() && !self.load.tests.iter().any(|test| test.slump.is_some() || test.flow.is_some())
        {
            all.push(self.of("slump.placing", None));
        }
        all
    }
}

/// When casing is out and the last insert is in: the end of what the slump has to last for.
pub(crate) fn finished(sources: &Sources<'_, '_>) -> Option<(Moment, EntryId)> {
    let pour = sources.pour_finished()?;
    let last = sources.picture.loads.iter().filter(|load| load.ended == Some(pour));
    let last = last.filter_map(|load| Some((pour, *load.entries.last()?)));
    let casing = sources.picture.casings.iter().filter_map(|casing| casing.out);
    let inserts = sources.log.each::<AnchorsSet>().map(|(line, _)| (line.at, line.entry.id));
    last.chain(casing).chain(inserts.filter(|(at, _)| *at >= pour)).max_by_key(|(at, _)| *at)
}

fn slump_at_end(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some((at, entry)) = finished(sources) else { return Vec::new() };
    let Some(slump) = &sources.reckoning.slump else {
        return vec![Measurement::missing("slump.until_finished"), Measurement::missing("slump.life_left")];
    };
    let oldest = slump.loads.iter().filter(|load| load.batched.is_some()).min_by_key(|load| load.batched);
    let Some(oldest) = oldest else { return vec![Measurement::missing("slump.until_finished")] };
    let evidence: Vec<EntryId> = oldest.entries.iter().copied().chain([slump.mix_entry, entry]).collect();
    let age = oldest.batched.map(|batched| Span::minutes(at.minutes_since(batched)));
    let mut all = Vec::new();
    if let Some(left) = age.zip(oldest.life).map(|(age, life)| life.value.to_seconds() - age.to_seconds()) {
        all.push(Measurement::shaft("slump.life_left", Span::seconds(left), evidence.clone()).at(at));
    }
    let at_end: Option<Length> = age.and_then(|age| slump.slump_of(&oldest.ticket, age));
    match at_end {
        Some(at_end) => all.push(Measurement::shaft("slump.until_finished", at_end, evidence).at(at)),
        None => all.push(Measurement::missing("slump.until_finished")),
    }
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
    let read = sources.log.each::<TemperatureRead>().map(|(line, read)| (line, read.temperature.value()));
    let hottest = read.max_by(|a, b| a.1.to_kelvin().total_cmp(&b.1.to_kelvin()));
    let peak = hottest.map(|(line, temperature)| {
        Measurement::shaft("concrete.peak_temperature", temperature, vec![line.entry.id]).at(line.at)
    });
    peak.into_iter().collect()
}
