//! Facts of the loads: tickets, water, age, revolutions, fresh tests.

use super::Sources;
use crate::measure::{Measurement, Subject};
use crate::picture::Load;
use crate::reckon::TicketReckoning;
use criteria::{Conditions, Dimension, Dimensions, Measured, Topic};
use quantity::{Density, Fraction, Moment, Span};
use record::kinds::{ConcreteTest, MixApproved};

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let loads = sources.picture.loads.iter().zip(&sources.reckoning.tickets);
    let mut all: Vec<Measurement> =
        loads.flat_map(|(load, reckoned)| one_load(sources, load, reckoned)).collect();
    all.extend(slump_tests(sources));
    all
}

/// How long after sampling a slump test began, and how long it took.
fn slump_tests(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let tests = sources.log.each::<ConcreteTest>().filter(|(_, test)| test.slump.is_some());
    let timed = tests.flat_map(|(line, test)| {
        let started = test
            .started
            .zip(test.sampled)
            .map(|(began, sampled)| ("slump.test_started", Span::minutes(began.minutes_since(sampled))));
        let took = test.took.as_ref().map(|took| ("slump.test_duration", took.value()));
        let subject = Subject::Test(line.entry.id);
        started.into_iter().chain(took).map(move |(fact, span)| {
            Measurement::of(fact, subject.clone(), Some(span.into()), vec![line.entry.id]).at(line.at)
        })
    });
    timed.collect()
}

fn one_load(sources: &Sources<'_, '_>, load: &Load<'_>, reckoned: &TicketReckoning) -> Vec<Measurement> {
    if load.refused.is_some() && load.begun.is_none() {
        return Vec::new();
    }
    let mix = sources.picture.mix(sources.log, load.arrival.mix.as_deref());
    let about = About { load, mix, reckoned, now: sources.picture.now };
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
    reckoned: &'a TicketReckoning,
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
        self.load.begun?;
        // A load that only a sounding tells of has ended at a time nobody wrote down.
        let until = match (self.load.ended, self.load.started) {
            (None, None) => None,
            (ended, _) => Some(ended.unwrap_or(self.now)),
        };
        let age = self.load.batched.zip(until).map(|(b, until)| Span::minutes(until.minutes_since(b)));
        Some(self.of("concrete.batch_to_discharge", age.map(Measured::from)))
    }

    fn revolutions(&self) -> Vec<Measurement> {
        // The count on arrival says nothing of the end of discharge.
        let ended = self.load.ended.is_some();
        let counted = self.load.revolutions.or(self.load.arrival.revolutions.filter(|_| !ended));
        let counted = counted.map(Measured::count);
        let mut all = Vec::new();
        if ended || counted.is_some() {
            all.push(self.of("concrete.revolutions", counted));
        }
        let after = self.load.water.iter().map(|water| water.revolutions);
        all.extend(
            after.map(|count| self.of("concrete.revolutions_after_water", count.map(Measured::count))),
        );
        all
    }

    fn water(&self) -> Vec<Measurement> {
        let times = u32::try_from(self.load.water.len()).unwrap_or(u32::MAX);
        let mut all = vec![self.of("concrete.water_cement", self.reckoned.water_cement.map(Measured::from))];
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
        let fines = self.mix.and_then(|mix| mix.fines.as_ref()).map(|fines| fines.value());
        all.extend(fines.map(|fines| self.of("concrete.fines_content", Some(fines.into()))));
        if let Some(size) = self.mix.and_then(|mix| mix.aggregate.as_ref()) {
            all.push(self.of("concrete.aggregate_size", Some(size.value().into())));
        }
        all.extend(self.yield_error());
        all
    }

    fn yield_error(&self) -> Option<Measurement> {
        let over = Fraction::part(self.reckoned.relative_yield?.to_part() - 1.0);
        Some(self.of("concrete.yield_error", Some(over.into())))
    }

    /// Fresh tests. A load that went in without a test of its slump or spread was not measured.
    fn tests(&self) -> Vec<Measurement> {
        let mut all = Vec::new();
        for test in &self.load.tests {
            let values: [(&'static str, Option<Measured>); 6] = [
                ("slump.placing", test.slump.map(Measured::from)),
                ("slump.flow", test.flow.map(Measured::from)),
                ("slump.flow_table", test.flow_table.map(Measured::from)),
                ("concrete.stability_index", test.stability.map(Measured::count)),
                ("concrete.air", test.air.map(Measured::from)),
                ("concrete.temperature", test.temperature.map(Measured::from)),
            ];
            let made = values.into_iter().filter(|(_, value)| value.is_some());
            all.extend(made.map(|(fact, value)| {
                Measurement { evidence: vec![test.entry], ..self.of(fact, value) }.at(test.at)
            }));
        }
        if self.load.used()
            && !self
                .load
                .tests
                .iter()
                .any(|test| test.slump.is_some() || test.flow.is_some() || test.flow_table.is_some())
        {
            all.push(self.of("slump.placing", None));
        }
        all
    }
}
