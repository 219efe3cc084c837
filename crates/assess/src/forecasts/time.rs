//! Clocks: the next fluid test, the gap since the last load, age of loads, open hole, waiting bottom.

use super::{Forecast, Outlook, View, urgency};
use crate::assumed;
use crate::picture::Load;
use quantity::{Moment, Span};
use record::EntryId;
use record::kinds::{FluidApproved, FluidIntroduced, FluidTest};

pub(super) fn forecast(view: &View<'_, '_>) -> Vec<Forecast> {
    let mut all: Vec<Forecast> = Vec::new();
    all.extend(fluid_test(view));
    all.extend(gap(view));
    all.extend(loads(view));
    all.extend(before_concrete(view));
    all
}

/// The next fluid test, while the hole waits for concrete.
fn fluid_test(view: &View<'_, '_>) -> Option<Forecast> {
    if view.sources.picture.concrete_started().is_some() {
        return None;
    }
    let (line, _) = view.sources.log.each::<FluidIntroduced>().next()?;
    let new_for = assumed::fluid_is_new_for().to_seconds();
    let [new, later] = ["fluid.test_interval.early", "fluid.test_interval.later"].map(|fact| view.most(fact));
    let of_product = product_interval(view);
    let tested = view.sources.log.each::<FluidTest>().filter(|(test, _)| test.at >= line.at);
    let (from, entry) =
        tested.map(|(line, _)| (line.at, line.entry.id)).next_back().unwrap_or((line.at, line.entry.id));
    let is_new = (from.seconds() - line.at.seconds()) as f64;
    let of_set = if is_new < new_for { new.or(later) } else { later };
    let every = of_set.into_iter().chain(of_product).reduce(f64::min)?;
    let at = from.plus_seconds(every as i64);
    let left = Span::minutes(at.minutes_since(view.now()));
    Some(Forecast {
        urgency: urgency(left),
        outlook: Outlook::FluidTestDue { at, left },
        evidence: vec![entry],
    })
}

/// Time between tests that the product in use was approved with.
fn product_interval(view: &View<'_, '_>) -> Option<f64> {
    let (_, used) = view.sources.log.last::<FluidIntroduced>()?;
    let mut approved =
        view.sources.log.each::<FluidApproved>().filter(|(_, one)| one.product == used.product);
    Some(approved.next_back()?.1.test_every.as_ref()?.value().to_seconds())
}

/// Since the last discharge, while the pour goes on and no load is discharging.
fn gap(view: &View<'_, '_>) -> Option<Forecast> {
    let loads = &view.sources.picture.loads;
    if loads.iter().any(Load::open) || crate::facts::finished(&view.sources).is_some() {
        return None;
    }
    let done = loads.iter().filter(|load| load.used()).filter_map(|load| load.done);
    let (since, entry) = done.max_by_key(|(at, _)| *at)?;
    let lasted = Span::minutes(view.now().minutes_since(since));
    let allowed = view.most("placing.interruption").map(Span::seconds);
    let left = allowed
        .map_or(Span::minutes(60.0), |allowed| Span::minutes(allowed.to_minutes() - lasted.to_minutes()));
    let outlook = Outlook::Gap { since, lasted, allowed };
    Some(Forecast { urgency: urgency(left), outlook, evidence: vec![entry] })
}

/// Loads on site that have not discharged: the time limit from batching.
fn loads(view: &View<'_, '_>) -> Vec<Forecast> {
    let waiting =
        view.sources.picture.loads.iter().filter(|load| load.done.is_none() && load.refused.is_none());
    let limit_of_set = view.most("concrete.batch_to_discharge");
    let forecasts = waiting.filter_map(|load| {
        let mix = view.sources.picture.mix(view.sources.log, load.arrival.mix.as_deref());
        let of_mix = mix.and_then(|mix| mix.discharge_within.as_ref()).map(|span| span.value().to_seconds());
        let limit = of_mix.into_iter().chain(limit_of_set).reduce(f64::min)?;
        let from = (load.batched?, *load.entries.first()?);
        Some(clock(view, "concrete.batch_to_discharge", from, limit).of_load(load.ticket))
    });
    forecasts.collect()
}

/// Limits of waiting that run until the first concrete.
fn before_concrete(view: &View<'_, '_>) -> Vec<Forecast> {
    let picture = view.sources.picture;
    if picture.concrete_started().is_some() {
        return Vec::new();
    }
    let bottom = picture.bottom.reached.map(|(at, _, entry)| (at, entry));
    let cleaned = picture.bottom.cleaned.iter().max_by_key(|(at, _)| *at).copied();
    let accepted =
        picture.bottom.accepted.iter().map(|(at, entry, _)| (*at, *entry)).max_by_key(|(at, _)| *at);
    let machine = picture
        .hole
        .iter()
        .filter(|step| !step.by_hand)
        .map(|step| (step.from, step.entry))
        .min_by_key(|s| s.0);
    let fluid = view.sources.log.each::<FluidIntroduced>().next().map(|(line, _)| (line.at, line.entry.id));
    let clocks = [
        ("time.open_hole", machine),
        ("time.wall_exposure", fluid),
        ("time.bottom_to_concrete", bottom),
        ("time.cleaning_to_concrete", cleaned),
        ("time.accepted_to_concrete", accepted),
    ];
    let running =
        clocks.into_iter().filter_map(|(fact, from)| Some(clock(view, fact, from?, view.most(fact)?)));
    running.collect()
}

fn clock(view: &View<'_, '_>, fact: &'static str, from: (Moment, EntryId), limit_seconds: f64) -> Forecast {
    let ends = from.0.plus_seconds(limit_seconds as i64);
    let left = Span::minutes(ends.minutes_since(view.now()));
    let outlook = Outlook::TimeLimit { fact, ticket: None, ends, left };
    Forecast { urgency: urgency(left), outlook, evidence: vec![from.1] }
}

impl Forecast {
    fn of_load(mut self, name: &str) -> Self {
        if let Outlook::TimeLimit { ticket, .. } = &mut self.outlook {
            *ticket = Some(name.to_owned());
        }
        self
    }
}
